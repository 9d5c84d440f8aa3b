"""Something was not measured, a reason was given, and nobody has measured it since.

What is judged: every entry under `not_measured`, against all readings of the same thing at the same place, or of the
part that stood there, and where it names positions at the same position, from that day on. One that was made up for
later is not told any more. It is honest to write that something was not measured; it stays not assessed until it is.

`not applicable` is not told, but of a part that has it by the book: what was read on it before, a flange of a flanged
tire, a size without which no wheel or axle is and that a limit in force judges there, a crack that may be anywhere.

What to do: plan it for the next time that the reason has gone: access, instrument, time. Where a part has it and it was
not measured, give the reason for that; where the part has none, put the part's record right.

Source: the record that gave the reason.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.reading import NotMeasured, Observation, Reading

from ._asked import named_on
from ._not_applicable import NOT_APPLICABLE, told_all_the_same
from ._records import some, title

ID = "not-measured"
Key = tuple[str, str, str, str]  # engine, what, place or part, position; '' is anywhere


def check(book: Book) -> Iterator[Finding]:
    """Tell what is still not measured, with the reason that was given."""
    open_ones = [one for s in book.past_sessions for one in s.not_measured]
    if not open_ones:
        return
    latest = {_keys(one): one for one in open_ones}  # a later entry for the same places speaks for the earlier
    last = _last_read(book, {key for keys in latest for key in keys})
    for keys, one in latest.items():
        day = one.source.day.first or date.min
        left = [key for key in keys if last.get(key, date.min) < day or key not in last]
        if left and one.because == NOT_APPLICABLE:
            yield from told_all_the_same(book, ID, one)
        elif left:
            yield _finding(book, one, [" at ".join(filter(None, key[2:])) for key in left])


def _keys(one: NotMeasured) -> tuple[Key, ...]:
    engine, places, positions = one.source.engine, one.places or ("",), one.positions or ("",)
    return tuple((engine, one.what, place, position) for place in places for position in positions)


def _last_read(book: Book, sought: set[Key]) -> dict[Key, date]:
    """The last day on which each thing sought was read or looked for, at its place or anywhere on the engine."""
    found: dict[Key, date] = {}
    by_engine: dict[str, dict[str, set[str]]] = defaultdict(dict)  # what, and at which places
    for engine, what, place, _ in sought:
        by_engine[engine].setdefault(what, set()).add(place)
    for session in book.past_sessions:
        whats = by_engine.get(session.engine)
        if whats is None:
            continue
        for reading in session.readings:
            if reading.quantity in whats:
                names = _named(book, session.engine, reading, whats[reading.quantity])
                at = ("", *(position for position, _ in reading.values))
                _note(found, sought, session.engine, reading.quantity, reading, names, at)
        for seen in session.observations:
            if seen.looked_for in whats:
                names = _named(book, session.engine, seen, whats[seen.looked_for])
                _note(found, sought, session.engine, seen.looked_for, seen, names, ("",))
    return found


def _named(book: Book, engine: str, one: Reading | Observation, places: set[str]) -> list[str]:
    """Those of the places sought that a reading or look is of; a part also by the place at which it stood."""
    names = (one.place,) if one.place else named_on(book, engine, one.part, one.day.exact)
    return [name for name in ("", *names) if name in places]


def _note(
    found: dict[Key, date], sought: set[Key], engine: str, what: str, one: Reading | Observation, names: list[str],
    at: tuple[str, ...],
) -> None:  # fmt: skip
    day = one.day.first
    if day is None:
        return
    for place in names:
        for position in at:
            key = engine, what, place, position
            if key in sought:
                found[key] = max(found.get(key, day), day)


def _finding(book: Book, one: NotMeasured, places: list[str]) -> Finding:
    where = some(places, 4) or "anywhere"
    cause = f"not measured: {one.because}"
    return Finding(
        ID,
        Verdict.NOT_ASSESSED,
        Severity.DATA,
        f"{one.source.engine} {title(book, one.what)}".strip(),
        Place(one.source.path, one.pointer),
        f"{title(book, one.what)} was not measured at {where} on {one.source.day.text} ({one.because}), and not since.",
        source=f"the record {one.source.record}",
        next="Measure it when the reason has gone; until then it stays not assessed.",
        quantity=one.what,
        where=where,
        cause=cause,
    )
