"""How much goes on one page of paper: a wheelset a page where it fits, else a second page with the same heading.

Heights are those of the style sheet of paper, in millimetres, on the shorter of A4 and Letter.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TypeVar

from .paper import Group, Look, Page

ROOM = 262.0  # Letter, less its margins
HEAD, FOOT, TABLE_HEAD, LOOK_HEAD = 31.0, 51.0, 7.0, 5.0
BOX, LINE, LOOK, CLAUSE = 6.4, 2.9, 4.6, 2.7
LETTERS = 175  # of one line at the foot

Item = TypeVar("Item", Group, Look)


def fitted(page: Page) -> tuple[Page, ...]:
    """The page, or as many as its boxes need; each bears only its own clauses."""
    pages = tuple(_only_used(one) for one in _split(page))
    return tuple(replace(one, part=number, parts=len(pages)) for number, one in enumerate(pages, 1))


def height(group: Group) -> float:
    """How tall a quantity stands on paper."""
    return max(len(group.spots) * BOX, group.lines * LINE + 1.5)


def _split(page: Page) -> Iterator[Page]:
    room = ROOM - HEAD - FOOT - 2 * TABLE_HEAD - LOOK_HEAD - _sources(page)
    wheels, rest = _taken(page.wheels, room, [height(group) for group in page.wheels])
    room -= sum(height(group) for group in wheels)
    pair, later = _taken(page.pair, room if not rest else 0.0, [height(group) for group in page.pair])
    room -= sum(height(group) for group in pair)
    whole = not rest and not later
    looks, unseen = _taken(page.looks, room if whole else 0.0, [LOOK / 2 for _ in page.looks])
    if not (wheels or pair or looks):  # taller than any paper: better long than lost
        yield page
        return
    yield replace(page, wheels=wheels, pair=pair, looks=looks)
    if rest or later or unseen:
        yield from _split(replace(page, wheels=rest, pair=later, looks=unseen))


def _taken(items: Sequence[Item], room: float, heights: Sequence[float]) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    """As many from the start as there is room for, and the others."""
    count, used = 0, 0.0
    while count < len(items) and used + heights[count] <= room:
        used += heights[count]
        count += 1
    return tuple(items[:count]), tuple(items[count:])


def _sources(page: Page) -> float:
    return sum(-(-source.letters // LETTERS) for source in page.sources) * CLAUSE


def _only_used(page: Page) -> Page:
    figures = [figure for group in page.groups for figure in group.limits]
    used = {figure.ref for figure in (*figures, *(f for look in page.looks for f in look.limits))}
    kept = (replace(one, clauses=tuple(c for c in one.clauses if c[0] in used)) for one in page.sources)
    return replace(page, sources=tuple(source for source in kept if source.clauses))
