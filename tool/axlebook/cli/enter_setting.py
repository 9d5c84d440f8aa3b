"""What guided entry may ask of the ledger: read once at its start."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from . import CannotRun

if TYPE_CHECKING:
    from axlebook.checks._questions import Target
    from axlebook.findings import Finding
    from axlebook.records.book import Book
    from axlebook.records.entry.question import Question
    from axlebook.records.entry.walk import Setting

REMEMBERED = 8  # records weighed that are kept: an answer asks for the one before and the one after


def read_setting(root: Path, about: str, purpose: str, last: Mapping[str, str]) -> tuple[Setting, Book, Target]:
    """The setting of one entry.

    Raises
    ------
    CannotRun
        There is nothing of that name to measure, or no plan says what.
    """
    from axlebook.checks._boxes import asked_on
    from axlebook.checks._one_more import STOPPING
    from axlebook.checks._questions import target_of
    from axlebook.records.entry.header import Known
    from axlebook.records.entry.walk import Setting
    from axlebook.records.forms import parse_day
    from axlebook.run import read_book
    from axlebook.sources.folder import read_folder

    from .opened import today

    now = today()
    book = read_book(read_folder(root), as_of=None, today=now)
    target = target_of(book, about, now)
    if target is None:
        raise CannotRun(_nothing(book, about))
    purposes = _purposes(book, target, purpose, now)
    measured = {id: instrument.measures for id, instrument in book.instruments.items()}
    people = tuple(record.id for record in book.of_kind("person"))
    known = Known(now, people, tuple(book.instruments), measured, book.vocabulary.holds, purposes,
                  book.vocabulary.reasons_not_measured)  # fmt: skip
    asked: dict[tuple[str, str], tuple[Question, ...]] = {}

    def ask(header: Mapping[str, str]) -> tuple[Question, ...]:
        key = header.get("measured_on", ""), header.get("purpose", "")
        if key not in asked:
            asked[key] = asked_on(book, target, key[1], parse_day(key[0]) or now)
        return asked[key]

    return Setting(known, ask, _judge(book), target.engine, STOPPING, last), book, target


def _judge(book: Book) -> Any:
    """Judging a record as one more of the book; what was judged last is remembered."""
    from axlebook.checks._one_more import findings_of_record

    known: dict[str, Sequence[Finding]] = {}

    def judge(tree: Mapping[str, Any]) -> Sequence[Finding]:
        key = json.dumps(tree)
        if key not in known:
            while len(known) >= REMEMBERED:
                del known[next(iter(known))]
            known[key] = findings_of_record(book, "draft-of-entry", "inspections/draft-of-entry.yaml", tree)
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
        raise CannotRun(f"no plan is for {purpose[:60]!r}. There are plans for: {', '.join(there) or 'nothing'}.")
    found = tuple(one for one in there if questions(book, target, one, now))
    if not found or (purpose and purpose not in found):
        raise CannotRun(
            f"no plan asks anything of {target.id}{f' for {purpose}' if purpose else ''}. "
            f"Plans for it: {', '.join(found) or 'none'}; `axlebook new plan ID` begins one."
        )
    return found
