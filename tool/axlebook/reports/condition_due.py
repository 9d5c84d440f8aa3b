"""What falls due of an engine, in the few lines that stand with its condition: overdue, watched, next."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from axlebook.findings import SEVERITY_ORDER, Verdict
from axlebook.records.due import Due, Kind

from .page import Paragraph, paragraph

NEXT = 2  # of what is not overdue yet


def due_lines(due: Iterable[Due], *, whole: bool) -> list[Paragraph]:
    """Overdue, watched and next, a paragraph each; each cut to a line unless all is asked for."""
    found = [one for one in due if one.kind not in (Kind.RESTRICTION, Kind.WAIVER)]
    overdue = sorted((one for one in found if one.verdict is Verdict.OUTSIDE), key=_weight)
    watched = [one for one in found if one.kind is Kind.WATCH]
    ahead = sorted(
        (one for one in found if one not in overdue and one.day is not None), key=lambda one: (str(one.day), one.title)
    )
    told = (
        ("Overdue", [f"{_named(one)} since {one.since or 'a day not on record'}" for one in overdue]),
        ("Watch list", [f"{one.subject} ({one.told})" for one in watched]),
        (
            "Next due",
            [
                f"{_named(one)} {'about' if one.estimated else 'by'} {one.day}"
                for one in ahead[: None if whole else NEXT]
            ],
        ),
    )
    return [_paragraph(head, many, whole=whole) for head, many in told if many]


def _weight(due: Due) -> tuple[int, str]:
    return SEVERITY_ORDER[due.severity], str(due.since or "")


def _named(due: Due) -> str:
    return f"{due.title}, {due.subject}," if due.subject else f"{due.title},"


def _paragraph(head: str, many: list[str], *, whole: bool) -> Paragraph:
    count = f", {len(many)}" if len(many) > 1 and head != "Next due" else ""
    made = paragraph(f"{head}{count}: {'; '.join(many)}.", indent=2, hang=4)
    return Paragraph(made.pieces, made.hang, made.indent, most=0 if whole else 1)


def due_json(engine: str, due: Iterable[Due]) -> list[dict[str, Any]]:
    """The same for other programs: every thing that falls due of an engine, overdue first."""
    return [
        {
            "engine": engine, "kind": str(one.kind), "subject": one.subject, "title": one.title,
            "verdict": str(one.verdict), "day": one.day.isoformat() if one.day else None, "estimated": one.estimated,
            "told": one.told, "source": one.source, "record": one.record,
        }
        for one in due
    ]  # fmt: skip
