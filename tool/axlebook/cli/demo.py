"""`axlebook demo DIR`: the demonstration ledger in a folder of its own, plain or with slips to find."""

from __future__ import annotations

import os
import shlex
from pathlib import Path

import click

from . import CannotRun

_BRANCH = """It is a git repository: its sessions are commits, and a branch waits for review. Look at what it means:
  axlebook compare main re-tiring-d-1   (in that folder)
"""


@click.command()
@click.argument("folder", metavar="DIR")
@click.option("--practice", is_flag=True, help="Plant slips in it, and hide the answers beside it.")
@click.option("--seed", type=click.IntRange(min=0), metavar="N", help="Plant the slips of this seed again.")
@click.option("--answers", is_flag=True, help="Print the answers hidden in the practice copy DIR; write nothing.")
def command(folder: str, practice: bool, seed: int | None, answers: bool) -> int:
    """Copy the demonstration ledger, an invented railway with twelve years of records, to DIR.

    DIR is a folder that is empty or not there yet. Where git is installed the copy is a repository: twelve years
    of sessions as commits, a tag for each annual inspection, and a branch of this winter's work that waits for
    review. With --practice, slips as they happen at the wheel and at the desk are planted in the copy: find them,
    then look with --answers.

    \b
      axlebook demo a-copy
      axlebook demo a-copy --practice
      axlebook demo a-copy --answers
    """
    from .opened import quoted

    if "\0" in folder or not folder:
        raise CannotRun(f"{quoted(folder)} is no name for a folder.")
    if seed is not None and not practice:
        raise CannotRun("--seed goes with --practice: nothing else is drawn by chance.")
    target = Path(os.path.abspath(folder))
    if answers:
        return _print_answers(target, practice)
    return _copy(target, folder, practice, seed)


def _copy(target: Path, folder: str, practice: bool, seed: int | None) -> int:
    from axlebook.sources.folder import find_ledger
    from axlebook.sources.practice_copy import write_demo, write_practice
    from axlebook.sources.shipped import shipped

    from . import terminal
    from .opened import quoted

    _require_new(target)
    above = find_ledger(target.parent)
    if above is not None:
        raise CannotRun(f"{quoted(folder)} lies inside the ledger {quoted(str(above))}; choose another place.")
    try:
        in_git = not practice and write_demo(shipped("demo-ledger"), target)
        used = write_practice(shipped("demo-ledger"), target, seed) if practice else None
    except OSError as error:
        raise CannotRun(f"the copy cannot be written to {quoted(folder)} ({error.strerror}).") from None
    if not practice:
        terminal.put(
            f"The demo ledger is in {quoted(folder)}; README.md there tells what is in it.\n"
            f"Then: axlebook check {shlex.quote(folder)}\n"
            + (_BRANCH if in_git else "Git is not installed here, so it has no history.\n")
        )
        return 0
    terminal.put(
        f"A practice copy is in {quoted(folder)}; it was planted with the seed {used}.\n"
        f"Find the slips: axlebook check {shlex.quote(folder)} --all\n"
        f"Then compare: axlebook demo {shlex.quote(folder)} --answers\n"
    )
    return 0


def _require_new(target: Path) -> None:
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


def _print_answers(target: Path, practice: bool) -> int:
    from axlebook.reports.answers_text import render_answers
    from axlebook.sources.practice_copy import read_answers

    from . import terminal
    from .opened import quoted

    if practice:
        raise CannotRun("--practice writes a copy, --answers reads one: give one of the two.")
    found = read_answers(target)
    if found is None:
        raise CannotRun(f"{quoted(str(target))} holds no practice copy of the demo (no answers are hidden in it).")
    shown = terminal.look(None)
    terminal.put(render_answers(found, shown), color=shown.color)
    return 0
