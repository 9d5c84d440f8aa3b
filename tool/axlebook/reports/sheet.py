"""A sheet: what a person takes along to the work, before any renderer. Sections of figures, tables, notes, cautions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from axlebook.findings import Figure
from axlebook.records.to_write import Lines

from .view import WHO_DECIDES, Day


@dataclass(frozen=True)
class Line:
    """One thing that is told: its name, how it reads, and the figures behind it."""

    label: str
    text: str
    figures: tuple[Figure, ...] = ()
    note: str = ""  # where it comes from, or what it rests on
    main: bool = False  # stands also on the short page of a terminal
    alarm: bool = False  # must be seen: outside, past a ceiling


@dataclass(frozen=True)
class Table:
    """A table; empty cells are boxes to write in."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    boxes: bool = False


@dataclass(frozen=True)
class Section:
    """One part of a sheet."""

    heading: str
    lines: tuple[Line, ...] = ()
    tables: tuple[Table, ...] = ()
    notes: tuple[str, ...] = ()
    own_page: bool = False  # begins a page of its own on paper


@dataclass(frozen=True)
class Gap:
    """What is missing, and the one next step."""

    cause: str
    next: str
    writes: tuple[Lines, ...] = ()  # the lines that the step asks for


@dataclass(frozen=True)
class Sheet:
    """All of a sheet."""

    command: str
    title: str
    subject: str
    lead: tuple[str, ...]  # what it is and is not, in a sentence or two
    sections: tuple[Section, ...]
    missing: tuple[Gap, ...] = ()
    assumed: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    day: Day | None = None
    hint: str = "Readings, notes, assumptions, cautions: --all."  # at the foot of the short page
    revision: str = ""  # where the ledger stands, so that a stale sheet is known
    not_read: str = ""  # files that could not be read, and so are missing from what it says
    identity: tuple[str, ...] = ()  # in large type: which parts this is for
    foot: str = WHO_DECIDES

    @property
    def figures(self) -> tuple[Figure, ...]:
        """Every figure, in reading order."""
        return tuple(f for section in self.sections for line in section.lines for f in line.figures)

    @property
    def alarms(self) -> bool:
        """Whether something on it is outside what it was held against."""
        return any(line.alarm for section in self.sections for line in section.lines)

    def result(self) -> dict[str, Any]:
        """What a JSON report holds of it: named figures, and what they rest on, in words."""
        from .as_json import figure_json

        told: list[dict[str, Any]] = []
        for section in self.sections:
            told += [
                {"part": section.heading, "about": line.label, "says": line.text, "alarm": line.alarm}
                for line in section.lines
            ]
        return {
            "subject": self.subject,
            "figures": [figure_json(figure) for figure in self.figures],
            "lines": told,
            "missing": [_gap_json(gap) for gap in self.missing],
            "assumed": list(self.assumed),
            "cautions": list(self.cautions),
            "who_decides": self.foot,
        }


def _gap_json(gap: Gap) -> dict[str, Any]:
    write = [{"into": one.into, "lines": list(one.lines)} for one in gap.writes]
    return {"cause": gap.cause, "next": gap.next, **({"write": write} if write else {})}


def computed(name: str, value: float | None, unit: str) -> tuple[Figure, ...]:
    """A computed figure: the shortest text that reads back to the same double; none where there is no value."""
    return () if value is None else (Figure(name, repr(float(value)), unit, "computed"),)


def written(name: str, text: str, unit: str, origin: str) -> tuple[Figure, ...]:
    """A written figure: its text as it stands, its unit, and the record or flag it comes from."""
    return (Figure(name, text, unit, origin),)
