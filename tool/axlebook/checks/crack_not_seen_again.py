"""A crack was seen, and a later look did not see it, though nothing on record took it away.

What is judged: cracks, seams, broken spokes and broken centers that were seen since the last work on the part, where a
later look of the same place answered `not seen`. Metal does not heal: one of the two looks was wrong, or what was done
was not written down. A defect of what was seen, open or closed, answers for it; so does a later examination of the part
(`of`: axle, tire, center) by another method than an eye that found nothing.

What to do: have the place cleaned and examined with dye or magnets, and enter the examination; or write a defect with
what was decided.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.condition import Stand
from axlebook.records.due.done import examined
from axlebook.records.observed import gone, written_of
from axlebook.records.reading import Observation

from ._judging import every_stand

ID = "crack-not-seen-again"
TIRE, CENTER = ("tire", "wheel", "rim", "flange", "tread"), ("center", "wheel", "hub", "spoke")
# What was seen, and of what an examination may be that answers for it: an axle's says nothing of a rim.
ANSWERED_OF = {
    "crack": (*TIRE, "center"), "axle_crack": ("axle",), "seam": TIRE, "center_crack": CENTER, "broken_spoke": CENTER,
}  # fmt: skip
EYE = "visual"
NEXT = "Clean the place and have it examined with dye or magnets; or write a defect with what was decided."


def check(book: Book) -> Iterator[Finding]:
    """Tell every crack that is gone by itself."""
    for stand in every_stand(book):
        for looked_for in ANSWERED_OF:
            found = gone(book, stand, looked_for)
            if found is not None and not written_of(book, stand, found[0]) and not _examined(book, stand, found[0]):
                yield _finding(book, stand, *found)


def _examined(book: Book, stand: Stand, seen: Observation) -> bool:
    """Whether an examination since, by more than an eye, found nothing in one of the parts that are there."""
    return any(
        one.wheelset in stand.ids
        and one.side in ("", stand.end)
        and any(word in one.of.casefold() for word in ANSWERED_OF[seen.looked_for])
        and (seen.day.last is None or one.done.day >= seen.day.last)
        and fields.text(one.examination.tree, "result") == "nothing found"
        and one.method != EYE
        for one in examined(book)
    )


def _finding(book: Book, stand: Stand, seen: Observation, look: Observation) -> Finding:
    title = book.vocabulary.observations[seen.looked_for].title
    words = (
        f"{stand.name}, {title}: seen {seen.day.text} ({seen.source.record}), and not seen {look.day.text} "
        f"({look.source.record}). No work, no examination and no defect on record tells why, and metal does not heal."
    )
    where = str(seen.tree.get("angle", ""))
    return Finding(
        ID, Verdict.SUSPECT, Severity.WATCH, stand.name, look.at, words, (), "common practice, no source", NEXT,
        seen.looked_for, where,
    )  # fmt: skip
