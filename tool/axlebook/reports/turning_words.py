"""How a way of turning is told in a line, and what the lathe is told."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from axlebook.checks._words import OUT_WORDS
from axlebook.findings import Verdict
from axlebook.quantities import UNITS, digits_apart, render_fraction, render_value
from axlebook.records.turning_case import Case
from axlebook.records.turning_limits import Judged
from axlebook.records.turning_plans import Plan
from axlebook.records.turning_play import Eased, play, play_of
from axlebook.records.turning_wheels import THICKNESSES

from .amounts import Amounts

UNJUDGED = "match of the set NOT ASSESSED"


def size(metres: Fraction, show: Amounts) -> str:
    """A finished diameter or depth: every digit that it has, to a millionth of an inch, never rounded up."""
    unit = "mm" if show.metric else "in"
    number = UNITS[unit].from_base(metres)
    return render_value(UNITS[unit].to_base(Fraction(floor(number * 10**6), 10**6)), "length", unit, 6)


def as_gauged(metres: Fraction, show: Amounts) -> str:
    """A reading or a figure to work to as a gauge shows it: a fraction where it is one."""
    return (None if show.metric else render_fraction(metres)) or size(metres, show)


def short(metres: Fraction | None, show: Amounts, places: int = 3) -> str:
    """A worked-out length for the eye."""
    return "not known" if metres is None else show.length_one(float(metres), places)


def title_of(case: Case, quantity: str) -> str:
    """The shop word of a quantity."""
    word = case.book.vocabulary.find_quantity(quantity)
    return word.title if word else quantity


def judged_words(case: Case, one: Judged, show: Amounts, *, cited: bool = True) -> str:
    """A figure against its limit: `driver-1 right, tire thickness: 1.2 in; condemning: out under 1 3/8 in (...)`."""
    limit, read = one.judgement, short(one.value, show)
    if limit.value is not None and one.outside:
        read = digits_apart(one.value, limit.value, "mm" if show.metric else "in")[0]
    elif one.value == limit.value:  # on the limit, and not out: no rounding may make it look beyond
        read = as_gauged(one.value, show)
    if one.quantity in THICKNESSES and one.value <= 0:
        read = "nothing"
    told = f"{one.where}, {title_of(case, one.quantity)}: {read}"
    if limit.verdict is Verdict.NOT_ASSESSED:
        word = case.book.vocabulary.facets.get(limit.missing)
        return f"{told}; NOT ASSESSED by {limit.limit.cited}: {word.title if word else limit.missing} is not on record"
    bound = OUT_WORDS[limit.bound.word] if limit.bound else ""
    source = f" ({limit.limit.cited})" if cited else ""
    return f"{told}; {limit.limit.stage}: out {bound} {limit.text}{source}"


def outcome(case: Case, plan: Plan, show: Amounts, *, cited: bool = True) -> str:
    """Why a way is not open, or what it costs and gives."""
    if plan.why:
        return f"NOT POSSIBLE: {plan.why}"
    worst = plan.outside
    if worst:
        more = len({(one.where, one.quantity) for one in worst}) - 1
        thin = any(one.quantity in THICKNESSES for one in worst)
        first = next((one for one in worst if one.quantity in THICKNESSES), worst[0])
        tail = f", and {more} more" if more else ""
        return f"{'RE-TIRE' if thin else 'OUTSIDE'}: leaves {judged_words(case, first, show, cited=cited)}{tail}"
    if plan.flange_unknown:
        return f"NOT ASSESSED: the flange after it, without its angle: {', '.join(plan.flange_unknown)}"
    told = [
        f"{sizes(plan, show)}",
        f"metal {short(plan.metal, show)}",
        f"apart {short(plan.spread, show)}",
        f"{years(plan)}",
    ]
    if plan.match_unjudged:
        told.append(UNJUDGED)
    return "; ".join(told)


def sizes(plan: Plan, show: Amounts) -> str:
    """The one diameter that is turned to, or the smallest and largest."""
    found = sorted({plan.diameters[name] for name in plan.turned})
    if not found:
        return "nothing turned"
    return size(found[0], show) if len(found) == 1 else f"{size(found[0], show)} to {size(found[-1], show)}"


def ends(case: Case, plan: Plan) -> str:
    """What meets a limit first."""
    where, _, quantity = plan.life.by.partition(", ")
    return f"{where}, {title_of(case, quantity)}" if quantity else ""


def years(plan: Plan) -> str:
    """How long it lasts."""
    return seasons(plan.life.years)


def seasons(years: float | None) -> str:
    """A time in seasons, rounded down."""
    if years is None:
        return "seasons not known"
    if years < 1:
        return "less than a season"
    whole = int(years)
    return f"about {whole} season{'s' if whole > 1 else ''}" if whole < 100 else "over 100 seasons"


def less(play: Fraction, show: Amounts) -> str:
    """How much smaller a wheel may come out: `+0, -0.062 in`; '' where nothing can be told to a lathe."""
    step = Fraction(1, 100000) if show.metric else Fraction(254, 10**7)
    allowed = play // step * step
    return f"+0, -{short(allowed, show)}" if allowed else ""


def none_left(found: Eased | None, wheel: str, show: Amounts) -> str:
    """What a lathe is told where the limits leave no tolerance: the size that would, of a wheel or of the way."""
    if found is None:
        return "NO TOLERANCE left by the limits, and no smaller size leaves one"
    plan, tolerance = found.plan, found.tolerance
    told = size(plan.diameters[wheel], show) if wheel else sizes(plan, show)
    free = play_of(plan, wheel, tolerance) if wheel else play(plan, tolerance)
    left = f"{told} would leave {less(free or Fraction(0), show)}"
    return f"NO TOLERANCE left by the limits: {left}" + ("" if wheel else f" (--tolerance '{short(tolerance, show)}')")
