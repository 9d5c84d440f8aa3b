"""What a year's running takes off each wheel, and how long a wheel lasts after a turning. A season is a year here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from statistics import median

from axlebook.trends.rate import median_slope
from axlebook.trends.series import Series

from .book import Book
from .timeline import series_of
from .turning_limits import Judged
from .turning_wheels import DIAMETER, FLANGE, HEIGHT, HOLLOW, THICKNESSES, Asked, Read, Wheel, needing, up

YEAR = 365.25  # days
LEAST_SPAN = 90  # days: what lies closer together tells of noise, not of wear
OFF_THE_WHEEL = frozenset({"cold before", "warm after", "at receiving"})
LOWERED = frozenset({DIAMETER, FLANGE, *THICKNESSES})
OF_SET = "of the set"


@dataclass(frozen=True)
class Rate:
    """What a year changes, positive as wear goes [m/year], and whose readings tell it."""

    a_year: float
    origin: str


@dataclass(frozen=True)
class Life:
    """Years until the first limit is met, what meets it, and what kept others from being told."""

    years: float | None  # None: not told
    by: str = ""
    unknown: tuple[str, ...] = ()


Rates = Mapping[str, Mapping[str, Rate]]  # by wheel and quantity


def rates_of(book: Book, wheels: list[Wheel]) -> dict[str, dict[str, Rate]]:
    """The rate of each wheel: the tire's own from three readings on, else the middle one of the set."""
    own: dict[str, dict[str, Rate]] = {wheel.name: {} for wheel in wheels}
    for quantity in (DIAMETER, HOLLOW, FLANGE, HEIGHT, *THICKNESSES):
        told = {}
        for wheel in wheels:
            thing = wheel.stand.thing("wheel")
            slope = median_slope(_long_enough(series_of(book, thing, quantity))) if thing else None
            if slope is not None:
                told[wheel.name] = slope * YEAR * (-1.0 if quantity in LOWERED else 1.0)
        for wheel in wheels:
            if wheel.name in told:
                own[wheel.name][quantity] = Rate(told[wheel.name], wheel.tire or wheel.name)
            elif told:
                own[wheel.name][quantity] = Rate(median(told.values()), OF_SET)
    for rates in own.values():
        _put_tread(rates)
    return own


def _long_enough(many: list[Series]) -> list[Series]:
    """Series without what tells of no wear: taped off the wheel or warm, or read within one season's shop work."""
    found = []
    for one in many:
        points = tuple(point for point in one.points if point.origin.when not in OFF_THE_WHEEL)
        kept = one._replace(points=points)
        spans = {(s.epoch, s.way) for s in kept.segments if (s.points[-1].day - s.points[0].day).days >= LEAST_SPAN}
        found.append(one._replace(points=tuple(p for p in points if (p.epoch, p.way) in spans)))
    return found


def _put_tread(rates: dict[str, Rate]) -> None:
    """A thickness whose own series is too short wears as the tread does: half as fast as the diameter."""
    if DIAMETER in rates:
        tread = Rate(rates[DIAMETER].a_year / 2, rates[DIAMETER].origin)
        for quantity in THICKNESSES:
            if quantity not in rates or rates[quantity].origin == OF_SET != tread.origin:
                rates[quantity] = tread


def worn(book: Book, wheel: Wheel, rates: Mapping[str, Rate], years: int, asked: Asked) -> Wheel | str:
    """The wheel after so many years more, with what it then needs; what lacks a rate, in words."""
    read = dict(wheel.read)
    for quantity, now in wheel.read.items():
        rate = rates.get(quantity)
        if rate is None:
            title = (book.vocabulary.find_quantity(quantity) or book.vocabulary.quantities[DIAMETER]).title
            return f"wear rate of the {title}: fewer than three readings to compare"
        change = up(max(rate.a_year, 0.0) * years)
        read[quantity] = Read(now.value - change if quantity in LOWERED else now.value + change, now.origin, now.where)
    if any(figure.value <= 0 for quantity, figure in read.items() if quantity in (DIAMETER, FLANGE)):
        return "wear rate: at the rate on record nothing would be left"
    return needing(book, replace(wheel, read=read, missing=()), asked)


def life_of(judged: list[Judged], rates: Rates) -> Life:
    """When the first wheel meets a limit, by its margins and the rates."""
    found: list[tuple[float, str]] = []
    unknown = []
    for one in judged:
        margin = one.judgement.margin
        if margin is None or one.where not in rates or _grows_away(one):
            continue
        rate = rates[one.where].get(one.quantity)
        if rate is None:
            unknown.append(f"{one.where}: {one.quantity}")
        elif rate.a_year > 0:
            found.append((float(margin) / rate.a_year, f"{one.where}, {one.quantity}"))
    if not found:
        return Life(None, "", tuple(unknown))
    years, by = min(found)
    return Life(max(years, 0.0), by, tuple(unknown))


def _grows_away(judged: Judged) -> bool:
    """Whether wear carries a figure away from the bound that is nearest: a low flange grows higher."""
    bound = judged.judgement.bound
    lower = bound is not None and bound.word in ("under", "at_most")
    return lower != (judged.quantity in LOWERED)


def lowest_margin(judged: list[Judged]) -> Fraction | None:
    """How much of a tire's thickness is left to the tightest limit; None where none judges it."""
    margins = [
        one.judgement.margin for one in judged if one.quantity in THICKNESSES and one.judgement.margin is not None
    ]
    return min(margins, default=None)
