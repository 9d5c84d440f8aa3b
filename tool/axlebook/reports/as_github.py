"""A report as annotations of a workflow: worst first, at most ten of each level, and how many more there are.

A workflow shows ten of each level and drops the rest without a word; so what is beyond is counted in a plain line.
No text of a record can begin a line of its own here, so none can act as a command of the workflow.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from axlebook.findings import Finding, Severity, counts_for_exit

from .as_sarif import message_of
from .cleaning import clean
from .text import counts_words
from .view import WHO_DECIDES, Report

MOST = 10
LEVELS = ("error", "warning", "notice")


class Annotation(NamedTuple):
    """One annotation: its level, the finding that gives it its place, and its words."""

    level: str
    finding: Finding
    words: str


def render_github(report: Report, *, beside: str = "") -> str:
    """The annotations of a report, then its counts; `beside` stands before every path."""
    found = list(_annotations(report))
    lines = [_line(one, beside) for level in LEVELS for one in _of(found, level)[:MOST]]
    lines += [
        f"{beyond} more of level {level} are not annotated. All of them: axlebook check --all"
        for level in LEVELS
        if (beyond := len(_of(found, level)) - MOST) > 0
    ]
    lines += [clean(report.unseen)] if report.unseen else []
    head = f"axlebook check: {report.day.words}{counts_words(report.counts)}"
    return "".join(f"{line}\n" for line in [*lines, head, WHO_DECIDES])


def _of(found: Iterable[Annotation], level: str) -> list[Annotation]:
    return [one for one in found if one.level == level]


def _annotations(report: Report) -> Iterator[Annotation]:
    """Each finding; what was not assessed is grouped by cause, so that it does not crowd out the rest."""
    for finding in report.told_singly:
        yield Annotation(_level(finding), finding, message_of(finding))
    for cause in report.causes:
        many = len(cause.findings)
        words = f"not assessed, {many} time{'s' if many > 1 else ''}: {clean(cause.cause)}. {clean(cause.next)}"
        yield Annotation(_level(cause.first), cause.first, words.rstrip())


def _level(finding: Finding) -> str:
    if finding.waived or finding.severity is Severity.NOTE:
        return "notice"
    return "error" if counts_for_exit(finding, strict=False) else "warning"


def _line(one: Annotation, beside: str) -> str:
    finding = one.finding
    at = {
        "file": f"{beside}{finding.place.path}",
        "line": str(max(finding.line, 1)),
        "col": str(max(finding.column, 1)),
        "title": finding.check,
    }
    told = ",".join(f"{key}={_property(value)}" for key, value in at.items())
    return f"::{one.level} {told}::{_escaped(one.words)}"


def _escaped(text: str) -> str:
    r"""Text that stays on its line.

    >>> _escaped("100%\nof it")
    '100%25%0Aof it'
    """
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    """A value that ends where it should.

    >>> _property("a,b:c")
    'a%2Cb%3Ac'
    """
    return _escaped(clean(text)).replace(":", "%3A").replace(",", "%2C")
