"""A tire was quenched while it cooled.

What is judged: for every tire that is on by record, whether its record says that water was used. A tire that is
cooled by water shrinks unevenly and can crack or harden. Not written down is not assessed.

What to do: examine tread, flange and bore edge by magnets or dye, read the hardness, and watch the tire.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book

from ._tire_day import applications, not_told

ID = "tire-quenched"


def check(book: Book) -> Iterator[Finding]:
    """Look at whether water was used."""
    for app in applications(book):
        said, at = app.told("seating", "quenched"), app.at("seating", "quenched")
        if said not in ("yes", "no"):
            yield not_told(ID, app, at, "whether water was used", "quenched")
            continue
        verdict = Verdict.SUSPECT if said == "yes" else Verdict.WITHIN
        words = f"{app.subject}: it was quenched." if said == "yes" else ""
        yield Finding(
            ID, verdict, Severity.WATCH, app.subject, at, words, source="common practice, no source",
            next="Examine the tire by magnets or dye, and read its hardness.", quantity="quenched",
        )  # fmt: skip
