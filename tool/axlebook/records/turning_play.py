"""How much smaller than told the wheels of a turning may come out, and at what sizes something is left for that."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from .turning_case import Case, build_case
from .turning_limits import AVERAGE, IN_SET, ON_AXLE, OPPOSITE
from .turning_plans import Plan
from .turning_wheels import ZERO

MATCH = (ON_AXLE, IN_SET, OPPOSITE, AVERAGE)
TRIED = (16, 8, 4, 2, 1)  # tolerances of a lathe, in the steps in which it is told a size


class Eased(NamedTuple):
    """The same way with a tolerance of the lathe kept free, each way on diameter."""

    tolerance: Fraction
    plan: Plan


def play(plan: Plan, tolerance: Fraction) -> Fraction | None:
    """How much smaller than told a wheel may come out: what the match limits leave; None where none speaks.

    Differences of two wheels and from an average grow by no more than the one wheel that is smaller.
    """
    margins = [
        one.judgement.margin for one in plan.judged if one.quantity in MATCH and one.judgement.margin is not None
    ]
    if not margins:
        return None
    least = max(min(margins), ZERO)
    return min(least, 2 * tolerance) if tolerance else least


def play_of(plan: Plan, wheel: str, tolerance: Fraction) -> Fraction | None:
    """The same for one wheel: its tire's thickness has a say too."""
    match, thickness = play(plan, tolerance), plan.margin(wheel)
    known = [x for x in (match, 2 * thickness if thickness is not None else None) if x is not None]
    return None if match is None else max(min(known), ZERO)


def eased(case: Case) -> Eased | None:
    """The chosen way at sizes that leave every wheel of it a tolerance; None where no size does.

    Where a tolerance was asked for, the match limits keep it free already: what leaves none is a tire's thickness,
    and of that a smaller size leaves less.
    """
    return None if case.asked.tolerance else next(_eased(case), None)


def _eased(case: Case) -> Iterator[Eased]:
    for steps in TRIED:
        tolerance = steps * case.setup.step
        again = build_case(case.book, case.engine, replace(case.asked, tolerance=tolerance))
        for plan in again.plans:
            alike = plan.name == case.chosen.name and plan.possible
            if alike and all(play_of(plan, wheel, tolerance) for wheel in plan.turned):
                yield Eased(tolerance, plan)
