"""`wear` as a page: a table of all, then each quantity with its plot and facts; HTML in one file, or Markdown."""

from __future__ import annotations

from base64 import b64encode
from typing import NamedTuple

from .sheet_markdown import escaped
from .text import sentence
from .view import WHO_DECIDES, Report
from .wear_plot import alternative, drawing, wear_svg
from .wear_view import WearRow

PLOTS = 12  # plots on a page, unless all are asked for
HEAD = ("Where", "Quantity", "Now", "A year", "Soonest limit", "Reached", "Order")
HOW = (
    "The rate is the median of all pairs of readings that nothing lies between: no work, no other gauge. Ranges are "
    "95 percent. Forecasts come from past wear; work and service change them."
)
KEY = (
    "Markers and line styles tell the stretches apart: a stretch ends at a work or another gauge. Bars: two standard "
    "uncertainties. Gray band: 95 percent of forecasts. Heavy lines: limits. Dotted upright lines: work done, and now."
)


class Plate(NamedTuple):
    """One quantity on the page."""

    heading: str
    facts: tuple[tuple[str, str], ...]
    chart: str  # SVG, base64
    alternative: str


def facts(row: WearRow) -> tuple[tuple[str, str], ...]:
    """All that is known of one quantity's wear, as label and words."""
    found = [("Readings", row.readings), ("Last reading", f"{row.last} on {row.last_on}"), ("Rate", row.rate)]
    if row.level is not None:
        found += [("Now, by the line", row.now), ("Scatter", row.scatter)]
    if row.state:
        found.append(("State", row.state))
    for reach in row.made.reaches:
        left = row.left(reach)
        words = f"{row.when(reach)}{f'; {left}' if left else ''}. By {reach.target.limit.cited}"
        found.append((f"Limit, {row.limit(reach).partition(',')[0]}", words))
    found += [("Limit", words) for words in row.kept]
    if row.unplaced:
        found.append(("Plane", row.unplaced))
    if row.order:
        found.append(("Order", row.order))
    return tuple((label, sentence(words)) for label, words in found)


def table(rows: list[WearRow]) -> list[tuple[str, ...]]:
    """A line a quantity."""
    return [_cells(row) for row in rows]


def _cells(row: WearRow) -> tuple[str, ...]:
    rate = row.length(row.line.rate * 365.25) if row.line else "not known"
    first = row.made.reaches[0] if row.made.reaches else None
    limit = row.limit(first) if first else row.state
    return (
        row.made.site.name, row.title, row.now, rate, limit, row.when(first) if first else "",
        row.order.partition(" (")[0],
    )  # fmt: skip


def wear_html(report: Report, rows: list[WearRow], *, whole: bool, part: str) -> str:
    """The page."""
    from .html import render_page

    shown = rows if whole or part else rows[:PLOTS]
    plates = [
        Plate(
            f"{row.made.site.name}{f' ({row.part})' if row.part else ''}: {row.title}", facts(row),
            b64encode(wear_svg([drawing(row)]).encode()).decode("ascii"), alternative(row),
        )
        for row in shown
    ]  # fmt: skip
    return render_page(
        "wear.html.j2", title=f"Wear{f' of {part}' if part else ''}", day=report.day, head=HEAD, rows=table(rows),
        plates=plates, hidden=len(rows) - len(shown), how=HOW, key=KEY, foot=WHO_DECIDES,
    )  # fmt: skip


def wear_markdown(report: Report, rows: list[WearRow]) -> str:
    """The table as Markdown."""
    lines = [f"# Wear as of {report.day.as_of}", "", HOW, "", _line(HEAD), _line(("---",) * len(HEAD))]
    lines += [_line(tuple(escaped(cell) for cell in cells)) for cells in table(rows)]
    return "\n".join([*lines, "", WHO_DECIDES, ""])


def _line(cells: tuple[str, ...]) -> str:
    return f"| {' | '.join(cells)} |"
