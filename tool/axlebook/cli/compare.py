"""`axlebook compare`: what a change of the book means for the metal."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from .options import ALL, AS_OF, COLOR, LEDGER, STRICT, options

if TYPE_CHECKING:
    from pathlib import Path

    from axlebook.records.book import Book
    from axlebook.reports.compare_view import Compared

    from .compare_states import Chosen
    from .opened import Opened

SHAPES = click.Choice(["text", "json", "markdown"])


@click.command()
@click.argument("revision", metavar="REV")
@click.argument("others", nargs=-1, metavar="[REV] [PATH]...")
@click.option("--format", "shape", type=SHAPES, default="text", show_default=True, help="How to print it.")
@click.option("--exact", is_flag=True, help="Compare with REV itself, not with where the two parted.")
@options(AS_OF, LEDGER, STRICT, ALL, COLOR)
def command(
    revision: str, others: tuple[str, ...], shape: str, exact: bool, as_of: str | None, ledger: str | None,
    strict: bool, whole: bool, color: bool | None,
) -> int:  # fmt: skip
    """Tell what changed between two states of the book: by metal, not by lines of text.

    REV is a commit, a tag or a branch; without a second one, the files as they are. Compared is with the commit at
    which the two parted, as in a pull request. PATH, a file or folder of the ledger, chooses what is shown.

    \b
      axlebook compare main                                what this branch brings
      axlebook compare e-12-annual-2024 e-12-annual-2025   from a year to the next
      axlebook compare main re-tiring-d-1 --format markdown > comment.md

    Exit 0: nothing new counts. 1: a finding that is new, or worse, and counts. 2: could not run.
    """
    from . import opened, terminal

    asked = opened.asked_day(as_of)
    found, second = _opened(ledger, others)
    told = _compared(found, revision, second, exact=exact, as_of=asked)
    if shape == "json":
        from axlebook.reports.as_json import render_report
        from axlebook.reports.compare_json import compared_json

        terminal.put(render_report(told.report, compared_json(told)))
    elif shape == "markdown":
        from axlebook.reports.compare_markdown import render_comment

        terminal.put(render_comment(told))
    else:
        from axlebook.reports.compare_text import render_compared

        look = terminal.look(color, opened.named_again(found))
        terminal.put(render_compared(told, look, whole=whole, beside=found.beside), color=look.color)
    return int(told.fails(strict=strict))


def _opened(ledger: str | None, others: tuple[str, ...]) -> tuple[Opened, str | None]:
    """The ledger, and the second revision: the first of what follows, unless it is a path that is there."""
    import os
    from pathlib import Path

    from axlebook.sources.folder import find_ledger

    from .opened import Opened, beside, inside, open_ledger
    from .opened_at import find_root, is_bare_ledger

    bare_here = ledger is None and is_bare_ledger(".") and find_ledger(Path(".")) is None
    is_path = bool(others) and not bare_here and "\0" not in others[0] and os.path.lexists(others[0])  # HEAD is a file
    second = others[0] if others and not is_path else None
    paths = others[1:] if second is not None else others
    if not bare_here and (ledger is None or not is_bare_ledger(ledger)):
        return open_ledger(ledger, paths), second
    root = find_root(ledger, ())
    only = tuple(dict.fromkeys(inside(root, os.path.join(root, path)) for path in paths))
    return Opened(root, only, beside(root)), second


def _compared(found: Opened, first: str, second: str | None, *, exact: bool, as_of: object) -> Compared:
    from datetime import date

    from axlebook.cli import CannotRun
    from axlebook.reports.compare_view import compared
    from axlebook.reports.view import Report, Revision, within_paths
    from axlebook.run import count
    from axlebook.run_two import run_two
    from axlebook.sources.refusals import Refusal

    from .compare_states import choose
    from .opened import day_told, today

    assert as_of is None or isinstance(as_of, date)
    chosen = choose(found.root, first, second, exact=exact)
    commit = chosen.after.commit if second is not None else None
    try:
        comparison, outcome = run_two(found.root, chosen.before.commit, commit, as_of=as_of, today=today())
    except Refusal as refused:
        raise CannotRun(f"{refused.reason} {refused.hint}") from None
    book = outcome.book
    shown, within = (within_paths(many, found.only) for many in (outcome.findings, outcome.within))
    report = Report(
        "compare",
        day_told(book.as_of, as_of, book.ledger.closed_on),
        count(book, shown, len(within)),
        shown,
        found.only,
        "",
        Revision(chosen.after.commit, chosen.after.dirty),
    )
    metric = book.in_mm()
    authors = _authors(found.root, chosen, {one.path for one in comparison.limits}, committed=second is not None)
    notes = (*chosen.notes, *_without_history(book))
    return compared(chosen.before, chosen.after, report, comparison, notes, authors, metric)


def _without_history(book: Book) -> tuple[str, ...]:
    """What is not looked at in either state where no history is the book's own; one sentence, or none."""
    from axlebook.records.entered import has_own_history

    if not has_own_history(book.ledger.tree):
        why = "ledger.yaml says that this git history is not the book's own"
    elif book.entered is None or book.entered.reason:
        why = f"the ledger is {book.entered.reason}" if book.entered else "no history was read"
    else:
        return ()
    return (f"In both states what only a history tells (who entered what, when, and what was edited) is not looked at: "
            f"{why}.",)  # fmt: skip


def _authors(root: Path, chosen: Chosen, paths: set[str], *, committed: bool) -> dict[str, tuple[str, ...]]:
    """Who committed to the changed limit sets in between."""
    from axlebook.sources.git import authors_between

    if chosen.after.commit is None:
        return {}
    own = () if committed or not chosen.after.dirty else ("someone who has not committed it",)
    found = {path: authors_between(root, chosen.before.commit, chosen.after.commit, path) for path in sorted(paths)}
    return {path: (*names, *(own if not names else ())) for path, names in found.items()}
