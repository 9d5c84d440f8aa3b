"""Service days, as they are on record, and old totals whose days are not known."""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.records import fields
from axlebook.records.service import Service

from .columns import LEDGER, PATH, RECORD, Column, Row, Source, Table, figure_cells, figures


def _services(source: Source) -> Iterator[Service]:
    for service in source.book.services.values():
        if service.period.first is None or service.period.first <= source.book.as_of:
            yield service


def _days(source: Source) -> Iterator[Row]:
    for service in _services(source):
        lines = {f"/days/{index}": line for index, line in enumerate(fields.items(service.tree, "days")) if line}
        for line in service.lines:
            if line.first <= source.book.as_of:
                told = lines[line.place.pointer]
                yield {
                    "record": service.id, "path": service.path, "engine": service.engine, "first_day": line.first,
                    "last_day": line.last, "days": line.days, **figure_cells("distance", fields.text(told, "miles")),
                    "note": fields.text(told, "note"),
                }  # fmt: skip


SERVICE_DAYS = Table(
    "service_days",
    "one service day of an engine, or a run of days; a calendar day counts once, however many rows tell of it",
    (
        LEDGER,
        RECORD,
        PATH,
        Column("engine", "text", "The engine's id."),
        Column("first_day", "day", "The day, or the first of the run."),
        Column("last_day", "day", "The last of the run; the same day for one."),
        Column("days", "whole", "How many days that is."),
        *figures("distance", "How far it ran in all of them"),
        Column("note", "text", "What else was written."),
    ),
    _days,
)


def _totals(source: Source) -> Iterator[Row]:
    for service in _services(source):
        if service.total is not None:
            miles = fields.text(fields.inner(service.tree, "total"), "miles")
            yield {
                "record": service.id, "path": service.path, "engine": service.engine,
                "first_day": service.period.first, "last_day": service.period.last, "days": service.total,
                **figure_cells("distance", miles),
            }  # fmt: skip


SERVICE_TOTALS = Table(
    "service_totals",
    "one old total of a year or month whose days are not known; days of it may stand in service_days too",
    (
        LEDGER,
        RECORD,
        PATH,
        Column("engine", "text", "The engine's id."),
        Column("first_day", "day", "First day of the period."),
        Column("last_day", "day", "Last day of the period."),
        Column("days", "whole", "Service days in it."),
        *figures("distance", "How far it ran"),
    ),
    _totals,
)
