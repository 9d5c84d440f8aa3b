"""The command line: one small file a command, and nothing imported before it is used.

Exit 0: nothing outside. 1: a finding counts, of a command that judges; what only tells or writes, such as `wear`, ends
with 0. 2: it could not run: a wrong call, no ledger, or a fault of axlebook itself, which is said as such and never as
a fault of the records.
"""

from __future__ import annotations

import contextlib
import errno
import gc
import os
import sys
from importlib import import_module
from typing import TYPE_CHECKING, cast

import click

import axlebook

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

# In the order of a first hour; the words are repeated nowhere.
COMMANDS = {
    "init": "Begin an empty ledger in a new folder.",
    "new": "Write a commented template of a record to fill in.",
    "sheet": "Print sheets to take to the wheel, filled in beforehand.",
    "enter": "Enter readings at the wheel, weighed one by one.",
    "export": "Write a sheet for a spreadsheet, or the whole ledger as tables.",
    "import": "Make records of the rows of a CSV or .xlsx; preview first.",
    "steam": "Write down one more service day of an engine.",
    "check": "Check every record and every relation; worst first.",
    "status": "Tell the condition of every wheel now.",
    "due": "Tell what falls due, and when; overdue first.",
    "fit": "Plan a shrink fit, from records or as a what-if.",
    "bore": "Write the order sheet for the machine shop.",
    "braking": "Estimate when tires would lose their grip under the brake.",
    "wear": "Tell how fast parts wear and when they reach a limit.",
    "annual": "Write the annual condition summary of an engine.",
    "turning": "Work out what turning a coupled set would come to.",
    "compare": "Tell what a change of the book means for the metal.",
    "pages": "Write the whole book as static pages.",
    "pack": "Pack an engine's book into one zip for the years to come.",
    "history": "Tell the whole life of a part or record, with both times.",
    "demo": "Copy the demo ledger, plain or with slips to find.",
    "explain": "Explain a check or a limit, offline.",
}
MODULES = {"import": "import_rows"}  # where the name of a command is a word of Python
DEBUG = "AXLEBOOK_DEBUG"
COULD_NOT_RUN = 2
AGAIN = "axlebook.again"  # in click's own notes: what gives the option that names the opened ledger again
FULL = (errno.ENOSPC, errno.EFBIG, errno.EIO)
UNREAD = (OSError, ValueError, AttributeError)  # nobody is there to read what is said
OBJECTS = 100_000  # made before garbage is looked for: what a command loads is none


class CannotRun(click.ClickException):
    """Why a command could not run, in a sentence; and below it, where there are any, lines to copy into a file."""

    exit_code = COULD_NOT_RUN

    def __init__(self, message: str, lines: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.lines = lines

    def show(self, file: object = None) -> None:
        """Say it to stderr."""
        say(f"axlebook: {self.message}")
        for line in self.lines:
            say(line)


class Commands(click.Group):
    """The commands by name; a command's module is imported when it is used."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names, in reading order."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return the command of a name; None where there is none."""
        if cmd_name not in COMMANDS:
            return None
        command = cast(click.Command, import_module(f"{__name__}.{MODULES.get(cmd_name, cmd_name)}").command)
        if ctx.resilient_parsing:  # a shell completes a word, and nothing is run
            from .completing import offer

            return offer(command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command; a misspelled one is answered with the nearest."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-") and not ctx.resilient_parsing:
            import difflib

            near = difflib.get_close_matches(args[0], COMMANDS, n=1)
            hint = f" Did you mean {near[0]}?" if near else f" There are: {', '.join(COMMANDS)}."
            raise CannotRun(f"there is no command {args[0]!r}.{hint}")
        return super().resolve_command(ctx, args)

    def invoke(self, ctx: click.Context) -> object:
        """Run the command; the commands that a refusal names work where it is read, and name the ledger there."""
        try:
            return super().invoke(ctx)
        except CannotRun as refused:
            again = ctx.meta.get(AGAIN)
            if again is not None and "axlebook" in refused.message:
                from axlebook.reports.addressed import addressed

                raise CannotRun(addressed(refused.message, again()), refused.lines) from None
            raise

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        """Offer the commands with their words to a shell, without importing one."""
        from click.shell_completion import CompletionItem

        begun = [CompletionItem(name, help=words) for name, words in COMMANDS.items() if name.startswith(incomplete)]
        return begun + click.Command.shell_complete(self, ctx, incomplete)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without importing one."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(axlebook.__version__, message="axlebook %(version)s")
@click.option("--debug", is_flag=True, help="Show where a fault of axlebook itself happened.")
def group(debug: bool) -> None:
    """Keep, check and tell the running gear of steam locomotives, from plain records in a folder.

    It reports against the limits on file; qualified people and the authority having jurisdiction decide.

    \b
      axlebook demo a-copy          a ledger to look at
      axlebook check a-copy         what it says of the metal
      axlebook init our-book        begin one's own
      axlebook check --help         a command, by example
    """
    if debug:
        os.environ[DEBUG] = "1"


def main(arguments: list[str] | None = None) -> None:
    """Run the command line and leave with its exit code, at once: taking a large book apart again takes a while."""
    gc.set_threshold(OBJECTS)
    code = COULD_NOT_RUN
    with contextlib.suppress(KeyboardInterrupt):  # of one who cannot wait until it is said that it stopped
        code = run(arguments)
    with contextlib.suppress(*UNREAD, KeyboardInterrupt):
        sys.stdout.flush()
        sys.stderr.flush()
    os._exit(code)


def run(arguments: list[str] | None = None) -> int:
    """Run the command line; give its exit code."""
    if sys.stdout is None:  # before anything is written: what is done must be told
        say("axlebook: standard output is closed. Send it somewhere, to /dev/null if nobody reads it.")
        return COULD_NOT_RUN
    try:
        found = group.main(arguments, prog_name="axlebook", standalone_mode=False)
        sys.stdout.flush()
    except click.exceptions.Exit as leaving:
        return leaving.exit_code
    except click.ClickException as refused:
        refused.show()
        return COULD_NOT_RUN
    except (click.Abort, KeyboardInterrupt):
        say("axlebook: stopped.")
        return COULD_NOT_RUN
    except (BrokenPipeError, SystemExit) as leaving:  # click leaves of itself where a pipe is broken, with 1,
        if isinstance(leaving, SystemExit) and not leaving.code:  # and when it has answered a shell that completes
            return 0
        # Who reads us has seen enough (`axlebook check | head`); the interpreter must not complain at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return COULD_NOT_RUN
    except OSError as fault:
        if _is_nowhere():
            say("axlebook: the folder in which this was called is gone. Change into one that is there.")
            return COULD_NOT_RUN
        if fault.errno not in FULL or fault.filename is not None:
            return _own_fault(fault)
        say(f"axlebook: the output cannot be written ({fault.strerror}).")  # click's own words: --help, --version
        return COULD_NOT_RUN
    except Exception as fault:
        return _own_fault(fault)
    return found if isinstance(found, int) else 0


def _is_nowhere() -> bool:
    """Whether the folder we stand in was taken away meanwhile, as git does where a branch has not got it."""
    try:
        os.getcwd()
    except OSError:
        return True
    return False


def _own_fault(fault: Exception) -> int:
    """A fault of axlebook is one sentence; the traceback only where it is asked for."""
    if os.environ.get(DEBUG, "") not in ("", "0"):
        import traceback

        traceback.print_exception(fault)
    say(
        f"axlebook: this is a fault of axlebook itself, not of your records ({type(fault).__name__}: {fault}). "
        f"Nothing is known about the records now. Report it with what --debug shows (axlebook --debug ...)."
    )
    return COULD_NOT_RUN


def say(text: str) -> None:
    """Talk to stderr, cleaned, and whatever its encoding is."""
    from axlebook.reports.cleaning import clean, encodable

    with contextlib.suppress(*UNREAD):  # the exit code says it still
        click.echo(encodable(clean(text), getattr(sys.stderr, "encoding", None) or "utf-8"), err=True)
