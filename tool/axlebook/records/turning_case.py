"""The what-if of turning an engine's coupled set: what each wheel needs, the ways there are, and which stand out.

Ways that can be compared are compared by three things: depth of metal lost, match of the set, and years until the first
limit is met. One that is no better in any of them than another is not on the list of those that stand out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from fractions import Fraction

from . import fields
from .book import Book
from .engine import Engine
from .renewal import fresh_tires
from .turning_limits import Judged
from .turning_plans import ALIKE, LEAST, Plan, Setup, make_plan, over_the_edge, wheel_judged
from .turning_renewed import renewed, still_usable
from .turning_wear import lowest_margin, rates_of, worn
from .turning_wheels import ZERO, Asked, Wheel, wheels_of

A_SEASON = 1  # years
ALL_ALIKE, ALL_LEAST, WAIT = "turn all, one size", "turn all, least metal", "wait a season, then turn all"


@dataclass(frozen=True)
class Case:
    """Everything a report of it tells."""

    engine: Engine
    setup: Setup
    asked: Asked
    plans: tuple[Plan, ...]
    over: Mapping[str, tuple[Judged, ...]] = field(default_factory=dict)  # wheels whose own cut goes past a limit
    lacking: tuple[str, ...] = ()  # what kept a way from being worked out

    @property
    def wheels(self) -> tuple[Wheel, ...]:
        """The wheels as they are."""
        return self.setup.wheels

    @property
    def book(self) -> Book:
        """The book it was read from."""
        return self.setup.book

    @property
    def chosen(self) -> Plan:
        """The way that is told in full: the one asked for, else all to one size, else what stands out first."""
        asked = [plan for plan in self.plans if plan.asked]
        possible = [plan for plan in self.plans if plan.possible]
        return (asked or [plan for plan in possible if not plan.match_unjudged] or possible or list(self.plans))[0]

    @property
    def tires(self) -> list[str]:
        """The tires that the chosen way turns and that have a record, in walking order."""
        return [wheel.tire for wheel in self.chosen.wheels if wheel.name in self.chosen.turned and wheel.tire]

    @property
    def standing_out(self) -> tuple[Plan, ...]:
        """The ways that no other betters in everything; what no limit judges only where nothing is judged."""
        possible = [plan for plan in self.plans if plan.possible]
        return pareto([plan for plan in possible if not plan.match_unjudged] or possible)


def build_case(book: Book, engine: Engine, asked: Asked) -> Case:
    """Work out the ways of turning an engine's set. Without a driver there are none."""
    wheels = tuple(wheels_of(book, engine, asked))
    renewal = fresh_tires(book, engine)
    on = {wheel.tire: wheel.name for wheel in wheels if wheel.tire}
    fresh, unsure = (tuple(on[t.tire] for t in many if t.tire in on) for many in (renewal.fresh, renewal.unsure))
    metric = book.in_mm(engine)
    step = Fraction(1, 100000) if metric else Fraction(254, 10**7)
    setup = Setup(book, wheels, fresh, unsure, rates_of(book, list(wheels)), asked.tolerance or ZERO, step)
    over = {wheel.name: found for wheel in wheels if (found := over_the_edge(book, wheel))}
    plans, lacking = [], []
    for plan in _ways(setup, asked, list(over)) if wheels else ():
        if isinstance(plan, str):
            lacking.append(plan)
        else:
            plans.append(plan)
    return Case(engine, setup, asked, tuple(plans), over, tuple(dict.fromkeys(lacking)))


def _ways(setup: Setup, asked: Asked, over: list[str]) -> Iterator[Plan | str]:
    """Every way, the one asked for first; in place of one that cannot be worked out, what it lacks."""
    wheels, every = setup.wheels, [wheel.name for wheel in setup.wheels]
    if asked.re_tire:
        yield from _re_tiring(setup, asked, asked.re_tire, asked.only, asked=True)
    elif asked.only:
        name = f"turn {', '.join(_axle_words(setup, asked.only))} only"
        yield make_plan(setup, name, wheels, asked.only, LEAST, asked=True)
    yield make_plan(setup, ALL_ALIKE, wheels, every, ALIKE)
    yield make_plan(setup, ALL_LEAST, wheels, every, LEAST)
    for axle in _in_need(wheels):
        pair = [wheel.name for wheel in wheels if wheel.axle == axle]
        if set(pair) != set(asked.only) or asked.re_tire:
            yield make_plan(setup, f"turn {axle} only", wheels, pair, LEAST)
    yield _waiting(setup, asked)
    for axle in _to_re_tire(setup, over):
        if axle != asked.re_tire:
            yield from _re_tiring(setup, asked, axle, (), asked=False)


def _axle_words(setup: Setup, names: tuple[str, ...]) -> list[str]:
    """Wheels as their axle where both of it are meant."""
    axles = setup.axles
    both = {axle for axle in axles.values() if all(name in names for name in axles if axles[name] == axle)}
    return list(dict.fromkeys(axles[name] if axles[name] in both else name for name in names))


def _in_need(wheels: tuple[Wheel, ...]) -> list[str]:
    """The axles of which a wheel asks for a cut, the deepest first."""
    needs = {wheel.axle: ZERO for wheel in wheels}
    for wheel in wheels:
        needs[wheel.axle] = max(needs[wheel.axle], wheel.deepest.cut if wheel.deepest else ZERO)
    return sorted((axle for axle in needs if needs[axle] > 0), key=lambda axle: -needs[axle])


def _to_re_tire(setup: Setup, over: list[str]) -> list[str]:
    """The axles for which new tires are worked out: where a cut goes past a limit, else the one in most need."""
    axles = list(dict.fromkeys(setup.axles[name] for name in over))
    return axles or _in_need(setup.wheels)[:1]


def _waiting(setup: Setup, asked: Asked) -> Plan | str:
    """All turned a season later, from what the wear rates leave by then."""
    later: list[Wheel] = []
    for wheel in setup.wheels:
        found = worn(setup.book, wheel, setup.rates[wheel.name], A_SEASON, asked)
        if isinstance(found, str):
            return f"{WAIT}: {wheel.name}, {found}"
        later.append(found)
    plan = make_plan(setup, WAIT, later, [wheel.name for wheel in later], ALIKE, waits=A_SEASON)
    before = tuple(
        one
        for wheel in later
        if wheel.diameter is not None
        for one in wheel_judged(setup.book, wheel, wheel.diameter, "none", turned=False)
        if one.outside
    )
    why = f"{before[0].where} would be outside a limit before then" if before else plan.why
    return Plan(plan.name, plan.wheels, plan.turned, plan.case, plan.diameters, (*before, *plan.judged), why,
                plan.life, plan.waits)  # fmt: skip


def _re_tiring(
    setup: Setup, asked_for: Asked, axle: str, only: tuple[str, ...], *, asked: bool
) -> Iterator[Plan | str]:
    """New tires on one axle, turned on it to match: the others left alone, and all turned with them."""
    wheels: list[Wheel] = []
    for wheel in setup.wheels:
        found = renewed(setup.book, wheel, asked_for) if wheel.axle == axle else wheel
        if isinstance(found, str):
            yield f"re-tire {axle}: {found}"
            return
        wheels.append(found)
    new = [wheel.name for wheel in wheels if wheel.axle == axle]
    off = [_left_now(setup, wheel) for wheel in setup.wheels if wheel.axle == axle]
    others = [name for name in only if name not in new]
    ways = [(f"re-tire {axle}, leave the others", new, LEAST)]
    if others:
        ways = [(f"re-tire {axle}, turn {', '.join(_axle_words(setup, tuple(others)))}", [*new, *others], LEAST)]
    ways.append((f"re-tire {axle}, turn all to one size", [wheel.name for wheel in wheels], ALIKE))
    for number, (name, turned, size) in enumerate(ways):
        yield make_plan(setup, name, wheels, turned, size, renewed=new, scrapped=still_usable(off),
                        asked=asked and number == 0)  # fmt: skip


def _left_now(setup: Setup, wheel: Wheel) -> Fraction | None:
    size = wheel.diameter or Fraction(1)
    return lowest_margin(wheel_judged(setup.book, wheel, size, "none", turned=False))


def pareto(plans: list[Plan]) -> tuple[Plan, ...]:
    """The ways that no other betters in metal, match and life at once; equal ones all stay.

    Where the years of one are not told, what is left of the thinnest tire takes their place for all.
    """
    by_years = all(plan.life.years is not None for plan in plans)

    def costs(plan: Plan) -> tuple[Fraction, Fraction, Fraction]:
        life = Fraction(plan.life.years or 0.0) if by_years else (plan.left or ZERO)
        return plan.metal, plan.spread or ZERO, -life

    def bettered(plan: Plan) -> bool:
        mine = costs(plan)
        return any(
            costs(other) != mine and all(a <= b for a, b in zip(costs(other), mine, strict=True)) for other in plans
        )

    return tuple(plan for plan in plans if not bettered(plan))


def lead_times(book: Book) -> list[tuple[str, str, date | None]]:
    """What the railway needs beforehand: lathe or tires, the time as written, and the day it comes to from today."""
    told, found = fields.inner(book.ledger.tree, "lead_times"), []
    for name in ("lathe", "tires"):
        time = fields.quantity(told, name)
        if time is not None:
            days = int(time.exact // 86400)
            found.append((name, time.text, _later(book.as_of, days)))
    return found


def _later(day: date, days: int) -> date | None:
    try:
        return day + timedelta(days=days)
    except OverflowError:
        return None
