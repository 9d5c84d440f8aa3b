"""Where a part stood over time, and what stood on it: the dated answers of `standing`, laid side by side."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from .book import Book, side_of
from .engine import Line


class Position(NamedTuple):
    """One place for a while; `start` None: nobody knows since when; `until` None: still, the day itself not counted."""

    start: date | None
    until: date | None
    where: str
    record: str


class _Span(NamedTuple):
    start: date | None
    until: date | None


def positions_of(book: Book, id: str) -> list[Position]:
    """The places of a tire, center, wheelset or engine, in order of time."""
    if id in book.tires:
        found = _of_tire(book, id)
    elif id in book.centers:
        found = _of_center(book, id)
    elif id in book.wheelsets:
        found = _of_wheelset(book, id)
    elif id in book.engines:
        lines = sorted(book.engines[id].lines, key=lambda line: line.at)
        found = (_position(_span(line), f"{line.at}: {line.wheelset}", id) for line in lines)
    else:
        return []
    begun = (one for one in found if one.start is None or one.start <= book.as_of)
    return sorted(dict.fromkeys(begun), key=lambda one: (one.start or date.min, one.until or date.max, one.where))


def _of_tire(book: Book, id: str) -> Iterator[Position]:
    for center, spell in book.standing.centers_of.get(id, ()):
        on = _Span(spell.start, spell.until)
        placed = list(_center_places(book, center, on))
        for span, where in placed or [(on, "")]:
            yield _position(span, f"on center {center}{where}", spell.by)


def _of_center(book: Book, id: str) -> Iterator[Position]:
    always = _Span(None, None)
    for span, where in _center_places(book, id, always):
        yield _position(span, where.removeprefix(", "), book.centers[id].wheelset)
    for spell in book.standing.tires.get(id, ()):
        yield Position(spell.start, spell.until, f"carries tire {spell.what}", spell.by)


def _of_wheelset(book: Book, id: str) -> Iterator[Position]:
    for line in book.standing.lines_of.get(id, ()):
        yield _position(_span(line), f"{line.engine} {line.at}{_turned(line)}", line.engine)
    for end in book.wheelsets[id].ends:
        for spell in book.standing.centers.get((id, end), ()):
            yield Position(spell.start, spell.until, f"carries center {spell.what} {end}", spell.by)
            for tire in book.standing.tires.get(spell.what, ()):
                both = _overlap(_Span(spell.start, spell.until), _Span(tire.start, tire.until))
                if both:
                    yield _position(both, f"carries tire {tire.what} {end}", tire.by)


def _center_places(book: Book, center: str, within: _Span) -> Iterator[tuple[_Span, str]]:
    """The wheelsets and engines that a center was part of while something lasted."""
    for wheelset, side, spell in book.standing.sides_of.get(center, ()):
        on = _overlap(within, _Span(spell.start, spell.until))
        if on is None:
            continue
        in_engine = [(both, line) for line in book.standing.lines_of.get(wheelset, ())
                     if (both := _overlap(on, _span(line)))]  # fmt: skip
        if not in_engine:
            yield on, f", {wheelset} {side}"
        for both, line in in_engine:
            known = book.wheelsets.get(wheelset)
            facing = side_of(line.a_end, known, side) if known else side
            yield both, f", {wheelset} {side}, at {line.engine} {line.at} {facing}"


def _turned(line: Line) -> str:
    return f", end A {line.a_end}" if line.a_end else ""


def _span(line: Line) -> _Span:
    """A dated line says its last day; a spell says the day after."""
    until = line.until.last if line.until else None
    return _Span(line.start.first, date.fromordinal(until.toordinal() + 1) if until and until < date.max else None)


def _overlap(one: _Span, other: _Span) -> _Span | None:
    start = max((d for d in (one.start, other.start) if d), default=None)
    until = min((d for d in (one.until, other.until) if d), default=None)
    return None if start and until and until <= start else _Span(start, until)


def _position(span: _Span, where: str, record: str) -> Position:
    return Position(span.start, span.until, where, record)


def since_words(start: date | None, until: date | None) -> str:
    """A time in words.

    >>> since_words(date(2020, 1, 1), None), since_words(None, date(2020, 1, 2))
    ('since 2020-01-01', 'until 2020-01-01')
    """
    last = date.fromordinal(until.toordinal() - 1) if until and until > date.min else None
    if start and last:
        return f"{start} to {last}"
    return f"since {start}" if start else f"until {last}" if last else "nobody knows since when"


__all__ = ["Position", "positions_of", "since_words"]
