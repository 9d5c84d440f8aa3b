"""What an import comes to: the file read, held against the ledger, and the records it would make; nothing written."""

from __future__ import annotations

import os
import stat
from collections.abc import Collection
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from . import CannotRun

if TYPE_CHECKING:
    from pathlib import Path

    from axlebook.findings import Finding
    from axlebook.records.book import Book
    from axlebook.records.rows.build import New
    from axlebook.records.rows.compare import Compared
    from axlebook.records.rows.lines import Line, Ways
    from axlebook.records.rows.table import Sheet, Wrong
    from axlebook.sources.csv_text import Grid

    from .opened import Opened


@dataclass
class Planned:
    """A record that is to be written."""

    id: str
    path: str
    new: New
    text: str


@dataclass
class Made:
    """An import before anything is written."""

    book: Book
    words: str  # how the file was read
    sheet: Sheet
    compared: Compared
    records: list[Planned]
    wrong: list[Wrong]
    findings: list[tuple[int, Finding]] = field(default_factory=list)  # of the new records, with the row


class _Asked:
    """At which positions the plans ask for what a line is of; worked out for those that are asked about."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._positions: dict[tuple[str, str, str], dict[tuple[str, str], tuple[str, ...]]] = {}

    def __call__(self, line: Line) -> tuple[str, ...]:
        engine = line.get("engine") if line.get("place") else ""
        key = engine or line.where.partition(" ")[0], line.get("purpose"), line.get("measured_on")
        if key not in self._positions:
            self._positions[key] = self._of(*key)
        return self._positions[key].get((line.get("what"), line.where), ())

    def _of(self, about: str, purpose: str, told: str) -> dict[tuple[str, str], tuple[str, ...]]:
        from axlebook.checks._questions import questions, target_of
        from axlebook.records.dates import parse_day

        day = parse_day(told).first or self._book.as_of
        target = target_of(self._book, about, day)
        asked = questions(self._book, target, purpose, day) if target else ()
        return {(one.what, one.where): one.positions for one in asked}


def read_file(path: str) -> bytes:
    """The bytes of a file, no more than a sheet can have."""
    from axlebook.sources.csv_text import LARGEST

    from .opened import quoted

    if "\0" in path or not os.path.exists(path):
        raise CannotRun(f"there is no file {quoted(path)}.")
    try:
        if not stat.S_ISREG(os.stat(path).st_mode):
            raise CannotRun(f"{quoted(path)} is no file.")
        with open(path, "rb") as file:
            content = file.read(LARGEST + 1)
    except OSError as error:
        raise CannotRun(f"{quoted(path)} cannot be read ({error.strerror}).") from None
    if len(content) > LARGEST:
        raise CannotRun(f"{quoted(path)} is larger than {LARGEST // 1_000_000} MB: no sheet of readings is.")
    return content


def read_grid(path: str, content: bytes, sheet: str) -> Grid:
    """The rows of a file: what it is is told by its content, not by its name."""
    from axlebook.sources.csv_text import NotRead, read_csv
    from axlebook.sources.xlsx import OLD_SIGNATURE, SIGNATURE, read_xlsx

    from .opened import quoted

    try:
        if content.startswith(OLD_SIGNATURE):
            raise NotRead("it is a workbook of the old kind (.xls). Save it as .xlsx or as CSV.")
        if content.startswith(SIGNATURE):
            return read_xlsx(content, sheet)
        if sheet:
            raise NotRead("it is no workbook, and so has no sheets to choose from.")
        return read_csv(content)
    except NotRead as refused:
        raise CannotRun(f"{quoted(path)}: {refused}") from None


def make(found: Opened, grid: Grid, ways: Ways) -> Made:
    """Hold a file against the ledger."""
    from axlebook.records.rows.build import build_new, with_one_air
    from axlebook.records.rows.compare import Shelf, compare
    from axlebook.records.rows.table import Wrong, read_sheet

    book, as_written = _books(found)
    _require_readable(book)
    sheet = read_sheet(grid.rows, book, ways)
    wrong = list(sheet.wrong)

    def refuse(line: Line, first: str) -> None:
        wrong.append(Wrong(line.row, "air temperature", f"the session has {first} already.", "Write one of the two."))

    lines = with_one_air(sheet.lines, refuse)
    compared = compare(lines, Shelf([*as_written.sessions, *book.sessions]))
    records = _planned(
        found, build_new(compared.new, book.vocabulary.quantities, _Asked(book)), book.paths.keys(), wrong
    )
    wrong += compared.wrong
    made = Made(book, grid.words, sheet, compared, records, sorted(set(wrong)))
    if records and not made.wrong:
        made.findings = _findings(book, records)
        strange = [(row, one) for row, one in made.findings if _names_no_place(one)]
        made.wrong += [Wrong(row, "place", one.message, one.next) for row, one in strange]
    return made


def _names_no_place(finding: Finding) -> bool:
    """Whether a reading's place or part is not there: it would be filed where nobody looks for it."""
    last = finding.place.pointer.rpartition("/")[2]
    return finding.check == "unknown-reference" and last in ("place", "part")


def _books(found: Opened) -> tuple[Book, Book]:
    """The book, and the book as its records are written, without what corrections say."""
    from axlebook.run import Known, read_book
    from axlebook.sources.folder import read_folder

    from .opened import today

    entries, known = list(read_folder(found.root)), Known()
    book = read_book(entries, as_of=None, today=today(), known=known)
    plain = [entry for entry in entries if not entry.path.startswith("corrections/")]
    if len(plain) == len(entries):
        return book, book
    return book, read_book(plain, as_of=None, today=today(), known=known)


def _require_readable(book: Book) -> None:
    """What stands in a record that cannot be read might be what the file says: it would be written twice."""
    unread = [
        one.place.path for one in book.problems if one.left_out == "" and one.place.path.startswith("inspections/")
    ]
    if unread:
        raise CannotRun(
            f"{unread[0]} cannot be read, and so nobody knows whether these rows stand in it. Put it right first: "
            "axlebook check"
        )


def _planned(found: Opened, records: list[New], there: Collection[str], wrong: list[Wrong]) -> list[Planned]:
    """The records with an id and a path of their own; what is wrong with their form is told by row."""
    from axlebook.records.entry.record import new_id
    from axlebook.records.forms import is_id
    from axlebook.records.rows.table import Wrong
    from axlebook.sources.schemas import judge

    from .enter_written import text_of

    taken = set(there)
    planned = []
    for new in records:
        day = new.tree["measured_on"]
        faults = judge(new.tree, "inspections/new.yaml")
        wrong += [Wrong(new.row_at(fault.pointer), "", fault.message, fault.next) for fault in faults]
        if faults:
            continue
        id = new_id(day, new.about, new.tree["purpose"], taken)
        if not is_id(id):  # every part of it is an id; this holds what names a file to that
            wrong.append(Wrong(new.lines[0].row, "", f"no file can be named {id[:60]!r}.", "Use ids alone."))
            continue
        taken.add(id)
        year = f"{day[:4]}/" if day[:4].isdecimal() else ""
        path = f"inspections/{year}{id}.yaml"
        planned.append(Planned(id, path, new, text_of(found.root, path, new.tree)))
    return planned


def _findings(book: Book, records: list[Planned]) -> list[tuple[int, Finding]]:
    """What `check` would find in the new records, worst first, with the row of the file."""
    from axlebook.checks._one_more import with_record
    from axlebook.findings import Severity, Verdict, worst_first
    from axlebook.run import found_in, placed

    for one in records:
        book = with_record(book, one.id, one.path, one.new.tree)
    by_path = {one.path: one.new for one in records}
    found = [
        finding
        for finding in found_in([book])[0]
        if finding.place.path in by_path
        and finding.verdict in (Verdict.OUTSIDE, Verdict.SUSPECT, Verdict.UNDECIDED, Verdict.UNREADABLE)
        and finding.severity is not Severity.NOTE
    ]
    worst = placed(sorted(found, key=worst_first), {one.path: one.text.encode() for one in records})
    return [(by_path[one.place.path].row_at(one.place.pointer), one) for one in worst]


def write(found: Opened, made: Made) -> list[str]:
    """Write the records one by one, each whole or not at all; give their paths.

    A name that someone took in the meantime stops it: what was written stays, and the same call goes on.
    """
    from axlebook.sources.writing import AlreadyThere, write_new

    written: list[str] = []
    for one in made.records:
        try:
            write_new(found.root / one.path, one.text.encode())
        except (AlreadyThere, OSError) as refused:
            why = "is there already" if isinstance(refused, AlreadyThere) else f"cannot be written ({refused.strerror})"
            before = f" Written before it: {', '.join(written)}." if written else " Nothing was written."
            raise CannotRun(f"{one.path} {why}.{before} The same call goes on where it stopped.") from None
        except KeyboardInterrupt:
            if _is_whole(found.root / one.path, one.text):  # the stop came once it had its name
                raise stopped([*written, one.path], len(made.records)) from None
            before = f"Written before it: {', '.join(written)}." if written else "No record before it was written."
            raise CannotRun(f"stopped at {one.path}. {before} The same call goes on where it stopped.") from None
        written.append(one.path)
    return written


def _is_whole(path: Path, text: str) -> bool:
    try:
        return path.read_bytes() == text.encode()
    except OSError:
        return False


def stopped(written: list[str], many: int) -> CannotRun:
    """What is told of a stop after a record that is whole on the disk."""
    if len(written) == many:
        return CannotRun(f"stopped once all of it was written: {', '.join(written)}.")
    return CannotRun(f"stopped after {written[-1]}. Written: {', '.join(written)}. The same call goes on where it "
                     "stopped.")  # fmt: skip
