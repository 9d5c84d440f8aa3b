"""`axlebook pages DIR`: the whole book as static pages."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

import click

from . import CannotRun
from .options import AS_OF, AT, FORMAT, LEDGER, options

if TYPE_CHECKING:
    from collections.abc import Iterator

    from axlebook.reports.pages import Ground
    from axlebook.reports.view import Report
    from axlebook.reports.wear_plot import Drawing
    from axlebook.run import Outcome

    from .opened import Opened

LOT = 32  # plots drawn before they are written


@click.command()
@click.argument("folder", metavar="DIR")
@options(FORMAT, AS_OF, AT, LEDGER)
def command(folder: str, shape: str, as_of: str | None, at: str | None, ledger: str | None) -> int:
    """Write the whole book to DIR as static pages, for people who will never clone it.

    Engines with their plan, wheelsets, each part's life with plots and photos, findings, what is due, limits with
    their clauses, every record as it is written. Plain links: it opens from a folder, a memory stick or a web host,
    and needs no server and no script. DIR is new, or was written by this command; then it is written anew as a whole.
    Photos are copied as they are, with all that the camera wrote into them. People are named by their id and role.
    The exit code says only whether the pages were written; what they tell, `check` answers.

    \b
      axlebook pages ../site                           the ledger you stand in
      axlebook pages ../site --at e-12-annual-2025     as it was at a tag
    """
    from axlebook.reports.pages import pages
    from axlebook.sources.page_folder import NotOurs, known_pages, left_over, write_pages

    from . import opened, reported, terminal
    from .progress import Watch

    found = opened.open_ledger(ledger, (), at)
    asked = opened.asked_day(as_of)
    target = _target(folder, found.root)
    try:
        done, told = left_over(target)
        named = known_pages(target)
        outcome = reported.run(found, asked, with_history=True)
        report = reported.report_of("pages", outcome, found, asked, with_git=True)
        written = Watch()("Writing", pages(_ground(found, outcome, report, target, named), _drawn_by_two))
        count = write_pages(target, written)
    except NotOurs as why:
        raise CannotRun(f"{opened.quoted(folder)} {why}. Name a new folder.") from None
    except OSError as error:
        raise CannotRun(f"the pages cannot be written to {opened.quoted(folder)} ({error.strerror}).") from None
    if shape == "json":
        from axlebook.reports.as_json import render_report

        terminal.put(render_report(report, {"path": folder, "files": count}))
    else:
        left = _left(done, told) if done or told else ""
        terminal.put(f"{left}{count} files are in {opened.quoted(folder)}. Open index.html there.\n")
    return 0


def _left(done: list[str], told: list[str]) -> str:
    """What a call that was cut off had left beside the folder."""
    from .opened import quoted

    look = [f"{quoted(name)} beside it is half written, or not of this command: look, and remove it" for name in told]
    return f"An earlier call was cut off: {'; '.join([*done, *look])}.\n"


def _target(folder: str, root: Path) -> Path:
    """The folder as asked for; not among the records, where a page would be taken for one."""
    from axlebook.sources.names import ATTACHMENTS, FOLDERS

    from .opened import quoted

    if "\0" in folder or not folder:
        raise CannotRun(f"{quoted(folder)} is no name for a folder.")
    target = Path(os.path.abspath(folder))
    place = Path(os.path.realpath(target))
    if place == root or place in root.parents:
        raise CannotRun(f"{quoted(folder)} holds the ledger itself; name a folder of its own.")
    if root in place.parents and place.relative_to(root).parts[0] in (*FOLDERS, ATTACHMENTS, "schema"):
        raise CannotRun(f"{quoted(folder)} stands among the records; name a folder outside of them.")
    return target


def _ground(found: Opened, outcome: Outcome, report: Report, target: Path, named: dict[str, str]) -> Ground:
    from importlib.metadata import version

    import axlebook
    from axlebook.reports.pages import Ground
    from axlebook.sources.page_folder import kept

    from .attached import LARGEST, attachments

    contents = attachments(found, (one.file for one in outcome.book.cited), LARGEST)
    drawn_with = f"axlebook {axlebook.__version__} matplotlib {version('matplotlib')}"
    return Ground(outcome.book, report, outcome.contents, contents, kept(target, named, "plots"), drawn_with)


def _drawn_by_two(drawings: list[Drawing]) -> Iterator[str]:
    """Plots, drawn by two processes: they are most of what the pages take."""
    from axlebook.reports.wear_plot import quick_svg
    from axlebook.sources.two_hands import in_turns

    for start in range(0, len(drawings), LOT):
        lot = drawings[start : start + LOT]
        yield from in_turns(lot, quick_svg, pays=len(lot) > 1)
