"""A part that stands under no engine was read there, and no limit can judge it.

What is judged: every tire and wheelset in store whose last readings, or what was last seen on it, are from a day on
which it stood under no engine, and of which some limit in force speaks. Which limits are for a part, and what they
ask, goes by the engine: its sets, its weight, the place. So nothing of it is within or outside; it is kept, and said
here once for each part. What was read while it stood under an engine was judged there, and is again once it is back.

What to do: before the part is used, hold its readings against the limits of the engine it is meant for. What judges it
here are the dated lines of that engine, for a tire also the `tire-applied` that puts it on; a part at a place of an
engine already lacks just these.

Source: the dated lines of the engines, and the tire work.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book, Thing
from axlebook.records.reading import Observation, Reading
from axlebook.records.where_stands import carried_by, stood_since, where_stands

from ._records import title

ID = "read-under-no-engine"
CAUSE = "the part stands under no engine, whose limits would be for it"
NEXT = "Before it is used, hold it against the limits of the engine meant; that engine's dated lines have it judged."
Read = Reading | Observation
TOLD_AT_MOST = 3


def check(book: Book) -> Iterator[Finding]:
    """Tell each part in store that was read there, once."""
    parts: dict[str, list[Read]] = defaultdict(list)
    limited = _limited(book)
    everything: list[tuple[tuple[Thing, str], list[Read]]] = [*book.series.items(), *book.seen.items()]  # type: ignore[list-item]
    stands: dict[Thing, bool] = {}
    for (thing, name), many in everything:
        if thing.kind == "engine" or name not in limited:
            continue
        if thing not in stands:  # the same for all that was read on it
            stands[thing] = where_stands(book, thing) is not None
        if stands[thing]:
            continue
        parts[carried_by(book, thing, book.as_of)[0] or thing.id] += _in_store(book, thing, many[-1])
    for id, found in parts.items():
        if found:
            yield _told(book, id, found)


def _limited(book: Book) -> set[str]:
    """What some limit in force for any engine speaks of, itself or by what is worked out from it."""
    sets = [limit_set for engine in (None, *book.engines.values()) for limit_set in book.limits_for(engine)]
    names = {name for limit_set in sets for limit in limit_set.limits for name in limit.quantities}
    return names.union(*(word.speaks_for for name, word in book.vocabulary.derived.items() if name in names))


def _in_store(book: Book, thing: Thing, last: Read) -> list[Read]:
    """The last that was read or seen, where that was in store; what was looked for and not seen is no fault."""
    if last.place or last.source.kind == "tire-removed":  # how a tire came off tells why it did
        return []
    if isinstance(last, Observation) and last.answer != "seen":
        return []
    day = last.day.first
    return [] if day is not None and stood_since(book, thing, day) else [last]


def _told(book: Book, id: str, found: list[Read]) -> Finding:
    newest = max(found, key=lambda one: one.day.first or date.min)
    titles = list(dict.fromkeys(title(book, _name(one)) for one in found))
    more = f" and {len(titles) - TOLD_AT_MOST} more" if len(titles) > TOLD_AT_MOST else ""
    return Finding(
        ID,
        Verdict.NOT_ASSESSED,
        Severity.NOTE,
        id,
        newest.at,
        f"{id}: {', '.join(titles[:TOLD_AT_MOST])}{more}, last read {newest.day.text}. Kept, and NOT judged: {CAUSE}.",
        source=newest.source.path,
        next=NEXT,
        where=id,
        cause=CAUSE,
    )


def _name(one: Read) -> str:
    return one.quantity if isinstance(one, Reading) else one.looked_for
