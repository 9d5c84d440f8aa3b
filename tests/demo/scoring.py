"""Which findings of a run answer for which planted slip."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from axlebook.findings import Finding
from axlebook.practice import Answer
from axlebook.run import Outcome, run_entries
from axlebook.sources.folder import read_folder
from axlebook.sources.names import Entry
from axlebook.sources.practice_copy import plant_texts
from axlebook.sources.shipped import shipped
from axlebook.sources.yaml_text import read_tree

NAMES = Path(__file__).with_name("names.yaml")
TODAY = date(2026, 3, 1)  # the demo is closed: the day of the run decides nothing


@dataclass(frozen=True)
class Marked:
    """One slip and what the run said about it."""

    answer: Answer
    caught: bool
    said: tuple[str, ...]  # the checks that spoke at its record, whether or not they name it rightly


@dataclass(frozen=True)
class Score:
    """One seed's run."""

    seed: int
    marked: tuple[Marked, ...]
    unseen: tuple[Marked, ...]
    unexplained: tuple[Finding, ...]  # new findings at records where nothing was planted

    @property
    def share(self) -> float:
        """Caught and rightly named of those that could be seen."""
        return sum(one.caught for one in self.marked) / len(self.marked)


def read_names() -> dict[str, frozenset[str]]:
    """The check ids that name a kind of slip rightly, from the table."""
    tree = read_tree(NAMES.read_bytes())
    return {kind: frozenset(str(id) for id in ids if id) for kind, ids in tree.items()}


def demo_texts() -> dict[str, str]:
    """The records of the demo by path."""
    found = {}
    for entry in read_folder(shipped("demo-ledger")):
        if entry.content is not None and entry.path.endswith(".yaml"):
            found[entry.path] = entry.content.decode()
    return found


def run_texts(texts: Mapping[str, str]) -> Outcome:
    """Every check over some texts."""
    entries = [Entry(path, text.encode(), None) for path, text in sorted(texts.items())]
    return run_entries(entries, as_of=None, today=TODAY)


def score(
    seed: int, texts: Mapping[str, str], known: Iterable[str], names: Mapping[str, frozenset[str]]
) -> Score:
    """Plant, run, and mark every slip; `known` are the fingerprints of the unplanted demo."""
    planted = plant_texts(dict(texts), seed)
    present = frozenset(known)
    new = [one for one in run_texts(planted.texts).findings if one.fingerprint not in present]
    touched = {path for answer in (*planted.answers, *planted.unseen) for path in (answer.path, *answer.also)}
    return Score(
        seed,
        tuple(_mark(answer, new, names) for answer in planted.answers),
        tuple(_mark(answer, new, names) for answer in planted.unseen),
        tuple(one for one in new if one.place.path not in touched),
    )


def _mark(answer: Answer, new: Sequence[Finding], names: Mapping[str, frozenset[str]]) -> Marked:
    there = [one for one in new if one.place.path in (answer.path, *answer.also)]
    right = names.get(answer.kind, frozenset())
    caught = any(one.check in right and speaks_of(one, answer) for one in there)
    return Marked(answer, caught, tuple(sorted({one.check for one in there if speaks_of(one, answer)})))


def speaks_of(finding: Finding, answer: Answer) -> bool:
    """Whether a finding at the slip's record points at the slip, or names its subject."""
    pointer = finding.place.pointer
    points = any(
        f"{pointer}/".startswith(f"{one}/") or f"{one}/".startswith(f"{pointer}/") for one in answer.pointers
    )
    named = finding.where in answer.pointers  # a correction's finding stands in the correction, and names the place
    return points or named or (bool(finding.subject) and finding.subject in answer.subject.split(" and "))


def table(scores: Sequence[Score]) -> str:
    """Caught of planted, a line a kind; missed ones with what was said instead."""
    kinds: dict[str, list[Marked]] = {}
    for one in scores:
        for mark in one.marked:
            kinds.setdefault(mark.answer.kind, []).append(mark)
    lines = []
    for kind, marks in sorted(kinds.items()):
        lines.append(f"{kind:32} {sum(mark.caught for mark in marks):3} of {len(marks):3}")
        for mark in marks:
            if not mark.caught:
                said = ", ".join(mark.said) or "nothing"
                lines.append(
                    f"    missed: {mark.answer.path} {mark.answer.subject}: {mark.answer.before!r} -> "
                    f"{mark.answer.after!r}; said: {said}"
                )
    for one in scores:
        named = sum(mark.caught for mark in one.unseen)
        lines.append(
            f"seed {one.seed}: {sum(mark.caught for mark in one.marked)} of {len(one.marked)} "
            f"({one.share:.1%}); of {len(one.unseen)} too small to be seen {named} named; "
            f"{len(one.unexplained)} new findings at records where nothing was planted"
        )
    caught = sum(mark.caught for one in scores for mark in one.marked)
    planted = sum(len(one.marked) for one in scores)
    lines.append(
        f"caught and rightly named: {caught} of {planted} that could be seen ({caught / planted:.1%})"
    )
    return "\n".join(lines) + "\n"
