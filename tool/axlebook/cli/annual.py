"""`axlebook annual ENGINE YEAR`: the annual condition summary of an engine."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

import click

from . import CannotRun
from .engines import engine_named
from .options import AS_OF, AT, LEDGER, STRICT, options
from .output_file import OUTPUT, put, require_new

if TYPE_CHECKING:
    from axlebook.records.book import Book
    from axlebook.records.engine import Engine
    from axlebook.reports.annual_parts import Annual
    from axlebook.reports.view import Report
    from axlebook.run import Outcome

    from .opened import Opened

FORMATS = ("html", "markdown", "json")


@click.command()
@click.argument("engine")
@click.argument("year")
@click.option(
    "--format", "shape", type=click.Choice(FORMATS), default="html", show_default=True, help="How to print it."
)
@OUTPUT
@click.option("--tag", "tagging", is_flag=True, help="Propose the git tag that keeps this state; nothing is tagged.")
@options(AS_OF, AT, LEDGER, STRICT)
def command(
    engine: str,
    year: str,
    shape: str,
    output: str | None,
    tagging: bool,
    as_of: str | None,
    at: str | None,
    ledger: str | None,
    strict: bool,
) -> int:
    """Write the condition summary of ENGINE for YEAR: for a board, an insurer, an inspecting engineer, a successor.

    A first page in plain words, then every wheel with reading, limit, margin and who read it, what was done and what
    is due, and what it all rests on. HTML is one file that opens offline and prints on A4 and Letter. The state is
    that of the year's last day, or of the day the book was closed, or of today where that is earlier; --as-of takes
    an earlier day. The exit code is that of `check` for this engine.

    \b
      axlebook annual 12 2025 -o engine-12-2025.html
      axlebook annual 12 2025 --at e-12-annual-2025 -o as-it-was.html
      axlebook annual 12 2024 --tag -o engine-12-2024.html
    """
    from axlebook.reports.annual_view import annual

    from . import opened
    from .attached import LARGEST, attachments

    found, asked, wanted = opened.open_ledger(ledger, at=at), opened.asked_day(as_of), _year(year)
    require_new(output)
    state = _run(found, wanted, asked)
    chosen = engine_named(state.outcome.book, engine)
    _require_records(state.outcome.book, chosen, wanted)
    report = _report(found, state, chosen)
    photos = attachments(found, (one.file for one in state.outcome.book.cited), LARGEST)
    summary = annual(state.outcome.book, chosen, wanted, report, state.why, photos)
    put(_rendered(shape, summary, report), output)
    if tagging:
        history = state.outcome.book.entered
        _propose_tag(chosen, wanted, report, {tag.name: tag.commit for tag in history.tags} if history else {})
    return int(report.fails(strict=strict))


@dataclass(frozen=True)
class _State:
    """The book read at its day, and why that is not the year's last."""

    outcome: Outcome
    asked: date | None
    why: str


def _year(text: str) -> int:
    if not (text.isascii() and text.isdecimal() and len(text) == 4 and int(text)):
        raise CannotRun(f"{text[:40]!r} is no year as it is written here; write it with four digits, such as 2025.")
    return int(text)


def _run(found: Opened, year: int, asked: date | None) -> _State:
    """Run at the year's last day, or earlier: the day the book was closed, today, or the day asked for."""
    from axlebook.reports.annual_view import TODAY
    from axlebook.run import read_book, run_entries
    from axlebook.sources.names import LEDGER as LEDGER_FILE

    from . import reported
    from .opened import today

    now = today()
    entries = list(reported.entries(found))
    closed = read_book([e for e in entries if e.path == LEDGER_FILE], as_of=None, today=now).ledger.closed_on
    day, why = date(year, 12, 31), ""
    for earlier, words in ((closed or now, "the book was closed that day" if closed else TODAY),
                           (asked, "as asked with --as-of")):  # fmt: skip
        if earlier is not None and earlier < day:
            day, why = earlier, words
    if day.year < year:
        raise CannotRun(f"there is nothing to tell of {year}: the book goes as far as {day} ({why}).")
    beside = reported.beside(found, with_history=True)
    return _State(run_entries(entries, as_of=day, today=now, beside=beside), asked, why)


def _require_records(book: Book, engine: Engine, year: int) -> None:
    """A year that no record of the engine speaks of has no summary."""
    from axlebook.reports.of_engine import record_years

    years = record_years(book, engine.id)
    if years and year >= min(years):
        return
    there = f"The first is of {min(years)}." if years else "There is none at all."
    raise CannotRun(f"no record of engine {engine.id} is of {year} or before. {there}")


def _report(found: Opened, state: _State, engine: Engine) -> Report:
    """The report of this engine's findings alone, and of those that nobody can lay to an engine."""
    from axlebook.reports.of_engine import of_engine
    from axlebook.reports.view import Day, Report
    from axlebook.run import count

    from .reported import standing

    book = state.outcome.book
    shown = tuple(of_engine(book, engine.id, state.outcome.findings))
    within = of_engine(book, engine.id, state.outcome.within)
    return Report("annual", Day(book.as_of, state.why), count(book, shown, len(within)), shown,
                  revision=standing(found))  # fmt: skip


def _propose_tag(engine: Engine, year: int, report: Report, tags: dict[str, str]) -> None:
    """Say how a person may keep this state; axlebook itself never tags. `tags` are those that are set, by name."""
    from axlebook.reports.tag_proposal import tag_proposal

    revision = report.revision
    if revision is None or revision.commit is None:
        click.echo("No tag to propose: this ledger is not under version control.", err=True)
        return
    if revision.dirty:
        click.echo("No tag to propose: there are uncommitted changes. Commit them first.", err=True)
        return
    name, command = tag_proposal(engine.id, year, revision.commit)
    kept = tags.get(name)
    if kept is not None:
        other = f"is set already, at {kept[:12]}, not at this state. What was kept: --at {name}"
        told = "keeps this state already" if kept == revision.commit else other
        click.echo(f"No tag to propose: {name} {told}.", err=True)
        return
    click.echo(f"To keep this state as {name}, type:\n  {command}", err=True)


def _rendered(shape: str, summary: Annual, report: Report) -> str:
    if shape == "json":
        from axlebook.reports.annual_json import annual_json
        from axlebook.reports.as_json import render_report

        return render_report(report, annual_json(summary))
    if shape == "markdown":
        from axlebook.reports import annual_markdown

        return annual_markdown.render_annual(summary)
    from axlebook.reports import annual_html

    return annual_html.render_annual(summary)
