"""What a change means, as JSON: the `result` of `compare`."""

from __future__ import annotations

from typing import Any

from axlebook.findings import Figure, Finding
from axlebook.records.comparison.readings import ReadingAdded

from .as_json import figure_json, finding_json
from .compare_view import Compared, State

# The SI base in which computed differences are told.
BASE = {
    "length": "m", "mass": "kg", "force": "N", "pressure": "Pa", "temperature": "K", "temperature_difference": "K",
    "angle": "degree", "speed": "m/s", "time": "s", "power": "W", "expansion": "1/K",
}  # fmt: skip


def compared_json(found: Compared) -> dict[str, Any]:
    """The result of a comparison; `findings` beside it are those of the second state."""
    told = found.comparison
    changed = told.findings
    return {
        "before": _state(found.before),
        "after": _state(found.after),
        "in_doubt": list(found.notes),
        "findings": {
            "new": [finding_json(one) for one in changed.new],
            "worse": [_pair(*pair) for pair in changed.worse],
            "better": [_pair(*pair) for pair in changed.better],
            "gone": [finding_json(one) for one in changed.gone],
            "unchanged": changed.unchanged,
        },
        "records": [
            {
                "path": one.path,
                "path_before": one.path_before or None,
                "kind": one.kind,
                "became": str(one.fate),
                "signed_before": one.signed,
                "differences": [
                    {"pointer": d.pointer, "about": d.about, "was": d.was, "now": d.now} for d in one.details
                ],
            }
            for one in told.records
        ],
        "readings": [_reading(one) for one in told.readings],
        "parts": [
            {"what": one.what, "where": one.site, "was": one.was or None, "now": one.now or None, "record": one.record}
            for one in told.parts
        ],
        "limits": [
            {
                "id": one.id, "set": one.set_title, "path": one.path, "became": str(one.way), "title": one.title,
                "was": one.was or None, "now": one.now or None, "clause": one.clause, "docket": one.docket or None,
            }
            for one in told.limits
        ],
        "adoptions": [
            {
                "who": one.who, "set": one.set_id, "path": one.path, "was": one.was or None, "now": one.now or None,
                "in_force_before": one.in_force_before, "in_force_now": one.in_force_now,
            }
            for one in told.adoptions
        ],
    }  # fmt: skip


def _state(state: State) -> dict[str, Any]:
    return {"named": state.words, "revision": state.commit, "dirty": state.dirty}


def _pair(before: Finding, now: Finding) -> dict[str, Any]:
    return {"before": finding_json(before), "now": finding_json(now)}


def _reading(one: ReadingAdded) -> dict[str, Any]:
    return {
        "path": one.at.path,
        "pointer": one.at.pointer,
        "subject": one.subject,
        "part": one.part,
        "quantity": one.quantity,
        "position": one.position,
        "read_on": one.day,
        "by": list(one.by),
        "now": one.text,
        "before": one.before or None,
        "before_on": one.before_day or None,
        "before_record": one.before_record or None,
        "figures": _figures(one),
        "out_of_expectation": one.out_of_expectation if one.expected else None,
        "because": one.why,
    }


def _figures(one: ReadingAdded) -> list[dict[str, str]]:
    amounts = [("change", one.change)] if one.change is not None else []
    told = [Figure(name, repr(float(amount)), BASE.get(one.dimension, ""), "computed") for name, amount in amounts]
    if one.expected is not None:
        for name, value in (("expected change", one.expected.change), ("uncertainty", one.expected.uncertainty)):
            told.append(Figure(name, repr(value), BASE.get(one.dimension, ""), "computed"))
    return [figure_json(figure) for figure in told]
