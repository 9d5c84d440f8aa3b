"""Two states of one ledger, run and compared: what they have alike is read, judged and built once."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from axlebook.records.comparison import Comparison, Side, compare
from axlebook.run import (
    NOTHING_BESIDE,
    Known,
    Outcome,
    beside_commit,
    beside_folder,
    collector_at_rest,
    judge_states,
    keep,
    read_state,
    run_entries,
)
from axlebook.sources.folder import read_folder
from axlebook.sources.git import blobs_at
from axlebook.sources.git_entries import Planned, contents_of, entries_of, planned
from axlebook.sources.names import Entry


def run_two(
    root: Path, before: str | None, after: str | None, *, as_of: date | None, today: date
) -> tuple[Comparison, Outcome]:
    """Compare two commits (full hashes) of a ledger; `before` None: nothing, `after` None: the files as they are.

    Both are read at one day, the later state's, so that what differs comes from the records and not from the calendar.
    """
    plans = {commit: planned(blobs_at(root, commit)) for commit in (before, after) if commit is not None}
    contents = contents_of(root, plans.values())

    def entries(commit: str) -> list[Entry]:
        plan: list[Planned] = plans[commit]
        return list(entries_of(plan, contents))

    known = Known()
    with collector_at_rest():
        new = read_state(
            read_folder(root) if after is None else entries(after),
            as_of=as_of,
            today=today,
            beside=beside_folder(root, with_history=True)
            if after is None
            else beside_commit(root, after, with_history=True),
            known=known,
        )
        if before is None:
            (outcome,) = judge_states([new])
            return compare(_nothing(outcome), _side(outcome, known)), outcome
        beside = beside_commit(root, before, with_history=True)
        old = read_state(entries(before), as_of=new.book.as_of, today=today, beside=beside, known=known)
        of_old, outcome = judge_states([old, new])
        keep(known, of_old, outcome)
        return compare(_side(of_old, known), _side(outcome, known)), outcome


def _side(outcome: Outcome, known: Known) -> Side:
    trees = {path: known.tree(path, text) for path, text in outcome.contents.items()}
    return Side(outcome.book, outcome.findings, outcome.contents, trees)


def _nothing(new: Outcome) -> Side:
    """The state before there was a book."""
    empty = run_entries((), as_of=new.book.as_of, today=new.book.today, beside=NOTHING_BESIDE)
    return Side(empty.book)
