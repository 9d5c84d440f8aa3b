"""Two readings of one thing, compared: what changed between them, and how far that can be trusted.

Two readings may be compared when they were taken in one hold and at one clock position, cold, with no work between
that changes what they measure. Both are taken to 68 degF (20 degC); a temperature that nobody read widens the
answer by what the railway's shop is known to have, and is never taken for 68 degF. Where not even that is on record,
or an instrument's uncertainty is not, nothing can be proved; a change that goes beyond the worst that can be believed
is told all the same.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from typing import NamedTuple

from axlebook.engineering.metrology import length_at_20
from axlebook.trends.series import Dated, Series

from . import fields
from .book import Book, Thing
from .fit import TIRE_STEEL, Missing, expansion_of, no_figures, shop_temperatures
from .instruments import temperature
from .lines import UNKNOWN
from .reading import Reading
from .timeline import series_of

WARM = frozenset({"warm after"})
OUT_OF_DOORS = (233.15, 323.15)  # -40 and 122 degF [K]: no wheel is gauged in a wider span; ours, no source
AS_STEEL = (10e-6, 18e-6)  # expansion of any steel, plain or austenitic [1/K]; from memory


class Change(NamedTuple):
    """From one reading to a later one, at 68 degF (20 degC)."""

    thing: Thing
    quantity: str
    position: str
    before: Dated
    after: Dated
    size: float  # later less earlier [m]
    uncertainty: float  # combined standard uncertainty of the two [m]
    doubt: float  # how far what was not written down could move it, each way [m]
    drift: bool = False  # against the first reading of its hold, not the one before
    lack: Missing | None = None  # what is not on record; the worst that can be believed stands in for it

    def beyond(self, times: float) -> bool | None:
        """Whether it is more than so many times its uncertainty; None where what was not read could turn that."""
        if self.lack is not None:
            return None
        allowed = times * self.uncertainty
        if abs(self.size) - self.doubt > allowed:
            return True
        return False if abs(self.size) + self.doubt <= allowed else None

    def incredible(self, times: float) -> bool:
        """Whether something is not on record, and not even the worst that it can be believed to be explains this."""
        return self.lack is not None and abs(self.size) > math.hypot(times * self.uncertainty, self.doubt)

    def excess(self, times: float) -> float:
        """How far it goes beyond so many times its uncertainty [m]."""
        return abs(self.size) - times * self.uncertainty


@dataclass(frozen=True)
class Unlike:
    """A reading that has no earlier one in its hold to compare with; `before` was taken in another."""

    thing: Thing
    quantity: str
    before: Dated
    after: Dated


def support_of(reading: Reading) -> tuple[str, str]:
    """How it was held, and where round the clock it was read."""
    return reading.hold, reading.clock


def _compare(
    book: Book, one: Series, before: Dated, after: Dated, told: tuple[float, float, Missing | None], *, drift: bool
) -> Change:
    """Two values of a series as a change; `told`: what the later tells, worked out before."""
    (earlier, doubt, untold), (later, more, missing) = _told(book, before), told
    variances = [UNKNOWN if point.variance is None else float(point.variance) for point in (before, after)]
    thing = one.thing
    assert isinstance(thing, Thing)
    return Change(
        thing,
        one.quantity,
        one.position,
        before,
        after,
        later - earlier,
        math.sqrt(sum(variances)),
        doubt + more,
        drift,
        untold or missing,
    )


def _told(book: Book, point: Dated) -> tuple[float, float, Missing | None]:
    """A value at 20 degC, how far what was not written down can move it [m], and what keeps it from being sure."""
    reading, value = point.origin, float(point.value)
    found = at_20(book, reading, point.value)
    if isinstance(found, Missing):
        expansion = expansion_of(book, TIRE_STEEL)
        steels = AS_STEEL if expansion is None else (expansion,)
        return *_span(book, reading, value, steels, OUT_OF_DOORS), found
    if point.variance is None:
        told = reading.instrument or "the instrument"
        return *found, Missing(
            f"no uncertainty of {told} is on record", "Enter it in the instrument's record.", reading
        )
    return *found, None


def at_20(book: Book, reading: Reading, value: Fraction) -> tuple[float, float] | Missing:
    """A value at 20 degC, and how far what was not written down could move it, each way [m]."""
    expansion = expansion_of(book, TIRE_STEEL)
    if expansion is None:
        return no_figures(book, TIRE_STEEL, ["expansion"], reading)
    shop = shop_temperatures(book)
    if shop is None:
        if temperature(reading.part_temperature) is None:
            return Missing("the temperature of the part was not read", "Measure again, with both.", reading)
        instrument = book.instruments.get(reading.instrument)
        bends = instrument is None or instrument.expansion != 0
        if bends and temperature(reading.instrument_temperature) is None:
            return Missing("the temperature of the instrument was not read", "Measure again, with both.", reading)
    return _span(book, reading, float(value), (expansion,), shop or ())


def _span(
    book: Book, reading: Reading, value: float, steels: tuple[float, ...], air: tuple[float, ...]
) -> tuple[float, float]:
    """The middle of what a value can be at 20 degC, and how far that reaches [m]; `air`: temperatures it can have had.

    What an instrument's record does not tell lies between true length and steel like the part's.
    """
    instrument = book.instruments.get(reading.instrument)
    own = instrument.expansion if instrument else None
    parts, tools = _temperatures(reading.part_temperature, air), _temperatures(reading.instrument_temperature, air)
    found = [
        length_at_20(
            value, part_temperature=part, part_expansion=steel,
            instrument_temperature=tool, instrument_expansion=alpha,
        )
        for part, tool, steel in product(parts, tools or parts[:1], steels)
        for alpha in ((0.0, steel) if own is None else (float(own),))
    ]  # fmt: skip
    return (max(found) + min(found)) / 2, (max(found) - min(found)) / 2


def _temperatures(text: str, air: tuple[float, ...]) -> tuple[float, ...]:
    """The temperature read, or the two ends of what it can have been."""
    found = temperature(text)
    return (float(found),) if found is not None else air


def is_cold(book: Book, reading: Reading) -> bool:
    """Whether a reading was taken cold: not marked warm, and not hotter than the shop is known to be."""
    if reading.when in WARM:
        return False
    known: dict[str, bool] = book.__dict__.setdefault("_colds", {})  # few temperatures are written, again and again
    cold = known.get(reading.part_temperature)
    if cold is None:
        found = temperature(reading.part_temperature)
        most = fields.exact(fields.inner(book.ledger.tree, "shop_temperatures"), "at_most")
        cold = known[reading.part_temperature] = found is None or most is None or found <= most
    return cold


def changes(book: Book, thing: Thing, quantity: str) -> list[list[Change]]:
    """The changes of a thing since the last work on it, one list for each hold in which it was last read.

    The last reading of each hold is held against the one before and against the first: the jump and the drift. Both
    wheels of a pair ask for the same, so that it is worked out once.
    """
    known: dict[tuple[Thing, str], list[list[Change]]] = book.__dict__.setdefault("_changes", {})
    if (thing, quantity) not in known:
        known[thing, quantity] = _changes(book, thing, quantity)
    return known[thing, quantity]


def _changes(book: Book, thing: Thing, quantity: str) -> list[list[Change]]:
    groups: dict[tuple[str, str], list[Change]] = {}
    for one, fresh in _fresh(book, thing, quantity):
        for support, points in _by_support(fresh).items():
            last, group = points[-1], groups.setdefault(support, [])
            earlier = [p for p in points if p.day < last.day]
            if not earlier:
                continue
            told = _told(book, last)
            group.append(_compare(book, one, earlier[-1], last, told, drift=False))
            if len(earlier) > 1:
                group.append(_compare(book, one, earlier[0], last, told, drift=True))
    return [group for group in groups.values() if group]


def unlike(book: Book, thing: Thing, quantity: str) -> Unlike | None:
    """The last reading, where since the last work none was taken in its hold before, but some were in another."""
    points = [p for _, fresh in _fresh(book, thing, quantity) for p in fresh]
    last = max(points, key=lambda p: p.day, default=None)
    if last is None:
        return None
    earlier = [p for p in points if p.day < last.day]
    if not earlier or any(support_of(p.origin) == support_of(last.origin) for p in earlier):
        return None
    return Unlike(thing, quantity, max(earlier, key=lambda p: p.day), last)


def _fresh(book: Book, thing: Thing, quantity: str) -> list[tuple[Series, list[Dated]]]:
    """Each series of a thing with its cold points since the last work, in order of date; worked out once.

    Those whose hold is not told are left out.
    """
    known: dict[tuple[Thing, str], list[tuple[Series, list[Dated]]]] = book.__dict__.setdefault("_fresh_points", {})
    found = known.get((thing, quantity))
    if found is None:
        found = known[thing, quantity] = []
        for one in series_of(book, thing, quantity):
            newest = max([p.epoch for p in one.points], default=0)
            held = [p for p in one.points if p.epoch == newest and p.origin.hold and p.origin.clock]
            found.append((one, [p for p in held if is_cold(book, p.origin)]))
    return found


def _by_support(points: list[Dated]) -> dict[tuple[str, str], list[Dated]]:
    found: dict[tuple[str, str], list[Dated]] = {}
    for point in points:
        found.setdefault(support_of(point.origin), []).append(point)
    return found


def worst(group: list[Change], times: float) -> Change | None:
    """The change of a group that says most, None where what is on record judges none of it.

    A jump before a drift, then the one furthest beyond its uncertainty; one that lacks something only where it cannot
    be believed whatever that is, and where no other is beyond its own.
    """
    found = [change for change in group if change.lack is None]
    beyond = [change for change in found if change.beyond(times)]
    jumps = [change for change in beyond if not change.drift]
    incredible = [] if beyond else [change for change in group if change.incredible(times)]
    return max(jumps or incredible or found, key=lambda c: (c.excess(times), c.position), default=None)
