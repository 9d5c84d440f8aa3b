"""Quantities that are worked out, each in one named place, so that a limit never becomes a program.

Every function takes the book and a stand and gives values to judge, exact; none where what it needs is not there.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from axlebook.limits import Span, point

from . import fields
from .book import Book, Thing
from .condition import Stand, Value, current, middle, other_wheels
from .facets import track_gauge
from .reading import Observation
from .renewal import fresh_tires

HALF = Fraction(1, 2)


def _from(quantity: str, position: str, span: Span, *sources: Value) -> Value:
    """A derived value that stands where the last of its sources stands."""
    last = max(sources, key=lambda v: (v.day.first is not None, v.day.first))
    readings = tuple(reading for value in sources for reading in value.readings)
    text = " and ".join(f"{value.position}: {value.text}" for value in sources[:3])
    return Value(quantity, position, span, text, last.unit, last.where, last.at, last.day, readings)


def _points(values: list[Value]) -> list[tuple[Fraction, Value]]:
    return [(v.span.low, v) for v in values if v.span.low is not None and v.span.low == v.span.high]


def journal_wear(book: Book, stand: Stand) -> list[Value]:
    """How far each journal reading lies below the original diameter."""
    original = stand.wheelset.original_journal_diameter
    if original is None or not stand.side:
        return []
    return [
        _from("journal_wear", v.position, point(original - d), v)
        for d, v in _points(current(book, stand, "journal_diameter"))
    ]


def track_gauge_less_back_to_back(book: Book, stand: Stand) -> list[Value]:
    """The track gauge less each back-to-back reading."""
    gauge = track_gauge(book, stand)
    if gauge is None or stand.side:
        return []
    return [
        _from("track_gauge_less_back_to_back", v.position, point(gauge - b), v)
        for b, v in _points(current(book, stand, "back_to_back"))
    ]


def one_hold(values: list[Value]) -> list[list[Value]]:
    """Values grouped by the record, reader, hold and clock position they were taken in."""
    groups: dict[tuple[str, ...], list[Value]] = {}
    for value in values:
        reading = value.readings[0]
        key = (reading.source.record, *reading.by, reading.hold, reading.clock, reading.instrument)
        groups.setdefault(key, []).append(value)
    return list(groups.values())


def back_to_back_variation(book: Book, stand: Stand) -> list[Value]:
    """The largest less the smallest back-to-back round the axle, within one hold and one reader."""
    found = []
    for group in one_hold([] if stand.side else current(book, stand, "back_to_back")):
        points = _points(group)
        if len(points) >= 2:
            low, high = min(points, key=lambda p: p[0]), max(points, key=lambda p: p[0])
            found.append(_from("back_to_back_variation", "round the axle", point(high[0] - low[0]), low[1], high[1]))
    return found


def _flanges(book: Book, stand: Stand) -> list[list[tuple[Fraction, Value]]]:
    return [_points(current(book, wheel, "flange_thickness")) for wheel in other_wheels(book, stand)]


def over_flanges(book: Book, stand: Stand) -> list[Value]:
    """Back-to-back and both flanges: the smallest sum and the largest that the readings allow."""
    backs = [] if stand.side else _points(current(book, stand, "back_to_back"))
    flanges = _flanges(book, stand) if backs else []
    if not backs or not all(flanges):
        return []
    found = []
    for name, pick in (("smallest", min), ("largest", max)):
        parts = [pick(side, key=lambda p: p[0]) for side in (backs, *flanges)]
        found.append(
            _from("over_flanges", name, point(sum((p[0] for p in parts), Fraction(0))), *(p[1] for p in parts))
        )
    return found


def wheel_check(book: Book, stand: Stand) -> list[Value]:
    """Back-to-back and ONE flange: the largest that the readings allow, for each flange."""
    backs = [] if stand.side else _points(current(book, stand, "back_to_back"))
    found = []
    for wheel, flange in zip(other_wheels(book, stand), _flanges(book, stand) if backs else [], strict=False):
        if flange:
            back, thick = max(backs, key=lambda p: p[0]), max(flange, key=lambda p: p[0])
            found.append(
                _from("wheel_check", f"with the {wheel.side} flange", point(back[0] + thick[0]), back[1], thick[1])
            )
    return found


def _diameters(book: Book, stand: Stand) -> list[tuple[Fraction, Value]]:
    """The mean tread diameter of each wheel of a wheelset, with a value to stand for it."""
    found = []
    for wheel in other_wheels(book, stand):
        values = current(book, wheel, "tread_diameter")
        mean = middle(values)
        if mean is not None:
            found.append((mean, values[-1]._replace(position=wheel.side)))
    return found


def diameter_difference_on_axle(book: Book, stand: Stand) -> list[Value]:
    """The difference of the mean tread diameters of the two wheels of one axle."""
    found = [] if stand.side else _diameters(book, stand)
    if len(found) != 2:
        return []
    (one, left), (other, right) = found
    return [_from("diameter_difference_on_axle", "left to right", point(abs(one - other)), left, right)]


def _set_diameters(book: Book, stand: Stand) -> list[tuple[str, Fraction, Value]]:
    """Every driving wheel of the engine with a current diameter: (wheelset, mean, value)."""
    found = []
    for line in book.standing.standing_lines(stand.engine, book.as_of):
        wheelset = book.wheelsets.get(line.wheelset)
        if wheelset is not None and wheelset.driver:
            pair = Stand(stand.engine, line, wheelset)
            found += [(wheelset.id, mean, value) for mean, value in _diameters(book, pair)]
    return found


def _leads(book: Book, stand: Stand) -> bool:
    """Whether this is the stand that speaks for the whole driving wheel base: its first driver."""
    lines = [line for line in book.standing.standing_lines(stand.engine, book.as_of) if line.role == "driver"]
    return not stand.side and bool(lines) and stand.line == lines[0]


def diameter_difference_in_set(book: Book, stand: Stand) -> list[Value]:
    """The largest less the smallest mean tread diameter of the driving wheel base."""
    found = _set_diameters(book, stand) if _leads(book, stand) else []
    if len(found) < 2:
        return []
    low, high = min(found, key=lambda f: f[1]), max(found, key=lambda f: f[1])
    return [_from("diameter_difference_in_set", "largest to smallest", point(high[1] - low[1]), low[2], high[2])]


def diameter_less_opposite(book: Book, stand: Stand) -> list[Value]:
    """A freshly turned or renewed single tire against the wheel opposite."""
    _, fresh = fresh_tires(book, stand.engine) if not stand.side and stand.wheelset.driver else ([], [])
    if len(fresh) != 1 or fresh[0][0] != stand.wheelset.id:
        return []
    return [v._replace(quantity="diameter_less_opposite") for v in diameter_difference_on_axle(book, stand)]


def diameter_less_base_average(book: Book, stand: Stand) -> list[Value]:
    """A freshly turned or renewed single pair against the average of the whole driving wheel base."""
    _, fresh = fresh_tires(book, stand.engine) if not stand.side and stand.wheelset.driver else ([], [])
    if len(fresh) != 2 or {wheelset for wheelset, _ in fresh} != {stand.wheelset.id}:
        return []
    everything, pair = _set_diameters(book, stand), _diameters(book, stand)
    if not everything or len(pair) != 2:
        return []
    average = sum((d for _, d, _ in everything), Fraction(0)) / len(everything)
    return [_from("diameter_less_base_average", v.position, point(abs(d - average)), v) for d, v in pair]


def centrality(book: Book, stand: Stand) -> list[Value]:
    """How far the pair stands off the middle: half the difference of flange back to journal shoulder."""
    if stand.side:
        return []
    sides = [current(book, wheel, "flange_back_to_shoulder") for wheel in other_wheels(book, stand)]
    means = [middle(values) for values in sides]
    if len(means) != 2 or means[0] is None or means[1] is None:
        return []
    return [_from("centrality", "left to right", point(abs(means[0] - means[1]) * HALF), sides[0][-1], sides[1][-1])]


# -- what was seen -------------------------------------------------------------------------------------------------


def seen_now(book: Book, stand: Stand, looked_for: str) -> list[Observation]:
    """The observations of the last day this was looked for on the part now fitted."""
    word = book.vocabulary.observations[looked_for]
    thing: Thing | None = stand.thing(word.of)
    found = book.seen.get((thing, looked_for), []) if thing else []
    return [o for o in found if o.day == found[-1].day]


def observed(quantity: str, span: Span, text: str, *sources: Observation) -> Value:
    """A value that stands in an observation."""
    last = sources[-1]
    return Value(quantity, str(last.tree.get("angle", "")), span, text, "", "", last.at, last.day, ())


def broken_spokes(book: Book, stand: Stand) -> tuple[list[int], Observation] | None:
    """The numbers of the broken spokes of a center, and the observation that names them."""
    found = [o for o in seen_now(book, stand, "broken_spoke") if o.answer == "seen"]
    if not found or stand.center is None:
        return None
    numbers = sorted({int(n) for o in found for n in o.tree.get("spokes", ()) if str(n).isdigit()})
    return (numbers, found[-1])


def adjacent_broken_spokes(book: Book, stand: Stand) -> list[Value]:
    """The longest run of neighboring broken spokes, round the center."""
    found, total = broken_spokes(book, stand), stand.center.spokes if stand.center else None
    if not found or not found[0] or not total:
        return []
    broken = set(found[0])
    runs = [_run(start, broken, total) for start in broken]
    longest = max(runs)
    return [observed("adjacent_broken_spokes", point(Fraction(longest)), f"{longest} adjacent", found[1])]


def _run(start: int, broken: set[int], total: int) -> int:
    length = 0
    while length < total and (start - 1 + length) % total + 1 in broken:
        length += 1
    return length


def broken_spoke_share(book: Book, stand: Stand) -> list[Value]:
    """The share of a center's spokes that are broken."""
    found, total = broken_spokes(book, stand), stand.center.spokes if stand.center else None
    if not found or not total:
        return []
    count = len(found[0]) or int(str(found[1].tree.get("count", "0")) or 0)
    if not count:
        return []
    return [observed("broken_spoke_share", point(Fraction(count, total)), f"{count} of {total} spokes", found[1])]


def _adjoining(looked_for: str, quantity: str) -> Callable[[Book, Stand], list[Value]]:
    def shorter(book: Book, stand: Stand) -> list[Value]:
        """The second longest of several on one wheel: the shorter of the longest two, taken as adjoining."""
        found = [o for o in seen_now(book, stand, looked_for) if o.answer == "seen"]
        sizes = [(size.exact, o) for o in found if (size := fields.quantity(o.tree, "length")) is not None]
        if len(sizes) < 2:
            return []
        second = sorted(sizes, key=lambda s: s[0])[-2]
        return [observed(quantity, point(second[0]), str(second[1].tree["length"]), second[1])]

    return shorter


DERIVED: dict[str, Callable[[Book, Stand], list[Value]]] = {
    "journal_wear": journal_wear,
    "track_gauge_less_back_to_back": track_gauge_less_back_to_back,
    "back_to_back_variation": back_to_back_variation,
    "over_flanges": over_flanges,
    "wheel_check": wheel_check,
    "diameter_difference_on_axle": diameter_difference_on_axle,
    "diameter_difference_in_set": diameter_difference_in_set,
    "diameter_less_opposite": diameter_less_opposite,
    "diameter_less_base_average": diameter_less_base_average,
    "centrality": centrality,
    "adjacent_broken_spokes": adjacent_broken_spokes,
    "broken_spoke_share": broken_spoke_share,
    "shorter_of_adjoining_flats": _adjoining("flat", "shorter_of_adjoining_flats"),
    "shorter_of_adjoining_shelled_spots": _adjoining("shelled_spot", "shorter_of_adjoining_shelled_spots"),
}


def values(book: Book, stand: Stand, quantity: str) -> list[Value]:
    """The current values of a quantity on a stand, measured or derived."""
    if quantity in DERIVED:
        return DERIVED[quantity](book, stand)
    return current(book, stand, quantity) if quantity in book.vocabulary.quantities else []
