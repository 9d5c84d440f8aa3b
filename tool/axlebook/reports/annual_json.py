"""The annual summary as the result of a JSON report: rows with named figures, and every part in words."""

from __future__ import annotations

from typing import Any

from .annual_parts import Annual, Listed, Part
from .condition_view import NEEDS_SOMEBODY
from .item import Item
from .plan_view import Mark, PlanAxle


def annual_json(annual: Annual) -> dict[str, Any]:
    """What `annual` gives."""
    return {
        "engine": annual.engine,
        "number": annual.number,
        "railway": annual.railway,
        "year": annual.year,
        "state": annual.state,
        "first_page": [
            {"heading": group.heading, "items": list(map(_item, group.items)), "more": group.more}
            for group in annual.first
        ],
        "plan": list(map(_axle, annual.plan)),
        "rows": annual.rows,
        "parts": list(map(_part, annual.parts)),
        "who_decides": annual.foot,
    }


def _item(item: Item) -> dict[str, Any]:
    return {"text": item.text, "verdict": str(item.verdict) if item.verdict else None}


def _axle(axle: PlanAxle) -> dict[str, Any]:
    left, right, own = map(_mark, axle.marks)
    return {
        "at": axle.at,
        "wheelset": axle.wheelset,
        "ends": list(axle.ends),
        "empty_since": axle.empty_since or None,
        "left": left,
        "right": right,
        "axle": own,
    }


def _mark(mark: Mark) -> dict[str, Any]:
    """What weighs most on one wheel: the quantity it is, or the check that found it."""
    row, finding = mark.row, mark.finding
    return {
        "verdict": str(mark.verdict) if mark.verdict else None,
        "quantity": row.finding.quantity if row else "",
        "check": finding.check if finding else "",
        "not_within": mark.more + (mark.verdict in NEEDS_SOMEBODY),
        "within": mark.within,
        "not_judged": mark.not_judged,
        "no_tire_since": mark.bare_since or None,
    }


def _part(part: Part) -> dict[str, Any]:
    return {
        "id": part.id,
        "heading": part.heading,
        "told": list(map(_item, part.told)),
        "tables": list(map(_table, part.tables)),
        "plots": [plot.words for plot in part.plots],
        "photos": [photo.caption for photo in part.photos],
        "nothing": part.nothing if part.empty else "",
    }


def _table(table: Listed) -> dict[str, Any]:
    return {
        "caption": table.caption,
        "head": list(table.head),
        "rows": [{"cells": list(cells), "verdict": str(verdict) if verdict else None} for cells, verdict in table.rows],
    }
