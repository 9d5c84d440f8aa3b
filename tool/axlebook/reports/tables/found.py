"""What every check found on the day of the book, what is within among it."""

from __future__ import annotations

import json
from collections.abc import Iterator

from .columns import LEDGER, Column, Row, Source, Table


def _findings(source: Source) -> Iterator[Row]:
    for one in source.findings:
        figures = [{"name": f.name, "value": f.value, "unit": f.unit, "from": f.origin} for f in one.figures]
        yield {
            "fingerprint": one.fingerprint, "as_of": source.book.as_of, "check": one.check,
            "verdict": str(one.verdict), "severity": str(one.severity), "subject": one.subject,
            "quantity": one.quantity, "where": one.where, "record": one.record, "path": one.place.path,
            "line": one.line or None, "message": one.message, "figures": json.dumps(figures, ensure_ascii=False),
            "source": one.source, "next": one.next, "cause": one.cause, "waived": one.waived,
        }  # fmt: skip


FINDINGS = Table(
    "findings",
    "one judgement: what is outside, suspect, undecided, not assessed, unreadable, and what is within",
    (
        LEDGER,
        Column("fingerprint", "text", "The finding's identity over time: no value and no line is in it."),
        Column("as_of", "day", "The day the book was read at."),
        Column("check", "text", "The check that found it: axlebook explain CHECK."),
        Column("verdict", "text", "outside, suspect, undecided, not assessed, unreadable or within."),
        Column("severity", "text", "condemning, watch, shop, data or note."),
        Column("subject", "text", "What it is of, in shop words."),
        Column("quantity", "text", "What was judged; empty where it is no quantity."),
        Column("where", "text", "The position, plane or limit."),
        Column("record", "text", "The record it stands in."),
        Column("path", "text", "That record's file."),
        Column("line", "whole", "The line there; empty for what is within."),
        Column("message", "text", "What was found."),
        Column("figures", "text", "Its figures, as JSON."),
        Column("source", "text", "What it was judged by."),
        Column("next", "text", "What to do now."),
        Column("cause", "text", "Why it was not assessed."),
        Column("waived", "text", "The waiver in effect."),
    ),
    _findings,
)
