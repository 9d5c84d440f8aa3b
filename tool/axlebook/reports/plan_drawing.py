"""The plan of an engine as boxes and lines of text to be drawn: meaning in words and in the line, never in color."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from dataclasses import dataclass

from axlebook.findings import Verdict

from .cleaning import clean
from .condition_view import Row
from .glue import glued, unglued
from .plan_view import NO_WHEELSET, Mark, PlanAxle
from .text import SYMBOLS

WIDTH = 400  # units; a letter of 12 is about 6, in a broad font 6.5 wide
BOX = 184
LETTERS = 26  # of a line in a box
LINES = 4  # of a box below its verdict
LINE = 15  # from one line of text to the next
NAME = 20
MARGIN = ", margin "
FRAME = 34  # of a box without the lines below its verdict
HEAD = 46
GAP = 10
MOST_AXLES = 6  # in one drawing: two stand side by side on a page
STYLES = {
    Verdict.OUTSIDE: "outside", Verdict.UNREADABLE: "outside", Verdict.SUSPECT: "unsure", Verdict.UNDECIDED: "unsure",
    Verdict.NOT_ASSESSED: "unknown", Verdict.WITHIN: "within",
}  # fmt: skip


@dataclass(frozen=True)
class Box:
    """One wheel: where it is drawn, by which line, and what is written in it."""

    x: int
    y: int
    height: int
    style: str
    head: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class DrawnAxle:
    """One axle: the line above its wheels, and its two wheels."""

    y: int  # of its name
    middle: int  # of the axle between the wheels
    name: str
    style: str
    boxes: tuple[Box, Box]
    empty: bool = False  # no wheelset stands there: no axle is drawn


@dataclass(frozen=True)
class Drawing:
    """One drawing, no higher than a page."""

    id: str
    title: str
    words: str  # all of it, for who cannot see it
    height: int
    front: bool  # begins at the front of the engine
    axles: tuple[DrawnAxle, ...]


def drawings(engine: str, axles: tuple[PlanAxle, ...]) -> tuple[Drawing, ...]:
    """The plan from the front to the rear, in as many drawings as pages are needed."""
    pages = -(-len(axles) // MOST_AXLES)
    each = -(-len(axles) // pages) if pages else 1
    return tuple(_drawing(engine, page + 1, axles[page * each : (page + 1) * each]) for page in range(pages))


def _drawing(engine: str, number: int, axles: tuple[PlanAxle, ...]) -> Drawing:
    y, drawn = HEAD, []
    for axle in axles:
        lines = [_lines(mark) for mark in (axle.left, axle.right)]
        height = LINE * max(len(lines[0]), len(lines[1]), 1) + FRAME
        left, right = (_box(x, y + NAME, height, axle, n, lines[n]) for n, x in enumerate((0, WIDTH - BOX)))
        middle, empty = y + NAME + height // 2, bool(axle.empty_since)
        drawn.append(DrawnAxle(y + 13, middle, _name(axle), _style(axle.own), (left, right), empty))
        y += NAME + height + GAP
    title = f"{engine} from above, {axles[0].at} to {axles[-1].at}" if axles else engine
    return Drawing(f"plan-{number}", title, in_words(axles), y, number == 1, tuple(drawn))


def _box(x: int, y: int, height: int, axle: PlanAxle, number: int, lines: tuple[str, ...]) -> Box:
    mark, side = axle.marks[number], axle.ends[number]
    if axle.empty_since:
        return Box(x, y, height, "nothing", NO_WHEELSET, lines)
    head = f"{_sign(mark)} {mark.word.upper() if _style(mark) == 'outside' else mark.word}"
    if side in ("A", "B"):
        head = f"end {side}: {head}"
    return Box(x, y, height, _style(mark), head, lines)


def _sign(mark: Mark) -> str:
    return SYMBOLS[mark.verdict][0] if mark.verdict else "–"


def _style(mark: Mark) -> str:
    return STYLES[mark.verdict] if mark.verdict else "nothing"


def _name(axle: PlanAxle) -> str:
    """The line above the wheels: which wheelset, and what is out on the axle as a whole."""
    name = clean(axle.name)
    own = axle.own
    if own.verdict is None:
        return name
    if own.row is not None and own.verdict is not Verdict.NOT_ASSESSED:
        return _cut(f"{name} {_sign(own)} {own.word}: {quantity(own.row)} {short(own.row.reading)}", 60)
    told = told_of(own)
    return _cut(f"{name} {_sign(own)} {own.word}{f': {told}' if told else ''}", 60)


def _lines(mark: Mark) -> tuple[str, ...]:
    """What weighs most in few lines, then how much else there is."""
    if mark.verdict is None:
        return ()
    told = _told(mark)
    rest = ", ".join(_rest(mark))
    return (*told, *wrapped(rest, LETTERS + 2, 1)) if rest else told


def _told(mark: Mark) -> tuple[str, ...]:
    """The margin on a line of its own, where there is one."""
    words, comma, margin = told_of(mark).rpartition(MARGIN)
    if not comma:
        return wrapped(margin, LETTERS, LINES - 1)
    return (*wrapped(words, LETTERS, LINES - 2), *wrapped(f"margin {margin}", LETTERS, 1))


def told_of(mark: Mark) -> str:
    """What weighs most on a wheel: the quantity, its reading, its margin; or what was found."""
    row = mark.row
    if row is not None and mark.verdict is Verdict.NOT_ASSESSED:
        return f"{quantity(row)}: {row.finding.cause}"
    if row is not None:
        margin = f"{MARGIN}{short(row.margin)}" if row.margin else ""
        return f"{quantity(row)} {short(row.reading)}{margin}"
    return mark.finding.check.replace("-", " ") if mark.finding else ""


def quantity(row: Row) -> str:
    """The name of a quantity without its position."""
    return row.title.removesuffix(f", {row.position}") if row.position else row.title


def short(reading: str) -> str:
    """A reading in the one unit it was written in.

    >>> short("15/16 in (23.8125 mm)")
    '15/16 in'
    """
    return reading.partition(" (")[0]


def _rest(mark: Mark) -> Iterable[str]:
    if mark.more:
        yield f"+{mark.more} not within"
    elif mark.verdict is Verdict.WITHIN and mark.within > 1:
        yield f"{mark.within - 1} more within"
    elif mark.verdict is Verdict.NOT_ASSESSED and mark.within:
        yield f"{mark.within} within"
    if mark.not_judged and mark.verdict is not Verdict.NOT_ASSESSED:
        yield f"{mark.not_judged} not judged"


def wrapped(text: str, letters: int, most: int) -> tuple[str, ...]:
    """A text in lines of so many letters; what does not fit is cut, and seen to be.

    >>> wrapped("flange thickness 15/16 in, margin 0 in", 20, 2)
    ('flange thickness', '15/16 in, margin…')
    >>> wrapped("gap at the register 0.006 in", 26, 2)
    ('gap at the register', '0.006 in')
    """
    lines = textwrap.wrap(glued(clean(text)), letters) or [""]
    if len(lines) > most:
        lines = [*lines[: most - 1], _cut(" ".join(lines[most - 1 :]), letters)]
    return tuple(map(unglued, lines))


def _cut(text: str, letters: int) -> str:
    return text if len(text) <= letters else f"{text[: letters - 1].rpartition(' ')[0] or text[: letters - 1]}…"


def in_words(axles: Iterable[PlanAxle]) -> str:
    """The plan in sentences, from the front to the rear."""
    return " ".join(map(_axle_in_words, axles))


def _axle_in_words(axle: PlanAxle) -> str:
    if axle.empty_since:
        return f"{axle.name}."
    return f"{axle.at}: {axle.ends[0]} {_said(axle.left)}; {axle.ends[1]} {_said(axle.right)}; axle {_said(axle.own)}."


def _said(mark: Mark) -> str:
    told = told_of(mark)
    return f"{mark.word}, {told}" if told else mark.word
