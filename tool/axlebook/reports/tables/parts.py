"""Engines, the parts on record, where each was over time, and the instruments."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from axlebook.records import fields

from .columns import (
    LEDGER,
    PATH,
    Column,
    Row,
    Source,
    Table,
    day_cells,
    days,
    figure_cells,
    figures,
    texts,
    written_day,
)


def _metres(exact: Fraction | None) -> float | None:
    return None if exact is None else float(exact)


def _engines(source: Source) -> Iterator[Row]:
    ledger = source.book.ledger
    for engine in source.book.engines.values():
        weight = fields.text(fields.inner(engine.tree, "weight_on_drivers"), "value")
        adopted = source.book.adoptions(engine)
        yield {
            "engine": engine.id, "number": engine.number, "path": engine.path,
            "wheel_arrangement": fields.text(engine.tree, "wheel_arrangement"),
            "track_gauge_m": _metres(engine.track_gauge if engine.track_gauge is not None else ledger.track_gauge),
            **figure_cells("weight_on_drivers", weight),
            **written_day(engine.tree, "placed_in_service", "placed_in_service"),
            "limit_sets": " ".join(dict.fromkeys(one.set_id for one in adopted)),
        }  # fmt: skip


ENGINES = Table(
    "engines",
    "one engine",
    (
        LEDGER,
        Column("engine", "text", "Its id; unique in a ledger."),
        Column("number", "text", "The number it bears now."),
        PATH,
        Column("wheel_arrangement", "text", "As written: 2-8-0."),
        Column("track_gauge_m", "number", "Track gauge, its own or the ledger's [m]."),
        *figures("weight_on_drivers", "Weight on drivers"),
        *days("placed_in_service", "When it was placed in service"),
        Column("limit_sets", "text", "The limit sets it was ever judged by, its own or the ledger's."),
    ),
    _engines,
)


def _parts(source: Source) -> Iterator[Row]:
    book = source.book
    for wheelset in book.wheelsets.values():
        yield _part(wheelset.id, "wheelset", wheelset.path) | {
            "driver": wheelset.driver, "made": wheelset.made, "nominal_diameter_m": _metres(wheelset.nominal_diameter),
            "original_journal_diameter_m": _metres(wheelset.original_journal_diameter),
        }  # fmt: skip
        for center in wheelset.centers:
            yield _part(center.id, "center", wheelset.path) | {
                "driver": wheelset.driver, "first_wheelset": wheelset.id, "first_side": center.first_side,
                "nominal_diameter_m": _metres(center.nominal_diameter), "spokes": center.spokes,
            }  # fmt: skip
    for tire in book.tires.values():
        steel, form, ordered = (fields.inner(tire.tree, key) for key in ("steel", "form", "ordered"))
        yield _part(tire.id, "tire", tire.path) | {
            "flange": tire.flange, "located_by": tire.located_by, "fastened_by": tire.fastened_by,
            "nominal_width_m": _metres(tire.nominal_width),
            "nominal_thickness_m": _metres(fields.exact(form, "nominal_thickness")),
            "contour": fields.text(form, "contour"), "steel": fields.text(steel, "specification"),
            "steel_class": fields.text(steel, "class"), "ordered_for": fields.text(ordered, "for_center"),
        }  # fmt: skip


def _part(id: str, kind: str, path: str) -> Row:
    empty: Row = {column.name: "" if column.sort == "text" else None for column in PARTS.columns[1:]}
    return empty | {"part": id, "kind": kind, "path": path}


PARTS = Table(
    "parts",
    "one part with an identity: a wheelset, a wheel center, a tire",
    (
        LEDGER,
        Column("part", "text", "Its id; unique in a ledger."),
        Column("kind", "text", "wheelset, center or tire."),
        PATH,
        Column("driver", "yes", "Whether it is, or was first on, a driving wheelset; empty for a tire."),
        Column("made", "text", "Of a wheelset: tired or one-piece."),
        Column("first_wheelset", "text", "Of a center: the wheelset that first carried it."),
        Column("first_side", "text", "Of a center: on which side or end."),
        Column("nominal_diameter_m", "number", "Nominal diameter of the wheel or center [m]."),
        Column("original_journal_diameter_m", "number", "Of a wheelset: its journals when new [m]."),
        Column("spokes", "whole", "Of a center."),
        Column("flange", "text", "Of a tire: flanged or plain."),
        Column("located_by", "text", "Of a tire: what locates it."),
        Column("fastened_by", "text", "Of a tire: what fastens it."),
        Column("nominal_width_m", "number", "Of a tire [m]."),
        Column("nominal_thickness_m", "number", "Of a tire [m]."),
        Column("contour", "text", "Of a tire."),
        Column("steel", "text", "Of a tire: the specification of its steel."),
        Column("steel_class", "text", "Of a tire."),
        Column("ordered_for", "text", "Of a tire: the center it was ordered for."),
    ),
    _parts,
)


def _positions(source: Source) -> Iterator[Row]:
    book = source.book
    for engine in book.engines.values():
        for line in engine.lines:
            until = line.until if line.until is not None else None
            yield {
                "part": line.wheelset, "kind": "wheelset", "on": engine.id, "at": line.at, "a_end": line.a_end,
                **day_cells("since", line.start), "until": until.last if until else None,
                "until_is_in": bool(until), "record": engine.id,
            }  # fmt: skip
    standing = book.standing
    for (wheelset, side), spells in standing.centers.items():
        for spell in spells:
            yield _spell(spell.what, "center", wheelset, side, spell.start, spell.until, spell.by)
    for center, spells in standing.tires.items():
        for spell in spells:
            yield _spell(spell.what, "tire", center, "", spell.start, spell.until, spell.by)


def _spell(part: str, kind: str, on: str, at: str, start: date | None, until: date | None, record: str) -> Row:
    since: Row = {"since": start.isoformat() if start else "unknown", "since_first": start, "since_last": start}
    return {
        "part": part, "kind": kind, "on": on, "at": at, "a_end": "", **since, "until": until, "until_is_in": False,
        "record": record,
    }  # fmt: skip


POSITIONS = Table(
    "positions",
    "one spell of one part on another: a wheelset on an engine, a center on a wheelset, a tire on a center",
    (
        LEDGER,
        Column("part", "text", "The part's id."),
        Column("kind", "text", "wheelset, center or tire."),
        Column("on", "text", "What it was on: an engine, a wheelset, a center."),
        Column("at", "text", "Where on it: driver-2; left, right, A or B; empty for a tire."),
        Column("a_end", "text", "Of a wheelset: the side on which its end A was, where told."),
        *days("since", "From when; unknown is before all else"),
        Column("until", "day", "Until when; empty: still."),
        Column("until_is_in", "yes", "Whether that day still belongs to the spell."),
        Column("record", "text", "Id of the record that tells it."),
    ),
    _positions,
)


def _instruments(source: Source) -> Iterator[Row]:
    for one in source.book.instruments.values():
        uncertainty = fields.text(one.tree, "expanded_uncertainty")
        last = max((expires for _, expires in one.certificates if expires is not None), default=None)
        yield {
            "instrument": one.id, "path": one.path, "type": one.type, "measures": texts(list(one.measures)),
            **figure_cells("resolution", fields.text(one.tree, "resolution")),
            **figure_cells("expanded_uncertainty", uncertainty), "certificate_until": last,
            "retired_on": one.retired_on,
        }  # fmt: skip


INSTRUMENTS = Table(
    "instruments",
    "one instrument",
    (
        LEDGER,
        Column("instrument", "text", "Its id; unique in a ledger."),
        PATH,
        Column("type", "text", "What it is."),
        Column("measures", "text", "The quantities it is for, a space between; empty: not told."),
        *figures("resolution", "Its resolution"),
        *figures("expanded_uncertainty", "Its expanded uncertainty"),
        Column("certificate_until", "day", "The last day any of its certificates covers; empty: none, or without end."),
        Column("retired_on", "day", "When it was retired."),
    ),
    _instruments,
)
