"""What guided entry may ask of the ledger: read once at its start."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from . import CannotRun
from .engines import require_read

if TYPE_CHECKING:
    from axlebook.checks._questions import Target
    from axlebook.findings import Finding
    from axlebook.read import Known
    from axlebook.records.book import Book
    from axlebook.records.entry.question import Question
    from axlebook.records.entry.walk import Setting
    from axlebook.sources.names import Entry

DRAFT, DRAFT_PATH = "draft-of-entry", "inspections/draft-of-entry.yaml"  # where a record stands that is being told
REMEMBERED = 8  # records weighed that are kept: an answer asks for the one before and the one after


@dataclass
class Shelf:
    """The ledger's records, read once, and its book; other states of it share what was read."""

    root: Path
    today: date
    entries: list[Entry]
    read: Known

    @cached_property
    def book(self) -> Book:
        """The book as it is now."""
        return self.book_of(self.entries, None)

    def book_of(self, entries: Iterable[Entry], day: date | None) -> Book:
        """The book of some entries, read at a day."""
        from axlebook.run import read_book

        return read_book(entries, as_of=day, today=self.today, known=self.read)

    def id_of(self, about: str) -> str:
        """What is named: an engine may be named by its number too."""
        numbered = [engine.id for engine in self.book.engines.values() if engine.number == about]
        return numbered[0] if len(numbered) == 1 and about not in self.book.engines else about


def take_shelf(root: Path) -> Shelf:
    """Read the ledger."""
    from axlebook.read import Known
    from axlebook.sources.folder import read_folder

    from .opened import today

    return Shelf(root, today(), list(read_folder(root)), Known())


def read_setting(
    shelf: Shelf, about: str, purpose: str, last: Mapping[str, str], sheet: str = ""
) -> tuple[Setting, Target]:  # fmt: skip
    """The setting of one entry; from a paper sheet it asks as the pages do.

    Raises
    ------
    CannotRun
        There is nothing of that name to measure, or no plan says what.
    """
    from axlebook.checks import run_checks
    from axlebook.checks._boxes import asked_on
    from axlebook.checks._one_more import STOPPING
    from axlebook.checks._questions import target_of
    from axlebook.records.entry.header import Known as Told
    from axlebook.records.entry.walk import Setting
    from axlebook.records.forms import parse_day
    from axlebook.run import found_in

    book, now = shelf.book, shelf.today
    target = target_of(book, about, now)
    if target is None:
        require_read(book, about)
        raise CannotRun(_nothing(book, about))
    purposes = _purposes(book, target, purpose, now)
    measured = {id: instrument.measures for id, instrument in book.instruments.items()}
    people = tuple(record.id for record in book.of_kind("person"))
    planes = {id: instrument.where for id, instrument in book.instruments.items() if instrument.where}
    known = Told(now, people, tuple(book.instruments), measured, book.vocabulary.holds, purposes,
                  book.vocabulary.reasons_not_measured, planes)  # fmt: skip
    asked: dict[tuple[str, str], tuple[Question, ...]] = {}

    def ask(header: Mapping[str, str]) -> tuple[Question, ...]:
        key = header.get("measured_on", ""), header.get("purpose", "")
        if key not in asked:
            asked[key] = asked_on(book, target, key[1], parse_day(key[0]) or now, as_on_paper=bool(sheet))
        return asked[key]

    judge = _judge(book, lambda more: found_in([more])[0])
    doubt = _judge(book, lambda more: run_checks(more, {}, STOPPING))
    return Setting(known, ask, judge, target.engine, STOPPING, last, sheet, doubt), target


def _judge(book: Book, weigh: Callable[[Book], Sequence[Finding]]) -> Any:
    """Judging a record as one more of the book; what was judged last is remembered."""
    from axlebook.checks._one_more import with_record

    known: dict[str, Sequence[Finding]] = {}

    def judge(tree: Mapping[str, Any]) -> Sequence[Finding]:
        key = json.dumps(tree)
        if key not in known:
            while len(known) >= REMEMBERED:
                del known[next(iter(known))]
            found = weigh(with_record(book, DRAFT, DRAFT_PATH, tree))
            known[key] = [finding for finding in found if finding.place.path == DRAFT_PATH]
        return known[key]

    return judge


def _nothing(book: Book, about: str) -> str:
    from axlebook.sources.schema_problems import nearest

    there = [*book.engines, *book.wheelsets, *book.tires, *book.centers]
    near = nearest(about, there)
    hint = f"Did you mean {near}?" if near else f"Engines: {', '.join(book.engines) or 'none'}."
    return f"there is no engine, wheelset, center or tire {about[:60]!r}. {hint}"


def _purposes(book: Book, target: Target, purpose: str, now: date) -> tuple[str, ...]:
    """The occasions for which a plan asks something of this; the one named must be among them."""
    from axlebook.checks._questions import purposes_for, questions

    there = purposes_for(book)
    if purpose and purpose not in there:
        from axlebook.sources.schema_problems import nearest

        near = nearest(purpose, there)
        hint = f"Did you mean {near}? " if near else ""
        raise CannotRun(f"no plan is for {purpose[:60]!r}. {hint}There are plans for: {', '.join(there) or 'nothing'}.")
    found = tuple(one for one in there if questions(book, target, one, now))
    if not found or (purpose and purpose not in found):
        raise CannotRun(
            f"no plan asks anything of {target.id}{f' for {purpose}' if purpose else ''}. "
            f"Plans for it: {', '.join(found) or 'none'}; `axlebook new plan ID` begins one."
        )
    return found
