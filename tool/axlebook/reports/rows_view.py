"""A sheet of readings to fill in, or of readings that are there: its lines, and its CSV."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from axlebook.checks._boxes import asked_on
from axlebook.checks._questions import Target
from axlebook.records.book import Book
from axlebook.records.entry.question import Question
from axlebook.records.rows.columns import COLUMNS, Column, row_key
from axlebook.records.rows.lines import Line, Told
from axlebook.records.rows.told import all_lines

from .as_csv import render_csv
from .cleaning import clean

FOR_THE_EYE = ("(title)", "(last reading)", "(expect)", "(how)")


class SheetRow(NamedTuple):
    """A row as it is written: what it says, and what is for the eye alone."""

    told: Told
    eye: tuple[str, ...] = ()


def asked_rows(book: Book, target: Target, purpose: str, said: Told) -> Iterator[SheetRow]:
    """What the plans ask, a row a position, figures left empty; `said` is what is known of the session."""
    for question in asked_on(book, target, purpose, book.as_of):
        for position in question.positions:
            told = {
                **said, "purpose": purpose, "engine": target.engine, "what": question.what,
                "part" if question.by_part else "place": question.where, "position": position,
            }  # fmt: skip
            yield SheetRow({key: text for key, text in told.items() if text}, _for_the_eye(question, position))


def _for_the_eye(question: Question, position: str) -> tuple[str, ...]:
    earlier = question.earlier_at(position)
    note = f", {earlier.note}" if earlier and earlier.note else ""
    at = f" at {earlier.position}" if earlier and earlier.position != position else ""
    last = f"{earlier.text}{at} ({earlier.day}{note})" if earlier else ""
    held = f"Held: {question.hold}." if question.hold else ""
    fine = f"To {question.least_count}." if question.least_count else ""
    return (
        question.title,
        last,
        question.expected_at(position),
        " ".join(text for text in (question.how, fine, held) if text),
    )


def rows_on_record(book: Book, target: Target | None) -> Iterator[SheetRow]:
    """The readings, looks and excuses that are on record, by session and in the order of the records."""
    for session, line in all_lines(book.past_sessions):
        if target is None or _is_of(target, session.engine, line):
            yield SheetRow(line.told)


def not_in_rows(book: Book, target: Target | None) -> list[str]:
    """What `rows_on_record` has no row for: excuses that name neither place nor part, by record; a row names one."""
    found = []
    for session in book.past_sessions:
        what = [excuse.what.replace("_", " ") for excuse in session.not_measured if not excuse.places]
        if what and (target is None or (bool(session.engine) and session.engine == target.engine and not target.at)):
            found.append(f"{session.path} ({', '.join(dict.fromkeys(what))})")
    return found


def _is_of(target: Target, engine: str, line: Line) -> bool:
    if target.engine and not target.at:
        return engine == target.engine
    at = line.get("place").partition(" ")[0]
    here = bool(target.at) and engine == target.engine and at == target.at
    return here or line.get("part").partition(" ")[0] == target.id


def used_columns(rows: Sequence[SheetRow], *, template: bool) -> list[Column]:
    """The columns of a sheet: those of a template, and those that some row fills."""
    filled = {key for row in rows for key in row.told}
    return [column for column in COLUMNS if (column.shown and template) or column.key in filled | {"key"}]


def sheet_csv(rows: Iterable[SheetRow], *, template: bool, separator: str = ",") -> str:
    """The sheet as CSV, a byte-order mark before it: without, spreadsheets take UTF-8 for something else."""
    rows = list(rows)
    columns = used_columns(rows, template=template)
    eye = FOR_THE_EYE if template else ()
    heads = [*(column.head for column in columns), *eye]
    body = ([clean(cell).strip() for cell in (*(_cell(row, column) for column in columns), *row.eye)] for row in rows)
    return "\ufeff" + render_csv(heads, body, separator)


def _cell(row: SheetRow, column: Column) -> str:
    told = row.told
    if column.key == "key":
        return row_key(told.get("what", ""), told.get("place") or told.get("part", ""), told.get("position", ""))
    return told.get(column.key, "")
