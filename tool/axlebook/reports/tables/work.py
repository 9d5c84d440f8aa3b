"""What was done to the metal: tires on and off, turnings, pressings; and defects."""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.records import fields
from axlebook.records.defect import defects
from axlebook.records.session import Session

from .columns import (
    LEDGER,
    PATH,
    RECORD,
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

TURNED = ("turning", "mounting")


def _of_session(session: Session) -> Row:
    return {
        "record": session.id, "path": session.path, "kind": session.kind, **day_cells("done_on", session.day),
        "by": " ".join(session.by), "signed": session.signed, "note": fields.text(session.tree, "note"),
    }  # fmt: skip


_COMMON = (
    LEDGER, RECORD, PATH,
    Column("kind", "text", "What was done, by the kind of its record."),
    *days("done_on", "When"),
    Column("by", "text", "Ids of those who did it, a space between."),
    Column("signed", "yes", "Whether the record is signed."),
)  # fmt: skip
_NOTE = Column("note", "text", "What else was written.")


def _tire_work(source: Source) -> Iterator[Row]:
    for session in source.book.past_sessions:
        if not session.kind.startswith("tire-"):
            continue
        tree = session.tree
        heat = [entry for entry in fields.items(tree, "heat") if entry]
        seating = fields.inner(tree, "seating")
        yield {
            **_of_session(session), "tire": session.tire, "center": session.center,
            "came_off": fields.text(tree, "came_off"), "how": fields.text(tree, "how"),
            "reason": fields.text(tree, "reason"), "fit_from": texts(tree.get("fit_from")),
            "heat_readings": len(heat) if session.kind == "tire-applied" else None,
            **figure_cells("center_temperature", fields.text(seating, "center_temperature")),
            "witness_mark": fields.text(seating, "witness_mark"),
        }  # fmt: skip


TIRE_WORK = Table(
    "tire_work",
    "one tire going onto, coming off, or found on one center",
    (
        *_COMMON,
        Column("tire", "text", "The tire's id."),
        Column("center", "text", "The center's id."),
        Column("came_off", "text", "Of a tire that came off: tight, loose or unknown."),
        Column("how", "text", "How it came off."),
        Column("reason", "text", "Why it came off."),
        Column("fit_from", "text", "Of a tire that went on: the records of the readings its fit is from."),
        Column("heat_readings", "whole", "Of a tire that went on: how many readings of its heat are on record."),
        *figures("center_temperature", "Of a tire that went on: temperature of the center"),
        Column("witness_mark", "text", "The mark that was made over rim and tire."),
        _NOTE,
    ),
    _tire_work,
)


def _work(source: Source) -> Iterator[Row]:
    for session in source.book.past_sessions:
        if session.kind == "turning":
            cuts = fields.inner(session.tree, "cut")
            touched = [*fields.texts(session.tree, "tires"), *fields.texts(session.tree, "wheelsets")]
            for part in touched or [""]:
                yield _done(session, part, "", figure_cells("cut", fields.text(cuts, part)))
        elif session.kind == "mounting":
            yield _done(session, session.center, fields.text(session.tree, "wheelset"), figure_cells("cut", ""))


def _done(session: Session, part: str, on: str, cut: Row) -> Row:
    tree = session.tree
    return {
        **_of_session(session), "engine": session.engine, "part": part, "on": on, "side": fields.text(tree, "side"),
        "work": fields.text(tree, "work") or "turned", **cut, "contour": fields.text(tree, "contour"),
        "shop": fields.text(tree, "shop"), **figure_cells("seat_diameter", fields.text(tree, "seat_diameter")),
        **figure_cells("bore", fields.text(tree, "bore")),
    }  # fmt: skip


WORK = Table(
    "work",
    "one part that was turned, or one center that was pressed on, pressed off, or found pressed",
    (
        *_COMMON,
        Column("engine", "text", "The engine's id, where told."),
        Column("part", "text", "The tire, wheelset or center worked on."),
        Column("on", "text", "Of a center: the wheelset."),
        Column("side", "text", "Of a center: the side or end."),
        Column("work", "text", "turned, pressed on, pressed off or found."),
        *figures("cut", "Metal taken off, on diameter, where written"),
        Column("contour", "text", "The contour that was cut."),
        Column("shop", "text", "Where it was done."),
        *figures("seat_diameter", "Of a center: diameter of its seat on the axle"),
        *figures("bore", "Of a center: bore of its hub"),
        _NOTE,
    ),
    _work,
)


def _defects(source: Source) -> Iterator[Row]:
    book = source.book
    for defect in defects(book):
        yield {
            "record": defect.id, "path": defect.place.path, **day_cells("found_on", defect.found_on),
            "engine": defect.engine, "place": defect.at, "part": defect.part,
            "stands_at": ", ".join(here.name for here in defect.now), "what": defect.what, "limit": defect.limit,
            "open": defect.is_open(book.as_of), "restricted": defect.restricted(book.as_of),
            "repair_standard": fields.text(defect.repair, "standard"), "disposition": defect.disposition,
            **written_day(defect.tree, "closed_on", "closed_on"),
        }  # fmt: skip


DEFECTS = Table(
    "defects",
    "one defect, from the day it was found to its disposition",
    (
        LEDGER,
        RECORD,
        PATH,
        *days("found_on", "When it was found"),
        Column("engine", "text", "The engine's id."),
        Column("place", "text", "The place on it."),
        Column("part", "text", "Or the part."),
        Column("stands_at", "text", "Where what it is of stands on the day of the book; under no engine the part."),
        Column("what", "text", "What was found."),
        Column("limit", "text", "The limit it is over, as SET/ID."),
        Column("open", "yes", "Whether it is open on the day of the book."),
        Column("restricted", "yes", "Whether its restriction holds on that day."),
        Column("repair_standard", "text", "The standard it was repaired to."),
        Column("disposition", "text", "What became of it."),
        *days("closed_on", "When it was closed"),
    ),
    _defects,
)
