"""What goes into a time capsule, gathered from an opened ledger and its run."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from axlebook.records.engine import Engine
    from axlebook.reports.view import Report
    from axlebook.run import Outcome

    from .opened import Opened


def files_of(
    found: Opened, outcome: Outcome, report: Report, engine: Engine
) -> tuple[dict[str, bytes], tuple[str, ...]]:  # fmt: skip
    """The files of a capsule by path, and what of the book could not be packed."""
    import axlebook
    from axlebook.reports.capsule_readme import Told, readme
    from axlebook.sources.capsule import LARGEST
    from axlebook.sources.capsule_ledger import capsule_ledger

    from . import reported
    from .attached import attachments

    book = outcome.book
    photos = attachments(found, None, LARGEST)
    files, closing, left = capsule_ledger(
        reported.entries(found), photos, (one.file for one in book.cited), book.as_of
    )  # fmt: skip
    year = last_whole_year(book.as_of)
    annual, summary = _annual(found, report, engine, year, photos)
    files |= {path: text.encode("utf-8") for path, text in (*_texts(outcome, report, engine), *summary.items())}
    told = Told(engine.id, engine.number, book.ledger.railway, book.as_of, _where(report), annual, year, closing, left,
                axlebook.__version__)  # fmt: skip
    files["README.txt"] = readme(told).encode("utf-8")
    return files, left


def last_whole_year(day: date) -> int:
    """The last year that is over on a day.

    >>> last_whole_year(date(2026, 2, 28)), last_whole_year(date(2026, 12, 31))
    (2025, 2026)
    """
    return day.year if (day.month, day.day) == (12, 31) else day.year - 1


def _where(report: Report) -> str:
    commit, dirty = report.revision.commit, report.revision.dirty
    if commit is None:
        return "It was not under version control."
    return f"It was packed from commit {commit}{', with changes that were not committed' if dirty else ''}."


def _texts(outcome: Outcome, report: Report, engine: Engine) -> list[tuple[str, str]]:
    """The condition of the engine, and all findings, as plain text."""
    from axlebook.checks._waiving import held_back
    from axlebook.reports.annual_due import due_of
    from axlebook.reports.condition_text import render_condition
    from axlebook.reports.condition_view import conditions
    from axlebook.reports.page import Look
    from axlebook.reports.text import render_report
    from axlebook.reports.unread import unread_in

    book, look = outcome.book, Look(78, False, "utf-8")
    own = conditions(book, outcome.findings, [engine.id])
    condition = render_condition(
        report, own, look, whole=True, held=held_back(book), due={engine.id: due_of(book, engine.id)},
        unread=unread_in(report.findings),
    )  # fmt: skip
    return [("status.txt", condition), ("findings.txt", render_report(report, look, whole=True, beside="ledger/"))]


def _annual(
    found: Opened, report: Report, engine: Engine, year: int, photos: dict[str, bytes]
) -> tuple[str, dict[str, str]]:  # fmt: skip
    """The name and page of the annual summary of a year; none where no record of the engine is so old."""
    from axlebook.reports.annual_html import render_annual
    from axlebook.reports.annual_view import annual
    from axlebook.reports.of_engine import of_engine, record_years
    from axlebook.reports.view import Day
    from axlebook.run import count, run_entries

    from . import reported
    from .opened import today

    beside = reported.beside(found, with_history=True)
    state = run_entries(reported.entries(found), as_of=date(year, 12, 31), today=today(), beside=beside)
    book = state.book
    if engine.id not in book.engines or year < min(record_years(book, engine.id), default=year + 1):
        return "", {}
    shown = tuple(of_engine(book, engine.id, state.findings))
    within = len(of_engine(book, engine.id, state.within))
    told = report._replace(day=Day(book.as_of), counts=count(book, shown, within), findings=shown, first_step="")
    name = f"annual-{engine.id}-{year}.html"
    return name, {name: render_annual(annual(book, book.engines[engine.id], year, told, "", photos))}
