"""What becomes a file: printed as UTF-8 with plain line ends, or written to a new file; nothing is overwritten."""

from __future__ import annotations

import os
from pathlib import Path

import click

from . import CannotRun, say

OUTPUT = click.option(
    "--output", "-o", metavar="FILE", help="A new file to write it to; else, or for -, it is printed.",
    callback=lambda _context, _parameter, name: None if name == "-" else name,
)  # fmt: skip


def require_new(output: str | None) -> None:
    """Refuse, before any work, a name that is taken or that is none."""
    if output is not None and ("\0" in output or not output or os.path.lexists(output)):
        raise CannotRun(f"{output[:200]!r} is there already, or is no name for a file; nothing is overwritten.")


def put(text: str, output: str | None) -> None:
    """Print a text, or write it to a new file."""
    if output is None:
        from .terminal import put_exact

        put_exact(text)
        return
    from axlebook.sources.writing import AlreadyThere, write_new

    try:
        write_new(Path(os.path.abspath(output)), text.encode("utf-8"))
    except AlreadyThere:
        raise CannotRun(f"{output[:200]!r} is there already; nothing is overwritten.") from None
    except OSError as error:
        raise CannotRun(f"{output[:200]!r} cannot be written ({error.strerror}).") from None
    say(f"Written: {output}")
