"""Two things stand at one place at once, or one thing stands at two.

What is judged: the dated lines of all engines (two wheelsets at one place, one wheelset at two places), tire work (a
tire that went onto a center where another still was, or that was on another center), and the centers of a wheelset.
The day on which one ends and the next begins may be the same. Where a date is not known to the day, only what is
certain is told.

What to do: find out which date is wrong, or which line or removal is missing, and write it.

Source: the dated lines and the work on record.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.engine import Line, held_together
from axlebook.records.session import Session

ID = "position-overlap"


def check(book: Book) -> Iterator[Finding]:
    """Tell every place that two things fill at once, and everything that stands at two places."""
    for (engine, at), lines in book.standing.lines.items():
        for first, second in combinations(lines, 2):
            if held_together(first, second):
                same = first.wheelset == second.wheelset
                who = f"{first.wheelset} stands twice" if same else f"{first.wheelset} and {second.wheelset} both stand"
                words = f"{who} at {at} of {engine} {_since(first, second)}."
                yield _finding(f"{engine} {at}", second.place, words, _apart(first, second))
    for wheelset, lines in book.standing.lines_of.items():
        for first, second in combinations(lines, 2):
            if (first.engine, first.at) != (second.engine, second.at) and held_together(first, second):
                where = f"{first.engine} {first.at} and {second.engine} {second.at}"
                words = f"{wheelset} stands at two places, {where}, {_since(first, second)}."
                yield _finding(wheelset, second.place, words, f"{where}, {_apart(first, second)}")
    yield from _tires(book)
    yield from _centers(book)


def _since(first: Line, second: Line) -> str:
    known = [line.start.text for line in (first, second) if line.start.first is not None]
    return f"from {max(known)}" if known else "now"


def _apart(first: Line, second: Line) -> str:
    return f"{first.wheelset} from {first.start.text} and {second.wheelset} from {second.start.text}"


def _tires(book: Book) -> Iterator[Finding]:
    """Follow tire work day by day: what is on each center, and where each tire is."""
    on: dict[str, tuple[str, Session]] = {}  # center -> tire, and the record that put it there
    at: dict[str, str] = {}  # tire -> center
    work = [s for s in book.sessions if s.kind.startswith("tire-") and s.day.first and not s.draft]
    for session in sorted(work, key=lambda s: (str(s.day.first), s.kind != "tire-removed", s.id)):
        tire, center = session.tire, session.center
        if center not in book.centers:
            continue  # mistyped, or as the template left it: unknown-reference tells
        there = on.get(center)
        if session.kind == "tire-removed":
            if there and there[0] != tire:
                words = (
                    f"{tire} came off {center} on {session.day.text}, where {there[0]} is on record ({there[1].id})."
                )
                yield _finding(tire, session.place.below("tire"), words, center)
            on.pop(center, None)
            at.pop(tire, None)
            continue
        if there and there[0] != tire:
            words = (
                f"{tire} is on {center} from {session.day.text}, and {there[0]} was never taken off ({there[1].id})."
            )
            yield _finding(center, session.place.below("tire"), words, tire)
            at.pop(there[0], None)
        if there and there[0] == tire and session.kind == "tire-applied":
            words = f"{tire} went onto {center} on {session.day.text}, and was on it already ({there[1].id})."
            yield _finding(tire, session.place.below("tire"), words, center)
        elif at.get(tire, center) != center:
            words = f"{tire} is on {center} from {session.day.text}, and was never taken off {at[tire]}."
            yield _finding(tire, session.place.below("center"), words, center)
            on.pop(at[tire], None)
        on[center], at[tire] = (tire, session), center


def _centers(book: Book) -> Iterator[Finding]:
    for wheelset in book.wheelsets.values():
        first: dict[str, str] = {}
        for center in wheelset.centers:
            other = first.setdefault(center.first_side, center.id)
            if other != center.id:
                end = f"{center.first_side} of {wheelset.id}"
                words = f"{other} and {center.id} are both told as the first center on the {end}."
                yield _finding(wheelset.id, center.place, words, center.first_side)


def _finding(subject: str, place: Place, words: str, where: str) -> Finding:
    return Finding(
        ID,
        Verdict.SUSPECT,
        Severity.DATA,
        subject,
        place,
        words,
        source="the dated lines and the work on record",
        next="Find out which date is wrong, or which line or removal is missing, and write it.",
        where=where,
    )
