"""The annual summary as Markdown; no text of a record can act as mark-up."""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Verdict

from .annual_parts import Annual, Cells, Listed, Part
from .item import Item
from .plan_drawing import told_of
from .plan_view import Mark, PlanAxle
from .sheet_markdown import escaped
from .text import SYMBOLS


def render_annual(annual: Annual) -> str:
    """The Markdown of a summary."""
    return "\n".join(_lines(annual)).rstrip() + "\n"


def _lines(annual: Annual) -> Iterator[str]:
    yield from (f"# {escaped(annual.title)}", "", escaped(f"{annual.state} {annual.revision}"), "")
    yield from (line for text in annual.lead if text for line in (escaped(text), ""))
    for group in annual.first:
        yield from (f"## {escaped(group.heading)}", "", *map(_item, group.items))
        yield from ([f"- {escaped(group.rest)}"] if group.more else [])
        yield ""
    if annual.plan:
        yield from ("## Plan of the wheels, front to rear", "")
        yield from _rows(("Axle", "Left", "Right", "Axle as a whole"), [_axle(axle) for axle in annual.plan])
    for part in annual.parts:
        yield from _part(part)
    yield from ("## Statement of a competent person", "", *map(escaped, annual.statement), "")
    yield from ("Name and qualification, place and day, signature:", "", escaped(annual.foot))


def _item(item: Item) -> str:
    sign = f"{SYMBOLS[item.verdict][0]} {item.verdict}: " if item.verdict else ""
    return f"- {sign}{escaped(item.text)}"


def _axle(axle: PlanAxle) -> Cells:
    return (axle.name, *(("", "", "") if axle.empty_since else map(_mark, axle.marks)))


def _mark(mark: Mark) -> str:
    sign = f"{SYMBOLS[mark.verdict][0]} " if mark.verdict else ""
    told = told_of(mark)
    return f"{sign}{mark.word}{f': {told}' if told else ''}"


def _part(part: Part) -> Iterator[str]:
    yield from (f"## {escaped(part.heading)}", "")
    if part.empty:
        yield from (escaped(part.nothing), "")
    if part.told:
        yield from (*map(_item, part.told), "")
    yield from (line for plot in part.plots for line in (f"Plot: {escaped(plot.words)}", ""))
    yield from (line for photo in part.photos for line in (f"Photo: {escaped(photo.caption)}", ""))
    for table in part.tables:
        yield from _table(table)


def _table(table: Listed) -> Iterator[str]:
    yield from (f"{escaped(table.caption)}:", "")
    yield from _rows(table.head, [_signed(cells, verdict) for cells, verdict in table.rows])


def _signed(cells: Cells, verdict: Verdict | None) -> Cells:
    return (f"{SYMBOLS[verdict][0]} {cells[0]}", *cells[1:]) if verdict else cells


def _rows(head: Cells, rows: list[Cells]) -> Iterator[str]:
    yield f"| {' | '.join(map(escaped, head))} |"
    yield f"|{'---|' * len(head)}"
    yield from (f"| {' | '.join(map(escaped, row))} |" for row in rows)
    yield ""
