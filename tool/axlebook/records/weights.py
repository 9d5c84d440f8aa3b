"""What the records of an engine say of its weight, held against each other: a digit lost makes a limit a softer one."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Place

from . import fields
from .book import Book
from .engine import Engine

# How far apart two weights may be. Bills and drawings differ, pairs share unevenly, and trucks carry their part: only
# what a lost digit or the wrong unit makes of a weight is asked about. Practice of this tool, no source.
UNEVEN = 2  # times its share that the load of a pair may be, or that share the load
MOST, LEAST = Fraction(11, 10), Fraction(1, 4)  # of its mass that an engine or a tender may have on the wheels named


class Disagreement(NamedTuple):
    """Two weights that cannot both be right, each with what it is called, and where the first is written."""

    told: str
    one: Fraction
    other_told: str
    other: Fraction
    at: Place


def disagreements(book: Book, engine: Engine) -> Iterator[Disagreement]:
    """The weights by which limits choose their row, where another one on file speaks against them."""
    loads: dict[str, list[tuple[str, Fraction | None]]] = {"driver": [], "tender": []}
    for line in book.standing.standing_lines(engine, book.as_of):
        wheelset = book.wheelsets.get(line.wheelset)
        if line.role in loads and wheelset is not None:
            loads[line.role].append((wheelset.id, wheelset.axle_load))
    mass = fields.inner(engine.tree, "mass")
    drivers, whole = engine.weight_on_drivers, fields.exact(mass, "engine")
    if drivers is not None:
        at = Place(engine.path, "/weight_on_drivers/value")
        yield from _of_pairs(engine, drivers, loads["driver"], at)
        if whole is not None and not LEAST * whole <= drivers <= MOST * whole:
            yield Disagreement("the weight on drivers", drivers, "the mass of the engine", whole, at)
    tender, told = fields.exact(mass, "tender"), [load for _, load in loads["tender"] if load is not None]
    if tender is not None and told and len(told) == len(loads["tender"]):
        carried = sum(told, Fraction(0))
        if not LEAST * tender <= carried <= MOST * tender:
            at = Place(book.wheelsets[loads["tender"][0][0]].path, "/axle/axle_load")
            yield Disagreement("the axle loads of the tender together", carried, "the mass of the tender", tender, at)


def _of_pairs(
    engine: Engine, drivers: Fraction, loads: list[tuple[str, Fraction | None]], at: Place
) -> Iterator[Disagreement]:
    pairs = len({line.at for line in engine.lines if line.role == "driver"})
    for wheelset, load in loads:
        if load is not None and not drivers / UNEVEN <= load * pairs <= drivers * UNEVEN:
            yield Disagreement("the weight on drivers", drivers, f"the axle load of {wheelset}", load, at)
