"""Finding the ledger that a command is about, the paths in it that were asked for, and the day to read it at."""

from __future__ import annotations

import os
import shlex
from datetime import date
from pathlib import Path
from typing import NamedTuple

from axlebook.cli import AGAIN, CannotRun
from axlebook.reports.cleaning import clean
from axlebook.reports.view import Day
from axlebook.sources.folder import find_ledger
from axlebook.sources.names import LEDGER


class At(NamedTuple):
    """A revision as it was asked for, and the commit it names."""

    named: str
    commit: str

    @property
    def words(self) -> str:
        """The commit as a person reads it, and how it was asked for.

        >>> At("v1", "8d3f2a91c0de" + 28 * "0").words
        '8d3f2a91c0de (v1)'
        """
        short = self.commit[:12]
        return short if self.commit.startswith(self.named) else f"{short} ({clean(self.named)})"


class Opened(NamedTuple):
    """The ledger's folder, the paths in it that are shown (none: all), and what stands before a path as typed here.

    `at` None: the files as they are. With a revision the folder may be a bare clone, or hold no ledger any more.
    """

    root: Path
    only: tuple[str, ...]
    beside: str
    at: At | None = None


def today() -> date:
    """The day by this machine's clock: asked here and nowhere else."""
    return date.today()


def open_ledger(ledger: str | None, paths: tuple[str, ...] = (), at: str | None = None) -> Opened:
    """Find the ledger: the one named, else upward from the paths, else upward from here; `at` is a revision of it."""
    if at is not None:
        from .opened_at import open_at

        return _noted(open_at(ledger, paths, at))
    for path in paths:
        if "\0" in path or not os.path.lexists(path):
            raise CannotRun(f"there is no file or folder {quoted(path)}.")
    root = _named(ledger) if ledger is not None else _upward(paths)
    only = tuple(dict.fromkeys(inside(root, path) for path in paths))
    return _noted(Opened(root, () if "." in only else only, beside(root)))


def _noted(found: Opened) -> Opened:
    """The ledger, noted for a refusal: the commands that it names must find the same one."""
    import click

    context = click.get_current_context(silent=True)
    if context is not None:
        context.meta[AGAIN] = lambda: named_again(found)
    return found


def quoted(path: str) -> str:
    """A path as typed, in quotes, fit to print."""
    return f"'{clean(path)}'"


def _named(ledger: str) -> Path:
    if "\0" in ledger or not os.path.isdir(ledger):
        raise CannotRun(f"--ledger names {quoted(ledger)}, which is no folder.")
    if not os.path.isfile(os.path.join(ledger, LEDGER)):
        raise CannotRun(
            f"--ledger names {quoted(ledger)}, which is no ledger: there is no {LEDGER} in it.{_bare(ledger)}"
        )
    return Path(os.path.realpath(ledger))


def _bare(ledger: str) -> str:
    from axlebook.sources.git import is_bare

    return " It is a bare clone: name a commit, a tag or a branch with --at." if is_bare(Path(ledger)) else ""


def _upward(paths: tuple[str, ...]) -> Path:
    found = {start: find_ledger(_standing(start)) for start in paths or (".",)}
    for start, root in found.items():
        if root is None:
            where = f"in or above {quoted(start)}" if paths else "here or in a folder above"
            raise CannotRun(
                f"there is no ledger {where} (no {LEDGER}). Name one with --ledger, or begin one: axlebook init DIR"
            )
    roots = {root for root in found.values() if root is not None}
    if len(roots) > 1:
        raise CannotRun("the paths belong to different ledgers; check one ledger at a time.")
    return roots.pop()


def _standing(path: str) -> Path:
    """Where a path stands: a link is a thing in its folder, unless it is a link to a folder."""
    if os.path.islink(path) and not os.path.isdir(path):
        return Path(path).parent
    return Path(path)


def inside(root: Path, path: str) -> str:
    """A path as the ledger names it: `inspections/2026`, or `.` for all of it."""
    stands = os.path.join(os.path.realpath(os.path.dirname(os.path.abspath(path))), os.path.basename(path))
    for full in (os.path.realpath(path), stands):
        found = os.path.relpath(full, root) if _same_drive(full, root) else os.pardir
        if found != os.pardir and not found.startswith(os.pardir + os.sep):
            return found.replace(os.sep, "/")
    raise CannotRun(f"{quoted(path)} is not in the ledger {quoted(str(root))}.")


def _same_drive(path: str, root: Path) -> bool:
    return os.path.splitdrive(path)[0] == os.path.splitdrive(str(root))[0]


def beside(root: Path) -> str:
    """What to put before a record's path so that it can be opened from here; '' where the ledger is elsewhere."""
    here = os.path.realpath(os.getcwd())
    if not _same_drive(here, root):
        return ""
    found = os.path.relpath(root, here)
    return "" if found == os.curdir or found.startswith(os.pardir) else found.replace(os.sep, "/") + "/"


def named_again(found: Opened) -> str:
    """The option that names the ledger for a next command; '' where one stands in it and need not name it."""
    if find_ledger(Path(".")) == found.root:
        return ""
    return f" --ledger {path_again(found, '.')}"


def path_again(found: Opened, path: str) -> str:
    """A path of the ledger as it is typed from here."""
    here, full = os.path.realpath(os.getcwd()), str(found.root / path)
    near = os.path.relpath(full, here) if _same_drive(here, found.root) else full
    return shlex.quote(min(near, full, key=len))


def day_again(found: Opened, as_of: str | None) -> str:
    """The options that name the same commit and day again."""
    commit = f" --at {shlex.quote(found.at.named)}" if found.at else ""
    return f"{commit} --as-of {as_of}" if as_of else commit


def asked_day(text: str | None) -> date | None:
    """The day of --as-of."""
    if text is None:
        return None
    from axlebook.records.forms import parse_day

    day = parse_day(text)
    if day is None:
        raise no_day("--as-of", text, "2026-02-28")
    return day


def no_day(name: str, text: str, otherwise: str) -> CannotRun:
    """What is said of a day that is not written as one: how to write what it means, or such as another."""
    from axlebook.records.dates_meant import as_written, fault_of_iso

    fault = fault_of_iso(text)
    told = f"is no day: {fault}" if fault else "is no day as it is written here"
    return CannotRun(f"{name} {quoted(text[:40])} {told}. {as_written(text, otherwise)}")


def day_told(as_of: date, asked: date | None, closed_on: date | None) -> Day:
    """The day a report is of, and why it is not simply today."""
    if asked is not None:
        return Day(as_of, "as asked")
    return Day(as_of, "closed") if closed_on is not None else Day(as_of)
