"""What falls due, said as findings: what was done when, the period, where that comes from, what to do now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.due import Due, Kind, Late, done_late, falls_due
from axlebook.records.periods import time_words

RUN_OUT = dict.fromkeys((Kind.CERTIFICATE, Kind.WAIVER, Kind.RESTRICTION, Kind.LIMIT), "run out")


def judged_due(book: Book, check: str, kind: Kind) -> Iterator[Finding]:
    """The findings of everything of a kind that falls due; what is within is counted."""
    for due in falls_due(book):
        if due.kind is kind:
            yield due_finding(check, due, book.as_of)


def due_finding(check: str, due: Due, as_of: date) -> Finding:
    """One thing that falls due as a finding."""
    within = due.verdict is Verdict.WITHIN
    return Finding(
        check,
        due.verdict,
        due.severity,
        due.subject,
        due.place,
        "" if within else said(due, as_of),
        tuple(_figures(due, as_of)),
        due.source,
        "" if within else due.next,
        quantity=due.key,
        where=due.where,
        cause=due.cause,
    )


def said(due: Due, as_of: date) -> str:
    """What is to be said of something that falls due."""
    told = f" {_sentence(due.told)}" if due.told else ""
    head = f"{due.subject}, {due.title}"
    match due.verdict:
        case Verdict.OUTSIDE if due.since is not None:
            days = time_words(due.since, as_of + timedelta(1)) if as_of < date.max else ""
            over = RUN_OUT.get(due.kind, "overdue")
            return f"{head}: {over} since {due.since}, {days} now.{told}"
        case Verdict.OUTSIDE:
            return f"{head}: overdue; since which day the records do not tell.{told}"
        case Verdict.UNDECIDED:
            return f"{head}: it may be overdue; the records do not tell the service days exactly.{told}"
        case Verdict.NOT_ASSESSED:
            return f"{head}: it has NOT been judged: {due.cause}.{told}"
    return f"{head}.{told}"


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def _figures(due: Due, as_of: date) -> Iterator[Figure]:
    """The figures: when it was done, the last day within, how many days over or service days left."""
    if due.done_on:
        yield Figure("last done", due.done_on, "", due.record or "computed")
    if due.due_on is not None:
        yield Figure("last day within", due.due_on.isoformat(), "", "computed")
    if due.since is not None:
        yield Figure("overdue since", due.since.isoformat(), "", "computed")
    if due.left is not None:
        yield Figure("service days left", due.left.words, "", "computed")
    if due.estimate is not None:
        yield Figure("estimated", due.estimate.isoformat(), "", "computed")


def judged_late(book: Book, check: str, kinds: Iterable[Kind]) -> Iterator[Finding]:
    """Everything of some kinds that was done late: a note, for nothing can be done about it any more."""
    chosen = frozenset(kinds)
    for late in done_late(book):
        if late.kind in chosen:
            yield _late(check, late)


def _late(check: str, late: Late) -> Finding:
    return Finding(
        check,
        Verdict.OUTSIDE,
        Severity.NOTE,
        late.subject,
        late.place,
        f"{late.subject}, {late.title}: {late.done_on}, late by {late.late_words}. {_sentence(late.told)}",
        (Figure("done", late.done_on.isoformat(), "", late.record), Figure("late by", late.late_by, "", "computed")),
        late.source,
        "Nothing to do now; it stands in the book as it was.",
        quantity=late.key,
        where=f"{late.key} {late.done_on}",
    )
