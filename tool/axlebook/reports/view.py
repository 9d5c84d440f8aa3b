"""What a report of findings holds, before any renderer: what is shown, in which order, grouped how, and the exit."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from datetime import date
from typing import NamedTuple

from axlebook.findings import SEVERITY_ORDER, Finding, Verdict, counts_for_exit

from .first_steps import without_first_step

WHO_DECIDES = "This reports against the limits on file; qualified people and the authority having jurisdiction decide."
COUNTS = ("read", "checked", "within", "outside", "suspect", "undecided", "not_assessed", "unreadable")
NOTHING_COUNTED: Mapping[str, int] = dict.fromkeys(COUNTS, 0)


class Day(NamedTuple):
    """The day a report is as of, and why it is not simply today: closed, asked for, or '' for today."""

    as_of: date
    why: str = ""
    revision: str = ""  # the commit it was asked to be read at, and how that was named

    @property
    def words(self) -> str:
        """How the first line of an output begins; '' where the files are read as they are, today."""
        told = [f"at {self.revision}"] if self.revision else []
        told += [f"as of {self.as_of} ({self.why})"] if self.why else []
        words = ", ".join(told)
        return f"{words[0].upper()}{words[1:]}: " if words else ""


class Revision(NamedTuple):
    """Where the ledger stands in git, as far as it was asked."""

    commit: str | None = None
    dirty: bool | None = None


class Cause(NamedTuple):
    """All that was not assessed for one cause: how many, the first of them, and the one next step."""

    cause: str
    findings: tuple[Finding, ...]
    next: str

    @property
    def first(self) -> Finding:
        """The finding that stands for all."""
        return self.findings[0]


class Report(NamedTuple):
    """The findings of one run as they are to be told."""

    command: str
    day: Day
    counts: Mapping[str, int]
    findings: tuple[Finding, ...]  # worst first, all verdicts but `within`
    only: tuple[str, ...] = ()  # the paths that were asked for; none: everything
    first_step: str = ""  # what a book that is only begun needs first
    revision: Revision = Revision()
    unseen: str = ""  # what of the history could not be looked at, and the step that mends it; '' where nothing

    @property
    def told_singly(self) -> tuple[Finding, ...]:
        """The findings told one by one."""
        return tuple(f for f in self.findings if f.verdict is not Verdict.NOT_ASSESSED)

    @property
    def causes(self) -> list[Cause]:
        """What was not assessed, grouped by cause: the heaviest first, then the most frequent."""
        groups: dict[tuple[str, bool], list[Finding]] = defaultdict(list)
        for finding in without_first_step(self.findings) if self.first_step else self.findings:
            if finding.verdict is Verdict.NOT_ASSESSED:
                groups[finding.cause or finding.message, bool(finding.waived)].append(finding)
        found = [Cause(cause, tuple(many), _usual_step(many)) for (cause, _), many in groups.items()]
        return sorted(found, key=_weight)

    def fails(self, *, strict: bool) -> bool:
        """Whether a finding turns the exit code to 1."""
        return any(counts_for_exit(finding, strict=strict) for finding in self.findings)


def _usual_step(findings: Iterable[Finding]) -> str:
    return Counter(finding.next for finding in findings).most_common(1)[0][0]


def _weight(cause: Cause) -> tuple[bool, int, int, str]:
    heaviest = min(SEVERITY_ORDER[finding.severity] for finding in cause.findings)
    return bool(cause.first.waived), heaviest, -len(cause.findings), cause.cause


def within_paths(findings: Iterable[Finding], only: tuple[str, ...]) -> tuple[Finding, ...]:
    """The findings that stand in one of these files or folders; all where none is named.

    A folder is named without a slash at its end; `.` is never among them.
    """
    if not only:
        return tuple(findings)
    folders = tuple(f"{path}/" for path in only)
    return tuple(f for f in findings if f.place.path in only or f.place.path.startswith(folders))


__all__ = ["COUNTS", "NOTHING_COUNTED", "WHO_DECIDES", "Cause", "Day", "Report", "Revision", "within_paths"]
