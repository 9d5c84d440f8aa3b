"""What `wear` gives as JSON: a row a quantity with named figures; lengths in mm, rates positive towards the limit."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date
from typing import Any

from axlebook.checks._forecast import Reach
from axlebook.trends.forecast import Line

from .wear_view import MILE, YEAR, Serviced, WearRow

MM = 1000.0


def wear_json(rows: list[WearRow]) -> dict[str, Any]:
    """The result of `wear`."""
    return {"rows": [_row(row) for row in rows]}


def _row(row: WearRow) -> dict[str, Any]:
    made, position = row.made, row.made.position
    order = made.order
    return {
        "engine": row.engine,
        "place": row.place,
        "part": row.part,
        "quantity": made.word.name,
        "position": position.name,
        "state": made.state if position.stale is None else "not measured since work",
        "no_limit": made.no_limit,
        "readings": made.readings,
        "segments": len(position.segments),
        "first_on": position.span[0].isoformat(),
        "last_on": position.span[1].isoformat(),
        "last_reading": row.last,
        "figures": list(figures(row)),
        "limits": [_limit(row, reach) for reach in made.reaches],
        "limits_not_applied": [
            {"limit": one.limit.id, "stage": one.limit.stage, "source": one.limit.cited, "because": one.words}
            for one in made.kept
        ],
        "order": None
        if order is None
        else {
            "what": order.what, "by": order.by.isoformat(), "lead_days": order.lead,
            "limit": order.reach.target.limit.id,
        },
    }  # fmt: skip


def _figure(name: str, value: float, unit: str) -> dict[str, str]:
    return {"name": name, "value": repr(float(value)), "unit": unit, "from": "computed"}


def figures(row: WearRow) -> Iterator[dict[str, str]]:
    """The named figures of a row; none where there is no rate."""
    line = row.line
    if line is None:
        return
    if row.level is not None:
        yield _figure("now", row.level * MM, "mm")
    yield _figure("scatter", line.scatter * MM, "mm")
    yield {"name": "readings in the rate", "value": str(line.readings), "unit": "", "from": "computed"}
    yield from _rates(line, "year", YEAR)
    yield from _rates(line, "day", 1.0)
    for one in row.serviced:
        yield from _rates(one.line, one.clock.name, _unit(one))


def _unit(one: Serviced) -> float:
    return MILE if one.clock.name == "mile" else 1.0


def _rates(line: Line, name: str, unit: float) -> Iterator[dict[str, str]]:
    yield _figure(f"wear per {name}", line.rate * unit * MM, f"mm/{name}")
    if line.low is not None and line.high is not None:
        yield _figure(f"wear per {name}, low", line.low * unit * MM, f"mm/{name}")
        yield _figure(f"wear per {name}, high", line.high * unit * MM, f"mm/{name}")


def _limit(row: WearRow, reach: Reach) -> dict[str, Any]:
    limit = reach.target.limit
    figures = [{"name": f"limit {reach.target.bound.word}", "value": reach.target.text, "unit": "", "from": limit.id}]
    figures.append(_figure("limit", float(reach.target.value) * MM, "mm"))
    for one in row.serviced:
        left = one.left(reach.target)
        for end, time in (("early", left.early), ("middle", left.middle), ("late", left.late)):
            if time is not None and not math.isinf(time):
                figures.append(_figure(f"{one.clock.name}s left, {end}", time / _unit(one), f"{one.clock.name}"))
    return {
        "limit": limit.id,
        "stage": limit.stage,
        "source": limit.cited,
        "early": _day(reach.early) if reach.meeting.has_interval else None,
        "middle": _day(reach.middle),
        "late": _day(reach.late) if reach.meeting.has_interval else None,
        "out_now": reach.out,
        "interval": reach.meeting.has_interval,
        "figures": figures,
    }


def _day(day: date | None) -> str:
    """A day, or the words for there being none."""
    return "never" if day is None else "beyond 50 years" if day == date.max else day.isoformat()
