"""No witness mark was made over tire and center.

What is judged: for every tire that is on by record, whether the record of that day tells of a witness mark: a line
over tire and rim, by which every later look can tell whether the tire has crept. `none` is told; nothing written is
not assessed.

What to do: make one now, over rim and tire at a stated angle, and write down where.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book

from ._tire_day import applications, not_told

ID = "witness-mark-missing"
NONE = frozenset({"no", "none", "not made", "missing"})


def check(book: Book) -> Iterator[Finding]:
    """Look for the witness mark of every tire."""
    for app in applications(book):
        said, at = app.told("seating", "witness_mark").strip().casefold(), app.at("seating", "witness_mark")
        if said in ("", "unknown"):
            yield not_told(ID, app, at, "a witness mark", "witness_mark")
            continue
        verdict = Verdict.SUSPECT if said in NONE else Verdict.WITHIN
        words = f"{app.subject}: no witness mark was made, so nobody can see whether it creeps." if said in NONE else ""
        yield Finding(
            ID, verdict, Severity.WATCH, app.subject, at, words, source="common practice, no source",
            next="Make one now, over rim and tire at a stated angle, and write down where.", quantity="witness_mark",
        )  # fmt: skip
