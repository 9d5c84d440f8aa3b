"""One way of turning a set: the diameters it leads to, what every limit in force says of them, and what it costs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import cast

from axlebook.engineering.turning import MatchLimits, WheelToTurn, least_metal_diameters
from axlebook.findings import Verdict

from .book import Book
from .turning_limits import (
    IN_SET,
    Judged,
    bounds_on,
    facets_after,
    judged,
    match_limits,
    match_values,
    set_case,
    single_values,
)
from .turning_wear import Life, Rates, life_of, lowest_margin
from .turning_wheels import FLANGE, HEIGHT, HOLLOW, THICKNESSES, ZERO, Wheel, flange_after

LEAST, ALIKE = "least metal", "one size"
NOT_TOLD = Life(None)


@dataclass(frozen=True)
class Setup:
    """What all plans of one engine share."""

    book: Book
    wheels: tuple[Wheel, ...]  # as they are
    fresh: tuple[str, ...]  # turned or renewed before, and not run since
    unsure: tuple[str, ...]  # of which the service records do not tell that
    rates: Rates
    tolerance: Fraction
    step: Fraction  # in which a lathe is told one size

    @property
    def axles(self) -> dict[str, str]:
        """The axle of each wheel."""
        return {wheel.name: wheel.axle for wheel in self.wheels}


@dataclass(frozen=True)
class Plan:
    """One way, worked out. Without diameters it cannot be done, and `why` says so."""

    name: str
    wheels: tuple[Wheel, ...]  # as they stand before the lathe
    turned: tuple[str, ...]
    case: str | None = None
    diameters: Mapping[str, Fraction] = field(default_factory=dict)
    judged: tuple[Judged, ...] = ()
    why: str = ""
    life: Life = NOT_TOLD
    waits: int = 0  # years before it is done
    scrapped: Fraction = ZERO  # depth still usable on tires that come off
    asked: bool = False

    @property
    def cuts(self) -> dict[str, Fraction]:
        """The depth taken from each wheel that is turned."""
        return {
            wheel.name: (wheel.diameter - self.diameters[wheel.name]) / 2
            for wheel in self.wheels
            if wheel.name in self.turned and wheel.diameter is not None and wheel.name in self.diameters
        }

    @property
    def metal(self) -> Fraction:
        """The depth taken from all tires together, and what was left on those that come off."""
        return sum(self.cuts.values(), self.scrapped)

    @property
    def spread(self) -> Fraction | None:
        """The largest diameter of the set less the smallest."""
        return max(self.diameters.values()) - min(self.diameters.values()) if self.diameters else None

    @property
    def outside(self) -> tuple[Judged, ...]:
        """What it would leave outside a limit."""
        return tuple(one for one in self.judged if one.outside)

    @property
    def possible(self) -> bool:
        """Whether it can be done and leaves nothing outside."""
        return bool(self.diameters) and not self.why and not self.outside and not self.flange_unknown

    @property
    def flange_unknown(self) -> tuple[str, ...]:
        """Wheels whose flange was read, and of which nothing tells what the cut makes of it."""
        return tuple(
            wheel.name
            for wheel in self.wheels
            if FLANGE in wheel.read and wheel.name in self.cuts and flange_after(wheel, self.cuts[wheel.name]) is None
        )

    @property
    def match_unjudged(self) -> bool:
        """Whether no limit in force speaks of how the set as a whole matches after it."""
        spoken = {IN_SET, "diameter_less_opposite", "diameter_less_base_average"}
        return not any(one.quantity in spoken and one.judgement.verdict is not Verdict.NOT_ASSESSED
                       for one in self.judged)  # fmt: skip

    @property
    def left(self) -> Fraction | None:
        """What is left of the tire that is nearest to its limit."""
        return lowest_margin(list(self.judged))

    def margin(self, wheel: str) -> Fraction | None:
        """What is left of one tire to its limit."""
        return lowest_margin([one for one in self.judged if one.where == wheel])


def make_plan(
    setup: Setup, name: str, wheels: Iterable[Wheel], turned: Iterable[str], size: str, *, renewed: Iterable[str] = (),
    waits: int = 0, scrapped: Fraction = ZERO, asked: bool = False,
) -> Plan:  # fmt: skip
    """Work a plan out: `turned` go to the lathe, the others stay; `renewed` have tires not yet on."""
    stand, cut = tuple(wheels), tuple(turned)
    changed = (set(cut) | set(renewed) | set(setup.fresh)) if not waits else set(cut) | set(renewed)
    axles = setup.axles
    unsure = set(setup.unsure) - changed
    case = None if unsure and changed != set(axles) else set_case(changed, (), axles)
    bare = Plan(name, stand, cut, case, waits=waits, scrapped=scrapped, asked=asked)
    lacking = sum(wheel.diameter is None for wheel in stand)
    if lacking:  # of which wheels is told once, with what is missing
        return _failed(bare, f"tread diameter not on record of {lacking} of {len(stand)} wheels")
    if any(wheel.top is None or wheel.top <= 0 for wheel in stand if wheel.name in cut):
        return _failed(bare, "a cut is more than the wheel")
    found = planned(setup, stand, cut, case, size)
    if not found:
        return _failed(bare, "the wheels that are left alone leave no size at which the match limits are met")
    plans = [_judge(setup, bare, sizes, [name for name in axles if name in changed]) for sizes in found]
    return next((plan for plan in plans if not plan.outside), plans[0])


def _failed(plan: Plan, why: str) -> Plan:
    return Plan(plan.name, plan.wheels, plan.turned, plan.case, why=why, waits=plan.waits, scrapped=plan.scrapped,
                asked=plan.asked)  # fmt: skip


def planned(
    setup: Setup, wheels: tuple[Wheel, ...], turned: tuple[str, ...], case: str | None, size: str
) -> list[dict[str, Fraction]]:
    """The diameters of a plan: the greatest within the match limits, or one size for all that are turned.

    One size is first rounded down to what a lathe is told; where that costs a tire its limit, it is taken as it is.
    """
    stands = {wheel.axle: wheel.stand for wheel in wheels}
    readers = {axle: facets_after(setup.book, stand, case) for axle, stand in stands.items()}
    limits = match_limits(setup.book, stands, readers, setup.tolerance)
    sizes = exact_sizes(wheels, turned, limits)
    if sizes is None:
        return []
    found = []
    smallest = min((sizes[name] for name in turned), default=ZERO)
    for one in (smallest // setup.step * setup.step, smallest) if size == ALIKE else ():
        alike = {name: one if name in turned else value for name, value in sizes.items()}
        if one > 0 and exact_sizes(wheels, turned, limits, alike) == alike:
            found.append(alike)
    return found or [sizes]


def exact_sizes(
    wheels: Iterable[Wheel], turned: Iterable[str], limits: MatchLimits, most: Mapping[str, Fraction] | None = None
) -> dict[str, Fraction] | None:
    """The planner's answer in exact rationals: a plan that lands on a limit is on it, to the last digit."""
    cut = set(turned)
    given = {}
    for wheel in wheels:
        top = (wheel.top if wheel.name in cut else wheel.diameter) or ZERO
        ceiling = min(top, most[wheel.name]) if most and wheel.name in cut else top
        given[wheel.name] = WheelToTurn(wheel.axle, cast(float, ceiling), 0, wheel.name in cut)
    return cast("dict[str, Fraction] | None", least_metal_diameters(given, limits))


# -- judging ---------------------------------------------------------------------------------------------------------


def _judge(setup: Setup, plan: Plan, sizes: Mapping[str, Fraction], changed: list[str]) -> Plan:
    found = match_judged(setup.book, plan.wheels, sizes, plan.case, changed)
    for wheel in plan.wheels:
        found += wheel_judged(setup.book, wheel, sizes[wheel.name], plan.case, turned=wheel.name in plan.turned)
    life = life_of(found, setup.rates)
    if plan.waits and life.years is not None:
        life = Life(life.years + plan.waits, life.by, life.unknown)
    return Plan(plan.name, plan.wheels, plan.turned, plan.case, sizes, tuple(found), "", life, plan.waits,
                plan.scrapped, plan.asked)  # fmt: skip


def match_judged(
    book: Book, wheels: tuple[Wheel, ...], sizes: Mapping[str, Fraction], case: str | None, changed: list[str]
) -> list[Judged]:
    """What the limits say of the match: always those of the axle, and those of the case."""
    axles = {wheel.name: wheel.axle for wheel in wheels}
    stands = {wheel.axle: wheel.stand for wheel in reversed(wheels)}
    return [
        one
        for match in (*match_values(sizes, axles), *single_values(sizes, axles, changed))
        for one in judged(
            book, stands[match.axle], match.where, match.quantity, match.value,
            facets_after(book, stands[match.axle], case),
        )
    ]  # fmt: skip


def wheel_judged(book: Book, wheel: Wheel, size: Fraction, case: str | None, *, turned: bool) -> list[Judged]:
    """What the limits say of one wheel: its thickness after the cut, its flange, hollow and flange height."""
    facets = facets_after(book, wheel.stand, case, size)
    cut = ((wheel.diameter or size) - size) / 2 if turned else ZERO
    after = {name: wheel.read[name].value - cut for name in THICKNESSES if name in wheel.read}
    flange = flange_after(wheel, cut) if turned else wheel.read[FLANGE].value if FLANGE in wheel.read else None
    if flange is not None:
        after[FLANGE] = flange
    if turned or HOLLOW in wheel.read:
        after[HOLLOW] = ZERO if turned else wheel.read[HOLLOW].value
    if not turned and HEIGHT in wheel.read:
        after[HEIGHT] = wheel.read[HEIGHT].value
    found: list[Judged] = []
    for name, value in after.items():
        plane = wheel.read[name].where if name in wheel.read else ""
        found += judged(book, wheel.stand, wheel.name, name, value, facets, plane)
    return found


def height_allowed(book: Book, wheel: Wheel, case: str | None) -> tuple[Fraction | None, Fraction | None]:
    """The lowest and highest flange that the limits allow."""
    bounds = bounds_on(book, wheel.stand, HEIGHT, facets_after(book, wheel.stand, case))
    low = max((bound.low for bound in bounds if bound.low is not None), default=None)
    high = min((bound.high for bound in bounds if bound.high is not None), default=None)
    return low, high


def over_the_edge(book: Book, wheel: Wheel) -> tuple[Judged, ...]:
    """What its own least cut would leave outside a limit of its thickness: such a tire is for re-tiring."""
    if wheel.top is None:
        return ()
    after = wheel_judged(book, wheel, wheel.top, "all", turned=True)
    return tuple(one for one in after if one.outside and one.quantity in THICKNESSES)
