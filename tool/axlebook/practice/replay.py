"""The demo's records as the sessions that brought them: who entered what, on which day, in which order.

A record is entered on the day it was signed, else the day after the work; what a book must have before its first
session (engines, wheelsets, instruments, people, limits) on the day the book begins. Nothing here is by chance, so the
same records give the same history.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from datetime import date, timedelta
from typing import NamedTuple

from axlebook.records import fields
from axlebook.records.session import DATE_KEYS

from .written import Written

BEGUN_BY = "lead"
OTHER_DATES = {
    "defect": "found_on", "waiver": "approved_on", "correction": "corrected_on", "limit-set": "", "plan": "",
}  # fmt: skip
ONE_DAY = timedelta(days=1)


class Session(NamedTuple):
    """One commit: a day, a person, what for, and the paths entered."""

    day: date
    author: str
    message: str
    paths: tuple[str, ...]
    tag: str = ""  # of the annual inspection entered


def replay(records: Mapping[str, Written], others: tuple[str, ...], closed_on: date) -> list[Session]:
    """The sessions that enter these records; `others` (schemas, notes, photos) come with the first."""
    days = {path: _entered_on(record, closed_on) for path, record in records.items()}
    first = min((day for day in days.values() if day), default=closed_on) - ONE_DAY
    begun = tuple(sorted((*others, *(path for path, day in days.items() if day is None))))
    sessions = [Session(first, BEGUN_BY, "Begin the book: engines, wheelsets, tires, instruments, limits", begun)]
    by_day: dict[tuple[date, str], list[str]] = defaultdict(list)
    for path, day in days.items():
        if day is not None:
            by_day[day, _author(records[path])].append(path)
    for (day, author), paths in sorted(by_day.items()):
        told = [records[path] for path in sorted(paths)]
        sessions.append(Session(day, author, _message(told), tuple(sorted(paths)), _tag(told)))
    return sessions


def _entered_on(record: Written, closed_on: date) -> date | None:
    tree = record.tree
    kind = fields.text(tree, "kind")
    if kind == "service":
        period = fields.text(tree, "month") or f"{fields.text(tree, 'year')}-12"
        year, month = int(period[:4]), int(period[5:7])
        day: date | None = date(year + month // 12, month % 12 + 1, 1)
    elif kind == "tire":
        day = fields.day(fields.inner(tree, "ordered"), "ordered_on").exact
    else:
        key = DATE_KEYS.get(kind) or OTHER_DATES.get(kind, "")
        signed = fields.day(fields.inner(tree, "signed"), "signed_on").exact
        done = fields.day(tree, key).exact if key else None
        day = signed or (done + ONE_DAY if done else None)
    return min(day, closed_on) if day else None


def _author(record: Written) -> str:
    """Who typed it in: the first of those who measured, else the lead."""
    return (*fields.texts(record.tree, "by"), BEGUN_BY)[0]


def _message(told: list[Written]) -> str:
    names = [record.id for record in told]
    more = f" and {len(names) - 2} more" if len(names) > 2 else ""
    return "Enter " + ", ".join(names[:2]) + more


def _tag(told: list[Written]) -> str:
    """The tag of the first annual inspection of a session, under the name that `annual` proposes."""
    annuals = (
        f"{fields.text(record.tree, 'engine')}-annual-{fields.text(record.tree, 'measured_on')[:4]}"
        for record in told
        if fields.text(record.tree, "purpose") == "annual" and fields.text(record.tree, "engine")
    )
    return next(annuals, "")
