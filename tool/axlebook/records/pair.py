"""The pair on its axle: what back-to-back its registers and flange backs predict, and what was read, cold or warm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from axlebook.engineering.gauge import FlangeBack, Sense, Tolerance, back_to_back, stacked_tolerance
from axlebook.quantities import Quantity

from . import fields
from .book import Book, Thing
from .fit import TIRE_STEEL, Diameter, Missing, Size, impossible, shop_temperatures, size
from .instruments import GUARD_FACTOR, standard_variance, temperature
from .placing import BEFORE
from .reading import Reading
from .session import Session
from .wheelset import Wheelset


class Predicted(NamedTuple):
    """What back-to-back the parts give at 20 degC, and how far that can be off [m]."""

    back_to_back: float
    parts: tuple[Size, ...]  # register distance, left and right flange back
    tolerance: Tolerance


def length(book: Book, quantity: str, readings: Sequence[Reading], material: str) -> Size | Missing:
    """A length at 20 degC; as read where the vocabulary asks for no temperature and none can be worked with."""
    found = size(book, quantity, readings, material)
    if isinstance(found, Size) or not readings or book.vocabulary.quantities[quantity].needs_temperature:
        return found
    points = [
        Diameter(position, "", exact, exact, measure.text, reading)
        for reading in readings
        for position, many in reading.values
        for measure in many
        if isinstance(measure, Quantity) and (exact := float(measure.exact))
    ]
    if not points:
        return found
    spread = max((float(v) for r in readings if (v := standard_variance(book, r)) is not None), default=0.0)
    title = book.vocabulary.quantities[quantity].title
    return Size(
        quantity, tuple(points), {f"{title}, instrument": math.sqrt(spread)}, 0.0, (), ("temperature",)
    )  # fmt: skip


def _last(book: Book, thing: Thing, quantity: str, until: Session) -> list[Reading]:
    """The readings of the last day up to a work."""
    found = [
        r for r in book.series.get((thing, quantity), ())
        if r.day.first is not None and until.day.last is not None and r.day.first <= until.day.last
    ]  # fmt: skip
    last = max((r.day.first for r in found if r.day.first), default=None)
    return [r for r in found if r.day.first == last]


def predicted(book: Book, wheelset: Wheelset, works: Sequence[Session]) -> Predicted | Missing:
    """What back-to-back the register and the two tires of these applications give."""
    last = max(works, key=lambda s: s.day.first or s.day.last)  # type: ignore[arg-type, return-value]
    words = fields.text(wheelset.register, "sense")
    if not words:
        return Missing(
            "the sense of the register is not on record", "Enter `register: sense` in the wheelset's record."
        )
    back = "flange_back_to_register"
    sense = Sense.OUTWARD if "distance +" in words else Sense.INWARD
    material = fields.text(wheelset.centers[0].tree, "material") if wheelset.centers else ""
    register = length(
        book, "register_distance", _last(book, Thing("wheelset", wheelset.id), "register_distance", last), material
    )
    backs = [
        length(book, back, _last(book, Thing("tire", work.tire), back, work), TIRE_STEEL)
        for work in works
    ]  # fmt: skip
    parts = []
    for part in (register, *backs):
        if isinstance(part, Missing):
            return part
        parts.append(part)
    if len(parts) != 3:
        return Missing("only one of the two tires went on by record", "Nothing to predict from.")
    try:
        found = back_to_back(parts[0].mean, *(FlangeBack(abs(part.mean), sense) for part in parts[1:]))
    except ValueError as error:
        return impossible(error, parts[0].readings[0])
    return Predicted(found, tuple(parts), stacked_tolerance([guard(part) for part in parts]))


def guard(found: Size) -> float:
    """How far a length can be off, each way [m]."""
    return float(GUARD_FACTOR) * math.hypot(*found.parts.values()) + found.doubt


def gauged(book: Book, wheelset: Wheelset, since: Session) -> tuple[list[Reading], list[tuple[Reading, str]]]:
    """Back-to-back readings after a work: those that count as cold, and those that do not, each with the reason."""
    cold: list[Reading] = []
    warm: list[tuple[Reading, str]] = []
    for reading in book.series.get((Thing("wheelset", wheelset.id), "back_to_back"), ()):
        day, work = reading.day.first, since.day.first
        if day is None or work is None or day < work or reading.when in BEFORE:
            continue
        reason = _warm(book, reading, day == work)
        if reason:
            warm.append((reading, reason))
        else:
            cold.append(reading)
    return cold, warm


def _warm(book: Book, reading: Reading, same_day: bool) -> str:
    """Why a reading does not count as cold; '' when it does."""
    if reading.when == "warm after":
        return "it is marked warm"
    shop, part = shop_temperatures(book), temperature(reading.part_temperature)
    if shop is not None and part is not None and float(part) > shop[1]:
        return f"the part stood at {reading.part_temperature}"
    return "it was read on the day the tire went on" if same_day else ""
