"""The life of a part or record as text, for a screen, and as Markdown, for a file or a wiki."""

from __future__ import annotations

from collections.abc import Iterator

from .history_view import SIGNATURE, HistoryView, Row
from .page import SHORT, Look, Page, Paragraph, Piece, joined, paragraph
from .sheet_markdown import escaped
from .text import sentence
from .unread import LOST, NOT_READ, marked
from .view import WHO_DECIDES, Report

SHALLOW = "This clone is shallow: what it does not reach back to is not known here (git fetch --unshallow)."
POSITIONS = 5  # on one screen


def render_history(report: Report, view: HistoryView, look: Look, *, whole: bool) -> str:
    """The text of a history, at most 24 lines unless `whole`: the newest events are kept."""
    page = Page(look)
    head = page.lines(_head(report, view))
    places = page.lines(_positions(view, POSITIONS if not whole else len(view.positions)))
    rows = [page.lines(_row(row, whole=whole)) for row in view.rows]
    foot = page.lines([*_foot(view), paragraph(WHO_DECIDES)])
    if not whole:
        rows, left_out = _newest(rows, SHORT - len(head) - len(places) - len(foot) - 1)
        if left_out:
            foot = [*page.lines([paragraph(f"Not shown: {left_out} earlier. In full: --all")]), *foot]
    return joined([*head, *places, *(line for row in rows for line in row), *foot])


def _newest(rows: list[list[str]], room: int) -> tuple[list[list[str]], int]:
    kept: list[list[str]] = []
    for row in reversed(rows):
        room -= len(row)
        if room < 0:
            break
        kept.insert(0, row)
    return kept, len(rows) - len(kept)


def _head(report: Report, view: HistoryView) -> Iterator[Paragraph]:
    named = f"{view.kind} {view.id}" + (f" ({view.title})" if view.title else "")
    many = f"{len(view.rows)} event{'' if len(view.rows) == 1 else 's'}"
    yield paragraph(f"{report.day.words}{named}: {many}.", "bold", hang=2)
    yield from marked(view.not_read)
    if view.unknown:
        yield paragraph(sentence(view.unknown))


def _positions(view: HistoryView, most: int) -> Iterator[Paragraph]:
    for time, where, _ in view.positions[-most:] if most else ():
        yield Paragraph((Piece(f"{time}: ", "bold"), Piece(where)), indent=2, hang=2)
    if len(view.positions) > most:
        earlier = len(view.positions) - most
        yield paragraph(f"and {earlier} earlier place{'' if earlier == 1 else 's'}", indent=2)


def _row(row: Row, *, whole: bool) -> Iterator[Paragraph]:
    day = row.measured or row.event.day.text
    what = row.words.rstrip(".") if row.people or row.entered else row.words
    entered = "" if row.entered == day else row.entered  # what is not committed yet is told by its day
    told = [what, row.people, f"entered {entered}" if entered and row.measured else entered]
    words = "; ".join(filter(None, told))
    yield Paragraph((Piece(f"{day} {row.what}: ", "bold"), Piece(sentence(words))), hang=2, most=0 if whole else 2)
    if whole:
        signature = f" ({SIGNATURE})" if row.carries_signature else ""
        yield paragraph(f"{row.record}{signature}", "dim", indent=2, hang=2)


def _foot(view: HistoryView) -> Iterator[Paragraph]:
    for tag in view.tags:
        signature = "; it carries a signature, which was not verified" if tag.signature else ""
        yield paragraph(f"Tag {tag.name}: commit {tag.commit[:10]}{signature}.", hang=2)
    if view.shallow:
        yield paragraph(SHALLOW)


# --- Markdown -----------------------------------------------------------------------------------------------


def render_history_markdown(report: Report, view: HistoryView) -> str:
    """The Markdown of a history, whole."""
    return "\n".join(_parts(report, view)).rstrip() + "\n"


def _parts(report: Report, view: HistoryView) -> Iterator[str]:
    yield from (f"# {escaped(f'{view.kind} {view.id}')}", "")
    if view.title:
        yield from (escaped(view.title), "")
    yield from (f"As of {report.day.as_of}{f' ({escaped(report.day.why)})' if report.day.why else ''}.", "")
    if view.not_read:
        yield from (f"**! {NOT_READ}**{LOST}: {escaped(view.not_read)}", "")
    if view.unknown:
        yield from (f"**{escaped(sentence(view.unknown))}**", "")
    if view.positions:
        yield from ("## Where it stood", "", "| When | Where | Record |", "|---|---|---|")
        yield from (f"| {' | '.join(map(escaped, place))} |" for place in view.positions)
        yield ""
    yield from ("## What happened", "", "| Measured | What | By | Entered | Record |", "|---|---|---|---|---|")
    for row in view.rows:
        signature = f" ({SIGNATURE})" if row.carries_signature else ""
        cells = (row.measured, f"{row.what}: {row.words}", row.people, f"{row.entered}{signature}", row.record)
        yield f"| {' | '.join(map(escaped, cells))} |"
    yield ""
    if view.shallow:
        yield from (escaped(SHALLOW), "")
    yield escaped(WHO_DECIDES)
