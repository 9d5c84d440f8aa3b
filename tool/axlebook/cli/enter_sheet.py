"""A paper sheet named at `enter`: which boxes it has, and what changed for them since it was printed."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

from . import CannotRun

if TYPE_CHECKING:
    from axlebook.checks._questions import Target
    from axlebook.records.book import Book

    from .enter_setting import Shelf

# e-12-annual-2026-02-28-3cbde4ca: what it is of, what for, the day it is of, and the mark of its content.
_SHEET = re.compile(r"(?P<stem>[a-z0-9-]+)-(?P<day>\d{4}-\d\d-\d\d)(?:-(?P<mark>[a-z0-9]*))?")
_MARK = re.compile(r"[0-9a-f]{8}")
MISREAD = str.maketrans("oil", "011")  # no sign of a mark is a letter beyond f
MOST_COMMITS = 40


class Sheet(NamedTuple):
    """A sheet as its id names it."""

    id: str
    stem: str  # what it is of and what for, joined by a hyphen
    day: date
    mark: str


class Named(NamedTuple):
    """What is to be entered, as far as it was named."""

    about: str = ""
    purpose: str = ""
    sheet: Sheet | None = None

    def or_of(self, told: Mapping[str, str]) -> Named:
        """With what a draft says where nothing was named."""
        sheet = self.sheet or (sheet_named(told["sheet"]) if told.get("sheet") else None)
        return Named(self.about or told.get("about", ""), self.purpose or told.get("purpose", ""), sheet)


def named_at(shelf: Shelf, about: str | None, purpose: str | None) -> Named:
    """What is named on the command line: a thing, or a paper sheet of it."""
    if about is None:
        return Named("", purpose or "")
    sheet = None if about in shelf.book.paths else sheet_named(about)
    if sheet is None:
        return Named(shelf.id_of(about), purpose or "")
    of, what_for = opened(shelf.book, sheet)
    if purpose not in (None, what_for):
        raise CannotRun(f"the sheet {sheet.id} is for {what_for}, not for {purpose}: leave out --purpose.")
    return Named(of, what_for, sheet)


def sheet_named(text: str) -> Sheet | None:
    """The sheet that a text names; None where it is written like no sheet's id.

    Raises
    ------
    CannotRun
        It begins like one and does not end like one.

    >>> sheet_named("E-12-annual-2026-02-28-3cbde4ca").id, sheet_named("d-2")
    ('e-12-annual-2026-02-28-3cbde4ca', None)
    >>> sheet_named("d-2-annual-2026-02-28-Oa1b2c3l").mark
    '0a1b2c31'
    """
    from axlebook.records.forms import parse_day

    plain = "".join(text.lower().split()).strip(".")
    match = _SHEET.fullmatch(plain)
    if match is None:
        return None
    day, mark = parse_day(match["day"]), (match["mark"] or "").translate(MISREAD)
    if day is None or not _MARK.fullmatch(mark):
        raise CannotRun(
            f"{text[:60]!r} is not the whole id of a sheet: it stands at the foot of every page and ends with its day "
            "and 8 signs of 0-9 and a-f, such as e-12-annual-2026-02-28-3cbde4ca. Without it: axlebook enter e-12 "
            "--purpose annual"
        )
    return Sheet(f"{match['stem']}-{day}-{mark}", match["stem"], day, mark)


def opened(book: Book, sheet: Sheet) -> tuple[str, str]:
    """What a sheet is of and what for, by id.

    Raises
    ------
    CannotRun
        Nothing on record is that, no plan is for it, or it is filled in another way.
    """
    from axlebook.checks._questions import purposes_for
    from axlebook.sources.schema_problems import nearest

    from .sheet_made import APPLY

    there = {*book.engines, *book.wheelsets, *book.tires, *book.centers}
    purposes = purposes_for(book)
    splits = [(sheet.stem[: n.start()], sheet.stem[n.end() :]) for n in re.finditer("-", sheet.stem)]
    known = [split for split in splits if split[0] in there]
    for about, purpose in known:
        if purpose in purposes:
            return about, purpose
        if purpose == APPLY:
            raise CannotRun(
                "the sheet of the day a tire goes on is not asked for line by line. Its record is begun with: "
                f"axlebook new tire-applied {sheet.day}-{about}"
            )
    if known:
        about, purpose = known[-1]
        meant = nearest(purpose, purposes) or next(iter(purposes), "annual")
        raise CannotRun(
            f"{sheet.id}: no plan is for {purpose!r}. There are plans for: {', '.join(purposes) or 'nothing'}. Type "
            f"such as: axlebook enter {about} --purpose {meant}"
        )
    near = next(filter(None, (nearest(about, sorted(there)) for about, _ in reversed(splits))), "")
    hint = f"Did you mean {near}? " if near else f"Engines: {', '.join(book.engines) or 'none'}. "
    raise CannotRun(
        f"{sheet.id}: nothing of that name is on record here. {hint}Compare the id with the foot of the sheet, or name "
        "what is measured: axlebook enter e-12 --purpose annual"
    )


def since(shelf: Shelf, target: Target, sheet: Sheet, purpose: str) -> list[str]:
    """What a person is told before a sheet is typed in: whether it is the ledger's own still, and what changed."""
    from axlebook.checks._boxes import asks
    from axlebook.reports.sheet_since import changes, told

    printed, commit = _printed(shelf, target, sheet, purpose)
    if printed is None:
        return [_not_found(shelf, sheet)]
    from_where = f" from the ledger at commit {commit[:12]}" if commit else ""
    found = changes(asks(printed, target, purpose), asks(shelf.book, target, purpose))
    if found:
        return [f"Since this sheet of {sheet.day} was printed{from_where}, what is on record changed:", *told(found)]
    if commit:
        return [f"This sheet of {sheet.day} was printed{from_where}. Its last readings and limits stand; what is "
                "expected, or how to take a reading, is told otherwise now."]  # fmt: skip
    return [f"Sheet of {sheet.day}: nothing on record changed for its boxes since it was printed."]


def _printed(shelf: Shelf, target: Target, sheet: Sheet, purpose: str) -> tuple[Book | None, str]:
    """The book that a sheet was printed from: the records as they are, read at its day, or those of a commit."""
    from axlebook.sources.git import commits_of
    from axlebook.sources.git_entries import entries_at
    from axlebook.sources.refusals import Refusal

    from .progress import Watch

    book = shelf.book_of(shelf.entries, sheet.day)
    if _gives(book, target, sheet, purpose):
        return book, ""
    for commit in Watch()("Looking for the sheet's own state", commits_of(shelf.root, MOST_COMMITS)):
        try:
            book = shelf.book_of(entries_at(shelf.root, commit), sheet.day)
        except Refusal:
            continue
        if _gives(book, target, sheet, purpose):
            return book, commit
    return None, ""


def _gives(book: Book, target: Target, sheet: Sheet, purpose: str) -> bool:
    """Whether a book gives the very sheet."""
    from axlebook.checks._questions import target_of
    from axlebook.reports.view import Day

    from .sheet_made import make

    then = target_of(book, target.id, sheet.day)
    try:
        return then is not None and make(book, then, purpose, Day(sheet.day), "").id == sheet.id
    except CannotRun:
        return False


def _not_found(shelf: Shelf, sheet: Sheet) -> str:
    from axlebook.sources.git import state_of

    tried = "Neither the ledger as it is now nor one of its last commits gives"
    gives = tried if state_of(shelf.root).commit else "The ledger as it is now does not give"
    return (
        f"{gives} the sheet {sheet.id}. Compare its last 8 signs with the foot of the page. If they are right, records "
        "were changed since without a commit, or axlebook itself was renewed: the last readings and ranges on paper "
        "may be old. What is asked and expected here is of the ledger as it is now."
    )
