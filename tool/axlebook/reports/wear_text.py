"""`wear` as text: a table of a screen, soonest to a limit first; and every quantity in full where that is asked."""

from __future__ import annotations

from datetime import date

from axlebook.findings import Finding

from .page import SHORT, Look, Page, Paragraph, joined, paragraph
from .sparkline import sparkline
from .text import sentence
from .unread import unread_lines
from .view import WHO_DECIDES, Report
from .wear_view import WearRow

HEAD = ("where", "quantity", "trend", "now", "a year", "reaches")
NARROW = (25, 16, 7, 8, 6)  # widths of all columns but the last, at 80 columns
WIDE = (28, 34, 12, 10, 10)
LEAST = 22  # of a place: less tells wheels of one engine no longer apart
LEAST_NAME = 9  # of a quantity: less tells a flange's height and its thickness no longer apart
GAP = " "
STAGE = {"condemning": "cond.", "shop": "shop"}
UNTOLD = {"plane": "plane untold", "facet": "fact untold"}  # what keeps its limits from being applied
SIGNS = 7  # of a trend
ORDERS = 3
UNSURE = "In {} of them some readings are marked uncertain by their cards; which: --all."
NOTHING = "Nothing that wears has been measured yet. A rate needs three readings, taken in one way."
HOW = (
    "Early to late year by the 95 percent interval. Forecasts from past wear; work and service change them. "
    "cond.: condemning limit."
)


def render_wear(
    report: Report, rows: list[WearRow], unread: list[Finding], look: Look, *, whole: bool, part: str = ""
) -> str:
    """The text of some rows: one screen, or everything; what could not be read is said first."""
    page = Page(look)
    of = f" of {part}" if part else ""
    count = f"{len(rows)} wearing quantit{'y' if len(rows) == 1 else 'ies'}"
    gone = unread_lines(unread, whole=whole)
    told = paragraph(f"{report.day.words}{count}{of}, soonest to a limit first.", "bold", hang=2)
    head = page.lines([told, *gone])
    unsure = [paragraph(UNSURE.format(many))] if (many := sum(bool(row.unsure) for row in rows)) and not whole else []
    foot = page.lines([*unsure, paragraph(HOW), paragraph(WHO_DECIDES)])
    if not rows:
        return joined([*page.lines([paragraph(f"{report.day.words}{NOTHING}", hang=2), *gone]), *foot[-2:]])
    if whole:
        return joined([*head, *(line for row in rows for line in ("", *page.lines(_in_full(row, look)))), "", *foot])
    detail = page.lines(_in_full(rows[0], look)) if part and rows else []
    orders = detail or page.lines(_orders(rows))
    table = [_cells(row, look) for row in rows]
    room = SHORT - len(head) - len(foot) - len(orders) - 2
    shown = table if len(table) <= room else table[: max(room, 1)]
    widths = _widths(look, [HEAD, *shown])
    lines = [*head, *page.lines([_table_row(HEAD, widths)]), *page.lines(_table_row(row, widths) for row in shown)]
    left = len(rows) - len(shown)
    more = page.lines([paragraph(f"Not shown: {left} more. In full: --all", whole=True)]) if left else []
    return joined([*lines, *more, *orders, *foot])


def _widths(look: Look, table: list[tuple[str, ...]]) -> tuple[int, ...]:
    """A figure is never cut: what its column takes beyond its share, names have to spare or are cut by.

    Where that would leave too little of a quantity's name, the trend gives way: a width of 0 is no column.
    """
    where, quantity, trend, now, rate = WIDE if look.width >= sum(WIDE) + len(WIDE) + 28 else NARROW
    longest = [max(map(len, column)) for column in zip(*table, strict=True)]
    now, rate = max(now, longest[3]), max(rate, longest[4])
    over = where + quantity + trend + now + rate + len(NARROW) + longest[5] - look.width
    for least in (longest[0], LEAST):
        cut = min(max(over, 0), max(where - least, 0))
        where, over = where - cut, over - cut
    if quantity - over < LEAST_NAME:
        trend, over = 0, over - trend - len(GAP)
    return where, quantity - max(over, 0), trend, now, rate


def _table_row(cells: tuple[str, ...], widths: tuple[int, ...]) -> Paragraph:
    """A line of the table; a cell that is too long is cut, its whole text stands in full with --all."""
    padded = [_fit(cell, width) for cell, width in zip(cells, widths, strict=False) if width]
    return paragraph(GAP.join([*padded, cells[-1]]).rstrip(), whole=True)


def _fit(cell: str, width: int) -> str:
    return cell.ljust(width) if len(cell) <= width else f"{cell[: width - 1]}."


def _cells(row: WearRow, look: Look) -> tuple[str, ...]:
    rate = row.length(row.line.rate * 365.25) if row.line else ""
    drawn = sparkline(row.made.position.series.points, look, most=SIGNS)
    return (row.made.site.name, row.made.word.title, drawn, row.now, rate.partition(" ")[0], _reaches(row))


def _reaches(row: WearRow) -> str:
    """The soonest limit in a dozen signs: its stage and years; or why there is none."""
    if row.made.position.stale is not None:
        return "work since"
    if row.line is None:
        return f"too few ({row.made.readings})"
    if not row.made.reaches:
        return UNTOLD[row.made.kept[0].lacks] if row.made.kept else "no limit"
    first = row.made.reaches[0]
    stage = STAGE[first.target.limit.stage]
    if first.out:
        return f"past {stage}"
    if first.soonest is None:
        return row.state or "never"
    if first.soonest == date.max:
        return row.state or ">50 years"
    start = "now" if first.soonest <= row.as_of else str(first.soonest.year)
    if not first.meeting.has_interval:
        return f"{stage} ~{start}"
    if first.late is None or first.late == date.max:
        return f"{stage} {start}+"
    same = first.late.year == first.soonest.year or first.late <= row.as_of
    if start == "now" and not same:
        return f"{stage} by {first.late.year}"
    return f"{stage} {start}" if same else f"{stage} {start}-{first.late:%y}"


def _orders(rows: list[WearRow]) -> list[Paragraph]:
    """What has to be ordered first."""
    dated = sorted(
        (row for row in rows if row.made.order), key=lambda row: row.made.order.by if row.made.order else date.max
    )
    return [
        paragraph(f"{row.order.partition(' (')[0].capitalize()}: {row.made.site.name}, {row.made.word.title}.", hang=2)
        for row in dated[:ORDERS]
    ]


def _in_full(row: WearRow, look: Look) -> list[Paragraph]:
    """One quantity with all that is known of its wear."""
    part = f" ({row.part})" if row.part and row.part not in row.place else ""
    drawn = sparkline(row.made.position.series.points, look, most=16)
    found = [
        paragraph(f"{row.made.site.name}{part}: {row.title}", "bold", hang=2),
        _fact("read", f"{drawn} {row.readings}; last {row.last} on {row.last_on}"),
        _fact("rate", row.rate),
    ]
    if row.level is not None:
        found.append(_fact("now", f"{row.now} by the line; scatter {row.scatter}"))
    elif row.state:
        found.append(_fact("now", row.state))
    found += [_fact("limit", _limit_words(row, index)) for index in range(len(row.made.reaches))]
    if row.level is not None and row.made.no_limit:
        found.append(_fact("limit", "no limit on file that wear brings it to"))
    found += [_fact("limit", words) for words in row.kept]
    if row.unplaced:
        found.append(_fact("plane", row.unplaced))
    if row.order:
        found.append(_fact("do", row.order))
    return found


def _limit_words(row: WearRow, index: int) -> str:
    reach = row.made.reaches[index]
    left = row.left(reach)
    return f"{row.limit(reach)}: {row.when(reach)}{f', {left}' if left else ''}"


def _fact(label: str, words: str) -> Paragraph:
    return paragraph(f"{label.ljust(6)}{sentence(words)}", indent=2, hang=6)
