"""A tire's fit on its center, from the readings that were taken for it: sizes at 68 degF, shims, interference.

What is not on record stays unknown: a shim nobody told of, an expansion nobody adopted, a temperature nobody read.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple

from axlebook.engineering.metrology import length_at_20, missing_temperature_effect
from axlebook.engineering.shrink_fit import interference
from axlebook.engineering.uncertainty import combined_standard_uncertainty, repeat_uncertainty
from axlebook.quantities import Quantity, parse_measure

from . import fields, to_write
from .book import Book, Thing
from .condition import BEFORE_WORK
from .dropped import Wanted
from .forms import parse_position
from .reading import DOUBTFUL, Reading
from .session import Session
from .tire import Tire
from .to_write import Lines
from .wheelset import Center

TIRE_STEEL = "tire steel"
_FIGURES = {"modulus": "modulus", "poisson": "Poisson ratio", "expansion": "expansion"}  # of a metal, in words


@dataclass(frozen=True)
class Missing:
    """What keeps a figure from being worked out, and the one next step."""

    cause: str
    next: str
    reading: Reading | None = None
    write: Lines | None = None  # the lines that the next step asks for
    wanted: Wanted | None = None  # the reading that is not there


class Diameter(NamedTuple):
    """One diameter as read and at 20 degC [m]."""

    position: str
    plane: str  # inner, middle, outer or ''
    read: float
    at_20: float
    text: str
    reading: Reading


class Size(NamedTuple):
    """A measured size at 20 degC (68 degF): the mean of its diameters, and how far it can be trusted."""

    quantity: str
    diameters: tuple[Diameter, ...]
    parts: dict[str, float]  # standard uncertainties by cause [m]
    doubt: float  # how far a temperature that was not read could move it, each way [m]
    temperatures: tuple[str, ...]
    not_told: tuple[str, ...]  # what the uncertainty leaves out, for want of a record

    @property
    def mean(self) -> float:
        """Mean of all diameters [m]."""
        return math.fsum(d.at_20 for d in self.diameters) / len(self.diameters)

    @property
    def readings(self) -> tuple[Reading, ...]:
        """The readings it is made of, each once."""
        return tuple({id(d.reading): d.reading for d in self.diameters}.values())

    @property
    def unsure(self) -> tuple[Reading, ...]:
        """The readings that their card is not sure of."""
        return tuple(reading for reading in self.readings if reading.sure in DOUBTFUL)

    def plane_means(self) -> dict[str, float]:
        """Mean diameter of each plane read [m]."""
        planes = dict.fromkeys(d.plane for d in self.diameters if d.plane)
        return {p: math.fsum(v) / len(v) for p in planes if (v := [d.at_20 for d in self.diameters if d.plane == p])}

    def out_of_round(self) -> tuple[float, str] | None:
        """Largest less smallest diameter within one plane, the worst plane first; None where none was read twice."""
        found = []
        for plane in dict.fromkeys(d.plane for d in self.diameters):
            here = [d.at_20 for d in self.diameters if d.plane == plane]
            if len(here) > 1:
                found.append((max(here) - min(here), plane))
        return max(found, default=None)

    def taper(self) -> float | None:
        """Mean diameter at the outer edge less that at the inner [m]; None where the edges were not read."""
        planes = self.plane_means()
        return planes["outer"] - planes["inner"] if {"inner", "outer"} <= planes.keys() else None


@dataclass(frozen=True)
class Fit:
    """A tire on a center, or meant for one."""

    tire: Tire
    center: Center
    session: Session | None  # the application; None while the tire is still to go on
    center_size: Size
    bore_size: Size
    shim: float | None  # thickness on the radius [m]; None where nothing tells
    parts: dict[str, float] = field(default_factory=dict)
    shim_lack: str = ""  # why the shim is not known

    @property
    def unsure(self) -> tuple[Reading, ...]:
        """The readings of center and bore that their card is not sure of."""
        return (*self.center_size.unsure, *self.bore_size.unsure)

    @property
    def not_told(self) -> tuple[str, ...]:
        """What the uncertainty leaves out, for want of a record."""
        return tuple(dict.fromkeys((*self.center_size.not_told, *self.bore_size.not_told)))

    @property
    def interference(self) -> float:
        """Diametral interference at 20 degC [m]; shims that nobody told of are left out."""
        return interference(self.center_size.mean, self.bore_size.mean, self.shim or 0.0)

    @property
    def uncertainty(self) -> float:
        """Combined standard uncertainty of the interference [m]."""
        return combined_standard_uncertainty(list(self.parts.values())) if self.parts else 0.0

    @property
    def doubt(self) -> float:
        """How far temperatures that were not read could move it, each way [m]."""
        return self.center_size.doubt + self.bore_size.doubt


def not_sure(fit: Fit) -> Missing | None:
    """What is said of a fit of which a card is not sure: it decides nothing; None where all are."""
    if not fit.unsure:
        return None
    first = fit.unsure[0]
    return Missing(f"the card it stands on is not sure of it: {first.named}", "Measure it again.", first)


def impossible(error: ValueError, reading: Reading | None = None) -> Missing:
    """What a formula refused: a figure that no part, instrument or shop can have."""
    return Missing(f"a figure is not possible: {str(error).rstrip('.')}", "Look at it in its record.", reading)


def expansion_of(book: Book, material: str) -> float | None:
    """The adopted coefficient of expansion of a material [1/K]; None where the ledger adopts none."""
    known: dict[str, float | None] = book.__dict__.setdefault("_expansions", {})
    if material not in known:
        found = fields.exact(fields.inner(book.ledger.materials, material), "expansion")
        known[material] = float(found) if found and found > 0 else None
    return known[material]


def no_figures(
    book: Book, material: str, absent: Sequence[str], reading: Reading | None = None, center: Center | None = None
) -> Missing:
    """That figures of a metal are not adopted, with the lines that would adopt them; or that a metal is not told.

    `absent`: the keys of the figures. The center is that of the reading where none is given.
    """
    *others, last = [_FIGURES[key] for key in absent]
    what = f"{', '.join(others)} or {last}" if others else last
    if material:
        there = book.ledger.materials
        named = f" There now: {', '.join(list(there)[:12])}." if there and material not in there else ""
        it = "them" if others else "it"
        step = f"Enter {it} under `materials: {material}` in ledger.yaml, with {'their' if others else 'its'} source."
        return Missing(f"no {what} of {material} is adopted", step + named, reading, to_write.material(material, there))
    center = center or (book.centers.get(reading.part) if reading else None)
    write = to_write.material_of(center.id, book.wheelsets[center.wheelset].path) if center else None
    cause = f"no {what} of the material is adopted: of what the center is made is not told"
    return Missing(cause, "Write `material` of the center in its wheelset's record.", reading, write)


def shop_temperatures(book: Book) -> tuple[float, float] | None:
    """The span of temperatures that the railway's shop is known to have [K]; None where it says nothing."""
    if "_shop_temperatures" not in book.__dict__:
        bounds = fields.inner(book.ledger.tree, "shop_temperatures")
        low, high = fields.exact(bounds, "at_least"), fields.exact(bounds, "at_most")
        span = (float(low), float(high)) if low is not None and high is not None else None
        book.__dict__["_shop_temperatures"] = span
    known: tuple[float, float] | None = book.__dict__["_shop_temperatures"]
    return known


def _kelvin(text: str) -> float | None:
    found = parse_measure(text) if text else None
    return float(found.exact) if isinstance(found, Quantity) else None


def size(
    book: Book, quantity: str, readings: Sequence[Reading], material: str, of: Thing | None = None
) -> Size | Missing:
    """A size at 20 degC from readings of one quantity, each corrected for the part's and instrument's temperature."""
    title = book.vocabulary.quantities[quantity].title
    if not readings:
        step = "Measure it, with the temperature of part and instrument."
        wanted = Wanted((quantity,), of.id) if of else None
        return Missing(f"no {title} is on record", step, write=_reading_of(book, quantity, of), wanted=wanted)
    expansion = expansion_of(book, material)
    if expansion is None:
        return no_figures(book, material, ["expansion"], readings[0])
    diameters: list[Diameter] = []
    doubts, not_told = [0.0], []
    for reading in readings:
        try:
            corrected = _corrected(book, reading, expansion)
        except ValueError as error:
            return impossible(error, reading)
        if isinstance(corrected, Missing):
            return corrected
        found, doubt = corrected
        diameters += found
        doubts.append(doubt)
    variances = [instrument_variance(book, r) for r in readings]
    if None in variances:
        not_told.append("uncertainty of the instrument")
    parts = {f"{title}, instrument": math.sqrt(max((v for v in variances if v is not None), default=0.0))}
    if len(diameters) > 1:
        parts[f"{title}, form and repeat"] = repeat_uncertainty([d.at_20 for d in diameters])
    parts[f"{title}, thermometer"] = max(_thermometer(r, expansion) for r in readings)
    temperatures = tuple(dict.fromkeys(r.part_temperature for r in readings if r.part_temperature))
    return Size(quantity, tuple(diameters), parts, max(doubts), temperatures, tuple(not_told))


def _reading_of(book: Book, quantity: str, of: Thing | None) -> Lines | None:
    """The lines of the reading that a size is missing."""
    center = book.centers.get(of.id) if of and of.kind == "center" else None
    return to_write.size_of(quantity, of.id, center.wheelset if center else "") if of else None


def instrument_variance(book: Book, reading: Reading) -> float | None:
    """Variance from instrument and resolution [m2]; None where nothing is known."""
    from .instruments import standard_variance

    found = standard_variance(book, reading)
    return None if found is None else float(found)


def _thermometer(reading: Reading, expansion: float) -> float:
    """Standard uncertainty from reading temperatures to their last digit [m]."""
    length = max((float(m.exact) for _, many in reading.values for m in many if isinstance(m, Quantity)), default=0.0)
    found = parse_measure(reading.part_temperature) if reading.part_temperature else None
    digit = float(found.resolution or 0) if isinstance(found, Quantity) else 0.0
    return expansion * length * digit / math.sqrt(12)


def _corrected(book: Book, reading: Reading, expansion: float) -> tuple[list[Diameter], float] | Missing:
    """The diameters of one reading at 20 degC, and how far a temperature that was not read could move them."""
    instrument = book.instruments.get(reading.instrument)
    own = float(instrument.expansion) if instrument and instrument.expansion is not None else None
    part, tool = _kelvin(reading.part_temperature), _kelvin(reading.instrument_temperature)
    untold = [name for name, gone in (("part", part is None), ("instrument", tool is None and own != 0)) if gone]
    if own is None and not reading.instrument:
        write = to_write.told_with(reading.source.path, "with")
        return Missing("the instrument is not told", "Say with what it was read.", reading, write)
    if own is None:
        return Missing(
            f"the expansion of {reading.instrument} is not on record",
            "Enter it in the instrument's record, or `reads true length`.",
            reading,
            to_write.own_expansion(reading.instrument, instrument.path if instrument else ""),
        )
    doubt = 0.0
    if untold:
        spread = shop_temperatures(book)
        if spread is None:
            what = " and ".join(untold)
            keys = [f"{name}_temperature" for name in untold]
            return Missing(
                f"the temperature of the {what} was not read", "Measure again, with both temperatures.", reading,
                to_write.told_with(reading.source.path, *keys),
            )  # fmt: skip
        doubt = _doubt(reading, spread, expansion if "part" in untold else 0.0, own if "instrument" in untold else 0.0)
        middle = (spread[0] + spread[1]) / 2
        part, tool = part if part is not None else middle, tool if tool is not None else middle
    found = []
    for position, measures in reading.values:
        points = [m for m in measures if isinstance(m, Quantity)]
        if not points:
            continue
        read = float(points[0].exact if len(points) == 1 else sum([m.exact for m in points], Fraction(0)) / len(points))
        at_20 = length_at_20(
            read,
            part_temperature=part,  # type: ignore[arg-type]
            part_expansion=expansion,
            instrument_temperature=tool,
            instrument_expansion=own,
        )
        spot = parse_position(position)
        plane = spot.plane if spot else ""
        found.append(Diameter(position, plane or "", read, at_20, " and ".join(m.text for m in points), reading))
    if not found:
        return Missing("the reading is an interval", "Measure the diameter itself.", reading)
    return found, doubt


def _doubt(reading: Reading, spread: tuple[float, float], part: float, tool: float) -> float:
    length = max((float(m.exact) for _, many in reading.values for m in many if isinstance(m, Quantity)), default=0.0)
    half = (spread[1] - spread[0]) / 2
    return sum(missing_temperature_effect(length, alpha, half) for alpha in (part, tool) if alpha and length)


# -- which readings, which fits ---------------------------------------------------------------------------------------


def _readings_of(book: Book, thing: Thing, quantity: str, session: Session | None) -> list[Reading]:
    """The readings a fit rests on: those of the records it cites, else the last ones before the tire went on."""
    cited = set(fields.texts(session.tree, "fit_from")) | {session.id} if session else set()
    every = [r for r in book.series.get((thing, quantity), ()) if r.when in ("", *BEFORE_WORK)]
    if session and "fit_from" in session.tree:
        return [r for r in every if r.source.record in cited]
    until = session.day.last if session else None
    before = [r for r in every if r.day.first is not None and (until is None or r.day.first <= until)]
    last = max((r.day.first for r in before if r.day.first), default=None)
    return [r for r in before if r.day.first == last]


def _shim(session: Session | None) -> float | str:
    """Thickness of shim on the radius [m], 0 for none; in words why it is not known."""
    told = session.tree.get("shims") if session else "none"
    if told == "none":
        return 0.0
    if not isinstance(told, list):
        return "the shims are not told"
    shims = [shim if isinstance(shim, dict) else {} for shim in told]
    if any(fields.yes(shim, "full_round") is False for shim in shims):
        return "a shim does not run full round, and gives no interference of its own"
    if any(fields.yes(shim, "full_round") is None for shim in shims):
        return "nobody told whether the shim runs full round"
    thick = [fields.exact(shim, "thickness") for shim in shims]
    if not thick or any(t is None or t <= 0 for t in thick):
        return "the thickness of a shim is not told"
    return math.fsum(float(t) for t in thick if t is not None)


def find_fit(book: Book, tire: Tire, center: Center, session: Session | None) -> Fit | Missing:
    """The fit of a tire on a center from the records, or what it lacks; worked out once for each work."""
    known: dict[tuple[str, str, str], Fit | Missing] = book.__dict__.setdefault("_fits", {})
    key = (tire.id, center.id, session.id if session else "")
    if key not in known:
        known[key] = _find_fit(book, tire, center, session)
    return known[key]


def _find_fit(book: Book, tire: Tire, center: Center, session: Session | None) -> Fit | Missing:
    seat, loose = Thing("center", center.id), Thing("tire", tire.id)
    center_readings = _readings_of(book, seat, "center_diameter", session)
    bore_readings = _readings_of(book, loose, "tire_bore", session)
    center_size = size(book, "center_diameter", center_readings, fields.text(center.tree, "material"), seat)
    bore_size = size(book, "tire_bore", bore_readings, TIRE_STEEL, loose)
    for found in (center_size, bore_size):
        if isinstance(found, Missing):
            return found
    assert isinstance(center_size, Size)
    assert isinstance(bore_size, Size)
    shim = _shim(session)
    parts = {**center_size.parts, **bore_size.parts}
    if isinstance(shim, str):
        return Fit(tire, center, session, center_size, bore_size, None, parts, shim)
    return Fit(tire, center, session, center_size, bore_size, shim, parts)


def applied_fits(book: Book) -> Iterator[tuple[Tire, Center, Session | None]]:
    """Tires now on a center whose application is on record, and tires ordered for one and not yet on any."""
    for tire in book.tires.values():
        spells = [
            (center, spell)
            for center, spell in book.standing.centers_of.get(tire.id, ())
            if spell.until is None or spell.until > book.as_of
        ]
        for center_id, spell in spells:
            session = book.session_by_id.get(spell.by)
            center = book.centers.get(center_id)
            if session and center and session.kind == "tire-applied":
                yield tire, center, session
        if not book.standing.centers_of.get(tire.id) and tire.for_center in book.centers:
            yield tire, book.centers[tire.for_center], None
