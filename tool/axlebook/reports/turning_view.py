"""The what-if of a turning as a sheet: what each wheel needs, the ways side by side, and the chosen one in full."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure
from axlebook.records.turning_case import Case, lead_times
from axlebook.records.turning_draft import told_of
from axlebook.records.turning_moves import Lowered, asks, heights, lowered
from axlebook.records.turning_plans import Plan, height_allowed
from axlebook.records.turning_play import MATCH, eased, play, play_of
from axlebook.records.turning_wheels import DIAMETER, FLANGE, HEIGHT, HOLLOW, THICKNESSES, ZERO, Wheel, flange_after

from .amounts import Amounts
from .sheet import Line, Section, Sheet, Table, computed
from .turning_ground import assumed, gaps, limit_not_known
from .turning_words import (
    as_gauged,
    ends,
    judged_words,
    less,
    none_left,
    outcome,
    short,
    size,
    sizes,
    title_of,
    years,
)
from .view import Day

LEAD = (
    "A what-if from the readings on record: no work order, and nothing in it was done",
    "Depths count once on a tire and twice on its diameter",
)
HINT = "Per wheel, limits, lathe, what moves: --all."
STAR = " *: no other way betters it in metal, match and life."
CAUTIONS = (
    "Tape every wheel again in the lathe before the first cut: a plan is no better than the readings under it",
    "Turn the worst wheel first; the others follow what it really came to",
    "Cautions of lifting, of turning and of flying chips are the shop's own; this plans no lift",
)


def amounts_of(case: Case) -> Amounts:
    """Amounts in the engine's own system first."""
    return Amounts(case.book.in_mm(case.engine))


def turning_sheet(case: Case, show: Amounts, day: Day) -> Sheet:
    """The sheet of a case."""
    plan = case.chosen
    return Sheet(
        command="turning",
        title=f"Engine {case.engine.number or case.engine.id}: what a turning of the coupled set would come to",
        subject=case.engine.id,
        lead=(". ".join(LEAD) + ".",),
        sections=(
            _needs(case, show), _lathe(case, plan, show), _ways(case, show), _after(case, plan, show),
            _match(case, plan, show), _moves(case, show), _beforehand(case),
        ),
        missing=tuple(gaps(case)),
        assumed=tuple(assumed(case, show)),
        cautions=CAUTIONS,
        day=day,
        hint=HINT + (STAR if case.standing_out else ""),
    )  # fmt: skip


# -- the ways --------------------------------------------------------------------------------------------------------


def _ways(case: Case, show: Amounts) -> Section:
    plan = case.chosen
    lines = [Line("Told here in full", plan.name, alarm=not plan.possible)]
    in_order = sorted(case.plans, key=lambda way: (way is not plan, way not in case.standing_out, not way.possible))
    lines += [_way(case, way, show) for way in in_order]
    rows = tuple(_row(case, way, show) for way in case.plans)
    head = ("", "Way", "Turned to", "Metal, depth in all", "Apart", "Least left to a limit", "Lasts", "What ends it")
    return Section("The ways side by side", tuple(lines), (Table("* stands out", head, rows),))


def _mark(case: Case, plan: Plan) -> str:
    return "*" if plan in case.standing_out else ""


def _way(case: Case, plan: Plan, show: Amounts) -> Line:
    figures = (
        *computed("metal", float(plan.metal), "m"),
        *computed("spread", _float(plan.spread), "m"),
        *computed("least_left", _float(plan.left), "m"),
        *computed("years", plan.life.years, "year"),
    )
    first = plan is case.chosen
    label = f"{_mark(case, plan)} {plan.name}".strip()
    text = outcome(case, plan, show, cited=False)
    return Line(label, text, figures if first else (), main=_is_main(case, plan), alarm=first and not plan.possible)


def _is_main(case: Case, plan: Plan) -> bool:
    """What stands on the short page: all that can be done, waiting, and of the rest the first."""
    if plan.why and plan.why == case.chosen.why:
        return plan is case.chosen  # what stands in the way of all is told once
    closed = next((way for way in case.plans if not way.possible and not way.waits), None)
    return plan.possible or plan is case.chosen or bool(plan.waits) or plan is closed


def _row(case: Case, plan: Plan, show: Amounts) -> tuple[str, ...]:
    if not plan.possible:
        return "", plan.name, outcome(case, plan, show), "", "", "", "", ""
    apart = short(plan.spread, show) + (" (NOT ASSESSED)" if plan.match_unjudged else "")
    return (
        _mark(case, plan), plan.name, sizes(plan, show), short(plan.metal, show), apart, short(plan.left, show),
        years(plan), ends(case, plan),
    )  # fmt: skip


def _float(value: Fraction | None) -> float | None:
    return None if value is None else float(value)


# -- what each wheel needs -------------------------------------------------------------------------------------------


def _needs(case: Case, show: Amounts) -> Section:
    head = ("Wheel", "Tire", "Diameter", "Flange", "Hollow", "By flange", "By hollow", "By flat", "Clean-up",
            "Least depth", "Leaves")  # fmt: skip
    rows = tuple(_need_row(wheel, show) for wheel in case.wheels)
    lines = list(_ruling(case, show))
    for name, found in case.over.items():
        text = f"its own least cut leaves {judged_words(case, found[0], show)}: re-tire"
        lines.append(Line(f"RE-TIRE {name}", text, main=True, alarm=True))
    return Section("What each wheel needs", tuple(lines), (Table("As read last; depths", head, rows),))


def _ruling(case: Case, show: Amounts) -> Iterator[Line]:
    tops = [(wheel.top, wheel) for wheel in case.wheels if wheel.top is not None]
    if not tops:
        return
    top, worst = min(tops, key=lambda pair: pair[0])
    if len(tops) < len(case.wheels):
        yield Line("Common diameter", f"not known; at most {size(top, show)}, by {worst.name}", main=True)
        return
    deepest = worst.deepest
    cause = f"{worst.name}, {deepest.what} {short(deepest.cut, show)} deep" if deepest else worst.name
    if deepest and deepest.what == "flange" and worst.target and FLANGE in worst.read:
        cause += f" (flange {as_gauged(worst.read[FLANGE].value, show)} to {as_gauged(worst.target.value, show)})"
    yield Line("Common diameter", f"{size(top, show)} at most, ruled by {cause}",
               computed("common_diameter", float(top), "m"), worst.read[DIAMETER].origin, main=True)  # fmt: skip


def _need_row(wheel: Wheel, show: Amounts) -> tuple[str, ...]:
    def read(quantity: str) -> str:
        return as_gauged(wheel.read[quantity].value, show) if quantity in wheel.read else "NOT READ"

    def need(*names: str) -> str:
        found = [n.cut for n in wheel.needs if n.what in names]
        return short(max(found), show) if found else ""

    flange = read(FLANGE) if wheel.flanged else "plain"
    by_flange = need("flange", "template") or ("NOT KNOWN" if wheel.flanged else "")
    return (
        wheel.name, wheel.tire, read(DIAMETER), flange, read(HOLLOW), by_flange, need("hollow"), need("flat"),
        short(wheel.clean_up, show), short(wheel.cut, show), short(wheel.top, show),
    )  # fmt: skip


# -- the chosen way --------------------------------------------------------------------------------------------------


def _after(case: Case, plan: Plan, show: Amounts) -> Section:
    if not plan.diameters:
        return Section(f"After: {plan.name}", notes=(outcome(case, plan, show),))
    head = ("Wheel", "Tire", "Off the diameter", "Off the tire", "Left to the limit", "Turnings like it left",
            "Lasts, seasons", "Flange", "Flange height untouched")  # fmt: skip
    rows = tuple(_after_row(case, plan, wheel, show) for wheel in plan.wheels)
    lines = [
        Line(f"OUTSIDE after it: {one.where}", judged_words(case, one, show), note=one.judgement.limit.id, alarm=True)
        for one in plan.outside
    ]
    return Section(
        f"After: {plan.name}", tuple(lines), (Table("Each wheel", head, rows),), tuple(_tops(case, plan, show))
    )


def _after_row(case: Case, plan: Plan, wheel: Wheel, show: Amounts) -> tuple[str, ...]:
    cut, left = plan.cuts.get(wheel.name, ZERO), plan.margin(wheel.name)
    turned = wheel.name in plan.turned
    more = "" if left is None or not cut else str(max(left, ZERO) // cut)
    flange = flange_after(wheel, cut) if turned else wheel.read[FLANGE].value if FLANGE in wheel.read else None
    height = wheel.read[HEIGHT].value + cut if HEIGHT in wheel.read else None
    return (
        wheel.name, wheel.tire or "new tire", short(2 * cut, show) if turned else "not turned", short(cut, show),
        short(left, show) if left is not None else _unjudged(case, wheel), more, lasts(case, plan, wheel),
        short(flange, show) if wheel.flanged else "plain", short(height, show) if wheel.flanged else "",
    )  # fmt: skip


def _unjudged(case: Case, wheel: Wheel) -> str:
    if limit_not_known(case, wheel):
        return "limit NOT KNOWN"
    return "no limit on file" if any(one in wheel.read for one in THICKNESSES) else "thickness NOT READ"


def lasts(case: Case, plan: Plan, wheel: Wheel) -> str:
    """How many seasons one wheel has after it."""
    from axlebook.records.turning_wear import life_of

    life = life_of([one for one in plan.judged if one.where == wheel.name], case.setup.rates)
    if life.years is None:
        return "not known"
    seasons = f"{int(min(life.years, 999.0))}"
    return seasons if any(one in wheel.read for one in THICKNESSES) else f"{seasons} at most"


def _tops(case: Case, plan: Plan, show: Amounts) -> Iterator[str]:
    """By how much flange tops must come down, where a cut of the tread alone leaves them too high."""
    down: dict[str, Fraction] = {}
    for wheel in plan.wheels:
        _, high = height_allowed(case.book, wheel, plan.case)
        if wheel.name in plan.turned and HEIGHT in wheel.read and high is not None:
            over = wheel.read[HEIGHT].value + plan.cuts.get(wheel.name, ZERO) - high
            if over > 0:
                down[wheel.name] = over
    if down:
        told = ", ".join(f"{name} {short(over, show)}" for name, over in down.items())
        yield f"The flange tops are turned too, or stand too high: down by at least {told}"


def _match(case: Case, plan: Plan, show: Amounts) -> Section:
    found = [one for one in plan.judged if one.quantity in MATCH]
    lines = tuple(
        Line(
            one.where, judged_words(case, one, show).partition(", ")[2], note=one.judgement.limit.id, alarm=one.outside
        )
        for one in found
    )
    notes: tuple[str, ...] = (
        f"Turned or new after it, and not run: {plan.case or 'not known, for want of service records'}",
    )
    if plan.match_unjudged:
        notes = (*notes, "NOT ASSESSED: no limit in force speaks of how the set matches in this case")
    return Section("Match under the limits in force", lines, notes=notes)


def _lathe(case: Case, plan: Plan, show: Amounts) -> Section:
    heading = "What to tell the lathe"
    if not plan.diameters:
        return Section(heading, notes=("nothing: this way is not possible",))
    given = {key: told_of(case, key) or ["NOT ON RECORD"] for key in ("contour", "taper", "datum")}
    common = "; ".join(f"{key} {' or '.join(told)}" for key, told in given.items())
    match = play(plan, case.setup.tolerance)
    free = {name: play_of(plan, name, case.setup.tolerance) for name in plan.turned}
    smaller = None if all(one is None or less(one, show) for one in free.values()) else eased(case)
    rows = []
    for wheel in plan.wheels:
        if wheel.name in plan.turned:
            left = free[wheel.name]
            told = "no limit on file" if left is None else less(left, show) or none_left(smaller, wheel.name, show)
            rows.append((wheel.name, wheel.tire or "new tire", size(plan.diameters[wheel.name], show), told,
                         *(_one(case, key, wheel) for key in ("contour",))))  # fmt: skip
    tolerance = "no tolerance: no limit on the match is on file" if match is None else (
        less(match, show) or none_left(smaller, "", show)
    )
    main = Line("The lathe", f"{sizes(plan, show)}, {tolerance}; {common}", main=plan.possible,
                figures=tuple(_sizes(plan)))  # fmt: skip
    return Section(heading, (main,), (Table("Finished diameter at the taping line", ("Wheel", "Tire", "Diameter",
                   "Tolerance", "Contour"), tuple(rows)),))  # fmt: skip


def _one(case: Case, key: str, wheel: Wheel) -> str:
    from axlebook.records import fields

    return fields.text(fields.inner(wheel.stand.tire.tree, "form"), key) if wheel.stand.tire and wheel.tire else ""


def _sizes(plan: Plan) -> Iterator[Figure]:
    for name in plan.turned:
        yield from computed(f"finished_diameter {name}", float(plan.diameters[name]), "m")


# -- what follows ----------------------------------------------------------------------------------------------------


def _moves(case: Case, show: Amounts) -> Section:
    found, lines = lowered(case), []
    if found is None:
        lines.append(Line("Engine lower by", "not known: a diameter is not on record, or nothing can be done"))
    else:
        lines.append(_moved(found, show))
        for height in heights(case, found.mean):
            out = [one for one in height.judged if one.outside]
            text = f"{as_gauged(height.before, show)} to about {short(height.after, show)}"
            if out:
                text += f": {judged_words(case, out[0], show)}"
            lines.append(Line(f"{title_of(case, height.quantity)}, {height.where}", text, note=height.record,
                              alarm=bool(out)))  # fmt: skip
        lines += _speed_and_shoes(found)
    notes = [f"{'; '.join(after.asks)} [{after.cited}]" for after in asks(case)]
    if not notes:
        notes = ["no limit set in force says what to look at after a turning: coupler and pilot height, brake gear, "
                 "deck step, tender clearance, piston travel, shoes and speed indicator usually move"]  # fmt: skip
    return Section("What the new diameter moves", tuple(lines), notes=tuple(notes))


def _moved(found: Lowered, show: Amounts) -> Line:
    """By how much the engine stands lower, or higher where new tires are larger than what was on."""
    ends = sorted(abs(one) for one in (found.least, found.most))
    apart = f" (axle by axle {short(ends[0], show)} to {short(ends[1], show)})"
    if found.least * found.most < 0:  # some rise and some come down
        apart = f" (axle by axle from {short(-found.least, show)} higher to {short(found.most, show)} lower)"
    elif found.least == found.most:
        apart = ""
    rises = found.mean < 0
    of = "goes onto" if rises else "comes off"
    text = f"about {short(abs(found.mean), show)}, half of what {of} the diameters{apart}"
    return Line(f"Engine {'higher' if rises else 'lower'} by", text, computed("lowered", float(found.mean), "m"))


def _speed_and_shoes(found: Lowered) -> Iterator[Line]:
    if found.mean:
        share = f"{float(100 * abs(found.share)):.1f} percent"
        way = "higher" if found.mean > 0 else "lower"
        yield Line("Speed indicator", f"driven from a driver it reads {share} {way} than before")
    if found.most > 0:
        where = " where an axle comes down" if found.least < 0 else ""
        yield Line("Brake shoes", f"hang that much farther from the tread{where}: take up the rigging, read the piston "
                   "travel; how much more travel depends on the leverage, which is not on record")  # fmt: skip
    if found.least < 0:
        yield Line("Brake shoes", "stand that much closer to a tread that has grown: slack off the rigging before the "
                   "wheels go under, look that no shoe drags, read the piston travel")  # fmt: skip


def _beforehand(case: Case) -> Section:
    lines = [
        Line(
            f"Lead time, {name}",
            f"{time}" + (f": asked for on {case.book.as_of}, not before {day}" if day else ""),
            note="ledger.yaml",
        )
        for name, time, day in lead_times(case.book)
        if name == "lathe" or any(wheel.new for wheel in case.chosen.wheels)
    ]
    notes = () if lines else ("lead times are not on record (ledger.yaml, lead_times)",)
    return Section("Beforehand", tuple(lines), notes=notes)


__all__ = ["amounts_of", "turning_sheet"]
