"""Bores as ordered and as received: of tires not yet on, and of those that are on now."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from axlebook.engineering.metrology import expansion_factor
from axlebook.findings import Place
from axlebook.records import fields
from axlebook.records.book import Book, Thing
from axlebook.records.fit import TIRE_STEEL, Missing, Size, expansion_of, no_figures, size
from axlebook.records.instruments import GUARD_FACTOR, temperature
from axlebook.records.tire import Tire

from ._tire_day import applications
from ._words import figured


class Bore(NamedTuple):
    """A tire's ordered bore at 68 degF, and the bore as read where it was."""

    tire: Tire
    least: Fraction | None  # [m]
    most: Fraction | None
    asked: str
    size: Size | None
    lack: Missing | None
    on: bool

    @property
    def mean(self) -> float:
        """Mean bore at 20 degC [m], of one that was read."""
        assert self.size is not None
        return self.size.mean

    @property
    def band(self) -> float:
        """How far the bore can be off, each way [m], of one that was read."""
        assert self.size is not None
        return float(GUARD_FACTOR) * math.hypot(*self.size.parts.values()) + self.size.doubt

    @property
    def at(self) -> Place:
        """The reading, or the order where nothing was read."""
        return self.size.readings[0].at if self.size else Place(self.tire.path, "/ordered/bore")

    def off(self, order: Bore) -> float:
        """How far the bore as read lies outside what an order asks [m]; endless where it was not read or ordered."""
        if self.size is None or (order.least is None and order.most is None):
            return float("inf") if order is not self else 0.0
        low = float(order.least - Fraction(self.mean)) if order.least is not None else 0.0
        high = float(Fraction(self.mean) - order.most) if order.most is not None else 0.0
        return max(low, high, 0.0)


def bores(book: Book) -> Sequence[Bore]:
    """Every tire that is ordered or on, with its bore; those without an ordered bore are left out."""
    on = {app.tire.id: app for app in applications(book)}
    found = []
    for tire in book.tires.values():
        asked = fields.inner(fields.inner(tire.tree, "ordered"), "bore")
        if not asked or (tire.id not in on and book.standing.centers_of.get(tire.id)):
            continue
        read = on[tire.id].fit if tire.id in on else None
        bore = _bore_size(book, tire) if read is None or isinstance(read, Missing) else read.bore_size
        known = bore if isinstance(bore, Size) else None
        found.append(_bore(book, tire, asked, known, bore if isinstance(bore, Missing) else None, tire.id in on))
    return found


def _bore_size(book: Book, tire: Tire) -> Size | Missing:
    """The bore of a tire as last read while it was loose."""
    readings = [r for r in book.series.get((Thing("tire", tire.id), "tire_bore"), ()) if r.day.first is not None]
    last = max((r.day.first for r in readings if r.day.first), default=None)
    return size(book, "tire_bore", [r for r in readings if r.day.first == last], TIRE_STEEL)


def _bore(book: Book, tire: Tire, asked: fields.Tree, found: Size | None, lack: Missing | None, on: bool) -> Bore:
    told, expansion = temperature(fields.text(asked, "temperature")), expansion_of(book, TIRE_STEEL)
    least, most = fields.exact(asked, "at_least"), fields.exact(asked, "at_most")
    words = " to ".join(figured(x, "length", book.in_mm()) for x in (least, most) if x is not None)
    if not told or expansion is None:
        untold = Missing("the order names no temperature", "Write at what temperature the bore was ordered.")
        return Bore(
            tire, None, None, words, found, no_figures(book, TIRE_STEEL, ["expansion"]) if told else untold, on
        )
    factor = Fraction(expansion_factor(float(told), expansion))
    at_20 = [None if x is None else x / factor for x in (least, most)]
    return Bore(tire, at_20[0], at_20[1], words, found, lack, on)
