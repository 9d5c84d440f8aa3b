"""The plan of an engine for a terminal: an axle a line from the front to the rear, a sign and words for each wheel."""

from __future__ import annotations

from axlebook.findings import Verdict

from .page import Look, Paragraph, Piece, paragraph
from .plan_drawing import quantity, short, told_of
from .plan_view import NO_WHEELSET, Mark, PlanAxle
from .text import SYMBOLS

LEAST = 24  # letters of a wheel below which its sign and verdict stand alone
FRAME = 8  # before, between and behind the columns
NOTHING = "-"


def plan_lines(axles: tuple[PlanAxle, ...], look: Look) -> list[Paragraph]:
    """A line that names the columns, then a line an axle; the axle's own sign stands behind its name."""
    if not axles:
        return []
    name = max(len("FRONT") + 3, *(len(axle.at) for axle in axles))
    room = (look.width - name - FRAME) // 2
    head = f"{'FRONT':<{name - 2}}{'pair':<6}{'left':<{room + 1}}right"
    return [paragraph(head, "dim", indent=2, whole=True), *(_line(axle, name, room, look) for axle in axles)]


def _line(axle: PlanAxle, name: int, room: int, look: Look) -> Paragraph:
    if axle.empty_since:
        return paragraph(f"{axle.at:<{name}} {NOTHING}  {NO_WHEELSET} since {axle.empty_since}", indent=2, whole=True)
    own, left, right = axle.own, axle.left, axle.right
    pieces = [
        Piece(f"{axle.at:<{name}} "),
        Piece(_sign(own, look), _color(own)),
        Piece("  "),
        *_wheel(left, room, look, axle.ends[0]),
        *_wheel(right, room, look, axle.ends[1]),
    ]
    return Paragraph(tuple(pieces), indent=2, whole=True)


def _wheel(mark: Mark, room: int, look: Look, end: str) -> tuple[Piece, Piece]:
    words = _words(mark, room - 3, look)
    if end in ("A", "B"):
        words = f"{end}: {words}"
    return Piece(_sign(mark, look), _color(mark)), Piece(f" {_fitted(words, room - 2, look):<{room - 2}} ")


def _sign(mark: Mark, look: Look) -> str:
    return look.symbol(SYMBOLS[mark.verdict][0]) if mark.verdict else NOTHING


def _color(mark: Mark) -> str:
    return SYMBOLS[mark.verdict][1] if mark.verdict else "dim"


def _words(mark: Mark, room: int, look: Look) -> str:
    """As much as fits: the quantity with its reading and margin, else with the one that tells most."""
    row = mark.row
    if mark.bare_since:
        return mark.word
    if row is not None and mark.verdict is Verdict.NOT_ASSESSED and room >= LEAST:
        return _whole_words(f"{mark.word}: {quantity(row)}", room, look)
    if row is None or mark.verdict is Verdict.NOT_ASSESSED or room < LEAST:
        told = told_of(mark) if mark.finding and room >= LEAST else ""
        return f"{mark.word}: {told}" if told else mark.word
    name, margin = quantity(row), short(row.margin)
    margin = margin if margin.startswith("-") or not margin else f"+{margin}"
    figure = margin if _within(mark) and margin else short(row.reading)
    tries = (f"{name} {short(row.reading)} {margin}", f"{name} {figure}")
    named = max(room - len(figure) - 1, room // 2)  # a long name gives way, not the figure
    return next((words.rstrip() for words in tries if len(words) <= room), f"{_fitted(name, named, look)} {figure}")


def _within(mark: Mark) -> bool:
    return mark.verdict is Verdict.WITHIN


def _whole_words(words: str, room: int, look: Look) -> str:
    if len(words) <= room:
        return words
    dots = look.symbol("…")
    return f"{words[: room - len(dots) + 1].rpartition(' ')[0]}{dots}"


def _fitted(words: str, room: int, look: Look) -> str:
    dots = look.symbol("…")
    return words if len(words) <= room else f"{words[: room - len(dots)].rstrip()}{dots}"
