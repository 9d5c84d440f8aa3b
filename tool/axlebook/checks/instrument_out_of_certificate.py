"""An instrument was used on a day that none of its certificates covers.

What is judged: every reading with a dated instrument, against the certificates in the instrument's record. One finding
for each record and instrument. An instrument whose record tells of no certificate, and does not say why it needs none,
is not assessed, once.

What to do: have the instrument looked at. If it is still right, enter the new certificate and say in a note that it was
right when it came in; readings taken meanwhile then stand. If it is not, measure again what it was used for.

Source: the certificates in the instrument's own record.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Place, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.dates import Day
from axlebook.records.instrument import Instrument
from axlebook.records.reading import Reading

from ._records import by_session, counted, every_reading, is_old_card

ID = "instrument-out-of-certificate"


def check(book: Book) -> Iterator[Finding]:
    """Tell every use of an instrument outside its certificates, and instruments that tell of none."""
    used: set[str] = set()
    known: dict[Day, dict[str, bool]] = {}
    outside: dict[str, list[Reading]] = {}
    day, here = None, {}
    for reading in every_reading(book):
        if reading.day is not day:  # those of one record are of one day, one after the other
            day = reading.day
            here = known.setdefault(day, {})
        is_outside = here.get(reading.instrument)
        if is_outside is None:
            is_outside = here[reading.instrument] = _is_outside(book.instruments.get(reading.instrument), day)
            used.add(reading.instrument)
        if is_outside:
            outside.setdefault(reading.instrument, []).append(reading)
    for id, readings in outside.items():
        yield from _outside(book, book.instruments[id], readings)
    for id in sorted(used & book.instruments.keys()):
        instrument = book.instruments[id]
        if not instrument.certificates and not instrument.needs_none:
            yield _none_told(instrument)


def _is_outside(instrument: Instrument | None, day: Day) -> bool:
    """Whether no certificate covers the day; of a month or year, neither its first nor its last."""
    if instrument is None or day.first is None or day.last is None:
        return False
    return instrument.covered_on(day.first) is False and instrument.covered_on(day.last) is False


def _outside(book: Book, instrument: Instrument, readings: list[Reading]) -> Iterator[Finding]:
    for session, some in by_session(book, readings):
        last = max((e for i, e in instrument.certificates if e and e < (some[0].day.first or e)), default=None)
        ended = f"; the last one before ran out on {last}" if last else ""
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.NOTE if is_old_card(session) else Severity.DATA,
            f"{session.id} {instrument.id}",
            some[0].at.below("with"),
            f"{instrument.id} ({instrument.type}) was used on {some[0].day.text} for {counted(len(some), 'reading')}, "
            f"and no certificate on file covers that day{ended}.",
            (Figure("certificate expired", str(last), "", instrument.id),) if last else (),
            f"certificates in the record of {instrument.id}",
            "Have it looked at, and enter the certificate; measure again if it was wrong.",
            where=instrument.id,
        )


def _none_told(instrument: Instrument) -> Finding:
    cause = "no certificate is on record for an instrument in use"
    return Finding(
        ID,
        Verdict.NOT_ASSESSED,
        Severity.NOTE,
        instrument.id,
        Place(instrument.path),
        f"{instrument.id} ({instrument.type}): {cause}, and its record does not say why it needs none.",
        source="the instrument's record",
        next="Enter its certificate, or `no_certificate:` with the reason.",
        cause=cause,
    )
