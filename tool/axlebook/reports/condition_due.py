"""What falls due of an engine, in the few lines that stand with its condition: overdue, watched, next."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import Any

from axlebook.findings import SEVERITY_ORDER, Verdict
from axlebook.records.due import Due, Kind, not_counted, on_silent

from .page import Look, Page, Paragraph, paragraph

OVERDUE, UNLESS_DONE, AHEAD = "Overdue", "Overdue unless it was done", "Next due"
NO_READING = "Counted from an inspection that holds no reading"
NEXT = 2  # of what is not overdue yet
LINES = {OVERDUE: 2, UNLESS_DONE: 2}  # that each takes at most, unless all is asked for; else one
FIRST_WORDS = 2  # the day, or the engine and place: these are always shown
OPEN = (Verdict.NOT_ASSESSED, Verdict.UNDECIDED)

Heads = list[tuple[str, list[str], str]]  # what it is, each in words, the command that shows all of it


def due_lines(engine: str, due: Iterable[Due], look: Look, *, as_of: date, whole: bool) -> list[Paragraph]:
    """Overdue, watched and next, a paragraph each; where not all fits, how many more and what shows them."""
    found = [one for one in due if one.kind not in (Kind.RESTRICTION, Kind.WAIVER)]
    overdue = sorted((one for one in found if one.verdict is Verdict.OUTSIDE), key=_weight)
    gone_by = [one for one in found if one.verdict in OPEN and one.day is not None and one.day < as_of]
    ahead = [one for one in found if one not in overdue and one not in gone_by and one.day is not None]
    every = f"axlebook due --engine {engine}"
    told: Heads = [
        (OVERDUE, [f"since {one.since or 'a day not on record'}, {_named(one)}" for one in overdue], every),
        (UNLESS_DONE, [f"by {one.day}, {_named(one)}" for one in gone_by], every),
        ("Watch list", [f"{one.subject} ({one.told})" for one in found if one.kind is Kind.WATCH],
         f"axlebook status {engine} --all"),
        (AHEAD, [_ahead(one) for one in sorted(ahead, key=_by_day)], every),
    ]  # fmt: skip
    return [
        *(_paragraph(head, many, command, look, whole=whole) for head, many, command in told if many),
        *(paragraph(line, indent=2, hang=4) for line in standing_on(found)),
    ]


def standing_on(many: Iterable[Due]) -> list[str]:
    """Which dates stand on an inspection in which nobody wrote a reading, and which inspection moved no date."""
    found = list(many)
    silent, partial = on_silent(found), not_counted(found)
    return [*([f"{NO_READING}: {silent}."] if silent else []), *([f"{partial}."] if partial else [])]


def _weight(due: Due) -> tuple[int, str]:
    return SEVERITY_ORDER[due.severity], str(due.since or "")


def _by_day(due: Due) -> tuple[str, str]:
    return str(due.day), due.title


def _ahead(due: Due) -> str:
    return f"{'about' if due.estimated else 'by'} {due.day}, {_named(due)}"


def _named(due: Due) -> str:
    return f"{due.title}, {due.subject}" if due.subject else due.title


def _paragraph(head: str, many: list[str], command: str, look: Look, *, whole: bool) -> Paragraph:
    """As many as fit; the first one is cut rather than left out, and the command never."""
    count = f", {len(many)}" if len(many) > 1 and head != AHEAD else ""
    most = NEXT if head == AHEAD and not whole else len(many)

    def made(number: int, cut: str = "") -> Paragraph:
        rest = len(many) - number
        more = f"; {rest} more: {command}" if rest else f" ({command})" if cut else ""
        return paragraph(f"{head}{count}: {cut or '; '.join(many[:number])}{more}.", indent=2, hang=4)

    if whole:
        return made(len(many))
    for number in range(most, 0, -1):
        if _lines(made(number), look) <= LINES.get(head, 1):
            return made(number)
    return _first_cut(many[0], lambda cut: made(1, cut), look, LINES.get(head, 1))


def _first_cut(text: str, made: Callable[[str], Paragraph], look: Look, most: int) -> Paragraph:
    words, dots = text.split(), look.symbol("…")
    for number in range(len(words) - 1, FIRST_WORDS, -1):
        cut = made(f"{' '.join(words[:number])} {dots}")
        if _lines(cut, look) <= most:
            return cut
    return made(f"{' '.join(words[:FIRST_WORDS])} {dots}")


def _lines(one: Paragraph, look: Look) -> int:
    return len(Page(look).lines([one]))


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
