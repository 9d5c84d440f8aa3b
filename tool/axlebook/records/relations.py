"""Relations between quantities that tell a slip where no earlier reading does."""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable, Iterator, Sequence
from fractions import Fraction
from statistics import median

from . import fields
from .book import Thing
from .condition import mean
from .explanations import HOTTER, LARGE, REFERENCE
from .fit import TIRE_STEEL, Fit, expansion_of, find_fit, shop_temperatures
from .instruments import standard_variance, temperature
from .offs import Around, Off, off_of
from .plausibility import Practice
from .reading import Reading
from .session import Session
from .squeeze import Squeeze, find_squeeze

NARROW = 20.0  # a share of what heat has added: what is said of the cold size is no better than that
SUM_FACTOR = 2.2  # times the combined standard uncertainty that bore, thickness and tread may fail to add up by


def tread_explains(around: Around, reading: Reading, offs: Sequence[Off], size: float, practice: Practice) -> bool:
    """Whether a flange reads thicker only because the tread under the gauge wore: wear / tan(flange angle)."""
    side = offs[0].around.before
    if reading.quantity != "flange_thickness" or size <= 0 or side is None:
        return False
    line = around.history.lines[offs[0].number]
    days = line.times[offs[0].at] - line.times[side.nearest]
    allowed = flange_gained(around, line.thing, reading.quantity, days, practice)
    return size - allowed < practice.with_mark * offs[0].spread


def flange_gained(around: Around, thing: Hashable, quantity: str, days: float, practice: Practice) -> float:
    """How much thicker a flange may read after some days because the tread under the gauge wore; else nothing."""
    if quantity != "flange_thickness":
        return 0.0
    wear = -around.history.rates.get((thing, "tire_thickness"), (0.0, 0.0))[0] * days
    return max(wear, 0.0) / math.tan(math.radians(practice.flange_angle))


def by_relation(around: Around) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """Readings that a relation speaks against: values, slip, and the words for it."""
    yield from _told_hot(around)
    yield from _loose_tires(around)
    yield from _hot_bores(around)
    yield from _hot_treads(around)


def _offs(around: Around, reading: Reading, excess: float, spread: float) -> tuple[Off, ...]:
    """All values of a reading, each less the same excess."""
    values = [
        (position, float(span.low))
        for position, measures in reading.values
        if (span := mean(measures)).low is not None and span.low == span.high
    ]
    found = (off_of(around, reading, position, value - excess, spread) for position, value in values)
    return tuple(off for off in found if off is not None)


def _middle(reading: Reading) -> float | None:
    spans = [mean(measures) for _, measures in reading.values]
    points = [float(span.low) for span in spans if span.low is not None and span.low == span.high]
    return math.fsum(points) / len(points) if points else None


def _told_hot(around: Around) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """Large parts that were measured hotter than the shop ever is, by the temperature written beside them."""
    alpha, shop = expansion_of(around.book, TIRE_STEEL), shop_temperatures(around.book)
    if alpha is None or shop is None:
        return
    hot: dict[str, Fraction | None] = {"": None}  # each text is read once
    for reading in around.book.readings:
        text = reading.part_temperature
        if text not in hot:
            found = temperature(text)
            hot[text] = found if found is not None and float(found) > shop[1] else None
        told = hot[text]
        if told is None or reading.when == "warm after":
            continue
        size = _middle(reading)
        if size is not None and size > LARGE:
            excess = size * (1 - 1 / (1 + alpha * (float(told) - REFERENCE)))
            offs = _offs(around, reading, excess, max(excess / NARROW, 1e-6))
            if offs:
                yield reading, offs, "hot-reading", reading.part_temperature


def _loose_tires(around: Around) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """Tires off their center: taped tread = bore + 2 x thickness, as received or before the tire goes on."""
    book = around.book
    for tire, tread in ((t, r) for t in (Thing("tire", id) for id in book.tires) for r in _taped_loose(around, t)):
        bore, thickness = (_last_loose(around, tire, name, tread) for name in ("tire_bore", "tire_thickness"))
        if bore is None or thickness is None:
            continue
        found = [_middle(r) for r in (tread, bore, thickness)]
        variances = [standard_variance(book, r) for r in (tread, bore, thickness)]
        if None in found or None in variances:
            continue
        outer, hole, thick = (float(value or 0) for value in found)
        spread = math.sqrt(math.fsum(float(v or 0) for v in variances[:2]) + 4 * float(variances[2] or 0))
        excess = (2 * thick + hole - outer) / 2
        if 2 * abs(excess) > SUM_FACTOR * spread:
            mm = book.in_mm()
            says = (
                f"The bore of {bore.day.text} and twice this thickness make {_length(hole + 2 * thick, mm)}, and "
                f"the tread was taped at {_length(outer, mm)} on {tread.day.text}."
            )
            offs = _offs(around, thickness, excess, spread / 2 / 3)
            if offs:
                yield thickness, offs, "diameter-not-bore-and-thickness", says


def _taped_loose(around: Around, tire: Thing) -> Iterable[Reading]:
    """Tread diameters of a tire off its center; of those in one record the last."""
    return {
        tread.source.record: tread
        for tread in around.book.series.get((tire, "tread_diameter"), ())
        if (tread.source.kind == "tire-applied" and tread.when == "cold before") or _is_loose(around, tire, tread)
    }.values()


def _is_loose(around: Around, tire: Thing, reading: Reading) -> bool:
    day = reading.day.first
    return day is not None and around.book.standing.wheel_of_tire(tire.id, day) is None


def _last_loose(around: Around, tire: Thing, quantity: str, tread: Reading) -> Reading | None:
    """The last reading of a tire up to the taping of its tread, taken while it lay loose and since it last ran."""
    found, until = None, tread.day.first
    spells = around.book.standing.centers_of.get(tire.id, ())
    ran = [spell.until for _, spell in spells if spell.until is not None and until is not None and spell.until <= until]
    for reading in around.book.series.get((tire, quantity), ()):
        day = reading.day.first
        loose = _is_loose(around, tire, reading) or reading.source.record == tread.source.record
        if day is not None and until is not None and max(ran, default=day) <= day <= until and loose:
            found = reading
    return found


def _hot_bores(around: Around) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """Bores larger than what was ordered by more than the machine shop errs, as heat would make them."""
    alpha = expansion_of(around.book, TIRE_STEEL)
    for (thing, quantity), readings in around.book.series.items() if alpha else ():
        tire = around.book.tires.get(thing.id) if quantity == "tire_bore" else None
        for reading in readings if tire is not None else ():
            size, wanted = _middle(reading), _wanted_bore(around, thing, reading)
            if size is None or wanted is None or alpha is None:
                continue
            excess = size - wanted
            if alpha * size * HOTTER[0] < excess < alpha * size * HOTTER[1]:
                offs = _offs(around, reading, excess, excess / NARROW)
                if offs:
                    yield reading, offs, "hot-reading", f"about {excess / (alpha * size) * 9 / 5 + 68:.0f} degF"


def _wanted_bore(around: Around, tire: Thing, reading: Reading) -> float | None:
    """What a bore was ordered to be, or at least the center it went on: a bore is smaller than its center."""
    record = around.book.tires[tire.id]
    bore = fields.inner(fields.inner(record.tree, "ordered"), "bore")
    low, high = fields.exact(bore, "at_least"), fields.exact(bore, "at_most")
    if low is not None and high is not None:
        return float(low + high) / 2
    for center, spell in around.book.standing.centers_of.get(tire.id, ()):
        if spell.start is not None and reading.day.first is not None and reading.day.first <= spell.start:
            seats = around.book.series.get((Thing("center", center), "center_diameter"), ())
            found = [size for seat in seats if (size := _middle(seat)) is not None]
            return found[-1] if found else None
    return None


def _hot_treads(around: Around) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """A tread taped as the tire went on that cannot be both before and after the grip: one was read hot.

    A tire that did not grow most likely does not grip: it tells nothing of what growth is usual, and not that it was
    hot before. Only one that shrank was; no grip makes a tire smaller.
    """
    alpha = expansion_of(around.book, TIRE_STEEL)
    growths = [(s, found) for s in around.book.past_sessions if (found := _growth(s)) is not None]
    if alpha is None or len(growths) < 2:
        return
    sizes = [(s, before, after, after[1] - before[1], alpha * after[1]) for s, (before, after) in growths]
    grown = [growth for *_, growth, per_kelvin in sizes if growth > per_kelvin * HOTTER[0]]
    usual = median(grown) if grown else 0.0
    for session, before, after, growth, per_kelvin in sizes:
        off, least, most = growth - usual, *(per_kelvin * rise for rise in HOTTER)
        possible = growth <= _most_growth(around, session) if off > 0 else growth > -least
        if least < abs(off) < most and not possible:
            reading = after[0] if off > 0 else before[0]
            offs = _offs(around, reading, abs(off), abs(off) / NARROW)
            if offs:
                yield reading, offs, "hot-reading", f"about {abs(off) / per_kelvin * 9 / 5 + 68:.0f} degF"


def _most_growth(around: Around, session: Session) -> float:
    """The most that a tread can have grown by the fit on record; nothing where that is not told."""
    book = around.book
    tire, center = book.tires.get(session.tire), book.centers.get(session.center)
    fit = find_fit(book, tire, center, session) if tire and center else None
    squeeze = find_squeeze(book, fit) if isinstance(fit, Fit) else None
    return squeeze.growth.high if isinstance(squeeze, Squeeze) else 0.0


def _growth(session: Session) -> tuple[tuple[Reading, float], tuple[Reading, float]] | None:
    if session.kind != "tire-applied":
        return None
    found: dict[str, tuple[Reading, float]] = {}
    for reading in session.readings:
        size = _middle(reading)
        if reading.quantity == "tread_diameter" and reading.when in ("cold before", "cold after") and size is not None:
            found.setdefault(reading.when, (reading, size))
    return (found["cold before"], found["cold after"]) if len(found) == 2 else None


def _length(metres: float, mm: bool) -> str:
    in_inches, in_mm = f"{metres / 0.0254:.3f} in", f"{metres * 1000:.2f} mm"
    return f"{in_mm} ({in_inches})" if mm else f"{in_inches} ({in_mm})"
