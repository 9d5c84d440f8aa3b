"""Two weights on file cannot both be right, and limits choose their row by one of them.

What is judged: the weight on drivers of every engine against the mass of the engine, and against the axle load that
the record of a driver may tell; the axle loads of a tender's wheelsets, where all tell one, against the mass of the
tender. A weight with a digit lost chooses the row of a lighter engine, and a tire that is condemned passes by it. Bills
and drawings differ: only what is more than the whole by a tenth, less than a quarter of it, or twice a share is told.

What to do: look at the weigh bill or the drawing again, at the digits and at the unit, and put the wrong one right.

Source: the records of the engine and its wheelsets; no published figure.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.quantities import render_value
from axlebook.records.book import Book
from axlebook.records.weights import Disagreement, disagreements

ID = "weights-disagree"


def check(book: Book) -> Iterator[Finding]:
    """Tell every pair of weights that do not agree."""
    for engine in book.engines.values():
        for found in disagreements(book, engine):
            yield _finding(engine.id, found, "kg" if book.in_mm(engine) else "lb")


def _finding(engine: str, found: Disagreement, unit: str) -> Finding:
    one, other = (render_value(mass, "mass", unit, 0) for mass in (found.one, found.other))
    return Finding(
        ID,
        Verdict.SUSPECT,
        Severity.DATA,
        engine,
        found.at,
        f"{engine}: {found.told}: {one}; and {found.other_told}: {other}. Both cannot be, and limits go by the load.",
        (Figure(found.told, one, "", engine), Figure(found.other_told, other, "", engine)),
        "the records of the engine and its wheelsets",
        "Look at the weigh bill or the drawing again, at the digits and at the unit.",
        where=found.other_told,
    )
