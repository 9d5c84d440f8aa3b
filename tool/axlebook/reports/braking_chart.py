"""The chart of an engine under the brake: rise against minutes, meaning in line style and words, not in color.

Same values, same bytes: no date, no random names.
"""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape

from .amounts import Amounts
from .braking_sums import TireSums
from .braking_words import NOTICE, WEAR, power_words, rise_words, time_words
from .cleaning import clean

if TYPE_CHECKING:
    from matplotlib.axes import Axes

STYLES = {"new": "-", "today": "--", "at the limit": ":"}
LABELS = {"new": 0.42, "today": 0.7, "at the limit": 0.85}  # how far along its line, so that none meets another
PANEL_HEIGHT, WIDTH = 2.9, 7.0  # inches


def alternative(sums: list[TireSums]) -> str:
    """What the chart shows, for who cannot see it."""
    told = []
    for one in sums:
        first = one.drags[0].power
        lines = [
            f"{d.thickness.word} reaches it after {time_words(d.seconds)}"
            for d in one.drags
            if d.power is first and d.seconds is not None
        ]
        told.append(
            f"{one.case.stand.name}, tire {one.case.tire}, at {power_words(first.at_wheel)}: straight lines rise from "
            f"nothing to the loosening rise of {rise_words(one.rise, Amounts())}; {', '.join(lines)}."
        )
    return clean(f"Rise of each tire over a cold center against minutes of braking. {' '.join(told)} {WEAR}. {NOTICE}.")


def braking_svg(sums: list[TireSums], *, metric: bool) -> str:
    """The chart as SVG, one panel a tire."""
    import matplotlib as mpl
    from matplotlib.figure import Figure

    drawn = [one for one in sums if one.drags and one.rise > 0 and one.drags[0].seconds]
    settings: Any = {"svg.hashsalt": "axlebook", "svg.fonttype": "none", "font.size": 9, "font.family": "sans-serif"}
    with mpl.rc_context(settings):
        figure = Figure(figsize=(WIDTH, PANEL_HEIGHT * max(len(drawn), 1) + 0.6), layout="constrained")
        panels = figure.subplots(max(len(drawn), 1), 1, squeeze=False)
        for panel, one in zip(panels[:, 0], drawn, strict=False):
            _draw(panel, one, metric=metric)
        if not drawn:
            panels[0, 0].set_axis_off()
            panels[0, 0].text(0.5, 0.5, "No tire could be assessed.", ha="center")
        figure.supxlabel(f"{NOTICE}.\n{WEAR}.", fontsize=7, wrap=True)
        out = io.StringIO()
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    return _titled(out.getvalue(), alternative(drawn) if drawn else "No tire could be assessed.")


def _draw(panel: Axes, one: TireSums, *, metric: bool) -> None:
    scale, unit = (1.0, "degC") if metric else (1.8, "degF")
    first = one.drags[0].power
    drags = [d for d in one.drags if d.power is first and d.seconds]
    longest = max(d.seconds or 0.0 for d in drags) / 60
    for drag in drags:
        end = (drag.seconds or 0.0) / 60
        panel.plot([0, end], [0, one.rise * scale], STYLES[drag.thickness.word], color="black", linewidth=1.4)
        along = LABELS[drag.thickness.word]
        panel.text(
            end * along, one.rise * scale * along, f"{drag.thickness.word}: {time_words(drag.seconds)}", ha="center",
            va="center", fontsize=8, bbox={"facecolor": "white", "edgecolor": "none", "pad": 1},
        )  # fmt: skip
    panel.axhline(one.rise * scale, color="black", linestyle="-.", linewidth=1.0)
    words = f"no grip left in the model: {rise_words(one.rise, Amounts(metric))} over its center"
    panel.text(0.01 * longest, one.rise * scale * 1.03, words, fontsize=8, va="bottom")
    panel.set_xlim(0, longest * 1.12)
    panel.set_ylim(0, one.rise * scale * 1.25)
    panel.set_title(clean(f"{one.case.stand.name}, {one.case.tire}, at {power_words(first.at_wheel)}"), fontsize=9)
    panel.set_xlabel("minutes, brake held steady, tire alone, center cold")
    panel.set_ylabel(f"rise of the tire, {unit}")
    panel.grid(visible=True, linewidth=0.3, color="0.6")


def _titled(svg: str, words: str) -> str:
    """The SVG with its words inside, as a title and a description that readers aloud find."""
    start = svg.index("<svg")
    end = svg.index(">", start) + 1
    head = svg[start : end - 1] + ' role="img" aria-labelledby="braking-title braking-words">'
    told = (
        '<title id="braking-title">Rise of each tire under the brake</title>'
        f'<desc id="braking-words">{escape(words)}</desc>'
    )
    return svg[:start] + head + told + svg[end:]
