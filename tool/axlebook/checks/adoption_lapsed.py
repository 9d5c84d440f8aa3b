"""A limit set that was adopted is in force no more, or not yet, and nothing judges what it is for.

What is judged: every set that the ledger or an engine has adopted and that is not in force on the day the book is read
at, against the sets that are. Where one that was adopted later is in force, that took its place; where its limits are
on nothing else than theirs, and they have intervals too, nothing is lost. Else metal past its limits is not judged, and
what it lets fall due is on no list. A set that begins later is not assessed.

What to do: adopt what is in force now; or put right from when until when the set is: `from` and `until`, or
`adopted_on` where `from` is not told.

Source: the adoptions in `ledger.yaml` and in the engines' records.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.limits import Adoption, LimitSet
from axlebook.records.book import Book
from axlebook.records.engine import Engine

from ._records import shelves

ID = "adoption-lapsed"
CAUSE = "the adoption of the set that judges it has not begun"


def check(book: Book) -> Iterator[Finding]:
    """Tell every adopted set that is not in force and leaves something unjudged."""
    for engine, who, at in shelves(book):
        yield from _shelf(book, engine, who, at)


def _shelf(book: Book, engine: Engine | None, who: str, at: Place) -> Iterator[Finding]:
    adoptions = book.adoptions(engine)
    in_force = [one for one in adoptions if one.in_force(book.as_of)]
    for index, one in enumerate(adoptions):
        shelf = book.limit_sets.get(one.set_id)
        again = any(other.set_id == one.set_id for other in in_force)
        since = book.as_of < _start(one) <= book.today  # the book is read at an older day
        if shelf is None or shelf.historic or again or one.in_force(book.as_of) or (since and in_force):
            continue
        lost = _lost(book, shelf, book.limits_for(engine))
        if lost and not any(_start(other) > _start(one) for other in in_force):
            yield _finding(book, who, at.below(index, "set"), one, lost)


def _start(adoption: Adoption) -> date:
    return adoption.start or date.min


def _lost(book: Book, shelf: LimitSet, others: tuple[LimitSet, ...]) -> list[str]:
    """What nothing in force is for: the titles of quantities and of what is looked for, and intervals."""
    covered = {name for other in others for limit in other.limits for name in limit.quantities}
    names = dict.fromkeys(name for limit in shelf.limits for name in limit.quantities if name not in covered)
    words = (book.vocabulary.find_word(name) for name in names)
    found = [word.title for word in words if word is not None]
    runs = bool(shelf.intervals) and not any(other.intervals for other in others)
    return [*found, *(interval.title for interval in shelf.intervals if runs)]


def _finding(book: Book, who: str, at: Place, one: Adoption, lost: list[str]) -> Finding:
    begins = _start(one) > book.as_of
    when = f"begins on {one.start}" if begins else f"ended on {one.until}, and no other took its place"
    more = f" and {len(lost) - 1} more" if len(lost) > 1 else ""
    return Finding(
        ID, Verdict.NOT_ASSESSED if begins else Verdict.SUSPECT, Severity.NOTE if begins else Severity.DATA,
        f"{who} {one.set_id}", at,
        f"{who} has adopted the limit set {one.set_id}, which {when}: nothing in force is for {lost[0]}{more}.",
        source="the adoptions of the railway",
        next="Adopt what is in force now, or put right from when until when this one is.", where=one.set_id,
        cause=CAUSE if begins else "",
    )  # fmt: skip
