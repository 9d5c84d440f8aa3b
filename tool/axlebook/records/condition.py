"""What is true of every wheel now: seats on engines, and the latest readings on the part now fitted.

A reading stops telling the condition when the part was worked on since: a turning changes tread and flange, new
tires or a pressed center change what lies between the wheels.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from typing import NamedTuple, TypeVar

from axlebook.findings import Place
from axlebook.limits import Span, point
from axlebook.quantities import Quantity

from . import spans
from .book import Book, Thing, side_of
from .dates import Day
from .engine import Engine, Line
from .instruments import plane_of
from .last_values import full_reading, last_of_each, told_by_plane
from .reading import DOUBTFUL, Measure, Observation, Reading
from .session import Session
from .tire import Tire
from .wheelset import Center, Wheelset

BEFORE_WORK = frozenset({"before", "cold before", "warm after", "at receiving"})
CHANGED_BY_TURNING = frozenset({
    "tire_thickness", "rim_thickness", "flange_height", "flange_thickness", "flange_gradient", "tread_hollow",
    "tread_diameter", "tread_run_out", "thickness_throat_to_counterbore", "thickness_from_ring",
    "over_flanges_measured",
    "flat", "shelled_spot", "numerous_shelled_spots", "flange_chip", "slid_mark",
})  # fmt: skip
CHANGED_BY_TIRES = frozenset({"back_to_back", "over_flanges_measured", "flange_back_to_shoulder"})


class Stand(NamedTuple):
    """A wheelset standing at a place of an engine now; with a side, one wheel of it."""

    engine: Engine
    line: Line
    wheelset: Wheelset
    side: str = ""  # left or right, A or B where not told
    end: str = ""
    center: Center | None = None
    tire: Tire | None = None

    @property
    def name(self) -> str:
        """Shop words: engine, place, side."""
        return f"{self.engine.id} {self.line.at} {self.side}".strip()

    @property
    def ids(self) -> tuple[str, ...]:
        """The parts that are there: the wheelset, and the center and tire of a wheel."""
        return tuple(part.id for part in (self.wheelset, self.center, self.tire) if part is not None)

    def thing(self, of: str) -> Thing | None:
        """The thing a quantity of this stand belongs to; None where it has none."""
        if of == "wheelset":
            return None if self.side else Thing("wheelset", self.wheelset.id)
        if of == "engine" or not self.side:
            return None
        if of == "center":
            return Thing("center", self.center.id) if self.center else Thing("end", self.wheelset.id, self.end)
        if of == "end":
            return Thing("end", self.wheelset.id, self.end)
        if self.tire:
            return Thing("tire", self.tire.id)
        return Thing("end", self.wheelset.id, self.end) if of == "wheel" else None


class EnginePlace(NamedTuple):
    """A place of an engine that is not a wheelset: `crosshead left`, `tender rear`, or the whole engine."""

    engine: Engine
    place: str

    @property
    def name(self) -> str:
        """Shop words: engine and place."""
        return f"{self.engine.id} {self.place}".strip()

    def thing(self, of: str) -> Thing | None:
        """The thing a quantity of this place belongs to; None where it has none."""
        return Thing("engine", self.engine.id, self.place) if of == "engine" else None


Site = Stand | EnginePlace


class Value(NamedTuple):
    """One value to judge: its position, what is known of it, and the reading it stands in."""

    quantity: str
    position: str
    span: Span
    text: str
    unit: str
    where: str
    at: Place
    day: Day
    readings: tuple[Reading, ...]
    seen_unsurely: bool = False  # it stands in an observation of which the card is not sure

    @property
    def doubtful(self) -> bool:
        """Whether what it rests on is uncertain or unknown by the card's own word."""
        return self.seen_unsurely or any(reading.sure in DOUBTFUL for reading in self.readings)


class Stale(NamedTuple):
    """Readings or observations there are, but the part was worked on since."""

    since: Session
    last: Reading | Observation


class Lack(NamedTuple):
    """A quantity cannot be worked out for want of something; `value` is what there is."""

    what: str
    value: Value


def stands(book: Book) -> tuple[Stand, ...]:
    """Every wheelset that stands on an engine now, each followed by its two wheels; listed once."""
    found: tuple[Stand, ...] | None = book.__dict__.get("_standing_now")
    if found is None:
        found = book.__dict__["_standing_now"] = tuple(_all_stands(book))
    return found


def _all_stands(book: Book) -> Iterator[Stand]:
    for engine in book.engines.values():
        for line in book.standing.standing_lines(engine, book.as_of):
            wheelset = book.wheelsets.get(line.wheelset)
            if wheelset is not None:
                yield Stand(engine, line, wheelset)
                yield from _wheels(book, engine, line, wheelset)


def engine_places(book: Book) -> Iterator[EnginePlace]:
    """Every place of an engine, other than its wheelsets, at which something was measured or looked for."""
    things = dict.fromkeys(thing for thing, _ in (*book.series, *book.seen) if thing.kind == "engine")
    for thing in things:
        if thing.id in book.engines:
            yield EnginePlace(book.engines[thing.id], thing.side)


def _wheels(book: Book, engine: Engine, line: Line, wheelset: Wheelset) -> Iterator[Stand]:
    found = []
    for end in wheelset.ends:
        center = book.standing.center_on(wheelset.id, end, book.as_of)
        tire = book.standing.tire_on(center, book.as_of) if center else ""
        side = side_of(line.a_end, wheelset, end)
        found.append(Stand(engine, line, wheelset, side, end, book.centers.get(center), book.tires.get(tire)))
    yield from sorted(found, key=lambda stand: stand.side)


def last_work(book: Book, stand: Site, quantity: str) -> Session | None:
    """The last work that changed what this quantity measures on this stand, or may be the last."""
    if isinstance(stand, EnginePlace):
        return None
    kinds = []
    if quantity in CHANGED_BY_TURNING:
        kinds.append("turning")
    if quantity in CHANGED_BY_TIRES:
        kinds += ["tire-applied", "tire-removed", "mounting"]
    if not kinds:
        return None
    ids = {stand.wheelset.id}
    for wheel in (stand, *other_wheels(book, stand)) if not stand.side else (stand,):
        ids |= {thing.id for thing in (wheel.tire, wheel.center) if thing is not None}
    done = [s for id in ids for s in book.work_on.get(id, ()) if s.kind in kinds]
    dated = [(day, s) for s in done if (day := _latest_day(s)) is not None]
    return max(dated, key=lambda one: one[0])[1] if dated else None


def _latest_day(work: Session) -> date | None:
    """The last day a work can have been done; a tire came off before the next went on, at the earliest then."""
    if work.kind == "tire-removed":
        return work.day.first
    return work.day.last or date.max


def other_wheels(book: Book, stand: Stand) -> list[Stand]:
    """The two wheels of the wheelset that this stand is, or is a wheel of."""
    return list(_wheels(book, stand.engine, stand.line, stand.wheelset))


Read = TypeVar("Read", Reading, Observation)


def latest(book: Book, stand: Site, quantity: str, of: str) -> list[Value] | Stale:
    """The last value of this quantity at each position and plane, since the last work.

    An empty list: never read on the part now fitted. Read before the last work only, it is stale.
    """
    thing = stand.thing(of)
    read = book.series.get((thing, quantity), []) if thing else []
    found = [r for r in read if r.when not in BEFORE_WORK or _tells_a_state(book, stand, r)]
    work = last_work(book, stand, quantity) if read else None
    if not found:
        before = work is not None and (read[-1].source.record == work.id or done_before(read[-1].day, work))
        return Stale(work, read[-1]) if work is not None and before else []
    fresh = left_by(work, found)
    if not fresh and work is not None:
        return Stale(work, found[-1])
    planes = told_by_plane(book, stand.engine, quantity, fresh)
    return [_value(book, *one) for one in last_of_each(book, fresh, full_reading(book, quantity), planes)]


def _tells_a_state(book: Book, stand: Site, reading: Reading) -> bool:
    """Whether a reading from before a work tells how a part was left: it does where that work is not on record."""
    if reading.source.kind != "inspection" or not isinstance(stand, Stand):
        return reading.source.kind == "inspection"
    day = reading.day.first
    return not any(day is None or day <= (s.day.last or date.max) for id in stand.ids for s in book.work_on.get(id, ()))


def left_by(work: Session | None, found: list[Read]) -> list[Read]:
    """Of what was read or seen that which tells how a work left a part; nothing where all may be from before it.

    Beside what is certainly from after it, or in its own record, stands what may be: it may be the worse.
    """
    if work is None or all(one.source.record != work.id and done_before(one.day, work) for one in reversed(found)):
        return [] if work else found
    begun = work.day.first or date.min
    return [one for one in found if one.source.record == work.id or (one.day.last or date.max) >= begun]


def done_before(day: Day, work: Session | None) -> bool:
    """Whether something was read before a work, or may have been: then it tells nothing of what the work left."""
    since = _latest_day(work) if work else None
    return since is not None and (day.first is None or day.first < since)


def mean(measures: tuple[Measure, ...]) -> Span:
    """Repeats of one position as one value: their mean; with intervals among them, the mean of the bounds."""
    if len(measures) == 1:  # nearly always
        return span_of(measures[0])
    return spans.mean([span_of(measure) for measure in measures])


def span_of(measure: Measure) -> Span:
    """A measure as what is known of its value."""
    if isinstance(measure, Quantity):
        return point(measure.exact)
    return Span(measure.low_exact, measure.high_exact, measure.is_open)


def values_of(book: Book, readings: list[Reading]) -> list[Value]:
    """The values of readings, one a position; repeats become their mean, and stand as written."""
    return [_value(book, reading, *one) for reading in readings for one in reading.values]


def _value(book: Book, reading: Reading, position: str, measures: tuple[Measure, ...]) -> Value:
    return Value(
        reading.quantity,
        position,
        mean(measures),
        " and ".join(m.text for m in measures),
        measures[0].unit,
        plane_of(book, reading),
        reading.value_at(position),
        reading.day,
        (reading,),
    )


def middle(values: list[Value]) -> Fraction | None:
    """The mean of all values known as points; None where there is none."""
    points = [v.span.low for v in values if v.span.low is not None and v.span.low == v.span.high]
    return sum(points, Fraction(0)) / len(points) if points else None


def current(book: Book, stand: Site, quantity: str) -> list[Value]:
    """The values that tell the condition of a stand now; empty where stale or never read."""
    found = values_now(book, stand, quantity)
    return [] if isinstance(found, Stale) else found


def values_now(book: Book, stand: Site, quantity: str) -> list[Value] | Stale:
    """The same, or since when it is stale; worked out once for a thing, since much is derived from it."""
    of = book.vocabulary.quantities[quantity].of
    known: dict[tuple[Thing | None, str], list[Value] | Stale] = book.__dict__.setdefault("_values_now", {})
    key = (stand.thing(of), quantity)
    if key not in known:
        known[key] = latest(book, stand, quantity, of)
    return known[key]
