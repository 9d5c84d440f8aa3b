"""The guard band of a value under a limit that asks for one, and whether it can be made at all."""

from __future__ import annotations

from axlebook.limits import Limit, Span
from axlebook.records.book import Book
from axlebook.records.condition import Value
from axlebook.records.instruments import guard_band

GUARD_BAND = "guard band"


def widened(book: Book, limit: Limit, value: Value) -> Span:
    """What is known of a value, with the guard band on both sides where the limit asks for it."""
    band = guard_band(book, value.readings) if limit.decision == GUARD_BAND and value.readings else None
    return value.span if band is None else value.span.widened(band)


def has_no_band(book: Book, limit: Limit, value: Value) -> bool:
    """Whether a limit asks for a guard band, and no uncertainty is on file to make one of."""
    return limit.decision == GUARD_BAND and bool(value.readings) and guard_band(book, value.readings) is None
