"""Something is named that is not on file.

What is judged: every id that a record names (engine, wheelset, tire, center, instrument, person, inspection, interval,
limit, practice), against the records of that kind; and every place on an engine, against the dated lines that say which
wheelset stood there on that day. Readings of something unknown are kept, and no limit can judge them.

What to do: most often the id is mistyped, and the finding names the nearest. Else write the missing record
(`axlebook new KIND ID`), or the missing line of the engine.

Source: the records of the ledger.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import lru_cache

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.forms import parse_place
from axlebook.records.session import Session
from axlebook.records.to_write import UNFILLED

from ._places import Trouble, troubled
from ._records import nearest, some, unread
from ._references import Named, all_trees, hidden, in_frame, in_readings, known_ids

ID = "unknown-reference"
WORDS = {"session": "inspection or work record", "part": "tire, center or wheelset", "record": "record"}
NEW = {"engine", "tire", "instrument", "person", "wheelset"}


def check(book: Book) -> Iterator[Finding]:
    """Tell every id and every place that is not on file, once a record."""
    known = known_ids(book)
    passed = unread(book)
    near = lru_cache(maxsize=None)(lambda target, id: nearest(id, known[target]))
    sessions, unsure = book.session_by_id, hidden(book)
    for record, path, tree in all_trees(book):
        told: set[tuple[str, str]] = set()
        session = sessions.get(record)
        for named in (*in_frame(path, tree, known), *(in_readings(session, known) if session else ())):
            if named.target in unsure:
                continue
            one = (named.target, named.id)
            if named.id not in known[named.target] and named.id not in passed and one not in told:
                told.add(one)
                yield _finding(book, record, named, near(*one))
        if session is not None:
            yield from _places(book, session)
    yield from _in_limit_sets(book, known, passed)


def _in_limit_sets(book: Book, known: dict[str, Collection[str]], passed: Collection[str]) -> Iterator[Finding]:
    for limit_set in book.limit_sets.values():
        named = [Named("limit set", id, limit_set.place.below("tightens")) for id in limit_set.tightens]
        for interval in limit_set.intervals:
            named += [Named("interval", id, interval.place.below("satisfies")) for id in interval.satisfies]
            if interval.with_each:
                named.append(Named("interval", interval.with_each, interval.place.below("with_each")))
        for practice in limit_set.practices:
            if practice.follows:
                named.append(Named("practice", practice.follows, practice.place.below("follows")))
        for one in {(one.target, one.id): one for one in reversed(named)}.values():
            if one.id not in known[one.target] and one.id not in passed:
                yield _finding(book, limit_set.id, one, nearest(one.id, known[one.target]))


def _places(book: Book, session: Session) -> Iterator[Finding]:
    """Places of a record where no wheelset stands on record, each once; those of no engine together."""
    told: set[str] = set()
    found = troubled(book, session)
    of_none = [one.place for one, trouble in found if trouble is Trouble.NO_ENGINE]
    for one, trouble in found:
        if trouble is not Trouble.BEFORE and one.place not in told:
            places = of_none if trouble is Trouble.NO_ENGINE else [one.place]
            told.update(places)
            yield _place_finding(book, session, some(places), one.day.text, one.at.below("place"), trouble)


def _place_finding(book: Book, session: Session, place: str, day: str, at: Place, trouble: Trouble) -> Finding:
    spot = parse_place(place)
    axle = spot.axle if spot else place
    engine = book.engines.get(session.engine)
    lines = sorted({line.at for line in engine.lines}) if engine else []
    if trouble is Trouble.NO_ENGINE:
        unused = any(p.place.path == session.path and p.left_out == "/engine" for p in book.problems)
        why, step = ("one that cannot be used", "Put it right") if unused else ("none", "Add `engine:`")
        words, next = f"{place} of which engine? The record names {why}.", f"{step}, or name the `part` by its id."
    elif trouble is Trouble.EMPTY:
        words = f"No wheelset stands at {axle} of {session.engine} on {day}, as its dated lines have it."
        next = "Look at the lines of the engine: one is missing, or ends too early. Or was it another place?"
    else:
        near = nearest(axle, lines)
        words = f"{session.engine} has no place {axle}; it has {', '.join(lines) or 'no dated line at all'}."
        next = f"Write {near} if that is meant, or add the line to the engine." if near else "Add the line."
    return _suspect(f"{session.id} {place}", at, words, next, f"the dated lines of {session.engine or 'an engine'}")


def _finding(book: Book, record: str, named: Named, near: str) -> Finding:
    what = WORDS.get(named.target, named.target)
    other = book.paths.get(named.id)
    if other is not None and named.target not in ("purpose", "interval"):
        words = f"{named.id} is named as a {what}, and the record of that id is {other}."
    elif named.id.startswith(UNFILLED):
        words = f"{named.id} stands there as the template left it: which {what} is it?"
        return _suspect(f"{record} {named.id}", named.place, words, f"Write the id of the {what} there.",
                        "the records of the ledger", named.target)  # fmt: skip
    else:
        words = f"No {what} {named.id} is on file."
    new = f" write it: `axlebook new {named.target} {named.id}`." if named.target in NEW else " add it."
    if named.target == "wheelset":
        new = f" write it: `axlebook new driver {named.id}`; `new wheelset` for one of truck or tender."
    next = f"Write {near} if that is meant; else{new}" if near else "If it is not mistyped," + new
    return _suspect(f"{record} {named.id}", named.place, words, next, "the records of the ledger", named.target)


def _suspect(subject: str, place: Place, words: str, next: str, source: str, where: str = "") -> Finding:
    return Finding(ID, Verdict.SUSPECT, Severity.DATA, subject, place, words, source=source, next=next, where=where)
