"""What else runs out: certificates of instruments, waivers, restrictions, limits with an expiry; and the watch list."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from axlebook.findings import Place, Severity, Verdict

from .. import fields
from ..book import Book
from ..defect import Defect, defects
from ..instrument import Instrument
from ..waiver import waivers as waivers_of
from ..watch import watch_list
from ..where_stands import Whereabouts
from .item import Due, Kind

ACT_BEFORE_RUN = "Look again before it runs: witness marks, hammer, back-to-back in the same hold."


def certificates(book: Book) -> Iterator[Due]:
    """The certificate that runs out last of each instrument that is kept in use."""
    used = _last_used(book)
    for instrument in book.instruments.values():
        retired = instrument.retired_on is not None and instrument.retired_on <= book.as_of
        known = [(issued, last) for issued, last in instrument.spans if issued <= book.as_of]
        if retired or not known:
            continue
        issued, expires = max(known, key=lambda pair: pair[1] or date.max)
        if expires is None:
            continue
        last = used.get(instrument.id)
        yield _certificate(book, instrument, issued, expires, last)


def _certificate(book: Book, instrument: Instrument, issued: date, expires: date, last: date | None) -> Due:
    over, idle = book.as_of > expires, last is None or last < issued
    told = f"certificate issued {issued}, ran out on {expires}" if over else f"certificate issued {issued}"
    told += f"; last used {last}" if last is not None else "; no use is on record"
    cause = "an instrument whose certificate ran out was not used under it" if over and idle else ""
    return Due(
        Kind.CERTIFICATE,
        instrument.id,
        "",
        instrument.id,
        f"Certificate of the {instrument.type}" if instrument.type else "Certificate",
        (Verdict.NOT_ASSESSED if idle else Verdict.OUTSIDE) if over else Verdict.WITHIN,
        Severity.NOTE if over and idle else Severity.SHOP,
        told,
        "Have it calibrated before it is used again, or enter `retired_on:`." if over else "",
        f"certificates in the record of {instrument.id}",
        _at_certificate(instrument, issued),
        expires,
        since=expires + timedelta(1) if over else None,
        done_on=str(issued),
        record=instrument.id,
        cause=cause,
    )


def _at_certificate(instrument: Instrument, issued: date) -> Place:
    for index, told in enumerate(fields.items(instrument.tree, "certificates")):
        if told and fields.text(told, "issued_on") == issued.isoformat():
            return Place(instrument.path).below("certificates", index, "expires_on")
    return Place(instrument.path)


def _last_used(book: Book) -> dict[str, date]:
    """The last day each instrument was used, by readings, heat logs, and what a session or a frog names."""
    found: dict[str, date] = {}

    def use(id: str, day: date | None) -> None:
        if id and day is not None and day > found.get(id, date.min):
            found[id] = day

    for reading in book.readings:  # of which there are many
        id, day = reading.instrument, reading.day.first
        if id and day is not None and day > found.get(id, date.min):
            found[id] = day
    for session in book.past_sessions:
        heat = (fields.text(line, "with") for line in fields.items(session.tree, "heat") if line)
        for id in (*fields.texts(session.tree, "instruments"), *heat):
            use(id, session.day.first)
    for frog in book.ledger.frogs:
        use(fields.text(frog.tree, "with"), frog.measured_on.first)
    return found


def watched(book: Book) -> Iterator[Due]:
    """Every tire on the watch list: to be looked at again before it runs, at the latest with the next inspection."""
    for item in watch_list(book):
        if not (item.suspect or item.hint):
            continue
        signs = ", ".join(dict.fromkeys(sign.title for sign in item.signs))
        yield Due(
            Kind.WATCH,
            "loose-tire",
            item.stand.engine.id,
            item.stand.name,
            "Watch list: is the tire loose?" if item.suspect else "Watch list: one weak sign of a loose tire",
            Verdict.SUSPECT if item.suspect else Verdict.WITHIN,
            Severity.WATCH,
            f"open on it: {signs}",
            ACT_BEFORE_RUN,
            item.cited,
            item.signs[0].at,
            record=item.signs[0].record,
            where="watch",
            now=item.suspect,
        )


def waivers(book: Book) -> Iterator[Due]:
    """Every waiver that was approved and is not closed, with the day it runs out."""
    for waiver in waivers_of(book):
        day = waiver.expires_on
        if day is None or not waiver.begun(book.as_of):
            continue
        over = book.as_of > day
        yield Due(
            Kind.WAIVER,
            waiver.id,
            next((word for word in waiver.subject.split() if word in book.engines), ""),
            waiver.subject or waiver.id,
            f"Waiver of {waiver.check or 'a finding'}",
            Verdict.OUTSIDE if over else Verdict.WITHIN,
            Severity.SHOP,
            f"waived until {day}",
            "Take it away, or have it approved anew with its reason." if over else "",
            f"waiver {waiver.id}, approved by {waiver.approved.by}",
            waiver.place.below("expires_on"),
            day,
            since=day + timedelta(1) if over else None,
            record=waiver.id,
        )


def restrictions(book: Book) -> Iterator[Due]:
    """The restriction of every open defect, where what it is of stands now, with its end where it has one."""
    for defect in defects(book):
        if defect.restriction and defect.is_open(book.as_of):
            yield from (_restriction(book, defect, here) for here in defect.now)


def _restriction(book: Book, defect: Defect, here: Whereabouts) -> Due:
    told = defect.restriction
    until = fields.day(told, "until").exact
    over = until is not None and book.as_of > until
    return Due(
        Kind.RESTRICTION,
        defect.id,
        here.engine,
        here.name or defect.id,
        f"Restriction: {fields.text(told, 'words')}",
        Verdict.OUTSIDE if over else Verdict.WITHIN,
        Severity.SHOP,
        f"the defect is open; the restriction ended with {until}" if over else
        f"until {until}" if until else "until the defect is closed; no day is set",
        "Close the defect, or set the restriction again." if over else "",
        f"defect {defect.id}",
        defect.place.below("restriction", "until") if until else defect.place.below("restriction"),
        until,
        since=until + timedelta(1) if over and until else None,
        record=defect.id,
        now=until is None,
    )  # fmt: skip


def limits_ending(book: Book) -> Iterator[Due]:
    """Limits that an authority granted until a day."""
    seen: set[str] = set()
    for engine in book.engines.values():
        for limit_set in book.limits_for(engine):
            for limit in limit_set.limits:
                if limit.expires_on is None or limit.id in seen:
                    continue
                seen.add(limit.id)
                over = book.as_of > limit.expires_on
                yield Due(
                    Kind.LIMIT,
                    limit.id,
                    "",
                    limit.id,
                    f"Limit granted until a day{f', docket {limit.docket}' if limit.docket else ''}",
                    Verdict.OUTSIDE if over else Verdict.WITHIN,
                    Severity.NOTE,
                    f"in force until {limit.expires_on}; what it stood in for judges again from then on",
                    "Take the set out of force, or enter the new grant." if over else "",
                    limit.cited,
                    limit.place,
                    limit.expires_on,
                    since=limit.expires_on + timedelta(1) if over else None,
                    record=limit_set.id,
                )
