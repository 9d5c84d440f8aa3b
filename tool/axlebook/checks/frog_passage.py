"""A pair does not pass one of the railway's own frogs.

What is judged: two things at every frog in ledger.yaml, by its last measured or adopted gages. Back-to-back, at its
smallest, must be at least the guard face gage, else the pair binds between guard rail and wing. Back-to-back and ONE
flange, at their largest (the wheel check), must be at most the guard check gage, else that flange can strike the
point. This is derived here, from the geometry. The flange is taken as it was read: higher up, where the guard line
meets it, it is thinner, so the judgement is on the side of the frog. Frogs of another track gauge are left out.

The figures that a rule gives for a CLASS of track condemn the track, not wheels: judged by the worst frog a class
allows, every sound wheelset would fail. Such a set gives at most a note. Without frogs of the railway's own on record,
it is not assessed.

What to do: measure the frog named again, then the pair. A frog is mended more cheaply than a wheelset.

Source: the frog in ledger.yaml that the finding names.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from axlebook.findings import Finding
from axlebook.records.book import Book
from axlebook.records.ledger import Frog

from ._findings import judged
from ._frogs import no_frog, pairs, passage

ID = "frog-passage"
QUANTITIES = ("wheel_check",)
NEXT = "Measure the frog again, then the pair."


def check(book: Book) -> Iterator[Finding]:
    """Judge every pair against the railway's own frogs, and against sets that name a wheel check."""
    yield from judged(book, ID, QUANTITIES, NEXT)
    latest: dict[str, Frog] = {}
    for frog in sorted(book.ledger.frogs, key=lambda f: f.measured_on.first or date.min):
        if (frog.measured_on.first or date.min) <= book.as_of:
            latest[frog.track] = frog
    for pair in pairs(book):
        frogs = [frog for frog in latest.values() if pair.runs_over(book, frog)]
        if frogs:
            yield from passage(book, ID, pair, frogs, NEXT)
        else:
            yield no_frog(ID, pair)
