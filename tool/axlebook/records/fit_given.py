"""What the records tell of a fit beyond its two diameters: tread, widths, rim, spokes, metals, the day it goes on.

What is not on record is not made up. Where a figure has to be taken for granted, it is told as an assumption.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field
from fractions import Fraction

from axlebook.engineering.fitting import FitGiven, Metal, Spokes
from axlebook.quantities import NotAMeasure, Quantity, parse_quantity

from . import fields, to_write
from .book import Book, Thing
from .condition import BEFORE_WORK
from .dropped import Wanted
from .fit import TIRE_STEEL, Fit, Missing
from .instruments import GUARD_FACTOR
from .metal import metal_figures
from .reading import Reading
from .wheelset import Center

LONGEST_SECTION = 80  # signs; two measures and a sign between them
_SECTION = re.compile(r"(.+?)\s*(?:x|×|by)\s*(.+)", re.IGNORECASE)


@dataclass(frozen=True)
class Told:
    """One figure that a record tells: its value in SI, and where it comes from."""

    value: float
    origin: str


@dataclass(frozen=True)
class FitRecords:
    """A fit's given figures, where each comes from, and what is missing or assumed."""

    given: FitGiven
    origins: dict[str, str]
    center_temperature: Told | None
    heat_ceiling: Told | None
    yield_strength: Told | None
    missing: tuple[Missing, ...] = ()
    assumed: tuple[str, ...] = ()


@dataclass
class _Gathered:
    """What is being gathered."""

    origins: dict[str, str] = field(default_factory=dict)
    missing: list[Missing] = field(default_factory=list)
    assumed: list[str] = field(default_factory=list)

    def take(self, name: str, told: Told | None) -> float | None:
        """Note where a figure comes from; give its value."""
        if told is None:
            return None
        self.origins[name] = told.origin
        return told.value


def parse_section(text: str) -> tuple[Quantity, Quantity]:
    """The two sides of a section: `3 1/4 in x 2 in`, or `3 x 2 in`.

    Raises
    ------
    NotAMeasure
        The text is not two lengths.

    Examples
    --------
    >>> [side.text for side in parse_section("3 x 2 in")]
    ['3 in', '2 in']
    """
    match = _SECTION.fullmatch(text.strip()) if len(text) <= LONGEST_SECTION else None
    if match is None:
        raise NotAMeasure(text, "a section is two lengths.", "Write it such as 3 x 2 in.")
    second = parse_quantity(match[2], "length")
    first = match[1]
    if re.fullmatch(r"[-+0-9./ ½¼¾⅛⅜⅝⅞]+", first):
        first = f"{first} {second.unit}"
    return parse_quantity(first, "length"), second


def gather_fit(book: Book, fit: Fit, condemning: Told | None) -> FitRecords | Missing:
    """All that a fit is worked out from; or what it cannot do without."""
    got = _Gathered()
    material = fields.text(fit.center.tree, "material")
    metals = _metal(book, TIRE_STEEL, got, "tire"), _metal(book, material, got, "center", fit.center)
    sizes = _sizes(book, fit, got)
    for found in (*metals, sizes):
        if isinstance(found, Missing):
            return found
    assert isinstance(metals[0], Metal)
    assert isinstance(metals[1], Metal)
    assert isinstance(sizes, tuple)
    tread, tire_width, seat_width = sizes
    solid = fields.yes(fit.center.tree, "solid") is True
    given = FitGiven(
        center_diameter=fit.center_size.mean, bore=fit.bore_size.mean, tread_diameter=tread, tire_width=tire_width,
        seat_width=seat_width, tire_metal=metals[0], center_metal=metals[1], shim=fit.shim or 0.0, solid=solid,
        rim_inside=None if solid else _rim(book, fit, got), spokes=None if solid else _spokes(fit, seat_width, got),
        uncertainty=fit.uncertainty * float(GUARD_FACTOR), doubt=fit.doubt,
        condemning_thickness=got.take("condemning_thickness", condemning), flanged=fit.tire.flange != "plain",
    )  # fmt: skip
    if fit.shim is None:
        lack = fit.shim_lack or "the shims are not told"
        got.missing.append(Missing(f"{lack}: none is counted", "Say which shims, how thick, full round, or `none`."))
    return FitRecords(
        given, got.origins, _center_temperature(fit), _of_steel(fit, "heat_ceiling"), _of_steel(fit, "yield_strength"),
        tuple(got.missing), tuple(got.assumed),
    )  # fmt: skip


def _metal(book: Book, material: str, got: _Gathered, part: str, center: Center | None = None) -> Metal | Missing:
    found = metal_figures(book, material, center=center)
    if isinstance(found, Missing):
        return found
    tree = fields.inner(book.ledger.materials, material)
    source = tree.get("source")
    got.origins[f"{part}_metal"] = f"{material}: {source if isinstance(source, str) else fields.text(tree, 'title')}"
    return Metal(**found)


def _mean(readings: list[Reading]) -> Told | None:
    """The mean of the last reading of something, as it was read."""
    points = [
        (float(sum((m.exact for m in many if isinstance(m, Quantity)), Fraction(0)) / len(many)), reading)
        for reading in readings[-1:]
        for _, many in reading.values
        if many and all(isinstance(m, Quantity) for m in many)
    ]
    if not points:
        return None
    return Told(math.fsum(value for value, _ in points) / len(points), points[0][1].source.record)


def read_before(book: Book, fit: Fit, thing: Thing, quantity: str) -> list[Reading]:
    """Readings of something taken before the tire went on, in order of date."""
    until = fit.session.day.last if fit.session else None
    return [
        r
        for r in book.series.get((thing, quantity), ())
        if r.when in ("", *BEFORE_WORK) and (until is None or r.day.first is None or r.day.first <= until)
    ]


def _told(tree: fields.Tree, key: str, origin: str) -> Told | None:
    found = fields.exact(tree, key)
    return None if found is None else Told(float(found), origin)


def _of_steel(fit: Fit, key: str) -> Told | None:
    steel = fields.inner(fit.tire.tree, "steel")
    certificate = fields.text(steel, "certificate")
    return _told(steel, key, f"{fit.tire.id}, certificate {certificate}" if certificate else fit.tire.id)


def _sizes(book: Book, fit: Fit, got: _Gathered) -> tuple[float, float, float] | Missing:
    """Tread diameter, tire width, seat width."""
    thing, form = Thing("tire", fit.tire.id), fields.inner(fit.tire.tree, "form")
    tread = _tread(book, fit, thing, got)
    width = got.take(
        "tire_width",
        _mean(read_before(book, fit, thing, "tire_width")) or _told(form, "nominal_width", f"{fit.tire.id}, nominal"),
    )
    seat = got.take(
        "seat_width",
        _mean(read_before(book, fit, thing, "tire_seat_width"))
        or _told(form, "seat_width", f"{fit.tire.id}, nominal")
        or _told(fit.center.tree, "rim_width", f"{fit.center.id}, rim"),
    )
    if tread is None:
        write = to_write.one_of("tread_diameter", fit.tire.id, "all round")
        cause = f"neither tread diameter nor thickness of {fit.tire.id} is on record"
        wanted = Wanted(("tread_diameter", "tire_thickness"), fit.tire.id)
        return Missing(cause, "Tape the tread, cold.", write=write, wanted=wanted)
    if width is None:
        write = to_write.one_of("tire_width", fit.tire.id, "0 deg")
        step = "Measure it, or enter its nominal width: `form: nominal_width` in its record."
        wanted = Wanted(("tire_width",), fit.tire.id)
        return Missing(f"the width of {fit.tire.id} is not on record", step, write=write, wanted=wanted)
    if seat is None:
        got.assumed.append("the tire is pressed on over its whole width: no width of the seat is on record")
        got.origins["seat_width"] = "assumed: the tire's width"
        seat = width
    return tread, width, seat


def _tread(book: Book, fit: Fit, thing: Thing, got: _Gathered) -> float | None:
    """The tire's tread diameter as it goes on: taped, or bore and thickness."""
    readings = read_before(book, fit, thing, "tread_diameter")
    taped = _mean(readings)
    if taped is not None:
        last = readings[-1]
        day = last.day.first if last.when not in BEFORE_WORK else None
        if day is not None and book.standing.wheel_of_tire(fit.tire.id, day) is not None:
            on = f"as {taped.origin} taped it on a center"
            got.assumed.append(f"the tread is {on}; off it, it is smaller by its growth")
        return got.take("tread_diameter", taped)
    thickness = _mean(read_before(book, fit, thing, "tire_thickness")) or _told(
        fields.inner(fit.tire.tree, "form"), "nominal_thickness", f"{fit.tire.id}, nominal"
    )
    if thickness is None:
        return None
    got.origins["tread_diameter"] = f"bore + 2 x thickness ({thickness.origin})"
    return fit.bore_size.mean + 2.0 * thickness.value


def _rim(book: Book, fit: Fit, got: _Gathered) -> float | None:
    measured = _mean(read_before(book, fit, Thing("center", fit.center.id), "center_rim_thickness"))
    if measured is not None:
        got.origins["rim_inside"] = f"center less 2 x rim ({measured.origin})"
        return fit.center_size.mean - 2.0 * measured.value
    found = got.take("rim_inside", _told(fit.center.tree, "rim_inside_diameter", fit.center.id))
    if found is None:
        got.missing.append(
            Missing(
                f"the inside of the rim of {fit.center.id} is not on record: pressure has no lower bound",
                "Measure rim_inside_diameter, or say `solid: yes`.",
            )
        )
    return found


def _spokes(fit: Fit, seat_width: float, got: _Gathered) -> Spokes | None:
    tree = fit.center.tree
    hub, section = fields.exact(tree, "hub_diameter"), fields.text(tree, "spoke_section")
    sides = _sides(section)
    if not (fit.center.spokes and hub and sides and fields.exact(tree, "rim_inside_diameter")):
        got.missing.append(
            Missing(
                f"spokes, their section or the hub of {fit.center.id} are not on record: bounds only",
                "Measure spokes, spoke_section, hub_diameter and rim_inside_diameter once; they never change.",
            )
        )
        return None
    got.origins["spokes"] = fit.center.id
    got.assumed.append("the hub is as wide as the seat: its width is not part of the record")
    return Spokes(fit.center.spokes, float(sides[0].exact * sides[1].exact), float(hub), seat_width)


def _sides(section: str) -> tuple[Quantity, Quantity] | None:
    try:
        return parse_section(section) if section else None
    except NotAMeasure:
        return None


def _center_temperature(fit: Fit) -> Told | None:
    """Of the center when the tire went on; before that, as it was when the center was measured."""
    if fit.session:
        seating = fields.inner(fit.session.tree, "seating")
        told = _told(seating, "center_temperature", f"{fit.session.id}, when seated")
        if told:
            return told
    for reading in fit.center_size.readings:
        if reading.part_temperature:
            value = fields.exact({"t": reading.part_temperature}, "t")
            if value is not None:
                return Told(float(value), f"{reading.source.record}, when measured")
    return None
