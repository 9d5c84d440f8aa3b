"""What the terminal is like: color, width, encoding. Asked here and nowhere else."""

from __future__ import annotations

import os
import shutil
import sys

import click

from axlebook.reports.cleaning import encodable
from axlebook.reports.page import Look

from . import CannotRun

NOT_A_TERMINAL = 80


def look(color: bool | None, ledger: str = "", day: str = "") -> Look:
    """How a page for standard output is to look; `color` is what the person asked for, None where nothing."""
    return Look(_width(), _in_color(color), getattr(sys.stdout, "encoding", None) or "utf-8", ledger, day)


def _in_color(asked: bool | None) -> bool:
    """The flag, then NO_COLOR, then FORCE_COLOR, then what is at the other end."""
    if asked is not None:
        return asked
    if os.environ.get("NO_COLOR"):
        return False
    if os.environ.get("FORCE_COLOR", "") not in ("", "0"):
        return True
    return sys.stdout.isatty() and os.environ.get("TERM") != "dumb"


def _width() -> int:
    if not sys.stdout.isatty():
        return NOT_A_TERMINAL
    return max(shutil.get_terminal_size((NOT_A_TERMINAL, 24)).columns, 40)


def put_exact(text: str) -> None:
    """Print a file's text to standard output as UTF-8, its line ends as they are."""
    try:
        click.echo(text.encode("utf-8", "replace"), nl=False)
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise CannotRun(f"the output cannot be written ({error.strerror}).") from None


def put(text: str, *, color: bool = False) -> None:
    """Print what a command gives to standard output, whatever its encoding is."""
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    try:
        click.echo(encodable(text, encoding), nl=False, color=color)
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise CannotRun(f"the output cannot be written ({error.strerror}).") from None
