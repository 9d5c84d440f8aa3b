"""Of the annual summary: what was done to the engine in the year, inspections, tires on and off, lathe work."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date

from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.session import Session

from .annual_parts import Cells, Listed, Part, listed, people
from .item import Item
from .of_engine import engines_of


def sessions_of(book: Book, engine: str, first: date) -> list[Session]:
    """The records of an engine and its parts with a day in the year, up to the day the book is read at."""
    laid = engines_of(book)
    return [
        session
        for session in book.past_sessions
        if session.day.last is not None and session.day.last >= first
        and (session.day.first or date.min) >= first.replace(month=1, day=1) and engine in laid.record(session.id)
    ]  # fmt: skip


def inspections_part(sessions: list[Session]) -> Part:
    """Inspections done in the year, and examinations by dye, magnets or ultrasound."""
    done = [session for session in sessions if session.kind == "inspection" and not session.blank]
    begun = tuple(
        Item(f"{session.id} was begun and says nothing: it counts as no inspection.")
        for session in sessions if session.blank
    )  # fmt: skip
    tables = (
        listed("Inspections", ("Day", "Purpose", "By", "Readings", "Not measured", "Signed", "Record"),
               map(_inspection, done)),
        listed("Examinations", ("Day", "Part and area", "Method and standard", "By", "Result", "Due again"),
               [_examination(s, one.tree, one.part or one.place) for s in done for one in s.examinations]),
    )  # fmt: skip
    return Part("inspections", "Inspections done in the year", begun, _filled(tables), nothing="None is on record.")


def _inspection(session: Session) -> Cells:
    signed = fields.text(fields.inner(session.tree, "signed"), "signed_by")
    return (session.day.text, session.purpose, people(session.by), str(len(session.readings)),
            str(len(session.not_measured)), signed or "not signed", session.id)  # fmt: skip


def _examination(session: Session, tree: fields.Tree, part: str) -> Cells:
    text = fields.text
    return (
        session.day.text,
        _joined(part, text(tree, "of"), text(tree, "area")),
        _joined(text(tree, "method"), text(tree, "standard")),
        _joined(text(tree, "person"), f"level {level}" if (level := text(tree, "level")) else ""),
        text(tree, "result") or "not written down",
        text(tree, "due_again") or text(tree, "satisfies"),
    )


def _joined(*texts: str) -> str:
    return ", ".join(text for text in texts if text)


def work_part(sessions: list[Session]) -> Part:
    """Tires applied, removed and found, wheels pressed, and turnings of the year."""
    told: dict[str, tuple[str, Cells, Callable[[Session], Cells]]] = {
        "tire-applied": ("Tires applied", ("Day", "Tire", "On center", "Shims", "By", "Signed", "Record"), _applied),
        "tire-removed": ("Tires removed", ("Day", "Tire", "Off center", "Came off", "Why", "By", "Record"), _removed),
        "tire-found": ("Tires found on", ("Day", "Tire", "On center", "Since", "By", "Record"), _found),
        "mounting": ("Wheels pressed", ("Day", "Center", "Wheelset", "Work", "Tons", "By", "Record"), _mounted),
        "turning": (
            "Turnings",
            ("Day", "Tires", "Removed from the diameter", "Where and why", "By", "Record"),
            _turned,
        ),
    }
    tables = (
        listed(caption, head, [cells(session) for session in sessions if session.kind == kind])
        for kind, (caption, head, cells) in told.items()
    )
    return Part("work", "Tires applied and removed, turnings", (), _filled(tables),
                nothing="No tire was applied, removed or turned in the year by the records.")  # fmt: skip


def _applied(session: Session) -> Cells:
    return (session.day.text, session.tire, session.center, _shims(session, "shims"), people(session.by),
            _signed(session), session.id)  # fmt: skip


def _removed(session: Session) -> Cells:
    off = _joined(fields.text(session.tree, "came_off"), _shims(session, "shims_found", before="shims found: "))
    return (session.day.text, session.tire, session.center, off, fields.text(session.tree, "reason"),
            people(session.by), session.id)  # fmt: skip


def _found(session: Session) -> Cells:
    since = fields.text(session.tree, "since") or "unknown"
    return session.day.text, session.tire, session.center, since, people(session.by), session.id


def _mounted(session: Session) -> Cells:
    tons = fields.inner(session.tree, "tons")
    pressed = _joined(*(f"{key} {fields.text(tons, key)}" for key in ("start", "half", "end") if key in tons))
    return (session.day.text, session.center, fields.text(session.tree, "wheelset"), fields.text(session.tree, "work"),
            pressed, people(session.by), session.id)  # fmt: skip


def _turned(session: Session) -> Cells:
    cut = fields.inner(session.tree, "cut")
    removed = "; ".join(f"{tire}: {fields.text(cut, tire)}" for tire in cut)
    why = _joined(fields.text(session.tree, "shop"), fields.text(session.tree, "purpose"))
    tires = ", ".join(fields.texts(session.tree, "tires") + fields.texts(session.tree, "wheelsets"))
    return session.day.text, tires, removed or "not written down", why, people(session.by), session.id


def _shims(session: Session, key: str, *, before: str = "") -> str:
    """Shims in words: none, unknown, or each thickness with its count."""
    plain = fields.text(session.tree, key)
    many = [item for item in fields.items(session.tree, key) if isinstance(item, dict)]
    found = ", ".join(_joined(fields.text(one, "thickness"), _pieces(one)) for one in many)
    said = plain or found
    return f"{before}{said}" if said else f"{before}not written down"


def _pieces(shim: fields.Tree) -> str:
    count = fields.text(shim, "pieces")
    return f"{count} piece{'' if count == '1' else 's'}" if count else ""


def _signed(session: Session) -> str:
    return fields.text(fields.inner(session.tree, "signed"), "signed_by") or "not signed"


def service_item(book: Book, engine: str, first: date, until: date) -> Item:
    """Service days of the year, as far as they are told."""
    days = book.service_calendar(engine).count(first.replace(year=first.year - 1, month=12, day=31), until)
    return Item(f"Service days from {first} to {until}: {days.words}.")


def _filled(tables: Iterable[Listed]) -> tuple[Listed, ...]:
    return tuple(table for table in tables if table.rows)
