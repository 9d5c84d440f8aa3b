"""What falls due as text: a list by day, or a line a month as a calendar; overdue first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from axlebook.checks._due import said
from axlebook.findings import Verdict
from axlebook.records.due import Late

from .condition_due import OPEN, standing_on
from .due_view import DueList, DueRow, EngineCounters, Month
from .page import SHORT, Look, Page, Paragraph, Piece, joined, paragraph
from .text import SYMBOLS, sentence
from .unread import unread_lines
from .view import WHO_DECIDES, Report

LONGEST_WORD = 14  # letters: so many are given up for a cut between words
RULER = "1...5....10...15...20...25...30."
ESTIMATE = "A day marked ~ is estimated from the service days of the last 365 days."


def render_due(report: Report, found: DueList, look: Look, *, whole: bool) -> str:
    """The list as text, at most 24 lines unless `whole`."""
    page = Page(look)
    unread = unread_lines(report.findings, whole=whole)
    head = page.lines([paragraph(_first_line(report, found), "bold", hang=2), *unread, *_lacking(report, found)])
    foot = page.lines([*_silent(found), paragraph(WHO_DECIDES)])
    if whole:
        return joined([*head, *page.lines(_whole(found, look)), *foot])
    counters = [
        paragraph(_cut(f"{one.engine}, service days {one.since}.", look.width), whole=True)
        for one in found.counters
        if one.counters
    ]
    rows = [*found.overdue, *found.now, *found.unknown, *found.coming]
    lines = page.lines([_short(row, look, found.as_of) for row in rows])
    estimate = page.lines([paragraph(ESTIMATE, "dim")]) if any(row.first.estimated for row in rows) else []
    told = page.lines(counters)
    room = SHORT - len(head) - len(foot) - len(told) - len(estimate) - 1
    shown = lines if len(lines) <= room else lines[:room]
    more = _more(len(lines) - len(shown), found)
    return joined([*head, *told, *shown, *page.lines([paragraph(more, whole=True)]), *estimate, *foot])


def render_calendar(report: Report, found: DueList, look: Look, *, whole: bool) -> str:
    """A line a month: a mark on each day on which something falls due, and what it is."""
    page = Page(look)
    lines = page.lines([paragraph(_first_line(report, found), "bold", hang=2)])
    lines += page.lines(unread_lines(report.findings, whole=whole))
    lines += page.lines([paragraph(f"{'':8}{RULER}", "dim", whole=True)])
    for month in found.months:
        lines += _month(month, look, page, whole=whole)
    overdue = sum(len(row.many) for row in found.overdue)
    notes = [f"{overdue} overdue, not in the calendar: see the list."] if overdue else []
    notes.append("# due on that day, ~ estimated; the next time of each only.")
    foot = [*(paragraph(note) for note in notes), *_silent(found), paragraph(WHO_DECIDES)]
    return joined([*lines, *page.lines(foot)])


def _silent(found: DueList) -> list[Paragraph]:
    return [paragraph(line, hang=2) for line in standing_on(due for row in found.rows for due in row.many)]


def _first_line(report: Report, found: DueList) -> str:
    def count(rows: Iterable[DueRow]) -> int:
        return sum(len(row.many) for row in rows)

    told = (
        f"{count(found.overdue)} overdue, {count(found.now)} before it runs, {count(found.coming)} due by "
        f"{found.until}, {count(found.later)} later, {count(found.unknown)} not known."
    )
    return f"{report.day.words}{told}"


def _lacking(report: Report, found: DueList) -> list[Paragraph]:
    """What a book that is only begun needs first, and where no inspection can fall due: silence is no pass."""
    told = [paragraph(f"First: {report.first_step}", hang=7)] if report.first_step else []
    return [*told, paragraph(found.without_interval, hang=2)] if found.without_interval else told


def _mark(row: DueRow, look: Look) -> tuple[str, str]:
    due = row.first
    if due.verdict is Verdict.WITHIN:
        return (look.symbol("→"), "yellow") if due.now else (" ", "")
    sign, style = SYMBOLS[due.verdict]
    return look.symbol(sign), style


def _day(row: DueRow) -> str:
    due = row.first
    if due.now:
        return "now".ljust(11)
    if due.day is None:
        return due.verdict.ljust(11)[:12] if due.verdict is not Verdict.WITHIN else "no day".ljust(11)
    return f"{'~' if due.estimated else ''}{due.day}".ljust(11)


def _short(row: DueRow, look: Look, as_of: date) -> Paragraph:
    """One line a row."""
    sign, style = _mark(row, look)
    head = f"{_day(row)} "
    heavy = f" ({row.first.severity})" if row.first.verdict is Verdict.OUTSIDE else ""
    words = _cut(f"{row.words}{heavy or _unless_done(row, as_of)}", max(look.width - len(head) - 2, 20))
    return Paragraph((Piece(f"{sign} ", style), Piece(head, style), Piece(words)), whole=True)


def _unless_done(row: DueRow, as_of: date) -> str:
    """What is said of a day that has gone by, where the records do not tell whether it was done."""
    due = row.first
    return " (overdue unless it was done)" if due.verdict in OPEN and due.day is not None and due.day < as_of else ""


def _more(left: int, found: DueList) -> str:
    parts = [f"{left} more"] if left > 0 else []
    if found.later:
        parts.append(f"{sum(len(row.many) for row in found.later)} later")
    if found.late:
        parts.append(f"{len(found.late)} done late in the past")
    return f"Not shown: {', '.join(parts)}. In full: --all" if parts else "That is all. Why and by what: --all"


def _whole(found: DueList, look: Look) -> list[Paragraph]:
    lines: list[Paragraph] = []
    parts: Sequence[tuple[str, tuple[DueRow, ...]]] = (
        ("Overdue", found.overdue),
        ("Before it runs", found.now),
        ("Not known", found.unknown),
        (f"Due by {found.until}", found.coming),
        ("Later, or without a day", found.later),
    )
    for title, rows in parts:
        if rows:
            lines.append(paragraph(f"{title}:", "bold"))
            lines += [one for row in rows for one in _long(row, found, look)]
    lines.append(paragraph("Counted:", "bold"))
    lines += [one for engine in found.counters for one in _counted(engine)]
    lines.append(paragraph("Done late in the past:", "bold"))
    late = [paragraph(_late(late), indent=2, hang=2) for late in found.late]
    lines += late or [paragraph("Nothing that the records tell of.", indent=2)]
    if any(row.first.estimated for row in found.rows):
        lines.append(paragraph(ESTIMATE))
    return lines


def _late(late: Late) -> str:
    return f"{late.done_on} {late.subject}: {late.title}, late by {late.late_words}; {sentence(late.told)}"


def _counted(one: EngineCounters) -> list[Paragraph]:
    found = [paragraph(one.words, indent=2, hang=2)]
    for counter in one.counters:
        miles = f", {counter.miles}" if counter.miles else ""
        told = f"{counter.title}, last {counter.since}: {counter.days.words} service days{miles} since."
        found.append(paragraph(told, indent=4, hang=2))
    return found


def _long(row: DueRow, found: DueList, look: Look) -> list[Paragraph]:
    sign, style = _mark(row, look)
    due = row.first
    lines = [Paragraph((Piece(f"{sign} {_day(row)} ", style), Piece(row.words)), hang=4, indent=2)]
    if due.verdict is Verdict.WITHIN:
        why = sentence("; ".join(dict.fromkeys(one.told for one in row.many)))
    else:
        why = said(due, found.as_of).removeprefix(f"{due.subject}, {due.title}").lstrip(":. ")
    lines.append(paragraph(f"{why[:1].upper()}{why[1:]} By {sentence(due.source)}", indent=6))
    if due.next:
        lines.append(paragraph(f"{look.symbol('→')} {sentence(due.next)}", indent=6, hang=2))
    return lines


def _month(month: Month, look: Look, page: Page, *, whole: bool) -> list[str]:
    marks = "".join(_marked(month, day) for day in range(1, month.days + 1)).ljust(32)
    told = "; ".join(f"{_dated(row)} {row.words}" for row in month.rows)
    head = f"{month.name} {marks}"
    if whole:
        return page.lines([paragraph(f"{head} {told}".rstrip(), hang=len(head) + 1)])
    return page.lines([paragraph(f"{head} {_cut(told, look.width - len(head) - 1)}".rstrip(), whole=True)])


def _cut(text: str, room: int) -> str:
    """A text cut at its end, between two words where one is near: in a calendar its beginning tells more.

    >>> _cut("Certificate of the wheel caliper", 30), _cut("Certificate of the wheel caliper", 21)
    ('Certificate of the wheel...', 'Certificate of the...')
    """
    if len(text) <= room:
        return text
    kept = text[: max(room - 3, 0)]
    if not text[len(kept) : len(kept) + 1].isspace() and " " in kept[-LONGEST_WORD:]:
        kept = kept[: kept.rindex(" ")]
    return f"{kept.rstrip(' ,;:')}..."


def _dated(row: DueRow) -> str:
    day = row.first.day
    return f"{'~' if row.first.estimated else ''}{day.day}" if day else ""


def _marked(month: Month, day: int) -> str:
    rows = month.on(day)
    return "." if not rows else "~" if all(row.first.estimated for row in rows) else "#"
