"""From an opened ledger to its report: one run, what was asked for of it, and where it stands in git."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

from axlebook.reports.first_steps import first_step
from axlebook.reports.unread import unseen
from axlebook.reports.view import NOTHING_COUNTED, Day, Report, Revision, within_paths
from axlebook.run import Beside, Outcome, beside_commit, beside_folder, count, run_commit, run_folder
from axlebook.sources.names import Entry

from .opened import Opened, day_told, today
from .progress import Watch


def run(found: Opened, asked: date | None, *, with_history: bool = False) -> Outcome:
    """Read the ledger, as it is or at a revision, and run every check; those of the book where its history is asked."""
    watch = Watch()
    if found.at is not None:
        commit = found.at.commit
        return run_commit(found.root, commit, as_of=asked, today=today(), with_history=with_history, watch=watch)
    return run_folder(found.root, as_of=asked, today=today(), with_history=with_history, watch=watch)


def entries(found: Opened) -> Iterable[Entry]:
    """The files of a ledger, as they are or at a revision, for a command that runs more than once."""
    from axlebook.sources.folder import read_folder
    from axlebook.sources.git_entries import entries_at

    return read_folder(found.root) if found.at is None else entries_at(found.root, found.at.commit)


def beside(found: Opened, *, with_history: bool) -> Beside:
    """What lies beside those files: attachments, and the history where it is asked for."""
    if found.at is None:
        return beside_folder(found.root, with_history=with_history)
    return beside_commit(found.root, found.at.commit, with_history=with_history)


def report(command: str, found: Opened, asked: date | None, *, with_git: bool, with_history: bool = True) -> Report:
    """The report of one run."""
    return report_of(command, run(found, asked, with_history=with_history), found, asked, with_git=with_git)


def report_of(command: str, outcome: Outcome, found: Opened, asked: date | None, *, with_git: bool) -> Report:
    """The report of a run that was made."""
    book = outcome.book
    shown = within_paths(outcome.findings, found.only)
    within = within_paths(outcome.within, found.only)
    day = day_told(book.as_of, asked, book.ledger.closed_on)
    return Report(
        command,
        day._replace(revision=found.at.words if found.at is not None else ""),
        count(book, shown, len(within)),
        shown,
        found.only,
        "" if found.only else first_step(book, shown),
        standing(found) if with_git else Revision(),
        unseen(book.entered),
    )


def standing(found: Opened) -> Revision:
    """Where an opened ledger stands in git: at a revision nothing can differ from it."""
    return revision(found.root) if found.at is None else Revision(found.at.commit, False)


def revision(root: Path) -> Revision:
    """Where the files of a ledger stand in git."""
    from axlebook.sources.git import state_of

    state = state_of(root)
    return Revision(state.commit, state.dirty)


def without_ledger(command: str) -> Report:
    """The empty report that frames what a command gives without reading a ledger."""
    return Report(command, Day(today()), NOTHING_COUNTED, ())
