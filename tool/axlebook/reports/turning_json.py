"""The what-if of a turning as JSON: its sheet, a row a way, and a row a wheel of each way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from axlebook.findings import Figure
from axlebook.records.turning_case import Case
from axlebook.records.turning_draft import written
from axlebook.records.turning_plans import Plan
from axlebook.records.turning_play import play_of
from axlebook.records.turning_wear import life_of
from axlebook.records.turning_wheels import FLANGE, ZERO, Wheel, flange_after

from .as_json import figure_json
from .sheet import Sheet, computed
from .turning_view import amounts_of
from .turning_words import judged_words


def turning_result(sheet: Sheet, case: Case) -> dict[str, Any]:
    """What the JSON report holds."""
    return {**sheet.result(), "rows": [row for plan in case.plans for row in _rows(case, plan)]}


def _rows(case: Case, plan: Plan) -> Iterator[dict[str, Any]]:
    show = amounts_of(case)
    figures = (
        *computed("metal", float(plan.metal), "m"),
        *computed("spread", None if plan.spread is None else float(plan.spread), "m"),
        *computed("least_left", None if plan.left is None else float(plan.left), "m"),
        *computed("years", plan.life.years, "year"),
    )
    yield {
        "way": plan.name, "place": "", "tire": "", "told": plan is case.chosen, "possible": plan.possible,
        "stands_out": plan in case.standing_out, "match_assessed": not plan.match_unjudged, "set_case": plan.case or "",
        "why": plan.why, "outside": [judged_words(case, one, show) for one in plan.outside],
        "figures": [figure_json(figure) for figure in figures],
    }  # fmt: skip
    for wheel in plan.wheels if plan.diameters else ():
        yield _wheel(case, plan, wheel)


def _wheel(case: Case, plan: Plan, wheel: Wheel) -> dict[str, Any]:
    cut, turned, left = plan.cuts.get(wheel.name, ZERO), wheel.name in plan.turned, plan.margin(wheel.name)
    metric, mine = amounts_of(case).metric, [one for one in plan.judged if one.where == wheel.name]
    flange = flange_after(wheel, cut) if turned else wheel.read[FLANGE].value if FLANGE in wheel.read else None
    less = play_of(plan, wheel.name, case.setup.tolerance) if turned else None
    text, _, unit = written(plan.diameters[wheel.name], metric=metric).partition(" ")
    figures = (
        Figure("finished_diameter", text, unit, "computed"),
        *computed("may_be_less_by", None if less is None else float(less), "m"),
        *computed("least_depth", float(wheel.cut), "m"),
        *computed("depth", float(cut), "m"),
        *computed("off_the_diameter", float(2 * cut), "m"),
        *computed("left_to_limit", None if left is None else float(left), "m"),
        *computed("turnings_left", None if left is None or not cut else float(max(left, ZERO) // cut), "1"),
        *computed("flange", None if flange is None else float(flange), "m"),
        *computed("years", life_of(mine, case.setup.rates).years, "year"),
    )
    return {
        "way": plan.name, "place": wheel.name, "tire": wheel.tire, "told": plan is case.chosen,
        "turned": turned, "new_tire": wheel.new, "outside": [],
        "figures": [figure_json(figure) for figure in figures],
    }  # fmt: skip
