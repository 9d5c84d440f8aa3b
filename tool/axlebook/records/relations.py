"""Relations between quantities that tell a slip where no earlier reading does."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from statistics import median

from axlebook.trends.expected import Expected, Line, trimmed_scatter

from . import fields
from .book import Thing
from .condition import mean
from .explanations import HOTTER, LARGE, REFERENCE
from .fit import TIRE_STEEL, expansion_of, shop_temperatures
from .instruments import standard_variance, temperature
from .offs import Around, Off
from .plausibility import Practice
from .reading import Reading
from .session import Session
from .timeline import HELD

OUT_OF_THE_ENGINE = frozenset({"shop", "after-work", "receiving"})  # there another hold is no surprise
FEW_IN_A_HOLD = 2  # readings in a hold that make no trend of their own
SUM_FACTOR = 2.2  # times the combined standard uncertainty that bore, thickness and tread may fail to add up by


def tread_explains(
    around: Around, reading: Reading, offs: Sequence[Off], size: float, practice: Practice
) -> bool:
    """Whether a flange reads thicker only because the tread under the gauge wore: wear / tan(flange angle)."""
    side = offs[0].around.before
    if reading.quantity != "flange_thickness" or size <= 0 or side is None:
        return False
    line = around.history.lines[offs[0].number]
    days = line.times[offs[0].index] - line.times[side.nearest]
    wear = -around.history.rates.get((line.thing, "tire_thickness"), (0.0, 0.0))[0] * days
    allowed = max(wear, 0.0) / math.tan(math.radians(practice.flange_angle))
    return size - allowed < practice.with_mark * offs[0].spread


def by_relation(around: Around) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """Readings that a relation speaks against: values, slip, and the words for it."""
    yield from _told_hot(around)
    yield from _loose_tires(around)
    yield from _hot_bores(around)
    yield from _hot_treads(around)


def off_of(around: Around, reading: Reading, position: str, expected: float, spread: float) -> Off | None:
    """A value of a reading beside what a relation expects of it."""
    for number, index in around.history.at.get(id(reading), ()):
        line = around.history.lines[number]
        if line.position == position:
            noise = around.history.noise(line, index)
            alone = Expected(expected, spread, noise.grid, None, None)
            return Off(number, index, line.points[index], position, line.values[index], expected, spread, noise.grid,
                       0.0, noise.scatter, math.sqrt(2 * noise.variance), alone)  # fmt: skip
    return None


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
    for reading in around.book.readings:
        told = temperature(reading.part_temperature) if reading.part_temperature else None
        if told is None or float(told) <= shop[1] or reading.when == "warm after":
            continue
        size = _middle(reading)
        if size is not None and size > LARGE:
            excess = size * (1 - 1 / (1 + alpha * (float(told) - REFERENCE)))
            offs = _offs(around, reading, excess, max(excess / 5, 1e-6))
            if offs:
                yield reading, offs, "hot-reading", reading.part_temperature


def _loose_tires(around: Around) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """Tires off their center: taped tread = bore + 2 x thickness, all read before the tire goes on."""
    book = around.book
    for session in book.past_sessions:
        if session.kind != "tire-applied":
            continue
        tire = Thing("tire", session.tire)
        treads = [r for r in session.readings if r.quantity == "tread_diameter" and r.when == "cold before"]
        bore = _last_loose(around, tire, "tire_bore", session)
        thickness = _last_loose(around, tire, "tire_thickness", session)
        if not treads or bore is None or thickness is None:
            continue
        found = [_middle(r) for r in (treads[-1], bore, thickness)]
        variances = [standard_variance(book, r) for r in (treads[-1], bore, thickness)]
        if None in found or None in variances:
            continue
        tread, hole, thick = (float(value or 0) for value in found)
        spread = math.sqrt(math.fsum(float(v or 0) for v in variances[:2]) + 4 * float(variances[2] or 0))
        excess = (2 * thick + hole - tread) / 2
        if 2 * abs(excess) > SUM_FACTOR * spread:
            says = (
                f"The bore of {bore.day.text} and twice this thickness make {_inches(hole + 2 * thick)}, and "
                f"the tread was taped at {_inches(tread)} on {treads[-1].day.text}."
            )
            offs = _offs(around, thickness, excess, spread / 2 / 3)
            if offs:
                yield thickness, offs, "diameter-not-bore-and-thickness", says


def _last_loose(around: Around, tire: Thing, quantity: str, session: Session) -> Reading | None:
    """The last reading of a tire before it went on, taken while it lay loose."""
    found = None
    for reading in around.book.series.get((tire, quantity), ()):
        day, until = reading.day.first, session.day.first
        loose = day is not None and around.book.standing.wheel_of_tire(tire.id, day) is None
        if day is not None and until is not None and day <= until and (loose or reading.source.record == session.id):
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
                offs = _offs(around, reading, excess, excess / 5)
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
    """A tread taped as the tire went on that cannot be both before and after the grip: one was read hot."""
    alpha = expansion_of(around.book, TIRE_STEEL)
    growths = {s.id: found for s in around.book.past_sessions if (found := _growth(s)) is not None}
    if alpha is None or len(growths) < 2:
        return
    usual = median(after[1] - before[1] for before, after in growths.values())
    for before, after in growths.values():
        off = after[1] - before[1] - usual
        reading, size = after if off > 0 else before
        if alpha * size * HOTTER[0] < abs(off) < alpha * size * HOTTER[1]:
            offs = _offs(around, reading, abs(off), abs(off) / 5)
            if offs:
                yield reading, offs, "hot-reading", f"about {abs(off) / (alpha * size) * 9 / 5 + 68:.0f} degF"


def _growth(session: Session) -> tuple[tuple[Reading, float], tuple[Reading, float]] | None:
    if session.kind != "tire-applied":
        return None
    found: dict[str, tuple[Reading, float]] = {}
    for reading in session.readings:
        size = _middle(reading)
        if reading.quantity == "tread_diameter" and reading.when in ("cold before", "cold after") and size is not None:
            found.setdefault(reading.when, (reading, size))
    return (found["cold before"], found["cold after"]) if len(found) == 2 else None


def second_readers(around: Around, practice: Practice) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """Two people at one place on one day."""
    for readings in around.beside.values():
        if len(readings) < 2:
            continue
        by_name: dict[str, list[Reading]] = {}
        for reading in readings:
            by_name.setdefault(reading.named, []).append(reading)
        for same in by_name.values():
            for reading in same[1:]:
                yield from _against(around, same[0], reading, practice)


def _against(
    around: Around, first: Reading, second: Reading, practice: Practice
) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    if first not in around.fellows(second):
        return
    theirs = dict(first.values)
    found = []
    for position, _ in second.values:
        if position not in theirs:
            continue
        span = mean(theirs[position])
        if span.low is None or span.low != span.high:
            continue
        off = off_of(around, second, position, float(span.low), 0.0)
        if off is not None:
            off = off._replace(spread=math.sqrt(2) * off.scatter)
            if abs(off.residual) > max(practice.second * off.spread + off.grid, practice.least * off.reach):
                found.append(off)
    if found:
        text = " and ".join(m.text for m in theirs[found[0].position])
        says = f"{' and '.join(first.by)} read {text} there on the same day."
        yield second, tuple(found), "second-reader-disagrees", says


def _inches(metres: float) -> str:
    return f"{metres / 0.0254:.3f} in ({metres * 1000:.2f} mm)"


def other_ways(around: Around, practice: Practice) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """Readings taken once in another hold or plane, amid a trend taken one way, where the figures step."""
    history = around.history
    groups: dict[tuple[object, ...], list[int]] = {}
    for number, line in enumerate(history.lines):
        groups.setdefault((line.thing, line.quantity, line.position, line.points[0].epoch), []).append(number)
    found: dict[int, tuple[Reading, list[Off], str]] = {}
    for numbers in groups.values():
        for number in numbers if len(numbers) > 1 else ():
            line = history.lines[number]
            for other in (history.lines[n] for n in numbers if n != number):
                if len(line.points) <= FEW_IN_A_HOLD < len(other.points):
                    for off in _stepped(around, number, other, practice):
                        says = _ways(off, other)
                        reading = off.point.origin
                        if says:
                            found.setdefault(id(reading), (reading, [], says))[1].append(off)
    for reading, offs, says in found.values():
        yield reading, tuple(offs), "method-changed", says


def _ways(off: Off, other: Line) -> str:
    """How a reading was taken, beside the others; empty where that is no surprise."""
    mine, theirs = off.point.origin, other.points[0].origin
    if other.quantity in HELD and mine.hold != theirs.hold:
        surprise = mine.hold and theirs.hold and mine.source.purpose not in OUT_OF_THE_ENGINE
        return f"{mine.hold}, among readings {theirs.hold}" if surprise else ""
    if off.point.way[1] != other.points[0].way[1]:
        return f"with {mine.instrument}, {off.point.way[1]}, among readings {other.points[0].way[1]}"
    return ""


def _stepped(around: Around, number: int, other: Line, practice: Practice) -> Iterator[Off]:
    history = around.history
    line = history.lines[number]
    rate = history.rates[line.thing, line.quantity][0]
    for index, point in enumerate(line.points):
        here = line.times[index]
        if not other.times[0] < here < other.times[-1]:
            continue
        near = sorted(range(len(other.times)), key=lambda i: abs(other.times[i] - here))[:4]
        expected = median(other.values[i] + rate * (here - other.times[i]) for i in near)
        off = off_of(around, point.origin, line.position, expected, 0.0)
        if off is None:
            continue
        beside = history.noise(other, near[0])
        apart = 0.0
        if point.way[0] != other.points[near[0]].way[0]:
            apart = math.sqrt(beside.variance + history.noise(line, index).variance)
        off = off._replace(spread=1.2 * max(off.scatter, beside.scatter), apart=apart)
        if abs(off.residual) > max(practice.plain * off.spread + off.grid + apart, practice.least * off.reach):
            yield off


def siblings(around: Around, practice: Practice) -> Iterator[tuple[Reading, Off]]:
    """Values far from the other positions of their reading, where time says little: the furthest of each reading."""
    found: dict[tuple[str, str], list[tuple[Reading, float, float, str]]] = {}
    for reading in around.book.readings:
        places = around.history.at.get(id(reading), ())
        if len(places) < 2 or any(len(around.history.lines[number].points) > FEW_IN_A_HOLD for number, _ in places):
            continue
        values = [(around.history.lines[n].values[i], around.history.lines[n].position) for n, i in places]
        pool = found.setdefault((reading.quantity, reading.instrument), [])
        if len(values) == 2:  # either may be the one
            (one, here), (two, there) = values
            pool += [(reading, one, two - one, there), (reading, two, one - two, here)]
            continue
        middle = median(value for value, _ in values)
        off, position = max(((value - middle, position) for value, position in values), key=lambda one: abs(one[0]))
        pool.append((reading, middle, off, position))
    for key, many in found.items():
        noise = around.history.noises[key]
        usual = trimmed_scatter([off for _, _, off, _ in many]) if len(many) > FEW_IN_A_HOLD else 0.0
        spread = math.hypot(usual, noise.scatter)
        for reading, middle, off, position in many:
            if abs(off) - noise.grid > practice.with_mark * spread and abs(off) > practice.least * math.sqrt(
                2 * noise.variance
            ):
                alone = off_of(around, reading, position, middle, spread)
                if alone is not None:
                    around_it = around.history.expected(alone.number, alone.index)
                    yield reading, alone._replace(around=around_it) if around_it is not None else alone
