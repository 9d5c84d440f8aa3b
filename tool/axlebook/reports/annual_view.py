"""The annual condition summary of one engine: what a board, an insurer, an inspecting engineer, a successor need.

Nothing is judged here. The book was read as it stood on the day told; all renderers show this one view.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from types import MappingProxyType

from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.engine import Engine

from .annual_condition import not_judged_part, quantities_part
from .annual_defects import defects_part, restricted
from .annual_due import due_of, due_part, late_in_year
from .annual_findings import findings_part, not_checked_part
from .annual_first import first_page
from .annual_parts import Annual
from .annual_photos import photos_part
from .annual_sources import instruments_part, limits_part, waivers_part
from .annual_wear import wear_of
from .annual_work import inspections_part, service_item, sessions_of, work_part
from .as_json import condition_json
from .condition_view import conditions
from .of_engine import record_years
from .plan_view import plan
from .view import WHO_DECIDES, Day, Report, Revision

NOTHING_ATTACHED: Mapping[str, bytes] = MappingProxyType({})
STATEMENT = (
    "This page is for a competent person's own words on the condition of this engine. The lines are empty on purpose: "
    "nothing above is such a statement, and axlebook never makes one.",
)
LEAD = (
    "It is worked out from the railway's own records and reports against the limits on file. Where it says within, "
    "it means within the limits on file. What was not measured or not judged is said, and is no pass.",
)
TODAY = "that is today"  # why a summary ends before its year does, where nobody closed the book


def annual(
    book: Book, engine: Engine, year: int, report: Report, why: str, attachments: Mapping[str, bytes] = NOTHING_ATTACHED
) -> Annual:  # fmt: skip
    """The summary of an engine and year from a book read as of its last day; `report` has this engine's findings.

    `attachments`: what was read of the photos that records cite, by name.
    """
    first = date(year, 1, 1)
    found = list(report.findings)
    (condition,) = conditions(book, found, [engine.id])
    sessions, due = sessions_of(book, engine.id, first), due_of(book, engine.id)
    restrictions, wear = restricted(book, engine.id), wear_of(book, engine)
    causes = report.causes
    parts = (
        findings_part(found),
        quantities_part(book, condition),
        not_judged_part(condition, causes),
        wear.part,
        inspections_part(sessions),
        due_part(book, [engine], due, late_in_year(book, engine.id, first)),
        work_part(sessions),
        photos_part(book, engine.id, first, sessions, attachments),
        defects_part(book, engine.id, first, restrictions),
        waivers_part(book, engine.id, first),
        instruments_part(book, condition, sessions),
        limits_part(book, engine),
        not_checked_part(book),
    )
    return Annual(
        engine.id,
        engine.number,
        book.ledger.railway,
        year,
        f"Condition of engine {engine.number or engine.id}, {year}",
        report.day,
        _state(report.day, year, why),
        _where(report.revision),
        (*_about(book, engine, first), *LEAD),
        first_page(condition, found, causes, report.counts["within"], wear.costs, restrictions),
        plan(condition),
        parts,
        STATEMENT,
        WHO_DECIDES,
        condition_json([condition], [], {})["rows"],
    )


def _about(book: Book, engine: Engine, first: date) -> Iterable[str]:
    """Which engine it is, and how much it ran in the year."""
    kind = fields.text(engine.tree, "wheel_arrangement")
    built = fields.text(engine.tree, "built")
    facts = ", ".join(filter(None, (kind, f"built {built}" if built else "", book.ledger.railway)))
    if first.year not in record_years(book, engine.id):
        yield f"No record of this engine is of {first.year}: what follows was known from earlier years."
    yield f"{facts}. {service_item(book, engine.id, first, book.as_of).text}" if facts else ""


def _state(day: Day, year: int, why: str) -> str:
    """Which day it is the state of, and why it is not the last of the year."""
    if day.as_of == date(year, 12, 31):
        return f"State at the end of {day.as_of}, the year's last day."
    if why == TODAY:
        return f"State on {day.as_of}, by what is entered so far: the year {year} is not over."
    return f"State at the end of {day.as_of}, not of the whole year {year}: {why}."


def _where(revision: Revision) -> str:
    """Where the ledger stands in git, and whether what was read is what stands there."""
    if revision.commit is None:
        return "The ledger is not under version control: nobody can tell later what was read."
    changed = " with UNCOMMITTED CHANGES: what was read stands nowhere else" if revision.dirty else ""
    return f"Ledger at commit {revision.commit}{changed}."
