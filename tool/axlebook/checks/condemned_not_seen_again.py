"""Something was seen that a limit condemns, and a later look did not find it so, though nothing tells what was done.

What is judged: everything that can be seen on a wheel, a center, an axle or at a place of the engine, and that a
condemning limit in force is for: a long flat, a bent axle, a loose center, a broken leaf. Where it was seen outside
that limit, and a later look of the same place answered `not seen`, or found it small enough, the record of some work on
the part since has to stand between the two, or a defect of it, open or closed. Cracks have a check of their own
(crack-not-seen-again).

What to do: look again at the very place. If it was put right, write the turning or the other work, or a defect with
its repair; if the first look was wrong, write a correction.

Source: the condemning limit named in the finding; that somebody has to tell is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.condition import Site, Stand
from axlebook.records.dates import Day
from axlebook.records.observed import answered, written_of
from axlebook.records.reading import Observation

from ._judging import Assessed, sites_told
from ._seen import assess_seen, condemned
from .crack_not_seen_again import ANSWERED_OF

ID = "condemned-not-seen-again"
NEXT = "Look again at the very place. If it was put right, write the work, or a defect with its repair."


def check(book: Book) -> Iterator[Finding]:
    """Tell everything condemned that is gone without a word."""
    for looked_for in book.vocabulary.observations:
        if looked_for in ANSWERED_OF:
            continue
        for stand in sites_told(book, looked_for):
            pairs = answered(book, stand, looked_for)
            if pairs and all(one.verdict is Verdict.WITHIN for one in assess_seen(book, stand, looked_for)):
                yield from _gone(book, stand, looked_for, pairs)


def _gone(
    book: Book, stand: Site, looked_for: str, pairs: list[tuple[Observation, Observation]]
) -> Iterator[Finding]:
    for seen, look in reversed(pairs):
        was = condemned(book, stand, looked_for, seen)
        if was is not None and not worked_on(book, stand, seen.day) and not written_of(book, stand, seen):
            yield _finding(book, stand, was, seen, look)
            return


def worked_on(book: Book, site: Site, since: Day) -> bool:
    """Whether some work on one of the parts that are there may have put it right since a day."""
    works = (work for id in (site.ids if isinstance(site, Stand) else ()) for work in book.work_on.get(id, ()))
    return any((work.day.last or date.max) >= (since.first or date.min) for work in works)


def _finding(book: Book, stand: Site, was: Assessed, seen: Observation, look: Observation) -> Finding:
    title = book.vocabulary.observations[seen.looked_for].title
    size = f" ({was.value.text})" if was.quantity != seen.looked_for else ""
    then = f"as {look.tree['length']}" if "length" in look.tree else look.answer
    words = (
        f"{stand.name}, {title}{size}: seen {seen.day.text} ({seen.source.record}), past a condemning limit, and "
        f"{then} {look.day.text} ({look.source.record}). No work and no defect on record tells what was done."
    )
    return Finding(
        ID, Verdict.SUSPECT, Severity.WATCH, stand.name, look.at, words, (), was.judgement.limit.cited, NEXT,
        seen.looked_for, str(seen.tree.get("angle", "")),
    )  # fmt: skip
