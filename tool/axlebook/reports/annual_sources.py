"""Of the annual summary: what it rests on, instruments, limits, people, and what was put right since."""

from __future__ import annotations

from datetime import date

from axlebook.checks._waiving import waives_nothing
from axlebook.findings import Verdict
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.engine import Engine
from axlebook.records.history import corrected_place
from axlebook.records.instrument import Instrument
from axlebook.records.plain import Plain
from axlebook.records.session import Session
from axlebook.records.waiver import waivers

from .annual_parts import Cells, Listed, Part, listed, people
from .condition_view import EngineCondition
from .item import Item
from .of_engine import engines_of


def instruments_part(book: Book, condition: EngineCondition, sessions: list[Session]) -> Part:
    """The instruments behind the readings told here, and whether a certificate covers the day of the state."""
    rows = [row for axle in condition.axles for row in axle.rows]
    used = {name for row in rows for name in row.instruments}
    used |= {reading.instrument for session in sessions for reading in session.readings if reading.instrument}
    lines = tuple(_instrument(book, name) for name in sorted(used))
    head = ("Instrument", "What", "Resolution", "Uncertainty", "Latest certificate", "On the day")
    unnamed = sum(
        not row.instruments for row in rows if row.finding.figures and not _looked(book, row.finding.quantity)
    )
    told = (Item(f"{unnamed} of the latest readings name no instrument."),) if unnamed else ()
    tables = (Listed("Instruments used", head, lines),) if lines else ()
    return Part("instruments", "Instruments and certificates", told, tables, nothing="No reading names an instrument.")


def _looked(book: Book, quantity: str) -> bool:
    return quantity in book.vocabulary.observations or quantity in book.vocabulary.sizes


def _instrument(book: Book, name: str) -> tuple[Cells, Verdict | None]:
    found = book.instruments.get(name)
    if found is None:
        return (name, "no record of it", "", "", "", "unknown"), Verdict.NOT_ASSESSED
    covered = found.covered_on(book.as_of)
    said = {True: "covered", False: "NOT covered", None: "no certificate on file"}[covered]
    if found.needs_none and not found.certificates:
        said = "needs none by its record"
    verdict = None if covered else Verdict.OUTSIDE if covered is False else Verdict.NOT_ASSESSED
    uncertainty = fields.text(found.tree, "expanded_uncertainty")
    factor = fields.text(found.tree, "coverage_factor")
    return (
        name,
        found.type,
        fields.text(found.tree, "resolution") or "not written down",
        f"{uncertainty} (k = {factor or 'not told, 2 taken'})" if uncertainty else "not written down",
        _certificate(found, book.as_of),
        said,
    ), verdict


def _certificate(instrument: Instrument, day: date) -> str:
    """The last certificate issued by a day."""
    known = [
        (issued, one)
        for one in fields.items(instrument.tree, "certificates")
        if one and (issued := fields.day(one, "issued_on").exact) and issued <= day
    ]
    if not known:
        return "none"
    _, last = max(known, key=lambda pair: pair[0])
    until = fields.text(last, "expires_on")
    return f"{fields.text(last, 'number') or 'no number'}, {fields.text(last, 'issued_on')}" + (
        f" to {until}" if until else ""
    )


def limits_part(book: Book, engine: Engine) -> Part:
    """The limit sets in force on the day, with their edition and who adopted them."""
    by_set = {fields.text(use, "set"): use for use in _adoptions(book, engine) if use}
    rows: list[tuple[Cells, Verdict | None]] = []
    for one in book.limits_for(engine):
        use = by_set.get(one.id, fields.EMPTY)
        altered = "; the shipped text was ALTERED" if one.id in book.sets_altered else ""
        adopted = " ".join(filter(None, (fields.text(use, "adopted_on"), fields.text(use, "adopted_by"))))
        count = f"{len(one.limits)} limits, {len(one.intervals)} intervals"
        rows.append(((one.id, one.title, f"{one.edition or 'not told'}{altered}", one.seen_on or "not told",
                      one.decision, adopted or "not told", count), None))  # fmt: skip
    head = ("Set", "Source", "Edition", "Text seen on", "Decides", "Adopted", "Holds")
    tables = (Listed("Limit sets in force on the day", head, tuple(rows)),) if rows else ()
    return Part("limits", "Limits used", (), tables, nothing="No limit set is in force: nothing could be judged.")


def _adoptions(book: Book, engine: Engine) -> list[fields.Tree]:
    own = fields.items(fields.inner(engine.tree, "overrides"), "limit_sets")
    return own or fields.items(fields.inner(book.ledger.tree, "defaults"), "limit_sets")


def waivers_part(book: Book, engine: str, first: date) -> Part:
    """Waivers that held on the day or ran out in the year, and corrections made in the year."""
    head = ("Waiver", "Finding", "Why", "Approved", "Until")
    idle = {one.id: waives_nothing(book, one) for one in waivers(book)}
    told = [_waiver(one, book.as_of, idle[one.id]) for one in book.of_kind("waiver")
            if _concerns(book, one, engine, first)]  # fmt: skip
    corrected = [one for one in book.of_kind("correction") if engine in engines_of(book).record(one.id)]
    made = [one for one in corrected if _in_year(one, first, book.as_of)]
    later = [one for one in corrected if (day := fields.day(one.tree, "corrected_on").first) and day > book.as_of]
    failed = {one.id: one.failed for one in book.corrections}
    tables = (
        Listed("Waivers", head, tuple(told)),
        listed("Corrections", ("Day", "Record", "Was", "Is", "Why", "By", "Approved by"),
               [_correction(book, one, failed.get(one.id, "")) for one in made]),
    )  # fmt: skip
    notes = tuple(Item(f"Made after this day, and not counted here: {one.id}.") for one in later)
    return Part("waivers", "Waivers and corrections", notes, tuple(t for t in tables if t.rows),
                nothing="None is on record for the year.")  # fmt: skip


def _in_year(record: Plain, first: date, until: date) -> bool:
    day = fields.day(record.tree, "corrected_on").first
    return day is not None and first <= day <= until


def _concerns(book: Book, waiver: Plain, engine: str, first: date) -> bool:
    named = fields.inner(waiver.tree, "finding")
    subject = set(fields.text(named, "subject").replace(",", " ").split())
    laid = engines_of(book)
    about = subject & book.engines.keys() or set().union(*map(laid.part, subject))
    about = about or laid.record(fields.text(named, "record"))
    begun, ends = fields.day(waiver.tree, "approved_on").first, fields.day(waiver.tree, "expires_on").last
    return (not about or engine in about) and (begun is None or begun <= book.as_of) and (ends is None or ends >= first)


def _waiver(waiver: Plain, day: date, idle: str) -> tuple[Cells, Verdict | None]:
    named, tree = fields.inner(waiver.tree, "finding"), waiver.tree
    ends = fields.day(tree, "expires_on").last
    ran_out = ends is not None and ends < day
    until = fields.text(tree, "expires_on") + (", RUN OUT" if ran_out else f"; WAIVES NOTHING: {idle}" if idle else "")
    approved = f"{fields.text(tree, 'approved_by')} {fields.text(tree, 'approved_on')}".strip()
    about = f"{fields.text(named, 'check')}: {fields.text(named, 'subject')}"
    return (waiver.id, about, fields.text(tree, "reason"), approved, until), Verdict.OUTSIDE if ran_out else None


def _correction(book: Book, one: Plain, failed: str) -> Cells:
    tree, record = one.tree, fields.text(one.tree, "record")
    now = "the whole record is withdrawn" if fields.yes(tree, "withdraws") else fields.text(tree, "is")
    place = corrected_place(book, record, fields.text(tree, "at"))
    at = f"{record}: {place}" if place else record
    took = f" (took no effect: {failed})" if failed else ""
    by, approved = people(fields.texts(tree, "by")), fields.text(tree, "approved_by")
    return (fields.text(tree, "corrected_on"), at, fields.text(tree, "was"), f"{now}{took}",
            fields.text(tree, "reason"), by, approved)  # fmt: skip
