"""A plot of wear: readings with their uncertainty, stretches, limits, events and the forecast, in black and gray.

Stretches are told apart by marker and line style, limits by line style and name: nothing by color alone. Same values,
same bytes: no date, no random names. Other reports take `drawing` and `wear_svg` as they are.
"""

from __future__ import annotations

import io
import math
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape

from axlebook.trends.rate import by_day

from .cleaning import clean
from .wear_view import WearRow, figure_words

if TYPE_CHECKING:
    from matplotlib.axes import Axes

WIDTH, HEIGHT = 7.0, 3.4  # inches
MARKERS = ("o", "s", "^", "D", "v", "P", "X", "*", "<", ">")
LINES = ("-", "--", ":", "-.")
LIMIT_LINES = {"condemning": "-", "shop": (0, (8, 3))}
EVENTS = {"turning": "turned", "tire-applied": "tire put on", "tire-removed": "tire taken off", "mounting": "pressed"}
COVERAGE = 2.0  # bars are two standard uncertainties each way: about 95 percent
AHEAD = 0.45  # at most this share of the width lies ahead of the last reading
LEAST_AHEAD = 500  # days
LEAST_TICKS, MOST_TICKS = 4, 9  # with 4 every span has ticks; with 5, four and a half years have none that fit
DARK, SOFT = "black", "0.35"


@dataclass(frozen=True)
class Mark:
    """One reading: its day, its value and half its bar, None where no uncertainty is known; in the unit shown."""

    day: date
    value: float
    bar: float | None


@dataclass(frozen=True)
class Stretch:
    """Readings that may be compared, with the line through them; no line where there is no rate."""

    label: str
    marks: tuple[Mark, ...]
    line: tuple[tuple[date, float], tuple[date, float]] | None


@dataclass(frozen=True)
class Drawing:
    """All that one plot shows, in the unit of its axis."""

    title: str
    unit: str
    stretches: tuple[Stretch, ...]
    limits: tuple[tuple[str, str, float], ...]  # stage, words, value
    events: tuple[tuple[date, str], ...]
    now: date
    until: date
    middle: tuple[tuple[date, float], ...]  # the line carried on
    band: tuple[tuple[date, float, float], ...]  # and its 95 percent band
    words: str  # what it shows, for who cannot see it


def drawing(row: WearRow) -> Drawing:
    """The plot of one quantity of one thing."""
    scale = 1000.0 if row.metric else 1 / 0.0254
    position = row.made.position
    until = _until(row)
    limits = tuple(
        (
            r.target.limit.stage,
            clean(f"{r.target.limit.stage}: {figure_words(r.target)}"),
            float(r.target.value) * scale,
        )
        for r in row.made.reaches
    )
    ahead = _ahead(row, until) if row.level is not None else []
    line, middle, band = row.line, [], []
    if line is not None:
        for day in ahead:
            middle.append((day, line.at(by_day(day)) * scale))
            if (ends := line.band(by_day(day))) is not None:
                band.append((day, ends[0] * scale, ends[1] * scale))
    return Drawing(
        clean(f"{row.made.site.name}{f' ({row.part})' if row.part else ''}: {row.title}"),
        "mm" if row.metric else "in",
        tuple(_stretch(row, index, scale) for index in range(len(position.segments))),
        limits,
        tuple((w.day.first, EVENTS[w.kind]) for w in position.works if w.day.first and w.kind in EVENTS),
        row.as_of,
        until,
        tuple(middle),
        tuple(band),
        alternative(row),
    )


def alternative(row: WearRow) -> str:
    """What the plot shows, in words."""
    told = [f"{row.made.site.name}, {row.title}: {row.readings}; last {row.last} on {row.last_on}.", f"{row.rate}."]
    told += [f"{row.limit(reach)}: {row.when(reach)}." for reach in row.made.reaches]
    told += [f"{row.state}."] if row.state else []
    return clean(" ".join(told))


def _until(row: WearRow) -> date:
    """How far ahead to draw: past the last limit, but never so far that the readings are squeezed."""
    first = row.made.position.span[0]
    far = round((row.as_of - first).days * AHEAD / (1 - AHEAD))
    days = [d for r in row.made.reaches for d in (r.late or r.middle, r.middle) if d and d != date.max]
    wanted = max((d.toordinal() for d in days), default=0) - row.as_of.toordinal() + 200
    ahead = max(min(wanted, far), LEAST_AHEAD)
    return date.fromordinal(min(row.as_of.toordinal() + ahead, date.max.toordinal() - 400))


def _ahead(row: WearRow, until: date) -> list[date]:
    """Days from the last reading on, close enough that a curved band looks smooth."""
    start = row.made.position.segments[row.made.position.present].points[-1].day.toordinal()
    steps = 24
    return [date.fromordinal(start + (until.toordinal() - start) * n // steps) for n in range(steps + 1)]


def _stretch(row: WearRow, index: int, scale: float) -> Stretch:
    segment, line = row.made.position.segments[index], row.line
    marks = tuple(
        Mark(
            p.day, float(p.value) * scale, COVERAGE * math.sqrt(p.variance) * scale if p.variance is not None else None
        )
        for p in segment.points
    )
    with_what = segment.way[0] or "gauge not named"
    drawn = None
    if line is not None and len({mark.day for mark in marks}) > 1:
        sign = -1 if line.falling else 1
        rate = sign * line.rate * scale
        levels = sorted(mark.value - rate * by_day(mark.day) for mark in marks)
        level = (levels[(len(levels) - 1) // 2] + levels[len(levels) // 2]) / 2
        first, last = marks[0].day, marks[-1].day
        drawn = ((first, level + rate * by_day(first)), (last, level + rate * by_day(last)))
    return Stretch(clean(f"{with_what}, {len(marks)}"), marks, drawn)


# -- drawing it ------------------------------------------------------------------------------------------------------


def wear_svg(drawings: list[Drawing]) -> str:
    """The plots as one SVG, one below the other."""
    import matplotlib as mpl
    from matplotlib.figure import Figure

    settings: Any = {"svg.hashsalt": "axlebook", "svg.fonttype": "none", "font.size": 9, "font.family": "sans-serif"}
    with mpl.rc_context(settings):
        count = max(len(drawings), 1)
        figure = Figure(figsize=(WIDTH, HEIGHT * count), layout="constrained")
        panels = figure.subplots(count, 1, squeeze=False)
        for panel, one in zip(panels[:, 0], drawings, strict=False):
            _draw(panel, one)
        if not drawings:
            panels[0, 0].set_axis_off()
            panels[0, 0].text(0.5, 0.5, "Nothing that wears was read.", ha="center")
        out = io.StringIO()
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    return _titled(out.getvalue(), " ".join(one.words for one in drawings) or "Nothing that wears was read.")


def quick_svg(one: Drawing) -> str:
    """One plot in a frame of fixed size: half the time of `wear_svg`, for where there are hundreds."""
    import matplotlib as mpl
    from matplotlib.figure import Figure

    settings: Any = {"svg.hashsalt": "axlebook", "svg.fonttype": "none", "font.size": 9, "font.family": "sans-serif"}
    with mpl.rc_context(settings):
        figure = Figure(figsize=(WIDTH, HEIGHT))
        _draw(figure.add_axes((0.1, 0.1, 0.62, 0.8)), one)
        out = io.StringIO()
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    return _titled(out.getvalue(), one.words)


def _draw(panel: Axes, one: Drawing) -> None:
    from matplotlib import dates

    for index, stretch in enumerate(one.stretches):
        _draw_stretch(panel, stretch, index)
    if one.band:
        days, low, high = zip(*one.band, strict=True)
        panel.fill_between(days, low, high, color="0.85", linewidth=0, label="95 percent of forecasts")
        panel.plot(days, low, color=SOFT, linewidth=0.6)
        panel.plot(days, high, color=SOFT, linewidth=0.6)
    if one.middle:
        days, values = zip(*one.middle, strict=True)
        panel.plot(days, values, color=DARK, linewidth=1.0, linestyle=(0, (2, 2)), label="carried on")
    first = min(mark.day for stretch in one.stretches for mark in stretch.marks)
    start = date.fromordinal(max(first.toordinal() - (one.until - first).days // 40, date.min.toordinal()))
    panel.set_xlim(start, one.until)  # type: ignore[arg-type]
    _fit_height(panel, one)
    _draw_limits(panel, one)
    _draw_events(panel, one, start)
    panel.set_title(one.title, fontsize=9, loc="left")
    panel.set_ylabel(one.unit)
    locator: Any = dates.AutoDateLocator(minticks=LEAST_TICKS, maxticks=MOST_TICKS)  # type: ignore[no-untyped-call]
    panel.xaxis.set_major_locator(locator)
    panel.xaxis.set_major_formatter(dates.ConciseDateFormatter(locator))  # type: ignore[no-untyped-call]
    panel.grid(visible=True, linewidth=0.3, color="0.75")
    panel.legend(fontsize=7, loc="upper left", bbox_to_anchor=(1.0, 1.0), frameon=False)


def _draw_stretch(panel: Axes, stretch: Stretch, index: int) -> None:
    days, values = [mark.day for mark in stretch.marks], [mark.value for mark in stretch.marks]
    bars = [mark.bar or 0.0 for mark in stretch.marks]
    panel.errorbar(
        days, values, yerr=bars if any(bars) else None, fmt=MARKERS[index % len(MARKERS)], color=DARK, markersize=4,  # type: ignore[arg-type]
        markerfacecolor=("white", "black", "0.6")[index % 3], elinewidth=0.6, capsize=1.5, linewidth=0,
        label=stretch.label,
    )  # fmt: skip
    if stretch.line is not None:
        (start, low), (end, high) = stretch.line
        panel.plot([start, end], [low, high], color=DARK, linewidth=1.2, linestyle=LINES[index % len(LINES)])  # type: ignore[arg-type]


def _fit_height(panel: Axes, one: Drawing) -> None:
    """Readings and the limits near them fill the height; a limit far away is named at the edge."""
    values = [m.value + side * (m.bar or 0) for s in one.stretches for m in s.marks for side in (-1, 1)]
    values += [value for _, value in one.middle]
    low, high = min(values), max(values)
    room = max(high - low, abs(high) * 0.002, 1e-6)
    for _, _, value in one.limits:
        if low - room <= value <= high + room:
            low, high = min(low, value), max(high, value)
    pad = 0.12 * (high - low or room)
    panel.set_ylim(low - pad, high + pad)


def _draw_limits(panel: Axes, one: Drawing) -> None:
    low, high = panel.get_ylim()
    for stage, words, value in one.limits:
        inside = low < value < high
        if inside:
            panel.axhline(
                value, color=DARK, linewidth=1.6 if stage == "condemning" else 1.1, linestyle=LIMIT_LINES[stage]
            )
        at = value if inside else low if value <= low else high
        beyond = "" if inside else " (off the plot)"
        panel.annotate(
            f"{words}{beyond}", (0.0, at), xycoords=("axes fraction", "data"), xytext=(3, 2 if at != high else -2),
            textcoords="offset points", ha="left", va="bottom" if at != high else "top", fontsize=7,
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.6, "alpha": 0.9},
        )  # fmt: skip


def _draw_events(panel: Axes, one: Drawing, start: date) -> None:
    for day, words in (*one.events, (one.now, "now")):
        if start <= day <= one.until:
            panel.axvline(day, color=SOFT, linewidth=0.8, linestyle=(0, (1, 1)))  # type: ignore[arg-type]
            panel.annotate(
                words, (day, 0.02), xycoords=("data", "axes fraction"), xytext=(2, 0), textcoords="offset points",
                rotation=90, fontsize=7, va="bottom", ha="left",
            )  # fmt: skip


def _titled(svg: str, words: str) -> str:
    """The SVG with its words inside, as a title and a description that readers aloud find."""
    start = svg.index("<svg")
    end = svg.index(">", start) + 1
    head = svg[start : end - 1] + ' role="img" aria-labelledby="wear-title wear-words">'
    told = f'<title id="wear-title">Wear and forecast</title><desc id="wear-words">{escape(words)}</desc>'
    return svg[:start] + head + told + svg[end:]
