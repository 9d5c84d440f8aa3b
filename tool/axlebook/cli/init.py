"""`axlebook init DIR`: an empty ledger in a new folder."""

from __future__ import annotations

import os
from pathlib import Path

import click

from . import CannotRun
from .options import FORMAT, options


@click.command()
@click.argument("folder", metavar="DIR")
@options(FORMAT)
def command(folder: str, shape: str) -> int:
    """Begin an empty ledger in DIR, a folder that is empty or not there yet; nothing is overwritten.

    It comes with published limit sets, starter plans, the schemas that help an editor, and a README for the first
    hour.
    """
    from axlebook.reports.first_steps import UNNAMED
    from axlebook.sources.folder import find_ledger
    from axlebook.sources.new_ledger import write_ledger

    from . import terminal
    from .opened import quoted

    if "\0" in folder or not folder:
        raise CannotRun(f"{quoted(folder)} is no name for a folder.")
    target = Path(os.path.abspath(folder))
    _require_empty(target)
    above = find_ledger(target.parent)
    if above is not None:
        raise CannotRun(f"{quoted(folder)} lies inside the ledger {quoted(str(above))}; choose another place.")
    try:
        count = len(write_ledger(target))
    except OSError as error:
        raise CannotRun(f"the ledger cannot be written to {quoted(folder)} ({error.strerror}).") from None
    if shape == "json":
        from axlebook.reports.as_json import render_report

        from .reported import without_ledger

        terminal.put(render_report(without_ledger("init"), {"path": folder, "files": count}))
        return 0
    terminal.put(
        f"A new ledger is in {quoted(folder)} ({count} files).\n"
        f"First: open ledger.yaml there and write your railway's name for {UNNAMED!r}.\n"
        f"Then follow README.md there; it takes you through the first hour.\n"
    )
    return 0


def _require_empty(target: Path) -> None:
    from .opened import quoted

    if not os.path.lexists(target):
        return
    if not target.is_dir():
        raise CannotRun(f"{quoted(str(target))} is a file, not a folder.")
    try:
        inside = os.listdir(target)
    except OSError as error:
        raise CannotRun(f"{quoted(str(target))} cannot be looked into ({error.strerror}).") from None
    if inside:
        raise CannotRun(f"{quoted(str(target))} is not empty ({len(inside)} things in it); nothing was written.")
