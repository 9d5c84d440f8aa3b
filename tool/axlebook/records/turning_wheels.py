"""The wheels of a driving wheel base before a turning: what was read, and the least cut that makes each right.

Cuts here are depths: they count once on a tire's thickness and twice on its diameter. All is exact; what comes from an
angle, a chord or a wear rate is rounded, away from the comfortable side.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import NamedTuple

from axlebook.engineering.turning import flange_cut
from axlebook.engineering.wear import flat_depth
from axlebook.limits import applies
from axlebook.limits.citation import source_and_clause

from . import fields, spans
from .book import Book
from .condition import Stale, Stand, Value, other_wheels
from .derived import find_values, values
from .engine import Engine
from .facets import facet
from .observed import seen_now
from .practice import followed
from .unsure import unsure_of

GRID = Fraction(254, 10**10)  # a millionth of an inch
# What a depth that comes from an angle or a chord is rounded up to: .001 in or 0.01 mm on diameter.
DEPTH_INCH, DEPTH_MM = Fraction(127, 10**7), Fraction(5, 10**6)
ZERO = Fraction(0)
FLANGE, HOLLOW, HEIGHT, DIAMETER = "flange_thickness", "tread_hollow", "flange_height", "tread_diameter"
# What a cut takes off once: the tire as it is measured in each plane that a limit may name.
THICKNESSES = (
    "tire_thickness", "thickness_from_ring", "thickness_from_ring_with_extension", "thickness_throat_to_counterbore",
)  # fmt: skip
# The practices that say how a railway turns: what a flange is brought back to, its angle, what a lathe needs beyond.
TARGET, ANGLE, CLEAN_UP = "turning_flange_thickness", "turning_flange_angle", "turning_clean_up"


@dataclass(frozen=True)
class Asked:
    """What a person asks for in place of what is on record; None and empty where nothing."""

    flange: Fraction | None = None
    angle: Fraction | None = None  # of the flange's face from the axle's direction [deg]
    clean_up: Fraction | None = None
    tolerance: Fraction | None = None  # each way, on diameter
    cuts: Mapping[str, Fraction] = field(default_factory=dict)  # by wheel: the depth that a template asks for
    only: tuple[str, ...] = ()  # wheels
    re_tire: str = ""  # a place: driver-1
    new_diameter: Fraction | None = None
    new_thickness: Fraction | None = None


class Told(NamedTuple):
    """A figure to work to, and where it comes from."""

    value: Fraction
    origin: str


class Read(NamedTuple):
    """A figure read, its record and its plane."""

    value: Fraction
    origin: str
    where: str = ""
    unsure: str = ""  # what it is and why it decides nothing, where it does not


class Need(NamedTuple):
    """What one thing asks of the lathe: a depth."""

    what: str  # flange, template, hollow, flat, clean-up
    cut: Fraction
    origin: str


@dataclass(frozen=True)
class Wheel:
    """One wheel: what was read, and what it needs."""

    stand: Stand
    read: Mapping[str, Read]
    needs: tuple[Need, ...] = ()
    clean_up: Fraction = ZERO
    target: Told | None = None
    angle: Told | None = None
    missing: tuple[str, ...] = ()
    new: bool = False  # a tire that is not on yet
    unnamed: bool = False  # and has no record: what is known of its like stands for it
    flats: tuple[Fraction, ...] = ()  # lengths

    @property
    def name(self) -> str:
        """Shop words: place and side."""
        return f"{self.stand.line.at} {self.stand.side}"

    @property
    def axle(self) -> str:
        """The place of its axle."""
        return self.stand.line.at

    @property
    def tire(self) -> str:
        """The id of its tire, or ''."""
        return self.stand.tire.id if self.stand.tire and not self.unnamed else ""

    @property
    def flanged(self) -> bool:
        """Whether there is a flange to restore: one not told to be plain."""
        return self.stand.tire is None or self.stand.tire.flange != "plain"

    @property
    def diameter(self) -> Fraction | None:
        """The mean tread diameter."""
        return self.read[DIAMETER].value if DIAMETER in self.read else None

    @property
    def deepest(self) -> Need | None:
        """What rules its cut; None where nothing asks for one."""
        return max((need for need in self.needs if need.cut > 0), key=lambda need: need.cut, default=None)

    @property
    def cut(self) -> Fraction:
        """The least depth: what is deepest, and the clean-up once."""
        return (self.deepest.cut if self.deepest else ZERO) + self.clean_up

    @property
    def top(self) -> Fraction | None:
        """The largest diameter at which it is right, exact: a tire may be left with just what a limit asks."""
        return None if self.diameter is None else self.diameter - 2 * self.cut


def up(value: Fraction | float, grid: Fraction = GRID) -> Fraction:
    """A figure rounded up to the grid, where it is not on it."""
    return Fraction(math.ceil(Fraction(value) / grid)) * grid


def down(value: Fraction | float) -> Fraction:
    """A figure rounded down to the grid, where it is not on it."""
    return Fraction(math.floor(Fraction(value) / GRID)) * GRID


def wheels_of(book: Book, engine: Engine, asked: Asked) -> list[Wheel]:
    """The wheels of the engine's drivers, in walking order, with what each needs."""
    return [
        needing(book, _read(book, stand), asked)
        for line in book.standing.standing_lines(engine, book.as_of)
        if (wheelset := book.wheelsets.get(line.wheelset)) is not None and wheelset.driver
        for stand in other_wheels(book, Stand(engine, line, wheelset))
    ]


# -- what was read ---------------------------------------------------------------------------------------------------


def _read(book: Book, stand: Stand) -> Wheel:
    found: dict[str, Read] = {}
    missing: list[str] = []
    flanged = stand.tire is None or stand.tire.flange != "plain"
    wanted = [DIAMETER, HOLLOW, *((FLANGE, HEIGHT) if flanged else ())]
    for quantity in wanted:
        read = _figure(book, stand, quantity)
        if isinstance(read, str):
            missing.append(read)
        else:
            found[quantity] = read
    for quantity in THICKNESSES:
        read = _figure(book, stand, quantity)
        if isinstance(read, Read):
            found[quantity] = read
    if not any(quantity in found for quantity in THICKNESSES):
        missing.append(str(_figure(book, stand, THICKNESSES[0])))
    flats, untold = _flats(book, stand)
    return Wheel(stand, found, missing=(*missing, *untold), flats=flats)


def _figure(book: Book, stand: Stand, quantity: str) -> Read | str:
    """The figure that weighs: the mean diameter, the thinnest place, the deepest hollow; or what lacks, in words."""
    title = (book.vocabulary.find_quantity(quantity) or book.vocabulary.quantities[DIAMETER]).title
    found = find_values(book, stand, quantity)
    if isinstance(found, Stale):
        return f"{title}, not read since {found.since.id}"
    known = [v for v in values(book, stand, quantity) if v.span.low is not None and v.span.high is not None]
    if not known:
        return title
    if quantity == DIAMETER:
        mean = spans.mean([v.span for v in known])
        if mean.low is None or mean.low != mean.high:
            return f"{title}, read as a range only"
        return Read(mean.low, _record(known[-1]), unsure=_unsure(book, title, known))
    low = quantity in (FLANGE, *THICKNESSES)
    bound = [(v.span.low if low else v.span.high) or ZERO for v in known]
    at = bound.index((min if low else max)(bound))
    return Read(bound[at], _record(known[at]), known[at].where, _unsure(book, title, [known[at]]))


def _unsure(book: Book, title: str, found: list[Value]) -> str:
    why = next(filter(None, (unsure_of(book, value) for value in found)), "")
    return f"{title}: {why}" if why else ""


def _record(value: Value) -> str:
    return value.readings[-1].source.record if value.readings else value.at.path


def _flats(book: Book, stand: Stand) -> tuple[tuple[Fraction, ...], list[str]]:
    """The lengths of the flats seen last, and what a record of flats and shelled spots does not tell."""
    lengths, untold = [], []
    for seen in (o for o in seen_now(book, stand, "flat") if o.answer == "seen"):
        length = fields.exact(seen.tree, "length")
        if length is None:
            untold.append("length of a flat that was seen")
        else:
            lengths.append(length)
    if any(o.answer == "seen" for o in seen_now(book, stand, "shelled_spot")):
        untold.append("depth of a shelled-out spot that was seen")
    return tuple(lengths), untold


# -- what is worked to -----------------------------------------------------------------------------------------------


def practice_on(book: Book, stand: Stand, quantity: str) -> Told | None:
    """The adopted figure for how this wheel is turned, the first in the order of the sets; None where none is."""
    for limit_set in book.limits_for(stand.engine):
        for practice in limit_set.practices:
            if practice.quantity != quantity:
                continue
            if applies(practice.applies_to, lambda name: facet(book, stand, name)).answer is not True:
                continue
            source = followed(book, practice)
            if source is not None and source.value is not None:
                return Told(source.value, source_and_clause(practice.source, practice.clause))
    return None


def _flange_by_limits(book: Book, stand: Stand, where: str) -> Told | None:
    """Without a practice: the least flange that the limits for new work ask, else the shop's own."""
    for stage in ("new", "shop"):
        found = []
        for limit in book.limits_on(stand.engine, FLANGE):
            fits = not limit.where or not where or limit.where == where
            if limit.stage != stage or len(limit.conditions) > 1 or not fits:
                continue
            if applies(limit.applies_to, lambda name: facet(book, stand, name)).answer is not True:
                continue
            for bound in limit.conditions[0].bounds:
                if bound.value is not None and bound.word in ("under", "at_most"):
                    # `at_most` condemns the figure itself: the next that a gauge shows is worked to
                    beyond = Fraction(254, 640000) if bound.word == "at_most" else ZERO
                    found.append(Told(bound.value + beyond, limit.cited))
        if found:
            return max(found)
    return None


# -- what is needed --------------------------------------------------------------------------------------------------


def needing(book: Book, wheel: Wheel, asked: Asked) -> Wheel:
    """The wheel with what it needs, worked out from what was read."""
    stand, missing = wheel.stand, list(wheel.missing)
    flange = wheel.read.get(FLANGE)
    clean_up = Told(asked.clean_up, "--clean-up") if asked.clean_up is not None else practice_on(book, stand, CLEAN_UP)
    angle = Told(asked.angle, "--flange-angle") if asked.angle is not None else practice_on(book, stand, ANGLE)
    target = Told(asked.flange, "--flange") if asked.flange is not None else practice_on(book, stand, TARGET)
    if target is None and wheel.flanged:
        target = _flange_by_limits(book, stand, flange.where if flange else "")
    if angle is not None and not 0 < angle.value < 90:
        angle = None
    grid = DEPTH_MM if book.in_mm(stand.engine) else DEPTH_INCH
    needs = []
    if wheel.name in asked.cuts:
        needs.append(Need("template", asked.cuts[wheel.name], "--cut"))
    elif wheel.flanged and not wheel.new:
        need = _flange_need(flange, target, angle, grid)
        if isinstance(need, str):
            missing.append(need)
        elif need is not None:
            needs.append(need)
    if HOLLOW in wheel.read:
        needs.append(Need("hollow", wheel.read[HOLLOW].value, wheel.read[HOLLOW].origin))
    if wheel.flats and wheel.diameter is not None:
        longest = max(wheel.flats)
        if longest < wheel.diameter:
            needs.append(
                Need("flat", up(flat_depth(float(longest), float(wheel.diameter)), grid), "length of the flat")
            )
    return replace(
        wheel, needs=tuple(needs), clean_up=clean_up.value if clean_up else ZERO, target=target, angle=angle,
        missing=tuple(dict.fromkeys(missing)),
    )  # fmt: skip


def _flange_need(flange: Read | None, target: Told | None, angle: Told | None, grid: Fraction) -> Need | str | None:
    """The depth that gives a flange its thickness back; what lacks, in words; None where the flange lacks."""
    if flange is None:
        return None  # said already, among the readings
    if target is None:
        return "what the flange is brought back to (--flange)"
    gain = max(target.value - flange.value, ZERO)
    if gain == 0:
        return Need("flange", ZERO, flange.origin)
    if angle is None:
        return "angle of the flange (--flange-angle, or a template's own cut: --cut)"
    return Need("flange", up(flange_cut(float(gain), math.radians(float(angle.value))), grid), flange.origin)


def flange_after(wheel: Wheel, cut: Fraction) -> Fraction | None:
    """The flange after a cut: what the cut gives it, no more than what it is brought back to; None where not known."""
    flange, target = wheel.read.get(FLANGE), wheel.target
    if wheel.new:
        return target.value if target else None
    if flange is None:
        return None
    most = max(flange.value, target.value) if target else flange.value
    ruling = next((need for need in wheel.needs if need.what in ("template", "flange")), None)
    if ruling is not None and cut >= ruling.cut:
        return most
    if cut == 0 or flange.value == most:
        return flange.value
    if wheel.angle is None:
        return None
    return min(most, flange.value + down(float(cut) / math.tan(math.radians(float(wheel.angle.value)))))
