"""An axle that was examined by one end: the other half of it is not known, and it counts only with that."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .. import fields
from .done import Examined

SIDES = ("left", "right")
ONE, BOTH = "one", "both"


def end_named(one: Examined) -> str:
    """The end that an examination names alone, by its part, its place or its area; '' where it is of the whole."""
    words = re.findall(r"[a-z]+", fields.text(one.examination.tree, "area").casefold())
    if BOTH in words:
        return ""
    named = [side for side in SIDES if side in words]
    return one.side or (named[0] if len(named) == 1 else ONE if "one end" in " ".join(words) else "")


def whole(found: Iterable[Examined], ends: tuple[str, str]) -> list[Examined]:
    """Each time that both ends were known, of one day or of two: it counts from the earlier of these."""
    times: list[Examined] = []
    last: dict[str, Examined] = {}
    for one in found:  # in order of date
        end = end_named(one)
        last.update({end: one} if end else dict.fromkeys(ends, one))
        if all(name in last for name in ends):
            older = min((last[name] for name in ends), key=lambda half: half.done.day)
            if not times or times[-1] is not older:
                times.append(older)
    return times


def half_since(found: Iterable[Examined], time: Examined | None) -> str:
    """What is said of the last examination by one end, where it is not counted; '' where there is none."""
    day = time.done.day if time else None
    halves = [one for one in found if end_named(one) and (day is None or one.done.day > day)]
    if not halves:
        return ""
    end = end_named(halves[-1])
    return f"by {end if end == ONE else f'its {end}'} end only on {halves[-1].done.text}"


__all__ = ["half_since", "whole"]
