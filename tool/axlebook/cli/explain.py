"""`axlebook explain`: manual pages of checks and limits, offline."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from . import CannotRun
from .options import COLOR, FORMAT, LEDGER, options

if TYPE_CHECKING:
    from axlebook.reports.explained import Explained

BEGUN = 3  # letters of a name that say what it is the beginning of
SHOWN = 40  # names in a hint


@click.command()
@click.argument("name", required=False, metavar="[CHECK|SET|SET/LIMIT]")
@options(FORMAT, LEDGER, COLOR)
def command(name: str | None, shape: str, ledger: str | None, color: bool | None) -> int:
    """Explain a check, a limit set or a limit of the ledger at hand; without a name, list all checks.

    \b
      axlebook explain                                   every check, a line each
      axlebook explain flange-thin                       a check: what it judges
      axlebook explain us-49-cfr-230                     a limit set
      axlebook explain us-49-cfr-230/back-to-back-wide   one limit of it
    """
    from axlebook.reports.explained import explained_check

    from . import terminal

    if name is None:
        from axlebook.checks import all_checks

        pages = [explained_check(check) for check in all_checks()]
    else:
        pages = [_page(name, ledger)]
    if shape == "json":
        from axlebook.reports.as_json import pages_json

        from .reported import without_ledger

        terminal.put(pages_json(without_ledger("explain"), pages, alone=name is not None))
        return 0
    from axlebook.reports.explained_text import render_list, render_page

    look = terminal.look(color)
    text = render_list(pages, look) if name is None else render_page(pages[0], look)
    terminal.put(text, color=look.color)
    return 0


def _page(name: str, ledger: str | None) -> Explained:
    from axlebook.checks import find_check
    from axlebook.reports.explained import explained_check

    check = find_check(name)
    return explained_check(check) if check else _of_limits(name, ledger)


def _of_limits(name: str, ledger: str | None) -> Explained:
    """The page of a set or of SET/LIMIT in the ledger at hand, or among the shipped ones where there is none."""
    from axlebook.reports.explained import entries, explained_entry, explained_set
    from axlebook.run import read_book
    from axlebook.sources.folder import read_folder
    from axlebook.sources.shipped import shipped

    from . import opened

    try:
        opening = opened.open_ledger(ledger)
        root, again = opening.root, opened.named_again(opening)
    except CannotRun:
        if ledger is not None:
            raise
        root, again = shipped("ledger"), None
    book = read_book(read_folder(root), as_of=None, today=opened.today())
    found = book.limit_sets.get(name.partition("/")[0])
    if found is not None and "/" not in name:
        return explained_set(found, book.vocabulary)
    names = [f"{found.id}/{entry.id.rpartition('/')[2]}" for entry in entries(found)] if found else []
    if found is not None and name in names:
        return explained_entry(entries(found)[names.index(name)], book.vocabulary)
    raise CannotRun(_nothing(name, [*names, *book.limit_sets] if "/" in name else list(book.limit_sets), again))


def _nothing(name: str, others: list[str], again: str | None) -> str:
    """`again`: the option that names the ledger again; None where no ledger is at hand (shipped sets)."""
    from axlebook.checks import all_checks
    from axlebook.sources.schema_problems import nearest

    from .opened import quoted

    known = [*(check.ID for check in all_checks()), *others]
    near = nearest(name, known)
    of_set = name.partition("/")[0]
    near = near or (of_set if of_set in others else None)
    of_the_ledger = again or "" if near in others else ""
    begun = [id for id in known if id.startswith(name.casefold())] if len(name) >= BEGUN else []
    hint = (
        f"Did you mean {near}? axlebook explain{of_the_ledger} {near}" if near
        else f"These begin so: {', '.join(begun[:SHOWN])}" if begun
        else f"The list of all checks: axlebook explain; the limit sets: {', '.join(others[:SHOWN])}"
    )  # fmt: skip
    where = "" if again is not None else " in what comes with axlebook; a ledger of yours is named with --ledger DIR"
    return f"there is no check, limit set or limit {quoted(name[:80])}{where}. {hint}"
