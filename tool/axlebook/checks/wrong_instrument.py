"""A reading was taken with an instrument that is not for it, or that was retired before.

What is judged: every reading, against what its instrument's record says it measures and the day it was retired. An
instrument whose record does not say what it measures is taken to measure anything.

What to do: most often the id was mistyped: look at the sheet. If the instrument was right, add the quantity to its
record under `measures`.

Source: the instrument's own record.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.reading import Reading

from ._records import by_session, counted, every_reading, is_old_card, title

ID = "wrong-instrument"


def check(book: Book) -> Iterator[Finding]:
    """Tell readings taken with an instrument that is not for them, or no longer in use."""
    unfit: dict[tuple[str, str], list[Reading]] = {}
    retired: dict[str, list[Reading]] = {}
    measures = {id: frozenset(known.measures) for id, known in book.instruments.items() if known.measures}
    gone = {id: known.retired_on for id, known in book.instruments.items() if known.retired_on}
    for reading in every_reading(book):
        id = reading.instrument
        if id in measures and reading.quantity not in measures[id]:
            unfit.setdefault((id, reading.quantity), []).append(reading)
        if id in gone and reading.day.first and reading.day.first > gone[id]:
            retired.setdefault(id, []).append(reading)
    for (id, quantity), readings in unfit.items():
        known = title(book, quantity)
        why = f"is not for {known}: its record names {', '.join(title(book, q) for q in book.instruments[id].measures)}"
        yield from _findings(book, id, readings, why, quantity, f"Look at the sheet; if {id} was used, add it there.")
    for id, readings in retired.items():
        why = f"was retired on {gone[id]}"
        yield from _findings(book, id, readings, why, "", "Look at the sheet: which instrument, or which day, was it?")


def _findings(book: Book, id: str, readings: list[Reading], why: str, quantity: str, next: str) -> Iterator[Finding]:
    instrument = book.instruments[id]
    for session, some in by_session(book, readings):
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.NOTE if is_old_card(session) else Severity.DATA,
            f"{session.id} {id}",
            some[0].at.below("with"),
            f"{id} ({instrument.type}) {why}; {counted(len(some), 'reading')} of {some[0].day.text} "
            f"{'names' if len(some) == 1 else 'name'} it.",
            (Figure("instrument", id, "", session.id),),
            f"the record of {id}",
            next,
            quantity=quantity,
            where=id,
        )
