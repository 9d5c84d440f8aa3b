"""A paper sheet as one HTML file: a page a wheelset, black and white, on A4 and Letter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import cos, pi, sin

from .html import render_page
from .paper import Paper

CENTER_X, CENTER_Y, RADIUS = 20.0, 13.0, 7.0
INSIDE, OUTSIDE, LETTERS = 0.7, 1.15, 1.5  # of the radius: both ends of a mark, and its figure

Mark = tuple[int, str, str, str, str, str, str]


def render_paper(paper: Paper) -> str:
    """The page of a sheet; same sheet, same bytes."""
    return render_page("paper.html.j2", paper=paper, title=paper.title, dial=dial)


def dial(angles: Iterable[int]) -> Iterator[Mark]:
    """Where the marks of angles stand on a wheel that is drawn with its datum on top.

    >>> list(dial([90]))
    [(90, '24.9', '13.0', '28.0', '13.0', '30.5', '14.0')]
    """
    for angle in angles:
        across, down = sin(angle * pi / 180), -cos(angle * pi / 180)
        yield (angle, *_at(across, down, INSIDE), *_at(across, down, OUTSIDE), *_at(across, down, LETTERS, 1.0))


def _at(across: float, down: float, share: float, lower: float = 0.0) -> tuple[str, str]:
    x, y = CENTER_X + across * RADIUS * share, CENTER_Y + down * RADIUS * share + lower
    return f"{x:.1f}", f"{y:.1f}"
