"""A part's whole life, or a record's: what was measured, done, found and put right, with both times.

When it was measured the record says; when it was entered, by whom and in which commit, git says where it knows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from axlebook.findings import Figure

from . import fields
from .book import Book
from .dates import Day
from .dates import parse_day as day_of
from .entered import NOT_VERSIONED, Change, Commit, Life, Version, changes, has_own_history
from .history_work import done_on
from .plain import Plain
from .positions import Position, positions_of

FEW = 3
NOT_KNOWN = "when it was entered is not known"
NO_GIT = f"Not under version control: {NOT_KNOWN}"
OF_SOMETHING_ELSE = "ledger.yaml says that this repository has another history: when it was entered is not known"

NOT_COMMITTED = Day("not committed yet", None, None)

# Of one day: a tire comes off before it goes on elsewhere, and what became of a record follows what it tells.
TURN = {"tire-removed": -1, "altered": 1, "deleted": 2}


class Event(NamedTuple):
    """One thing that happened."""

    day: Day
    what: str  # inspection, tire-applied, ordered, defect, correction, altered ...
    words: str
    record: str
    by: tuple[str, ...] = ()
    signed_by: str = ""
    witness: str = ""
    entered: Commit | None = None
    figures: tuple[Figure, ...] = ()


@dataclass(frozen=True)
class History:
    """All that the book knows of one part or record."""

    id: str
    kind: str
    title: str
    positions: tuple[Position, ...]
    events: tuple[Event, ...]
    unknown: str  # why it is not known when it was entered; '' where it is


def history_of(book: Book, id: str) -> History | None:
    """The history of an id; None where neither the book nor its past knows one."""
    kind = _kind(book, id)
    if not kind:
        return None
    told = list(_events(book, id))
    involved = dict.fromkeys([id, *(event.record for event in told)])
    told += [event for record in involved for event in _alterations(book, record)]
    ordered = sorted(told, key=lambda event: (_turn(event.day), TURN.get(event.what, 0), event.record))
    return History(id, kind, _title(book, id), tuple(positions_of(book, id)), tuple(ordered), _unknown(book))


def _turn(day: Day) -> date:
    """What nobody knows the day of comes first; what is not committed yet happened last."""
    return day.first or (date.max if day is NOT_COMMITTED else date.min)


def known_ids(book: Book) -> list[str]:
    """Every id that has a history."""
    gone = book.entered.lives if book.entered else {}
    return list(dict.fromkeys([*book.tires, *book.centers, *book.wheelsets, *book.engines, *book.paths, *gone]))


def _kind(book: Book, id: str) -> str:
    shelves = (
        (book.tires, "tire"),
        (book.centers, "center"),
        (book.engines, "engine"),
        (book.wheelsets, "wheelset"),
        (book.instruments, "instrument"),
        (book.limit_sets, "limit-set"),
    )
    for shelf, kind in shelves:
        if id in shelf:
            return kind
    if id in book.session_by_id:
        return book.session_by_id[id].kind
    if id in book.plain:
        return book.plain[id].kind
    if id in book.paths:
        return "record"
    life = book.entered.lives.get(id) if book.entered else None
    return "deleted record" if life and life.gone else "record" if life else ""


def _title(book: Book, id: str) -> str:
    if id in book.tires:
        marks = fields.inner(book.tires[id].tree, "marks")
        return ", ".join(f"{key.removesuffix('_on')} {value}" for key, value in marks.items() if isinstance(value, str))
    if id in book.engines:
        return f"No. {book.engines[id].number}" if book.engines[id].number else ""
    if id in book.plain:
        return fields.text(book.plain[id].tree, "role") or fields.text(book.plain[id].tree, "title")
    return ""


def _unknown(book: Book) -> str:
    if not has_own_history(book.ledger.tree):
        return OF_SOMETHING_ELSE
    if book.entered is None or not book.entered.reason:
        return "" if book.entered else NO_GIT
    return NO_GIT if book.entered.reason == NOT_VERSIONED else f"The ledger is {book.entered.reason}: {NOT_KNOWN}"


# --- what happened ------------------------------------------------------------------------------------------


def _events(book: Book, id: str) -> Iterator[Event]:
    yield from _of_itself(book, id)
    for session, words, figures in done_on(book, id):
        signed = fields.inner(session.tree, "signed")
        what = session.purpose if session.kind == "inspection" else session.kind
        yield Event(
            session.day, what, words, session.id, session.by,
            fields.text(signed, "signed_by"), fields.text(signed, "witness"), _entered(book, session.id), figures,
        )  # fmt: skip
    records = {id, *(session.id for session, _, _ in done_on(book, id))}
    for plain in book.plain.values():
        told: Iterable[Event] = ()
        if plain.kind == "defect" and (plain.id == id or _is_of(book, plain, id)):
            told = _defect(book, plain)
        if plain.kind == "correction" and (plain.id == id or fields.text(plain.tree, "record") in records):
            told = (_plain(book, plain, "corrected_on", "correction", _correction_words(book, plain)),)
        yield from (event for event in told if event.day.first is None or event.day.first <= book.as_of)


def _of_itself(book: Book, id: str) -> Iterator[Event]:
    """What the record of a part says of its own past."""
    entered = _entered(book, id)
    if id in book.tires:
        ordered = fields.inner(book.tires[id].tree, "ordered")
        if ordered:
            center = fields.text(ordered, "for_center")
            words = f"ordered for {center}" if center else "ordered"
            yield Event(fields.day(ordered, "ordered_on"), "ordered", words, id, entered=entered)
    if id in book.instruments:
        for paper in fields.items(book.instruments[id].tree, "certificates"):
            if isinstance(paper, dict):
                number, until = fields.text(paper, "number"), fields.text(paper, "expires_on")
                words = f"certificate {number}{f', until {until}' if until else ''}".replace(" ,", ",")
                yield Event(fields.day(paper, "issued_on"), "certificate", words, id, entered=entered)
    if entered:
        words = "its record was entered"
        yield Event(day_of(str(entered.on)), "entered", words, id, (entered.author,), entered=entered)


def _is_of(book: Book, plain: Plain, id: str) -> bool:
    tree = plain.tree
    part = fields.text(tree, "part").split(" ")[0]
    if id in (part, fields.text(tree, "found_in")):
        return True
    engine, day = fields.text(tree, "engine"), fields.day(tree, "found_on").first
    if id == engine:
        return True
    stood = book.stood_at(engine, fields.text(tree, "place"), day) if day else None
    return stood is not None and id in (stood.wheelset, stood.center, stood.tire)


def _defect(book: Book, plain: Plain) -> Iterator[Event]:
    """How it was found, repaired and closed: each by whom it was, and entered when that was written."""
    tree = plain.tree
    yield _plain(book, plain, "found_on", "defect", fields.text(tree, "what"))
    repair, approved = fields.inner(tree, "repair"), fields.inner(tree, "approved")
    if repair:
        standard = fields.text(repair, "standard")
        done = fields.text(repair, "words").rstrip(".") or "not told what was done"
        words = f"{done} ({standard})" if standard else done
        told = Event(fields.day(repair, "done_on"), "repair", words, plain.id, fields.texts(repair, "by"))
        yield told._replace(entered=_entered_with(book, plain, "repair"))
    if fields.day(tree, "closed_on").first:
        words = f"closed: {fields.text(tree, 'disposition') or 'nothing said'}"
        closed = _plain(book, plain, "closed_on", "defect", words)
        yield closed._replace(by=fields.texts(approved, "by"), entered=_entered_with(book, plain, "closed_on"))


def _entered_with(book: Book, plain: Plain, key: str) -> Commit | None:
    """The commit since which a record says what it says under a key; None where that is not known."""
    life, told = _life(book, plain.id), None
    for version in reversed(life.versions if life else ()):
        if version.tree is None or version.tree.get(key) != plain.tree.get(key):
            break
        told = version.commit
    return None if told is None or told.edge else told


def _correction_words(book: Book, plain: Plain) -> str:
    why = next((one.failed for one in book.corrections if one.id == plain.id), "")
    return f"{_what_it_corrects(book, plain.tree)}{f' (WITHOUT EFFECT: {why})' if why else ''}"


def _what_it_corrects(book: Book, tree: fields.Tree) -> str:
    record, reason = fields.text(tree, "record"), fields.text(tree, "reason")
    if fields.yes(tree, "withdraws"):
        return f"withdraws {record}: {reason}"
    at, was, now = (fields.text(tree, key) for key in ("at", "was", "is"))
    return f"in {record}, {corrected_place(book, record, at)}: was {was}, is {now}: {reason}"


def corrected_place(book: Book, record: str, at: str) -> str:
    """What a pointer points at, in words; the pointer's own steps where that cannot be told."""
    steps = at.strip("/").split("/")
    session = book.session_by_id.get(record)
    entries = fields.items(session.tree, steps[0]) if session else []
    number = int(steps[1]) if len(steps) > 1 and steps[1].isdecimal() and len(steps[1]) < 9 else len(entries)
    entry = entries[number] if number < len(entries) else None
    what = (fields.text(entry, "quantity") or fields.text(entry, "looked_for")) if isinstance(entry, dict) else ""
    if not what or not isinstance(entry, dict):
        return " ".join(steps)
    where = fields.text(entry, "place") or fields.text(entry, "part")
    rest = steps[3:] if steps[2:3] == ["values"] else steps[2:]
    return " ".join(filter(None, (where, what.replace("_", " "), *rest)))


def _plain(book: Book, plain: Plain, key: str, what: str, words: str) -> Event:
    signed = fields.inner(plain.tree, "signed")
    return Event(
        fields.day(plain.tree, key), what, words, plain.id, fields.texts(plain.tree, "by"),
        fields.text(signed, "signed_by"), fields.text(signed, "witness"), _entered(book, plain.id),
    )  # fmt: skip


# --- what git tells -----------------------------------------------------------------------------------------


def _life(book: Book, id: str) -> Life | None:
    if book.entered is None or not has_own_history(book.ledger.tree):
        return None
    return book.entered.lives.get(id)


def _entered(book: Book, id: str) -> Commit | None:
    life = _life(book, id)
    return life.entered if life else None


def _alterations(book: Book, id: str) -> Iterator[Event]:
    """Each commit that made a record say something else, and the one that took it away."""
    life = _life(book, id)
    if life is None:
        return
    for one, other in zip(life.versions, life.versions[1:], strict=False):
        found = _between(one, other)
        if found is not None:
            yield _altered(id, other.commit, "altered", _change_words(found))
    if life.gone:
        yield _altered(id, life.taken_by, "deleted", f"renamed to {life.renamed}" if life.renamed else "taken away")


def _altered(id: str, commit: Commit | None, what: str, words: str) -> Event:
    if commit is None:
        return Event(NOT_COMMITTED, what, words, id)
    return Event(day_of(str(commit.on)), what, words, id, (commit.author,), entered=commit)


def _between(one: Version, other: Version) -> list[Change] | None:
    """The changes between two texts; None where only the writing differs."""
    if one.tree is None or other.tree is None:
        return []
    return list(changes(one.tree, other.tree)) or None


def _change_words(found: Iterable[Change]) -> str:
    every = list(found)
    if not every:
        return "a text of it cannot be read"
    told = [f"{c.pointer.strip('/').replace('/', ' ')}: {c.was or 'nothing'}, then {c.now or 'nothing'}" for c in every]
    more = f"; and {len(told) - FEW} more" if len(told) > FEW else ""
    return "; ".join(told[:FEW]) + more
