"""One run, joined: from files to findings. The only module that knows the whole way.

Two rules hold the house up:

1. All that decides is in the core. It takes values and gives values: no files, no clock, no git, no printing.
2. All that touches the world is in the shell. It decides nothing.
"""

from __future__ import annotations

import gc
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

from axlebook.checks import findings_of, in_turns_of, run_checks
from axlebook.checks._corrected import say_corrected
from axlebook.checks._waiving import waive
from axlebook.findings import Finding, Place, Verdict, worst_first
from axlebook.read import SECOND_PAYS, Known, Watch, read_book
from axlebook.records.attached import Attached
from axlebook.records.book import Book
from axlebook.records.entered import Entered, has_own_history
from axlebook.sources.attachments import read_attached
from axlebook.sources.folder import read_folder
from axlebook.sources.git_attachments import read_attached_at
from axlebook.sources.git_entries import entries_at
from axlebook.sources.git_history import read_entered
from axlebook.sources.names import Entry
from axlebook.sources.refusals import Refusal
from axlebook.sources.two_hands import in_turns
from axlebook.sources.yaml_text import read_places


@dataclass(frozen=True)
class Outcome:
    """What one run found: the book, the findings worst first, and the counts."""

    book: Book
    findings: tuple[Finding, ...]  # without what is within
    within: tuple[Finding, ...]
    counts: dict[str, int]
    contents: Mapping[str, bytes] = field(default_factory=dict)  # what was read, by path


class State(NamedTuple):
    """A ledger that was read and not judged yet: the book, and the texts by path."""

    book: Book
    contents: Mapping[str, bytes]


TreeOf = Callable[[str, bytes], Mapping[str, Any] | None]


class Beside(NamedTuple):
    """What lies beside the records of a ledger and is asked for once they are read; None where nobody asks."""

    entered: Callable[[Mapping[str, bytes], TreeOf], Entered] | None = None  # how records came in, by their texts
    attached: Callable[[Iterable[str]], Mapping[str, Attached]] | None = None  # the attachments of these names


NOTHING_BESIDE = Beside()
MANY = 50_000  # objects; a book of so many is not looked through again


def beside_folder(root: Path, *, with_history: bool) -> Beside:
    """What lies beside the records of a folder: its attachments and, where it is asked for, its history."""
    history = (lambda texts, tree_of: read_entered(root, texts, "HEAD", tree_of)) if with_history else None
    return Beside(history, lambda names: read_attached(root, names))


def run_folder(
    root: Path, *, as_of: date | None, today: date, with_history: bool = False, watch: Watch | None = None
) -> Outcome:
    """Read a ledger's folder and run every check."""
    beside = beside_folder(root, with_history=with_history)
    return run_entries(read_folder(root), as_of=as_of, today=today, beside=beside, watch=watch)


def beside_commit(root: Path, commit: str, *, with_history: bool) -> Beside:
    """What lies beside the records of a ledger at a commit."""
    history = (lambda texts, tree_of: read_entered(root, texts, commit, tree_of)) if with_history else None
    return Beside(history, lambda names: read_attached_at(root, commit, names))


def run_commit(
    root: Path,
    commit: str,
    *,
    as_of: date | None,
    today: date,
    with_history: bool = False,
    watch: Watch | None = None,
) -> Outcome:
    """Read a ledger as a commit (a full hash) has it and run every check; no file is touched."""
    beside = beside_commit(root, commit, with_history=with_history)
    return run_entries(entries_at(root, commit), as_of=as_of, today=today, beside=beside, watch=watch)


def run_entries(
    entries: Iterable[Entry],
    *,
    as_of: date | None,
    today: date,
    beside: Beside = NOTHING_BESIDE,
    known: Known | None = None,
    watch: Watch | None = None,
) -> Outcome:
    """Run every check over entries, from a folder or from a commit."""
    with collector_at_rest():
        known = known or Known()
        state = read_state(entries, as_of=as_of, today=today, beside=beside, known=known, watch=watch)
        outcome = judge_states([state], watch)[0]
        keep(known, outcome)
        return outcome


def read_state(
    entries: Iterable[Entry],
    *,
    as_of: date | None,
    today: date,
    beside: Beside,
    known: Known,
    watch: Watch | None = None,
) -> State:
    """Read entries into a book with what lies beside them; nothing is judged yet."""
    contents: dict[str, bytes] = {}
    book = read_book(entries, as_of=as_of, today=today, contents=contents, known=known, watch=watch)
    return State(with_beside(book, contents, beside, known), contents)


_kept: list[object] = []


def keep(*made: object) -> None:
    """Keep what a run made until the next or the program's end: taking a large book apart takes a while."""
    _kept[:] = made


def judge_states(states: Sequence[State], watch: Watch | None = None) -> list[Outcome]:
    """What all checks find in some states of a ledger."""
    outcomes = []
    for (book, contents), found in zip(states, found_in([state.book for state in states], watch), strict=True):
        everything = list(waive(book, say_corrected(book, placed(found, contents))))
        findings = sorted((f for f in everything if f.verdict is not Verdict.WITHIN), key=worst_first)
        within = tuple(f for f in everything if f.verdict is Verdict.WITHIN)
        outcomes.append(Outcome(book, tuple(findings), within, count(book, findings, len(within)), contents))
    return outcomes


def with_beside(book: Book, contents: Mapping[str, bytes], beside: Beside, known: Known) -> Book:
    """The book with what lies beside its records."""
    return replace(
        book,
        entered=beside.entered(contents, known.tree) if beside.entered and has_own_history(book.ledger.tree) else None,
        attached=beside.attached([one.file for one in book.cited]) if beside.attached else None,
    )


def found_in(books: Sequence[Book], watch: Watch | None = None) -> list[list[Finding]]:
    """What all checks find in each book, no line looked up; in large ones two processes do, of which one is watched."""
    pieces = in_turns_of(len(books))
    if len(books) == 1:  # what nearly all ask for, worked out before the two part; of two books each does its own
        _ = books[0].series  # not what was seen: who asks for that first has other work meanwhile
    found = in_turns(
        pieces,
        lambda piece: findings_of(books[piece[0]], piece[1]),
        pays=sum(book.read for book in books) >= SECOND_PAYS,
        watch=(lambda numbers: watch("Checking", numbers)) if watch else iter,
    )
    known: list[dict[str, list[Finding]]] = [{} for _ in books]
    for (number, id), of_check in zip(pieces, found, strict=True):
        known[number][id] = of_check
    return [run_checks(book, of_one) for book, of_one in zip(books, known, strict=True)]


def placed(findings: Iterable[Finding], contents: Mapping[str, bytes]) -> Iterator[Finding]:
    """Findings that look up their line and column in what was read; what is within is not shown and needs none."""
    known: dict[str, dict[str, tuple[int, int]]] = {}

    def look_up(place: Place) -> tuple[int, int]:
        if place.path not in contents:
            return 1, 1
        if place.path not in known:
            known[place.path] = _places(contents[place.path])
        return _nearest(known[place.path], place.pointer)

    for finding in findings:
        yield finding if finding.verdict is Verdict.WITHIN else finding.looked_up_by(look_up)


def _places(content: bytes) -> dict[str, tuple[int, int]]:
    try:
        return read_places(content)
    except Refusal:
        return {}


def _nearest(places: dict[str, tuple[int, int]], pointer: str) -> tuple[int, int]:
    """The place of a pointer, or of what holds it where the pointer names something absent."""
    while pointer and pointer not in places:
        pointer = pointer.rpartition("/")[0]
    return places.get(pointer, (1, 1))


def count(book: Book, findings: Iterable[Finding], within: int) -> dict[str, int]:
    """The counts of a run; `checked` is how many judgements were made."""
    by_verdict = Counter(finding.verdict for finding in findings)
    judged = by_verdict[Verdict.OUTSIDE] + by_verdict[Verdict.UNDECIDED] + by_verdict[Verdict.SUSPECT] + within
    return {
        "read": book.read,
        "checked": judged,
        "within": within,
        "outside": by_verdict[Verdict.OUTSIDE],
        "suspect": by_verdict[Verdict.SUSPECT],
        "undecided": by_verdict[Verdict.UNDECIDED],
        "not_assessed": by_verdict[Verdict.NOT_ASSESSED],
        "unreadable": by_verdict[Verdict.UNREADABLE],
    }


@contextmanager
def collector_at_rest() -> Iterator[None]:
    """Nothing read here is garbage until the run ends; looking for it costs a tenth of the time, also afterwards."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            if gc.get_count()[0] > MANY:
                gc.freeze()
            gc.enable()


__all__ = [
    "NOTHING_BESIDE", "Beside", "Known", "Outcome", "State", "beside_commit", "beside_folder", "collector_at_rest",
    "count", "found_in", "judge_states", "keep", "read_book", "read_state", "run_commit", "run_entries", "run_folder",
]  # fmt: skip
