"""A way of turning as a draft record: a what-if that can be kept, and that is no work that was done."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.quantities import UNITS

from . import fields
from .session import Session
from .turning_case import Case
from .turning_wheels import Wheel

Tree = dict[str, object]


def draft_tree(case: Case, day: str) -> Tree:
    """The tree of the draft. Its cuts are on diameter, as a turning's record has them."""
    plan, metric = case.chosen, case.book.in_mm(case.engine)
    cut = [wheel for wheel in plan.wheels if wheel.name in plan.turned and wheel.tire]
    tree: Tree = {"kind": "turning", "turned_on": day, "engine": case.engine.id, "tires": [w.tire for w in cut]}
    tree["purpose"] = f"what-if: {plan.name}"
    for key in ("contour", "taper", "datum"):
        told = told_of(case, key)
        if len(told) == 1:
            tree[key] = told[0]
    tree["cut"] = {wheel.tire: written(2 * plan.cuts[wheel.name], metric=metric) for wheel in cut}
    tree["draft"] = "yes"
    sizes = ", ".join(f"{wheel.name} to {written(plan.diameters[wheel.name], metric=metric)}" for wheel in cut)
    outside = ", ".join(dict.fromkeys(one.where for one in plan.outside))
    leaves = f" It leaves outside a limit: {outside}." if outside else ""
    tree["note"] = f"Worked out by axlebook, not work that was done: {sizes}.{leaves}"
    return tree


def written(length: Fraction, *, metric: bool) -> str:
    """A length in the ledger's own unit, no digit lost that stands on the grid."""
    unit = "mm" if metric else "in"
    number = UNITS[unit].from_base(length)
    text = f"{float(round(number, 6)):.6f}".rstrip("0").rstrip(".")
    return f"{text} {unit}"


def told_of(case: Case, key: str) -> list[str]:
    """The contour, taper or datum of the tires that are turned: by the tire, its last turning, or the wheelset."""
    plan = case.chosen
    found = [_told(case, wheel, key) for wheel in plan.wheels if wheel.name in plan.turned]
    return list(dict.fromkeys(text for text in found if text))


def _told(case: Case, wheel: Wheel, key: str) -> str:
    if key == "contour" and wheel.stand.tire:
        told = fields.text(fields.inner(wheel.stand.tire.tree, "form"), "contour")
        if told:
            return told
    last = next(_turnings(case, wheel), None)
    if last is not None and fields.text(last.tree, key):
        return fields.text(last.tree, key)
    return ""


def _turnings(case: Case, wheel: Wheel) -> Iterator[Session]:
    done = [s for s in case.book.work_on.get(wheel.tire, ()) if s.kind == "turning"] if wheel.tire else []
    yield from reversed(done)
