"""Readings, observations and examinations: what hands, eyes and magnets found, each with its place in the record."""

from __future__ import annotations

from functools import lru_cache
from typing import Any, NamedTuple

from axlebook.findings import Place
from axlebook.quantities import Interval, Quantity, parse_measure

from . import fields
from .dates import Day, parse_day
from .forms import position_named
from .planes import plane_named

Measure = Quantity | Interval
Values = tuple[str, tuple[Measure, ...]]  # a position, and what was read there

UNKNOWN = "unknown"  # what an old card does not tell: who, with what, which figure
DOUBTFUL = frozenset({"uncertain", "unknown"})  # of `sure`: a figure that may be another


class Source(NamedTuple):
    """What the readings of one record share: who, when, how held, and where the record stands."""

    record: str
    kind: str
    path: str
    engine: str
    day: Day
    by: tuple[str, ...]
    setup: fields.Tree
    purpose: str
    signed: bool


class Reading(NamedTuple):
    """One reading. What it does not say it takes from its record, and no further."""

    source: Source
    pointer: str
    quantity: str
    place: str  # "driver-2 right" on an engine, or ''
    part: str  # "t-4471", or ''
    instrument: str
    where: str
    by: tuple[str, ...]
    day: Day
    hold: str
    clock: str
    part_temperature: str
    instrument_temperature: str
    when: str
    sure: str
    values: tuple[Values, ...]  # by the position's one name; repeats side by side
    tree: fields.Tree

    @property
    def at(self) -> Place:
        """Where the reading stands."""
        return Place(self.source.path, self.pointer)

    def value_at(self, position: str) -> Place:
        """Where the value of a position stands: the record may write the position otherwise than it is named."""
        written: Any = self.tree["values"]
        if position not in written:
            position = next((text for text in written if position_named(text) == position), position)
        return Place(self.source.path, self.pointer).below("values", position)

    @property
    def named(self) -> str:
        """The thing as the reading names it."""
        return _thing_named(self.source, self.place, self.part)


class Observation(NamedTuple):
    """What was looked for on one thing, and the answer."""

    source: Source
    pointer: str
    looked_for: str
    place: str
    part: str
    answer: str
    day: Day
    by: tuple[str, ...]
    tree: fields.Tree

    @property
    def at(self) -> Place:
        """Where the observation stands."""
        return Place(self.source.path, self.pointer)

    @property
    def doubtful(self) -> bool:
        """Whether it is uncertain or unknown by the card's own word."""
        return self.tree.get("sure") in DOUBTFUL

    @property
    def named(self) -> str:
        """The thing as the observation names it."""
        return _thing_named(self.source, self.place, self.part)


class Examination(NamedTuple):
    """An examination by dye, magnets or ultrasound."""

    source: Source
    pointer: str
    place: str
    part: str
    day: Day
    tree: fields.Tree

    @property
    def at(self) -> Place:
        """Where the examination stands."""
        return Place(self.source.path, self.pointer)

    @property
    def named(self) -> str:
        """The thing as the examination names it."""
        return _thing_named(self.source, self.place, self.part)


def _thing_named(source: Source, place: str, part: str) -> str:
    """A thing as a record names it: the place on its engine, else the part."""
    return f"{source.engine} {place}".strip() if place else part


class NotMeasured(NamedTuple):
    """What was not measured, where, and why."""

    source: Source
    pointer: str
    what: str
    places: tuple[str, ...]
    because: str
    positions: tuple[str, ...] = ()  # the ones left out; empty: the whole quantity

    @property
    def where(self) -> str:
        """The places, and the positions where not all were left out."""
        return " at ".join(filter(None, (", ".join(self.places), ", ".join(self.positions))))


def build_readings(source: Source, found: list[Any]) -> tuple[Reading, ...]:
    """The readings of a record; `found` is its list, None where an item could not be used.

    A figure that is written as unknown is none; a reading of such figures alone is left out.
    """
    read = (_reading(source, index, tree) for index, tree in enumerate(found) if tree)
    return tuple(reading for reading in read if reading.values)


def _reading(source: Source, index: int, tree: dict[str, Any]) -> Reading:
    setup = source.setup
    get = tree.get
    by = get("by")
    values: list[Values] = []
    for position, value in tree["values"].items():
        if value == UNKNOWN:
            continue
        values.append(_one(position, value) if type(value) is str else _several(position, value))
    if len(dict(values)) < len(values):
        values = _joined(values)  # one position was written in two ways
    return Reading(
        source,
        _pointer("readings", index),
        tree["quantity"],
        get("place", ""),
        get("part", ""),
        "" if get("with") == UNKNOWN else get("with", ""),
        plane_named(get("where", "")),
        source.by if by is None else named(by),
        parse_day(tree["measured_on"]) if "measured_on" in tree else source.day,
        get("hold") or setup.get("hold", ""),
        plane_named(get("clock") or setup.get("clock", "")),
        get("part_temperature") or setup.get("part_temperature", ""),
        get("instrument_temperature") or setup.get("instrument_temperature", ""),
        get("when", ""),
        get("sure", "yes"),
        tuple(values),
        tree,
    )


@lru_cache(maxsize=4096)
def _pointer(key: str, index: int) -> str:
    return f"/{key}/{index}"


@lru_cache(maxsize=1 << 16)
def _one(position: str, text: str) -> Values:
    """A position with its one value: a book says the same few again and again, and each is kept once."""
    return position_named(position), (parse_measure(text),)


def _several(position: str, texts: list[str]) -> Values:
    return position_named(position), tuple(map(parse_measure, texts))


def _joined(values: list[Values]) -> list[Values]:
    """What was read twice at one position, as repeats of it."""
    found: dict[str, tuple[Measure, ...]] = {}
    for position, measures in values:
        found[position] = found.get(position, ()) + measures
    return list(found.items())


def named(by: str | list[str]) -> tuple[str, ...]:
    """The people named; nobody is `unknown`."""
    return tuple(id for id in ((by,) if type(by) is str else by) if id and id != UNKNOWN)


def build_observations(source: Source, found: list[Any]) -> tuple[Observation, ...]:
    """The observations of a record."""
    return tuple(
        Observation(
            source,
            _pointer("observations", index),
            tree["looked_for"],
            tree.get("place", ""),
            tree.get("part", ""),
            tree["answer"],
            fields.day(tree, "measured_on") if "measured_on" in tree else source.day,
            named(tree["by"]) if "by" in tree else source.by,
            tree,
        )
        for index, tree in enumerate(found)
        if tree
    )


def build_examinations(source: Source, found: list[Any]) -> tuple[Examination, ...]:
    """The examinations of a record."""
    return tuple(
        Examination(source, f"/examinations/{index}", tree.get("place", ""), tree.get("part", ""), source.day, tree)
        for index, tree in enumerate(found)
        if tree
    )


def build_not_measured(source: Source, found: list[Any]) -> tuple[NotMeasured, ...]:
    """What a record says was not measured."""
    return tuple(
        NotMeasured(
            source,
            f"/not_measured/{index}",
            tree.get("quantity") or tree.get("looked_for", ""),
            fields.texts(tree, "places") + fields.texts(tree, "parts"),
            tree["because"],
            tuple(map(position_named, fields.texts(tree, "positions"))),
        )
        for index, tree in enumerate(found)
        if tree
    )
