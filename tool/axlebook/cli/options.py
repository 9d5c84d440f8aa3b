"""The options that commands share, each defined once."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

Command = TypeVar("Command", bound=Callable[..., Any])

FORMAT = click.option(
    "--format", "shape", type=click.Choice(["text", "json"]), default="text", show_default=True, help="How to print it."
)
AS_OF = click.option("--as-of", metavar="DATE", help="Read the book as it stood on this day (YYYY-MM-DD).")
AT = click.option("--at", metavar="REV", help="Read the book at this commit, tag or branch; no file is touched.")
LEDGER = click.option("--ledger", metavar="DIR", help="The ledger's folder; else it is looked for upward from here.")
STRICT = click.option("--strict", is_flag=True, help="Exit 1 also for what is undecided or not assessed.")
ALL = click.option("--all", "whole", is_flag=True, help="Print everything, not only what fits a screen.")
COLOR = click.option("--color/--no-color", default=None, help="With or without color; NO_COLOR and FORCE_COLOR hold.")


def options(*chosen: Callable[[Any], Any]) -> Callable[[Command], Command]:
    """Put some of the shared options on a command, in this order."""

    def put_on(command: Command) -> Command:
        for option in reversed(chosen):
            command = option(command)
        return command

    return put_on
