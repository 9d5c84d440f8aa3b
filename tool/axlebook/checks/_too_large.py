"""How a reading is told of more metal than there was when the part was new, or than there is room for."""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Place, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.doubts import doubts
from axlebook.records.too_large import TooLarge, too_large

from ._records import title
from ._words import figured, shown, value_figures

SOURCE = "the records of the part in this ledger; no published figure"


def larger(book: Book, id: str, step: str) -> Iterator[Finding]:
    """The readings that one check tells; one that stands in doubt already is told there. `step` may ask for {named}."""
    found: dict[Place, list[TooLarge]] = {}
    for one in too_large(book):
        if one.check == id:
            found.setdefault(one.reading.at, []).append(one)
    told = {doubt.reading.at for doubt in doubts(book)} if found else frozenset()
    for at, values in found.items():
        if at not in told:
            yield _finding(book, id, values, step)


def _finding(book: Book, id: str, found: list[TooLarge], step: str) -> Finding:
    first, reading = found[0], found[0].reading
    name, where = title(book, reading.quantity), ", ".join(one.value.position for one in found)
    bound = figured(first.bound, "length", book.in_mm(book.engines.get(reading.source.engine)))
    read = ", ".join(shown(one.value.text) for one in found)
    return Finding(
        id,
        Verdict.SUSPECT,
        Severity.DATA if reading.sure == "yes" else Severity.NOTE,
        reading.named,
        first.value.at if len(found) == 1 else reading.at.below("values"),
        f"{reading.named}, {name}, {where}: {read}. That cannot be: {first.said} is {bound}.",
        (
            *(figure for one in found for figure in value_figures(one.value, "length", False)),
            Figure("bound", bound, "", first.said),
        ),
        SOURCE,
        step.format(named=reading.named),
        reading.quantity,
        where,
    )
