"""The columns of a sheet of readings: the one definition that export, import and their manual read."""

from __future__ import annotations

from typing import NamedTuple


class Column(NamedTuple):
    """One column: the key of the record it fills, its head in the file, what it holds, and whose it is."""

    key: str
    head: str
    meaning: str
    of: str  # session, row, reading, look, both (readings and looks), setup (readings; `air_temperature` of all)
    sort: str = "words"  # words, names, id, day, position, numbers, or the dimension of a measure
    shown: bool = True  # in a template; the others only where a record has them


COLUMNS = (
    Column("key", "row key", "What, where and position in one: it tells a row that was torn apart by sorting.", "row"),
    Column("engine", "engine", "The engine's id or number; needed where a place is named.", "session", "id"),
    Column("measured_on", "measured on", "The day: 2026-03-07, or as much as an old card tells.", "session", "day"),
    Column("purpose", "purpose", "The occasion, as the plans name it: annual.", "session", "id"),
    Column("by", "by", "Who measured: person ids, a space between.", "session", "names"),
    Column("what", "what", "A quantity or something to look for, as schema/vocabulary.yaml names it.", "row"),
    Column("place", "place", "A place on the engine: driver-2 right.", "row"),
    Column("part", "part", "Or a part by its own id: t-4471. One of the two.", "row"),
    Column("position", "position", "Where round it: 90 deg, worst, all round.", "row", "position"),
    Column("value", "value", "The figure with its unit: 2 7/16 in. A second reading behind a semicolon.", "reading",
           "value"),
    Column("answer", "seen", "Of what is looked for: seen, not seen or unknown.", "look"),
    Column("because", "not measured because", "In place of a figure or an answer: no access, too hot.", "row"),
    Column("with", "instrument", "The instrument's id.", "both", "id"),
    Column("hold", "hold", "How the wheelset was held.", "setup"),
    Column("clock", "clock", "Clock position of the reading.", "setup", shown=False),
    Column("air_temperature", "air temperature", "Of shop or pit.", "setup", "temperature", False),
    Column("part_temperature", "part temperature", "Of what was read.", "setup", "temperature"),
    Column("instrument_temperature", "instrument temperature", "Of what it was read with.", "setup", "temperature"),
    Column("where", "plane", "The plane it was read in: 3/8 in above tread.", "reading"),
    Column("when", "when", "Before or after the work of the record.", "reading", shown=False),
    Column("from_datum", "from datum", "What 0 deg was counted from, where it is not the datum.", "reading",
           shown=False),
    Column("expanded_uncertainty", "expanded uncertainty", "As a certificate states it.", "reading", "any", False),
    Column("coverage_factor", "coverage factor", "Of that uncertainty.", "reading", shown=False),
    Column("reason_kept", "reason kept", "Why an unlikely figure stands.", "reading", shown=False),
    Column("angle", "angle", "Of what was seen, from the datum.", "look", "angle"),
    Column("length", "length", "Of what was seen.", "look", "length"),
    Column("width", "width", "Of what was seen.", "look", "length"),
    Column("distance", "distance", "Of what was seen from where it is measured.", "look", "length"),
    Column("adjoining", "adjoining", "Whether the spot adjoins another of its kind: yes or no.", "look", shown=False),
    Column("count", "count", "How many.", "look", shown=False),
    Column("spokes", "spokes", "Numbers of the spokes, a space between.", "look", "numbers", False),
    Column("mark_made_anew", "mark made anew", "Whether a moved witness mark was cut anew.", "look", shown=False),
    Column("method", "method", "Where it is not the usual one.", "both", shown=False),
    Column("sure", "sure", "How far an old card can be trusted.", "both", shown=False),
    Column("note", "note", "Anything a reader should know.", "both"),
)  # fmt: skip
BY_KEY = {column.key: column for column in COLUMNS}
SETUP = ("hold", "clock", "air_temperature", "part_temperature", "instrument_temperature")
PARTING = "; "  # between two readings of one place, in one cell
UNKNOWN = "unknown"
ALSO = {
    "quantity": "what", "looked for": "what", "with": "with", "answer": "answer", "because": "because",
    "date": "measured_on", "day": "measured_on", "wheel": "place", "reading": "value", "measurement": "value",
    "who": "by", "read by": "by", "measured by": "by",
}  # fmt: skip

# Heads that people write, and the column they may mean: told, not taken.
MEANT = {
    "wheels": "place", "axle": "place", "measured": "value", "angle round": "position", "gauge": "instrument",
    "tire": "part", "name": "by",
}  # fmt: skip


def folded(head: str) -> str:
    """A head as it is compared: without case, and with spaces alike.

    >>> folded(" Measured_On ")
    'measured on'
    """
    return " ".join(head.replace("_", " ").casefold().split())


HEADS = {folded(column.head): column for column in COLUMNS} | {
    folded(alias): BY_KEY[key] for alias, key in ALSO.items()
}
for _column in COLUMNS:
    HEADS.setdefault(folded(_column.key), _column)


def row_key(what: str, where: str, position: str) -> str:
    """The key of a row.

    >>> row_key("tire_thickness", "driver-2 right", "90 deg"), row_key("crack", "driver-2 right", "")
    ('tire_thickness / driver-2 right / 90 deg', 'crack / driver-2 right')
    """
    return " / ".join(part for part in (what, where, position) if part)


def belongs(column: Column, kind: str) -> bool:
    """Whether a column says anything of a reading, a look, or what was not measured."""
    if column.of in ("session", "row"):
        return True
    if kind == "excuse":
        return column.key == "note"
    return column.of == "both" or column.of == kind or (column.of == "setup" and kind == "reading")
