"""What falls due with every so-many-th inspection of another interval: with each annual, with each fifth.

Done on the day of that inspection, before it (since the one before), or late after it: each time answers one of them.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from datetime import date, timedelta

from axlebook.findings import Verdict
from axlebook.limits import Interval

from .done import Done
from .item import Due
from .reckon import Term

NEVER = "never done on record"
ORDINALS = ("", "", "second ", "third ", "fourth ", "fifth ", "sixth ", "seventh ", "eighth ", "ninth ", "tenth ")


def ordinal(nth: int) -> str:
    """`fifth ` for 5, nothing for 1."""
    return ORDINALS[nth] if nth < len(ORDINALS) else f"{nth}th "


def with_each(interval: Interval, times: list[Done], others: list[Done], other: Due | None) -> Term:
    """How it stands: which of the others was answered last, and how many came since."""
    if not times:
        return Term(Verdict.NOT_ASSESSED, "", cause=NEVER)
    days = _days(others)
    answers = [index for _, index, _ in _answers(interval.nth, times, others)]
    passed = len(days) - 1 - answers[-1]
    what = f"with each {ordinal(interval.nth)}{interval.with_each}"
    told = f"last done {times[-1].text}; {what}"
    if passed >= interval.nth:
        missed = days[answers[-1] + interval.nth]
        return Term(Verdict.OUTSIDE, f"{told}, and not with that of {missed}", since=missed + timedelta(1))
    left = interval.nth - passed
    next_one = "the next one" if left == 1 else f"the {ordinal(left).strip()} from now"
    if other is None or left > 1:
        return Term(Verdict.WITHIN, f"{told}: due with {next_one}")
    if other.verdict is Verdict.OUTSIDE:
        return Term(Verdict.WITHIN, f"{told}: due with the next one, which is overdue", now=True)
    return Term(Verdict.WITHIN, f"{told}: due with {next_one}", other.due_on)


def with_each_late(interval: Interval, times: list[Done], others: list[Done]) -> Iterator[tuple[Done, str, str]]:
    """Every time it was done after the inspection it belonged to."""
    for done, index, late in _answers(interval.nth, times, others):
        if late:
            missed = _days(others)[index]
            days = (done.day - missed).days
            told = f"it belonged to the {interval.with_each} of {missed}"
            yield done, f"{days} day{'' if days == 1 else 's'}", told


def _days(others: list[Done]) -> list[date]:
    return sorted({one.day for one in others})


def _answers(nth: int, times: list[Done], others: list[Done]) -> Iterator[tuple[Done, int, bool]]:
    """Each time, with the index of the inspection it answers (one that is still to come counts as the next), and
    whether it came after it."""
    days, last = _days(others), None
    for done in times:
        before = bisect_right(days, done.day) - 1
        if before >= 0 and days[before] == done.day:
            answer, late = before, False
        elif last is None:
            answer, late = max(before, 0) if days else -1, False
        elif before - last >= nth:
            answer, late = last + nth * ((before - last) // nth), True
        else:
            answer, late = before + 1, False
        last = answer if last is None else max(answer, last)
        yield done, last, late
