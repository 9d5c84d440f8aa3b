"""A limit set judges an engine, and the one that it stands under or in for does not.

What is judged: every set in force for the ledger and for each engine that has adopted its own. What it `tightens`, and
the sets whose limits its own `replaces`, must be in force there too: a letter of the authority loosens one figure, and
judges nothing else. What an engine's record adopts takes the place of all that the ledger adopts: adopted there alone,
the letter silences the law with all its limits, and nothing of it falls due any more. A set of which that engine's own
adoption has run out, or has not begun, is told by adoption-lapsed.

What to do: adopt the other set there as well.

Source: the adoptions in `ledger.yaml` and in the engines' records.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.limits import LimitSet
from axlebook.records.book import Book

from ._records import shelves

ID = "set-stands-alone"


def check(book: Book) -> Iterator[Finding]:
    """Tell every set in force without the one that it stands under."""
    for engine, who, at in shelves(book):
        adoptions, in_force = book.adoptions(engine), book.limits_for(engine)
        adopted = {one.set_id for one in adoptions}
        for shelf in in_force:
            index = next(i for i, one in enumerate(adoptions) if one.set_id == shelf.id and one.in_force(book.as_of))
            for under in _stands_under(book, shelf):
                if under in book.limit_sets and under not in adopted:
                    yield _finding(who, at.below(index, "set"), shelf, under)


def _stands_under(book: Book, shelf: LimitSet) -> list[str]:
    """The sets that a set tightens, or of whose limits one of its own takes the place."""
    judging = (limit for limit in shelf.limits if limit.expires_on is None or book.as_of <= limit.expires_on)
    replaced = (id.partition("/")[0] for limit in judging for id in limit.replaces)
    return [id for id in dict.fromkeys((*shelf.tightens, *replaced)) if id != shelf.id]


def _finding(who: str, at: Place, shelf: LimitSet, under: str) -> Finding:
    own = "" if who == "the ledger" else " What an engine adopts takes the place of all that the ledger adopts."
    return Finding(
        ID, Verdict.SUSPECT, Severity.DATA, f"{who} {shelf.id}", at,
        f"{who} is judged by {shelf.id}, which stands under {under} or in for a limit of it, and not by {under}: "
        f"none of its limits judges there, and nothing falls due by it.{own}",
        source="the adoptions of the railway", next=f"Adopt {under} there as well.", where=under,
    )  # fmt: skip
