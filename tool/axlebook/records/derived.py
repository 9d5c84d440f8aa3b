"""Quantities that are worked out, each in one named place, so that a limit never becomes a program.

Every function takes the book and a stand and gives values to judge, exact; an empty list where nothing was read to
work from; what is lacking, where something was.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from fractions import Fraction
from itertools import chain

from axlebook.limits import Span

from . import spans
from .book import Book
from .condition import EnginePlace, Lack, Site, Stale, Stand, Value, current, other_wheels, values_now
from .facets import track_gauge
from .observed import adjacent_broken_spokes, adjoining, broken_spoke_share, shims_under
from .renewal import fresh_tires

Found = list[Value] | Lack
Diameter = tuple[Span, Value]


def _from(quantity: str, position: str, span: Span, *sources: Value) -> Value:
    """A derived value that stands where the last of its sources stands."""
    last = max(reversed(sources), key=lambda v: (v.day.first is not None, v.day.first))
    readings = tuple(reading for value in sources for reading in value.readings)
    text = " and ".join(f"{value.position}: {value.text}" for value in sources[:3])
    return Value(quantity, position, span, text, last.unit, last.where, last.at, last.day, readings)


def _lowest(values: list[Value]) -> Value:
    """The value that can be smallest; one open below first of all."""
    return min(values, key=lambda v: (v.span.low is not None, v.span.low or spans.ZERO))


def _highest(values: list[Value]) -> Value:
    """The value that can be largest; one open above first of all."""
    return max(values, key=lambda v: (v.span.high is None, v.span.high or spans.ZERO))


def _named(value: Value, what: str) -> Value:
    """A value that says which of several things it is of where it is told beside them."""
    return value._replace(position=f"{what}, {value.position}")


def _known(exact: Fraction) -> Span:
    return Span(exact, exact)


# -- axle ------------------------------------------------------------------------------------------------------------


def journal_wear(book: Book, stand: Stand) -> Found:
    """How far each journal reading lies below the original diameter."""
    read = current(book, stand, "journal_diameter")
    original = stand.wheelset.original_journal_diameter
    if original is None:
        return Lack("the original journal diameter", read[0]) if read else []
    return [_from("journal_wear", v.position, spans.less(_known(original), v.span), v) for v in read]


def centrality(book: Book, stand: Stand) -> Found:
    """How far the pair stands off the middle: half the difference of flange back to journal shoulder."""
    if stand.side:
        return []
    wheels = other_wheels(book, stand)
    sides = [current(book, wheel, "flange_back_to_shoulder") for wheel in wheels]
    for wheel, read, other in zip(wheels, sides, reversed(sides), strict=True):
        if other and not read:
            return Lack(f"flange back to journal shoulder on the {wheel.side} side", other[-1])
    if not all(sides):
        return []
    means = [spans.mean([v.span for v in side]) for side in sides]
    apart = spans.size_of(spans.less(*means))
    low, high = (None if bound is None else bound / 2 for bound in (apart.low, apart.high))
    half = Span(low, high, apart.left_out)
    return [_from("centrality", "left to right", half, sides[0][-1], sides[1][-1])]


# -- gauge -----------------------------------------------------------------------------------------------------------


def track_gauge_less_back_to_back(book: Book, stand: Stand) -> Found:
    """The track gauge less each back-to-back reading."""
    read, gauge = current(book, stand, "back_to_back"), track_gauge(book, stand)
    if gauge is None:
        return Lack("the track gauge", read[0]) if read else []
    return [_from("track_gauge_less_back_to_back", v.position, spans.less(_known(gauge), v.span), v) for v in read]


def one_hold(values: list[Value]) -> list[list[Value]]:
    """Values grouped by the record, reader, hold and clock position they were taken in."""
    groups: dict[tuple[str, ...], list[Value]] = {}
    for value in values:
        reading = value.readings[0]
        key = (reading.source.record, *reading.by, reading.hold, reading.clock, reading.instrument)
        groups.setdefault(key, []).append(value)
    return list(groups.values())


def back_to_back_variation(book: Book, stand: Stand) -> Found:
    """The largest less the smallest back-to-back round the axle, within one hold and one reader."""
    read = current(book, stand, "back_to_back")
    found = []
    for group in one_hold(read):
        if len({value.position for value in group}) >= 2:
            apart = spans.spread([value.span for value in group])
            found.append(_from("back_to_back_variation", "round the axle", apart, _lowest(group), _highest(group)))
    if read and not found:
        return Lack("back-to-back at a second place round the axle, in the same hold,", read[0])
    return found


def _flanges(book: Book, wheels: list[Stand]) -> tuple[list[list[Value]], list[str]]:
    """The flange thickness of both wheels, and the planes in which both were read."""
    sides = [current(book, wheel, "flange_thickness") for wheel in wheels]
    planes = [list(dict.fromkeys(v.where for v in side)) for side in sides]
    return sides, [plane for plane in planes[0] if plane in planes[1]]


def over_flanges(book: Book, stand: Stand) -> Found:
    """Back-to-back and both flanges, each in one plane: the smallest sum and the largest that the readings allow."""
    backs = [] if stand.side else current(book, stand, "back_to_back")
    if not backs:
        return []
    wheels = other_wheels(book, stand)
    sides, planes = _flanges(book, wheels)
    if not planes:
        measured = current(book, stand, "over_flanges_measured")
        return [] if measured else Lack("the thickness of both flanges in one plane", backs[0])
    names = ("back-to-back", *(f"{wheel.side} flange" for wheel in wheels))
    found = []
    for plane in planes:
        flanges = [[v for v in side if v.where == plane] for side in sides]
        for name, pick in (("smallest", _lowest), ("largest", _highest)):
            parts = [_named(pick(values), of) for of, values in zip(names, (backs, *flanges), strict=True)]
            whole = spans.total([part.span for part in parts])
            found.append(_from("over_flanges", name, whole, *parts)._replace(where=plane))
    return found


def track_gauge_less_over_flanges(book: Book, stand: Stand) -> Found:
    """The play of the flanges in the track: the track gauge less over flanges, worked out or measured whole."""
    worked_out = over_flanges(book, stand)
    whole = current(book, stand, "over_flanges_measured") + ([] if isinstance(worked_out, Lack) else worked_out)
    if not whole and isinstance(worked_out, Lack):
        return worked_out
    gauge = track_gauge(book, stand)
    if gauge is None:
        return Lack("the track gauge", whole[0]) if whole else []
    name = "track_gauge_less_over_flanges"
    return [v._replace(quantity=name, span=spans.less(_known(gauge), v.span)) for v in whole]


def wheel_check(book: Book, stand: Stand) -> Found:
    """Back-to-back and ONE flange: the largest that the readings allow, for each flange.

    Of a flange that was not read nothing is known but that it is there: with the other it is at least the back-to-back.
    """
    backs = [] if stand.side else current(book, stand, "back_to_back")
    if not backs:
        return []
    found, back = [], _highest(backs)
    wheels = other_wheels(book, stand)
    flanges = [current(book, wheel, "flange_thickness") for wheel in wheels]
    if not any(flanges):
        return Lack(f"the thickness of the {wheels[0].side} flange", back)
    for wheel, flange in zip(wheels, flanges, strict=True):
        position = f"with the {wheel.side} flange"
        if flange:
            thick = _highest(flange)
            check = spans.total([back.span, thick.span])
            parts = _named(back, "back-to-back"), _named(thick, f"{wheel.side} flange")
            found.append(_from("wheel_check", position, check, *parts))
        else:
            found.append(_from("wheel_check", position, Span(back.span.low, None), _named(back, "back-to-back")))
    return found


# -- tires -----------------------------------------------------------------------------------------------------------


def thickness_from_ring_with_extension(book: Book, stand: Stand) -> Found:
    """The thickness from the outside of the ring and what the tire extends between the rings, together."""
    read = current(book, stand, "thickness_from_ring")
    extension = current(book, stand, "ring_extension") if read else []
    if not extension:
        return Lack("how far the tire extends between the retaining rings", read[0]) if read else []
    least = _lowest(extension)
    name = "thickness_from_ring_with_extension"
    return [_from(name, v.position, spans.total([v.span, least.span]), v, least) for v in read]


def _diameters(book: Book, wheels: list[Stand]) -> list[Diameter | None]:
    """The mean tread diameter of each of some wheels, with a value to stand for it; None where not read."""
    taped = [current(book, wheel, "tread_diameter") for wheel in wheels]
    last = max(chain(*taped), key=lambda v: v.day.first or date.min, default=None)
    found: list[Diameter | None] = []
    for wheel, values in zip(wheels, taped, strict=True):
        read = [_worn_since(book, wheel, value, last) for value in values if last is not None]
        mean = spans.mean([v.span for v in read]) if read else None
        found.append((mean, read[-1]._replace(position=wheel.side)) if mean else None)
    return found


def _worn_since(book: Book, wheel: Stand, value: Value, last: Value) -> Value:
    """A diameter as it is when another was read: at most what it was, where the engine ran between or may have."""
    same_record = value.readings[0].source.record == last.readings[0].source.record
    if same_record or (value.day == last.day and value.day.exact) or last.day.last is None:
        return value
    if value.day.first and book.service_calendar(wheel.engine.id).count(value.day.first, last.day.last).most == 0:
        return value
    text = f"{value.text} (read {value.day.text}; it ran since, or may have)"
    return value._replace(span=Span(None, value.span.high, value.span.left_out), text=text)


def diameter_difference_on_axle(book: Book, stand: Stand) -> Found:
    """The difference of the mean tread diameters of the two wheels of one axle."""
    left, right = (None, None) if stand.side else _diameters(book, other_wheels(book, stand))
    if left is None or right is None:
        found = left or right
        return Lack("the tread diameter of the opposite wheel", found[1]) if found else []
    apart = spans.size_of(spans.less(left[0], right[0]))
    return [_from("diameter_difference_on_axle", "left to right", apart, left[1], right[1])]


def _base(book: Book, stand: Stand) -> list[Diameter | None]:
    """Every driving wheel of the engine: its diameter, or None where it was not read."""
    wheels = [
        wheel
        for line in book.standing.standing_lines(stand.engine, book.as_of)
        if (wheelset := book.wheelsets.get(line.wheelset)) is not None and wheelset.driver
        for wheel in other_wheels(book, Stand(stand.engine, line, wheelset))
    ]
    return [
        found and (found[0], found[1]._replace(position=f"{wheel.line.at} {wheel.side}"))
        for wheel, found in zip(wheels, _diameters(book, wheels), strict=True)
    ]


def _leads(book: Book, stand: Stand) -> bool:
    """Whether this is the stand that speaks for the whole driving wheel base: its first driver."""
    lines = [line for line in book.standing.standing_lines(stand.engine, book.as_of) if line.role == "driver"]
    return not stand.side and bool(lines) and stand.line == lines[0]


def diameter_difference_in_set(book: Book, stand: Stand) -> Found:
    """The largest less the smallest mean tread diameter of the driving wheel base; at least that, where one lacks."""
    base = _base(book, stand) if _leads(book, stand) else []
    read = [diameter for diameter in base if diameter]
    if len(read) < 2:
        return Lack("the tread diameters of the other driving wheels", read[0][1]) if read and len(base) > 1 else []
    apart = spans.spread([span for span, _ in read])
    low, high = _lowest([v._replace(span=s) for s, v in read]), _highest([v._replace(span=s) for s, v in read])
    name = "diameter_difference_in_set"
    if len(read) < len(base):
        apart = Span(apart.low, None)
    return [_from(name, "largest to smallest", apart, low, high)]


def diameter_less_opposite(book: Book, stand: Stand) -> Found:
    """A freshly turned or renewed single tire: its diameter less that of the wheel opposite."""
    fresh = fresh_tires(book, stand.engine).fresh if not stand.side and stand.wheelset.driver else []
    if len(fresh) != 1 or fresh[0].wheelset != stand.wheelset.id:
        return []
    wheels = other_wheels(book, stand)
    pair = sorted(zip(wheels, _diameters(book, wheels), strict=True), key=lambda p: p[0].side != fresh[0].side)
    (_, new), (_, other) = pair
    if new is None or other is None:
        found = new or other
        return Lack("the tread diameter of the opposite wheel", found[1]) if found else []
    return [_from("diameter_less_opposite", new[1].position, spans.less(new[0], other[0]), other[1], new[1])]


def diameter_less_base_average(book: Book, stand: Stand) -> Found:
    """A freshly turned or renewed single pair: each diameter less the average of the whole driving wheel base."""
    fresh = fresh_tires(book, stand.engine).fresh if not stand.side and stand.wheelset.driver else []
    if len(fresh) != 2 or {tire.wheelset for tire in fresh} != {stand.wheelset.id}:
        return []
    base, here = _base(book, stand), f"{stand.line.at} "
    read = [diameter for diameter in base if diameter]
    pair = [(span, v) for span, v in read if v.position.startswith(here)]
    if None in base:
        return Lack("the tread diameter of every driving wheel", pair[0][1]) if pair else []
    average = spans.mean([span for span, _ in read])
    worn = [v for span, v in read if span.low is None][:1]
    name = "diameter_less_base_average"
    return [_from(name, v.position.removeprefix(here), spans.less(s, average), v, *worn) for s, v in pair]


DERIVED: dict[str, Callable[[Book, Stand], Found]] = {
    "journal_wear": journal_wear,
    "track_gauge_less_back_to_back": track_gauge_less_back_to_back,
    "back_to_back_variation": back_to_back_variation,
    "over_flanges": over_flanges,
    "track_gauge_less_over_flanges": track_gauge_less_over_flanges,
    "wheel_check": wheel_check,
    "thickness_from_ring_with_extension": thickness_from_ring_with_extension,
    "diameter_difference_on_axle": diameter_difference_on_axle,
    "diameter_difference_in_set": diameter_difference_in_set,
    "diameter_less_opposite": diameter_less_opposite,
    "diameter_less_base_average": diameter_less_base_average,
    "centrality": centrality,
    "adjacent_broken_spokes": adjacent_broken_spokes,
    "broken_spoke_share": broken_spoke_share,
    "shorter_of_adjoining_flats": adjoining("flat", "shorter_of_adjoining_flats"),
    "shorter_of_adjoining_shelled_spots": adjoining("shelled_spot", "shorter_of_adjoining_shelled_spots"),
}


def find_values(book: Book, site: Site, quantity: str) -> list[Value] | Lack | Stale:
    """The current values of a quantity, measured or derived; or what is lacking, or since when it is stale."""
    if quantity in DERIVED:
        return [] if isinstance(site, EnginePlace) else DERIVED[quantity](book, site)
    if quantity not in book.vocabulary.quantities:
        return []
    found = values_now(book, site, quantity)
    if not found and quantity == "shim_thicknesses" and isinstance(site, Stand):
        return shims_under(book, site)
    return found


def values(book: Book, site: Site, quantity: str) -> list[Value]:
    """The current values of a quantity; empty where it is stale or cannot be worked out."""
    found = find_values(book, site, quantity)
    return found if isinstance(found, list) else []
