"""`axlebook history ID`: one part's life, or one record's, with both times."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import click

from . import CannotRun
from .engines import require_read
from .options import ALL, AS_OF, AT, COLOR, LEDGER, options

if TYPE_CHECKING:
    from axlebook.records.book import Book
    from axlebook.records.history import History

    from .opened import Opened

SHAPES = click.option(
    "--format",
    "shape",
    type=click.Choice(["text", "json", "markdown"]),
    default="text",
    show_default=True,
    help="How to print it.",
)


@click.command()
@click.argument("id", metavar="PART|RECORD")
@options(SHAPES, AS_OF, AT, LEDGER, ALL, COLOR)
def command(
    id: str, shape: str, as_of: str | None, at: str | None, ledger: str | None, whole: bool, color: bool | None
) -> int:
    """Tell the whole life of a tire, center, wheelset, engine or instrument, or of any other record, by its id.

    Where it stood, what was done, read, seen, found and put right; when it was measured and by whom, and, in a git
    checkout, when it was entered, by whom and in which commit, and what was altered since. A record that was deleted
    has a history too.

    The exit code says only whether it could be told; what is outside a limit now, `check` answers.

    \b
      axlebook history t-1232
      axlebook history d-3 --all
      axlebook history d-3 --format markdown > d-3.md
    """
    from axlebook.reports.history_view import find_history, history_json, view_of
    from axlebook.reports.of_engine import unread_words_of

    from . import opened, reported, terminal

    found = opened.open_ledger(ledger, (), at)
    asked = opened.asked_day(as_of)
    outcome = reported.run(found, asked, with_history=True)
    report = reported.report_of("history", outcome, found, asked, with_git=shape == "json")
    engine = outcome.book.engine_named(id)
    history = find_history(outcome.book, id) or (find_history(outcome.book, engine.id) if engine else None)
    if history is None:
        require_read(outcome.book, id)
        raise CannotRun(_nothing(outcome.book, id))
    not_read = unread_words_of(outcome.book, [history.id], outcome.findings, whole=whole or shape != "text")
    view = replace(view_of(outcome.book, history, _carrying(found, history)), not_read=not_read)
    if shape == "json":
        from axlebook.reports.as_json import render_report

        terminal.put(render_report(report, history_json(view)))
    elif shape == "markdown":
        from axlebook.reports.history_text import render_history_markdown

        terminal.put(render_history_markdown(report, view))
    else:
        from axlebook.reports.history_text import render_history

        look = terminal.look(color, opened.named_again(found), opened.day_again(found, as_of))
        terminal.put(render_history(report, view, look, whole=whole), color=look.color)
    return 0


def _carrying(found: Opened, history: History) -> set[str]:
    """The commits of a history that carry a signature of git."""
    from axlebook.reports.history_view import commits_of
    from axlebook.sources.git_history import carrying_signature

    commits = commits_of(history)
    return carrying_signature(found.root, commits) if commits else set()


def _nothing(book: Book, id: str) -> str:
    from axlebook.records.history import known_ids
    from axlebook.sources.schema_problems import nearest

    from .opened import quoted

    near = nearest(id, known_ids(book)) if len(id) <= 80 else ""
    return f"no part and no record is named {quoted(id[:80])}.{f' Did you mean {near}?' if near else ''}"
