"""A report as JSON: a promise to other programs, held by schema/report.schema.json.

Written values are exact text; computed ones the shortest text that reads back to the same double. Nothing but ASCII
leaves here, so no text of a record can act on a terminal.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from axlebook.findings import Figure, Finding

from .view import Report

if TYPE_CHECKING:
    from axlebook.records.due import Due
    from axlebook.records.restrictions import Restriction

    from .condition_view import EngineCondition, Row
    from .explained import Explained

FORMAT_VERSION = 1


def render_report(report: Report, result: Any = None) -> str:
    """The JSON of a report; `result` is what a command other than `check` gives."""
    told: dict[str, Any] = {
        "format_version": FORMAT_VERSION,
        "command": report.command,
        "as_of": report.day.as_of.isoformat(),
        "revision": report.revision.commit,
        "dirty": report.revision.dirty,
        "counts": dict(report.counts),
        "findings": [finding_json(finding) for finding in report.findings],
    }
    if result is not None:
        told["result"] = result
    return json.dumps(told, indent=1, ensure_ascii=True, allow_nan=False) + "\n"


def finding_json(finding: Finding) -> dict[str, Any]:
    """One finding with all its promised keys."""
    return {
        "check": finding.check,
        "verdict": str(finding.verdict),
        "severity": str(finding.severity),
        "subject": finding.subject,
        "path": finding.place.path,
        "line": finding.line,
        "column": finding.column,
        "message": finding.message,
        "figures": [figure_json(figure) for figure in finding.figures],
        "source": finding.source,
        "next": finding.next,
        "waived": finding.waived or None,
        "fingerprint": finding.fingerprint,
    }


def figure_json(figure: Figure) -> dict[str, str]:
    """One figure."""
    return {"name": figure.name, "value": figure.value, "unit": figure.unit, "from": figure.origin}


def condition_json(
    engines: list[EngineCondition], held: list[Restriction], due: Mapping[str, list[Due]]
) -> dict[str, Any]:
    """What `status` gives: what holds each engine back, a row a quantity of every wheelset and wheel, and the rest."""
    from .condition_due import due_json

    return {
        "due": [row for engine in engines for row in due_json(engine.engine, due.get(engine.engine, ()))],
        "restrictions": [one._asdict() for one in held],
        "rows": [_row(engine.engine, row) for engine in engines for axle in engine.axles for row in axle.rows],
        "not_measured": [
            {"engine": engine.engine, "what": item.what, "where": item.where, "because": item.because,
             "record": item.record}
            for engine in engines for item in engine.not_measured
        ],
        "trend": _trends(engines),
    }  # fmt: skip


def _trends(engines: list[EngineCondition]) -> list[dict[str, Any]] | None:
    """A row a wearing quantity of a thing; none where nothing was read that wears."""
    from .wear_json import figures

    seen = {
        (engine.engine, row.place, row.wear.made.word.name): row.wear
        for engine in engines for axle in engine.axles for row in axle.rows if row.wear
    }  # fmt: skip
    return [
        {
            "engine": wear.engine, "place": wear.place, "part": wear.part, "quantity": wear.made.word.name,
            "position": wear.made.position.name, "state": wear.made.state, "words": wear.brief,
            "figures": list(figures(wear)),
        }
        for wear in seen.values()
    ] or None  # fmt: skip


def _row(engine: str, row: Row) -> dict[str, Any]:
    finding = row.finding
    return {
        "engine": engine,
        "place": row.place,
        "part": row.part,
        "quantity": finding.quantity,
        "position": finding.where,
        "verdict": str(finding.verdict),
        "severity": str(finding.severity),
        "read_on": row.read_on,
        "by": list(row.by),
        "record": finding.record,
        "figures": [figure_json(figure) for figure in finding.figures],
        "source": finding.source,
        "cause": finding.cause,
    }


def pages_json(report: Report, pages: list[Explained], *, alone: bool) -> str:
    """What `explain` gives: one page in full, or the list of all."""
    if alone:
        page = pages[0]
        return render_report(report, {"id": page.id, "title": page.title, "paragraphs": list(page.paragraphs)})
    return render_report(report, {"rows": [{"id": page.id, "title": page.title} for page in pages]})
