"""What the coverage-guided search runs: bytes of record text, or of a CSV, to all that would be said of them.

An input of records is a text that a person can read: each record begins with a line that says where it lies, such as
`# at inspections/2026/2026-01-10-e-1-annual.yaml`; without such a line the whole input is one inspection. The records
come into the one-engine book in place of its own, or beside them.
"""

from __future__ import annotations

import contextlib
import io
import re
from datetime import date
from functools import cache
from pathlib import Path

from tests.checks.cases import base_files
from tests.cli.commands import AT

from axlebook.cli import CannotRun, import_made, import_printed
from axlebook.cli.opened import Opened
from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book
from axlebook.records.rows.lines import Ways
from axlebook.reports.cleaning import clean
from axlebook.reports.page import Look
from axlebook.reports.text import render_report
from axlebook.reports.view import Day, Report
from axlebook.run import Known, run_entries
from axlebook.sources.names import FOLDERS, LEDGER, Entry, file_problem
from axlebook.sources.schemas import judge
from axlebook.sources.yaml_text import read_tree

TODAY = date(2026, 3, 1)
HEAD = re.compile(rb"^# at ([a-z0-9/-]{1,120}\.yaml)\n", re.MULTILINE)
# Nothing that moves a cursor, turns the direction of writing or hides, but for the line end.
ACTS = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u00ad\u200e\u200f\u2028-\u202e\u2066-\u2069]")
NARROW = Look(80, False, "utf-8")


def records_of(content: bytes) -> dict[str, bytes]:
    """The records of an input, by path; a place that no ledger has is taken for the usual one."""
    first, *rest = HEAD.split(content)
    found = {AT: first} if first.strip() or not rest else {}
    for path, text in zip(rest[::2], rest[1::2], strict=True):
        found[_path(path.decode())] = text
    return found


def _path(asked: str) -> str:
    folder, _, name = asked.rpartition("/")
    parts = folder.split("/")
    sound = file_problem(name) is None and parts[0] in FOLDERS and all(parts) and len(parts) <= 3
    return asked if asked == LEDGER or sound else AT


@cache
def _base() -> tuple[dict[str, bytes], Known]:
    """The one-engine book, and what was read of it already: only what is new in an input is read again."""
    files, known = base_files("one-engine"), Known()
    run_entries([Entry(path, text, None) for path, text in files.items()], as_of=None, today=TODAY, known=known)
    return files, known


def tell_records(content: bytes) -> str:
    """Run every check over the book with these records in it; hold the findings to place and words; give the text."""
    files, known = _base()
    files = files | records_of(content)
    entries = [Entry(path, files[path], None) for path in sorted(files)]
    fresh = Known(dict(known.trees), dict(known.sound), dict(known.built))
    outcome = run_entries(entries, as_of=None, today=TODAY, known=fresh)
    for finding in (*outcome.findings, *outcome.within):
        require_whole(finding, files)
    report = Report("check", Day(outcome.book.as_of), outcome.counts, outcome.findings)
    text = render_report(report, NARROW, whole=True) + render_report(report, NARROW, whole=False)
    require_harmless(text)
    return text


def require_whole(finding: Finding, files: dict[str, bytes]) -> None:
    """A finding names its check, what it is about, a place that is there, and says something."""
    path = finding.place.path
    assert finding.check, finding
    assert finding.message or finding.verdict is Verdict.WITHIN, finding
    assert path, finding
    lines = files.get(path, b"").count(b"\n") + files.get(path, b"").count(b"\r") + 1
    assert not finding.line or 1 <= finding.line <= lines, (finding.line, lines, finding)


def require_harmless(text: str) -> None:
    """Nothing in a text acts on a terminal."""
    assert not ACTS.search(text), ascii(ACTS.search(text))
    text.encode("utf-8")


@cache
def _book() -> Book:
    files = base_files("one-engine")
    entries = [Entry(path, text, None) for path, text in sorted(files.items())]
    return run_entries(entries, as_of=None, today=TODAY).book


def tell_rows(content: bytes) -> str:
    """Read a sheet and make records of it, none of them written; hold each to its form; give what is said."""
    found, out = Opened(Path(__file__).parent, (), ""), io.StringIO()
    was, import_made._books = import_made._books, lambda _: (_book(), _book())
    try:
        made = import_made.make(found, import_made.read_grid("a.csv", content, ""), Ways({}, content[:1] == b";", ""))
        for one in made.records:
            assert judge(read_tree(one.text.encode()), one.path) == [], one.text
        with contextlib.redirect_stdout(out):
            import_printed.put(found, "a.csv", made, [], "text", whole=True, color=False)
    except CannotRun as refused:
        out.write(clean(refused.message))  # as it is said
    finally:
        import_made._books = was
    require_harmless(out.getvalue())
    return out.getvalue()
