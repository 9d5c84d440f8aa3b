"""All that the pages are made from: the book, its findings, texts and photos, and what is worked out of them once."""

from __future__ import annotations

import hashlib
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from axlebook.checks._forecast import forecasts
from axlebook.checks._waiving import held_back
from axlebook.records.book import Book
from axlebook.records.corrections import Correction
from axlebook.records.restrictions import Restriction

from ..condition_view import EngineCondition, Row, conditions
from ..of_engine import Laid, engines_of
from ..photos import Photo, photos_of
from ..view import Report
from ..wear_plot import Drawing, drawing
from ..wear_view import WearRow, wear_rows
from .links import Links
from .page import Picture


@dataclass(frozen=True)
class Ground:
    """What the pages are made from."""

    book: Book
    report: Report
    contents: Mapping[str, bytes]  # the records by path
    attachments: Mapping[str, bytes]  # by their name below attachments/
    drawn: Mapping[str, bytes] = field(default_factory=dict)  # plots that were drawn before, by path
    drawn_with: str = ""  # what draws plots, in which version: another may draw other bytes

    @cached_property
    def links(self) -> Links:
        """The page of each id."""
        return Links(self.book)

    @property
    def laid(self) -> Laid:
        """The engines of parts and records."""
        return engines_of(self.book)

    @cached_property
    def conditions(self) -> list[EngineCondition]:
        """The condition of every engine."""
        return conditions(self.book, self.report.findings)

    @cached_property
    def rows_of(self) -> Mapping[str, list[Row]]:
        """What was last read, by wheelset and by part."""
        found: dict[str, list[Row]] = defaultdict(list)
        for axle in (axle for engine in self.conditions for axle in engine.axles):
            for row in axle.rows:
                for id in {axle.wheelset, row.part} - {""}:
                    found[id].append(row)
        return found

    @cached_property
    def found_at(self) -> Mapping[str, set[str]]:
        """The fingerprints of what was found where a wheelset or part stands now."""
        by_row: dict[tuple[str, str, str], set[str]] = defaultdict(set)
        for one in self.report.findings:
            by_row[one.subject, one.quantity, one.where].add(one.fingerprint)
        found: dict[str, set[str]] = defaultdict(set)
        for axle in (axle for engine in self.conditions for axle in engine.axles):
            found[axle.wheelset] |= {one.fingerprint for one in axle.others}
        for id, rows in self.rows_of.items():
            for row in rows:
                found[id] |= by_row.get((row.finding.subject, row.finding.quantity, row.finding.where), set())
        return found

    @cached_property
    def held(self) -> list[Restriction]:
        """What holds an engine back on the day."""
        return held_back(self.book)

    @cached_property
    def photos(self) -> tuple[Photo, ...]:
        """Every attachment that is cited."""
        return photos_of(self.book.cited, self.attachments)

    @cached_property
    def corrections_of(self) -> Mapping[str, list[Correction]]:
        """Corrections by the record they put right."""
        found: dict[str, list[Correction]] = defaultdict(list)
        for correction in self.book.corrections:
            found[correction.record].append(correction)
        return found

    @cached_property
    def _wear(self) -> list[WearRow]:
        """What wears on the engines and has a line to draw."""
        return [row for row in wear_rows(self.book, forecasts(self.book)) if row.line is not None]

    @cached_property
    def plots(self) -> Mapping[str, list[Drawing]]:
        """The plots of wear, by part or engine."""
        found: dict[str, list[Drawing]] = defaultdict(list)
        for row in self._wear:
            found[row.part or row.made.site.engine.id].append(drawing(row))
        return found

    def plot_name(self, one: Drawing) -> str:
        """The path of a plot: the same drawing by the same program has the same one."""
        return f"plots/{hashlib.sha256(f'{self.drawn_with} {one!r}'.encode()).hexdigest()[:24]}.svg"

    def plot_pictures(self, id: str) -> list[Picture]:
        """The plots of a part or engine as pictures."""
        return [Picture(self.plot_name(one), one.words, one.title, "plot") for one in self.plots.get(id, ())]
