"""`axlebook init DIR`: an empty ledger in a new folder."""

from __future__ import annotations

import os
from pathlib import Path
from typing import NamedTuple

import click

from . import CannotRun
from .options import FORMAT, options


@click.command()
@click.argument("folder", metavar="DIR")
@options(FORMAT)
@click.option("--ci", "workflow", is_flag=True, help="Also write what lets a code host check it.")
def command(folder: str, shape: str, workflow: bool) -> int:
    """Begin an empty ledger in DIR, a folder that is empty or not there yet; nothing is overwritten.

    It comes with published limit sets, starter plans, the schemas that help an editor, and a README for the first
    hour. With --ci, a workflow that runs `check` for every change, a template for pull requests and a form for people
    without git are written to `.github/` at the top of the repository; DIR may then be a ledger already. The workflow
    can also publish the book as pages (`axlebook pages`); that is off until somebody switches it on.

    \b
      axlebook init ../our-book           begin a ledger
      axlebook init ../our-book --ci      and let a code host check each change
    """
    from axlebook.reports.first_steps import UNNAMED
    from axlebook.sources.folder import find_ledger
    from axlebook.sources.names import LEDGER
    from axlebook.sources.new_ledger import write_ledger

    from . import terminal
    from .opened import quoted

    if "\0" in folder or not folder:
        raise CannotRun(f"{quoted(folder)} is no name for a folder.")
    target = Path(os.path.abspath(folder))
    if workflow and (target / LEDGER).is_file():
        return _workflow_alone(target, folder, shape)
    _require_empty(target)
    above = find_ledger(target.parent)
    if above is not None:
        raise CannotRun(f"{quoted(folder)} lies inside the ledger {quoted(str(above))}; choose another place.")
    try:
        count = len(write_ledger(target))
        told = _write_workflow(target) if workflow else _NOTHING
    except OSError as error:
        raise CannotRun(f"the ledger cannot be written to {quoted(folder)} ({error.strerror}).") from None
    if shape == "json":
        from axlebook.reports.as_json import render_report

        from .reported import without_ledger

        terminal.put(render_report(without_ledger("init"), {"path": folder, "files": count + told.files}))
        return 0
    terminal.put(
        f"A new ledger is in {quoted(folder)} ({count} files).\n"
        f"First: open ledger.yaml there and write your railway's name for {UNNAMED!r}.\n"
        "Then follow README.md there; it takes you through the first hour.\n"
        f"In that folder `axlebook check` always tells what comes next.\n{told.words}"
    )
    return 0


class _Told(NamedTuple):
    """How many files of a workflow were written, and what is said of them."""

    files: int
    words: str


_NOTHING = _Told(0, "")


def _write_workflow(target: Path) -> _Told:
    from axlebook.sources.new_workflow import write_workflow

    from .opened import quoted

    top, written, left = write_workflow(target)
    words = [f"Written to {quoted(str(top))}: {', '.join(written)}.\n"] if written else []
    words += [f"Left as it is: {path}.\n" for path in left]
    if written:
        words.append("Look at the first lines of the workflow: they say where axlebook comes from.\n")
    if any(path.startswith(".github/workflows/") for path in written):
        words.append(
            "It can publish the book as pages. That is off; the workflow's job `pages` says how to switch it on.\n"
        )
    return _Told(len(written), "".join(words))


def _workflow_alone(target: Path, folder: str, shape: str) -> int:
    """Write only the workflow, for a ledger that is there."""
    from . import terminal
    from .opened import quoted

    try:
        told = _write_workflow(target)
    except OSError as error:
        raise CannotRun(f"the workflow cannot be written for {quoted(folder)} ({error.strerror}).") from None
    if shape == "json":
        from axlebook.reports.as_json import render_report

        from .reported import without_ledger

        terminal.put(render_report(without_ledger("init"), {"path": folder, "files": told.files}))
    else:
        terminal.put(told.words)
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
        raise CannotRun(
            f"{quoted(str(target))} is not empty ({len(inside)} things in it); nothing was written. {_next(inside)}"
        )


def _next(inside: list[str]) -> str:
    """What to do about a folder that is not empty: the leavings of a call that was cut off are told as such."""
    from axlebook.sources.names import LEDGER
    from axlebook.sources.new_ledger import new_files

    if LEDGER in inside:
        return "It is a ledger already: go on with its README.md."
    if set(inside) <= {path.partition("/")[0] for path, _ in new_files()}:
        return "It looks like what a call that was cut off left: empty it, if nothing in it is yours, and call again."
    return "Name a folder that is empty or not there yet."
