"""A date cannot be: it lies ahead, or before what it follows from.

What is judged: every dated record. A date ahead of today, or after the day the book was closed on (but of a draft,
which is a what-if); signed before it was measured; until before from; a reading before its tire was made or its axle
forged, or before the first dated line of its place; taken cold before the work but dated after it; a tire that came
off before it ever went on; a center's diameter or a tire's bore read, by the day the book is read at, while the one was
on the other, after the day it went on and before that it came off; a service day outside its month, or told twice; a
correction made before what it corrects. Where less than the day is known, only what is certain is told. And the times
of the day a tire went on: heated, then seated, then gripped, and no clamp before the fire is out. Of work that goes on
past midnight the times begin anew, so half a day back is none.

What to do: look at the card again. Most often the year is wrong, as it is each January; of two times it is the hour.

Source: the other dates and times on record.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from axlebook.findings import Finding, Place, Severity, Verdict, id_of
from axlebook.records.book import Book
from axlebook.records.dates import Day
from axlebook.records.fields import Tree
from axlebook.records.heat_log import minutes, since

from ._date_order import Told, out_of_order
from ._dates import CLOCKS, PAIRS, PAST, certainly_before, date_at, entries, may_be_wrong, text_at
from ._references import all_trees

ID = "date-impossible"


def check(book: Book) -> Iterator[Finding]:
    """Tell every date that cannot be."""
    horizon = book.ledger.closed_on or book.today
    limit = Day(horizon.isoformat(), horizon, horizon)
    closed = f"the book was closed on {limit.text}" if book.ledger.closed_on else f"today is {limit.text}"
    trees = [(path, tree) for _, path, tree in all_trees(book)]
    wrong = [(path, tree) for path, tree in trees if may_be_wrong(tree, limit)]
    told = chain.from_iterable((*_ahead(path, tree, limit, closed), *_reversed(path, tree)) for path, tree in wrong)
    said: set[Place] = set()
    for place, subject, words in chain(told, out_of_order(book, limit, closed)):
        if place in said:
            continue  # one date, one cause
        said.add(place)
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.DATA,
            subject,
            place,
            words,
            source="the other dates on record",
            next="Look at the card again: is it the year? Write the date that is right.",
            where=place.pointer,
        )
    timed = [(path, tree) for path, tree in trees if tree.get("kind") in CLOCKS]
    for place, subject, words in chain.from_iterable(_out_of_turn(path, tree) for path, tree in timed):
        yield Finding(
            ID, Verdict.SUSPECT, Severity.DATA, subject, place, words, source="the other times of that day",
            next="Look at the card again: is it the hour? Write the time that is right.", where=place.pointer,
        )  # fmt: skip


def _ahead(path: str, tree: Tree, limit: Day, closed: str) -> Iterator[Told]:
    if tree.get("draft") == "yes":
        return  # a what-if may be of a day to come
    for inside, key in PAST.get(tree.get("kind", ""), ()):
        for pointer, entry in entries(tree, inside):
            day = date_at(entry, key)
            if day is not None and certainly_before(limit, day):
                yield Told(Place(path, f"{pointer}/{key}"), id_of(path), f"{_said(key)} {day.text}, and {closed}.")


def _reversed(path: str, tree: Tree) -> Iterator[Told]:
    for inside, earlier, later in PAIRS.get(tree.get("kind", ""), ()):
        for pointer, entry in entries(tree, inside):
            first, second = date_at(entry, earlier), date_at(entry, later)
            if first is not None and second is not None and certainly_before(second, first):
                words = f"{_said(later)} {second.text}, which is before {_said(earlier)} {first.text}."
                yield Told(Place(path, f"{pointer}/{later}"), id_of(path), words)


def _out_of_turn(path: str, tree: Tree) -> Iterator[Told]:
    """Two times of one day of work of which the later step has the earlier time; each time is told of once."""
    known: set[str] = set()
    for earlier, later in CLOCKS.get(tree.get("kind", ""), ()):
        first, second = minutes(text_at(tree, earlier)), minutes(text_at(tree, later))
        if not known.isdisjoint((earlier, later)):
            continue  # one wrong time, one cause
        if first is not None and second is not None and since(first, second) < 0:
            words = f"{_said(later)} {text_at(tree, later)}, which is before {_said(earlier)} {text_at(tree, earlier)}."
            known |= {earlier, later}
            yield Told(Place(path, f"/{later}"), id_of(path), words)


def _said(key: str) -> str:
    return key.rpartition("/")[2].replace("_", " ")
