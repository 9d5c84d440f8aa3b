"""The rows that records say: every reading, look and excuse of a session, a row a position."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from .. import fields
from ..session import Session
from .columns import COLUMNS, PARTING, SETUP
from .lines import Line, Told

_OF_BOTH = tuple(column.key for column in COLUMNS if column.of == "both")
_OF_READING = (*(column.key for column in COLUMNS if column.of == "reading" and column.key != "value"), *_OF_BOTH)
_OF_LOOK = (*(column.key for column in COLUMNS if column.of == "look"), *_OF_BOTH)


def lines_of(session: Session) -> Iterator[Line]:
    """The lines of a session, in the order of its record."""
    for entry in fields.items(session.tree, "readings"):
        if entry:
            yield from _readings(session, entry)
    for entry in fields.items(session.tree, "observations"):
        if entry:
            yield Line(0, "look", _told(session, entry, entry["looked_for"], _OF_LOOK))
    for entry in fields.items(session.tree, "not_measured"):
        if entry:
            yield from _excuses(session, entry)


def all_lines(sessions: Iterable[Session]) -> Iterator[tuple[Session, Line]]:
    """Every line of some sessions, with the session."""
    for session in sessions:
        for line in lines_of(session):
            yield session, line


def _readings(session: Session, entry: dict[str, Any]) -> Iterator[Line]:
    told = _told(session, entry, entry["quantity"], _OF_READING)
    setup = fields.inner(session.tree, "setup")
    for key in SETUP:
        text = fields.text(entry, key) or fields.text(setup, key)
        if text:
            told[key] = text
    for position, value in entry["values"].items():
        yield Line(0, "reading", told | {"position": position, "value": _joined(value, PARTING)})


def _excuses(session: Session, entry: dict[str, Any]) -> Iterator[Line]:
    what = fields.text(entry, "quantity") or fields.text(entry, "looked_for")
    for key in ("place", "part"):
        for where in fields.texts(entry, f"{key}s"):
            told = _told(session, entry, what, ("because", "note")) | {key: where}
            for position in fields.texts(entry, "positions") or ("",):
                yield Line(0, "excuse", told | ({"position": position} if position else {}))


def _told(session: Session, entry: dict[str, Any], what: str, keys: tuple[str, ...]) -> Told:
    told = {
        "measured_on": fields.text(entry, "measured_on") or session.day.text,
        "engine": session.engine,
        "purpose": session.purpose,
        "by": _joined(entry["by"], " ") if "by" in entry else " ".join(fields.texts(session.tree, "by")),
        "what": what,
        "place": fields.text(entry, "place"),
        "part": fields.text(entry, "part"),
    }
    told |= {key: _joined(entry[key], " ") for key in keys if key in entry}
    return {key: text for key, text in told.items() if text}


def _joined(value: str | list[str], between: str) -> str:
    return value if isinstance(value, str) else between.join(value)
