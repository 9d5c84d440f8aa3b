"""What was read, seen, examined and left out: a row a figure."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import product

from axlebook.findings import Place
from axlebook.quantities import Quantity
from axlebook.records import fields
from axlebook.records.book import Book, Thing
from axlebook.records.forms import parse_position
from axlebook.records.reading import Observation, Reading
from axlebook.records.reading import Source as Said
from axlebook.records.session import Session

from .columns import LEDGER, PATH, RECORD, Column, Row, Source, Table, day_cells, days, figure_cells, figures, texts

_OF_SESSION = (
    LEDGER, RECORD, PATH,
    Column("pointer", "text", "Where in the record (JSON Pointer): with ledger and record it names the row for good."),
    Column("record_kind", "text", "inspection, tire-applied, turning ..."),
    Column("engine", "text", "The engine's id; empty where a part was read by itself."),
    Column("purpose", "text", "The occasion: annual, periodic, receiving ..."),
    *days("measured_on", "When it was read"),
    Column("by", "text", "Ids of those who did, a space between."),
    Column("signed", "yes", "Whether the record is signed, and so closed."),
)  # fmt: skip
_OF_THING = (
    Column("place", "text", "The place on the engine as written: driver-2 right."),
    Column("part", "text", "Or the part as written."),
    Column("thing_kind", "text", "What it is of by identity on that day: tire, center, end, wheelset, engine; "
           "empty where the records do not tell."),
    Column("thing", "text", "That thing's id: it stays with the part when the part moves."),
    Column("thing_side", "text", "The end or side of it, where it has two; of an engine, the place."),
)  # fmt: skip
_SURE = Column("sure", "text", "How far an old card is trusted: yes, transcribed, uncertain, unknown.")
_NOTE = Column("note", "text", "What else was written.")
_CORRECTED = Column("corrected_by", "text", "Ids of the corrections in effect; the figure is the corrected one.")


def _session_cells(said: Said, pointer: str) -> Row:
    return {
        "record": said.record, "path": said.path, "pointer": pointer, "record_kind": said.kind, "engine": said.engine,
        "purpose": said.purpose, "signed": said.signed,
    }  # fmt: skip


def _thing_cells(thing: Thing | None) -> Row:
    if thing is None:
        return {"thing_kind": "", "thing": "", "thing_side": ""}
    return {"thing_kind": thing.kind, "thing": thing.id, "thing_side": thing.side}


def _corrections(book: Book, place: Place) -> str:
    return " ".join(sorted({correction.id for correction in book.corrections_at(place)}))


def _readings(source: Source) -> Iterator[Row]:
    book = source.book
    things: dict[tuple[str, str, str, str, date | None], Thing | None] = {}
    for reading in book.readings:
        word = book.vocabulary.quantities.get(reading.quantity)
        of = word.of if word else "engine"
        key = (of, reading.part, reading.place, reading.source.engine, reading.day.first)
        if key not in things:
            things[key] = book.thing_of(of, reading)
        yield from _figures_of(book, reading, things[key])


def _figures_of(book: Book, reading: Reading, thing: Thing | None) -> Iterator[Row]:
    shared = _shared(reading, thing)
    for position, measures in reading.values:
        at = reading.value_at(position)
        angle = parse_position(position)
        for number, measure in enumerate(measures, 1):
            sharp = measure.resolution if isinstance(measure, Quantity) else None
            yield {
                **_session_cells(reading.source, at.pointer), **shared, "position": position,
                "angle_deg": float(angle.angle) if angle and angle.angle is not None else None, "repeat": number,
                **figure_cells("value", measure.text), "unit": measure.unit,
                "resolution_si": None if sharp is None else float(sharp), "corrected_by": _corrections(book, at),
            }  # fmt: skip


def _shared(reading: Reading, thing: Thing | None) -> Row:
    return {
        **day_cells("measured_on", reading.day), "by": " ".join(reading.by), "quantity": reading.quantity,
        "place": reading.place, "part": reading.part, **_thing_cells(thing), "plane": reading.where,
        "instrument": reading.instrument, "hold": reading.hold, "clock": reading.clock,
        **figure_cells("part_temperature", reading.part_temperature),
        **figure_cells("instrument_temperature", reading.instrument_temperature), "stage": reading.when,
        "sure": reading.sure, "reason_kept": fields.text(reading.tree, "reason_kept"),
        "note": fields.text(reading.tree, "note"),
    }  # fmt: skip


READINGS = Table(
    "readings",
    "one figure: a quantity, at a position, of a place or part, on a day",
    (
        *_OF_SESSION,
        Column("quantity", "text", "What was read, as vocabulary.yaml names it."),
        *_OF_THING,
        Column("position", "text", "Where round it: 90 deg, worst, all round."),
        Column("angle_deg", "number", "The angle of that position, where it has one [deg]."),
        Column("repeat", "whole", "1, and 2, 3 ... for further figures at the same position."),
        *figures("value", "The figure"),
        Column("unit", "text", "The unit it was written in."),
        Column("resolution_si", "number", "What one unit of its last digit is, in the SI unit; empty for a fraction."),
        Column("plane", "text", "The plane it was read in."),
        Column("instrument", "text", "Id of the instrument; empty where not told."),
        Column("hold", "text", "How the wheelset was held."),
        Column("clock", "text", "Clock position."),
        *figures("part_temperature", "Temperature of the part"),
        *figures("instrument_temperature", "Temperature of the instrument"),
        Column("stage", "text", "Before or after the work of its record; empty where there was none."),
        _SURE,
        Column("reason_kept", "text", "Why an unlikely figure stands."),
        _NOTE,
        _CORRECTED,
    ),
    _readings,
)


def _observations(source: Source) -> Iterator[Row]:
    book = source.book
    for seen in book.observations:
        word = book.vocabulary.observations.get(seen.looked_for)
        tree = seen.tree
        yield {
            **_session_cells(seen.source, seen.pointer), **day_cells("measured_on", seen.day), "by": " ".join(seen.by),
            "looked_for": seen.looked_for, "place": seen.place, "part": seen.part,
            **_thing_cells(book.thing_of(word.of, seen) if word else None), "answer": seen.answer,
            **{key: cell for size in SIZES for key, cell in figure_cells(size, fields.text(tree, size)).items()},
            "adjoining": fields.text(tree, "adjoining"), "count": fields.whole(tree, "count"),
            "spokes": texts(tree.get("spokes")), "mark_made_anew": fields.text(tree, "mark_made_anew"),
            "instrument": fields.text(tree, "with"), "method": fields.text(tree, "method"), "sure": _sure(seen),
            "note": fields.text(tree, "note"), "corrected_by": _corrections(book, seen.at),
        }  # fmt: skip


SIZES = ("angle", "length", "width", "distance")


def _sure(seen: Observation) -> str:
    return fields.text(seen.tree, "sure") or "yes"


OBSERVATIONS = Table(
    "observations",
    "one thing that was looked for at a place or part on a day, with the answer",
    (
        *_OF_SESSION,
        Column("looked_for", "text", "What was looked for, as vocabulary.yaml names it."),
        *_OF_THING,
        Column(
            "answer", "text", "seen, not seen or unknown. What has no row was not looked for: that is no `not seen`."
        ),
        *(column for size in SIZES for column in figures(size, f"The {size} of what was seen")),
        Column("adjoining", "text", "Whether the spot adjoins another of its kind: yes, no, or empty."),
        Column("count", "whole", "How many."),
        Column("spokes", "text", "Numbers of the spokes, a space between."),
        Column("mark_made_anew", "text", "Whether a moved witness mark was cut anew."),
        Column("instrument", "text", "Id of the instrument."),
        Column("method", "text", "How, where it was told."),
        _SURE,
        _NOTE,
        _CORRECTED,
    ),
    _observations,
)


def _by_session(session: Session, pointer: str) -> Row:
    said = Said(session.id, session.kind, session.path, session.engine, session.day, session.by, {}, session.purpose,
                session.signed)  # fmt: skip
    return {**_session_cells(said, pointer), **day_cells("measured_on", session.day), "by": " ".join(session.by)}


def _examinations(source: Source) -> Iterator[Row]:
    for session in source.book.past_sessions:
        for one in session.examinations:
            tree = one.tree
            told = {key: fields.text(tree, key) for key in _EXAMINED}
            due = fields.day(tree, "due_again").exact
            yield {**_by_session(session, one.pointer), "place": one.place, "part": one.part, **told, "due_again": due}


_EXAMINED = ("of", "area", "method", "standard", "person", "level", "result", "satisfies", "note")
EXAMINATIONS = Table(
    "examinations",
    "one examination by dye, magnets or ultrasound",
    (
        *_OF_SESSION,
        *_OF_THING[:2],
        Column("of", "text", "What was examined."),
        Column("area", "text", "Which area of it."),
        Column("method", "text", "Method."),
        Column("standard", "text", "To which standard."),
        Column("person", "text", "By whom."),
        Column("level", "text", "That person's level."),
        Column("result", "text", "nothing found, indication, rejected or unknown."),
        Column("satisfies", "text", "The interval that it answers."),
        _NOTE,
        Column("due_again", "day", "When it is due again, as it was written then."),
    ),
    _examinations,
)


def _not_measured(source: Source) -> Iterator[Row]:
    for session in source.book.past_sessions:
        for one in session.not_measured:
            tree = fields.items(session.tree, "not_measured")[int(one.pointer.rpartition("/")[2])]
            note = fields.text(tree, "note")
            for where, position in product(one.places or ("",), one.positions or ("",)):
                yield {**_by_session(session, one.pointer), "what": one.what, "where": where, "position": position,
                       "because": one.because, "note": note}  # fmt: skip


NOT_MEASURED = Table(
    "not_measured",
    "one thing that was not measured or looked for at a place or part, and why",
    (
        *_OF_SESSION,
        Column("what", "text", "The quantity, or what was to be looked for."),
        Column("where", "text", "The place or part; empty: anywhere."),
        Column("position", "text", "The position that was left out; empty: all of them."),
        Column("because", "text", "Why."),
        _NOTE,
    ),
    _not_measured,
)
