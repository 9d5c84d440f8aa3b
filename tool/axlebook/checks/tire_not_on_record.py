"""A center under an engine has no tire on it by record.

What is judged: every center of a wheelset that stands under an engine, once a first tire of the ledger is on a center.
Of a tire that no record puts there nothing is judged as its own: not its fit, its age, its steel or its signs of coming
loose. Where a tire came off, none went on by record, and the engine ran since by its service records, the record of a
tire is missing, or a date is wrong. Where it has not run since, the wheel is in the shop, and nothing is asked.

What to do: write the work that put the tire on (`axlebook new tire-applied`), or what was found there when somebody
looked (`axlebook new tire-found`).

Source: the tire work on record and the service records.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.condition import Stand

from ._judging import every_stand

ID = "tire-not-on-record"
CAUSE = "no record tells which tire is on"


def check(book: Book) -> Iterator[Finding]:
    """Tell every center under an engine that has no tire."""
    for stand in every_stand(book) if book.standing.tires else ():
        if stand.center is None or book.standing.tire_on(stand.center.id, book.as_of):
            continue
        spells = book.standing.tires.get(stand.center.id, ())
        last = max((spell.until for spell in spells if spell.until), default=None)
        if last is None:
            yield _finding(stand, "no record tells which tire is on it, so nothing is judged of it as its own", CAUSE)
            continue
        if book.service_calendar(stand.engine.id).count(last, book.as_of).least:
            ran = f"{stand.engine.id} ran since by its service records"
            yield _finding(stand, f"its tire came off on {last} and none went on by record, but {ran}", "")


def _finding(stand: Stand, words: str, cause: str) -> Finding:
    assert stand.center is not None
    return Finding(
        ID, Verdict.NOT_ASSESSED if cause else Verdict.SUSPECT, Severity.DATA, stand.name, stand.line.place,
        f"{stand.name}, center {stand.center.id}: {words}.", source="the tire work on record",
        next="Write the work that put it on (axlebook new tire-applied), or what is found there "
        "(axlebook new tire-found).", cause=cause,
    )  # fmt: skip
