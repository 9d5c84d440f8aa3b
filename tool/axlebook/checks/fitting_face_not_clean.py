"""A tire went on over faces that were not clean.

What is judged: for every tire that is on by record, what the record of that day says of bright metal on the seat and
in the bore, of old shims and burrs taken off, and of the corner of the lip or shoulder being clear. `no` is told;
what is not written down is not assessed. A corner is not asked for where the tire is located by nothing.

What to do: a tire that went on over rust, paint or burrs has less grip than its figures say: watch it as a loose
one, with its witness mark and a light hammer, until it comes off.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity
from axlebook.records.book import Book

from ._tire_day import Question, answered

ID = "fitting-face-not-clean"
NEXT = "Watch the witness mark and ring the tire at every inspection; look at both faces when it comes off."
QUESTIONS = (
    Question("bright_metal_center", "bright metal on the seat", "the seat was not cleaned to bright metal"),
    Question("bright_metal_tire", "bright metal in the bore", "the bore was not cleaned to bright metal"),
    Question("shims_and_burrs_removed", "old shims and burrs off", "old shims or burrs were left on"),
    Question(
        "lip_corner_clear", "the corner of the lip clear", "the corner of the lip was not clear",
        lambda app: app.tire.located_by != "nothing",
    ),
)  # fmt: skip


def check(book: Book) -> Iterator[Finding]:
    """Look at what was written of both faces."""
    return answered(book, ID, "before", QUESTIONS, Severity.WATCH, NEXT)
