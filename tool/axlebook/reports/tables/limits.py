"""The limits on file: a row a bound, and for a table of limits a row a line of it."""

from __future__ import annotations

import json
from collections.abc import Iterator

from axlebook.limits import Condition, FacetTest, Limit, LimitSet
from axlebook.records.limit_set import WORDS

from .columns import LEDGER, PATH, Column, Row, Source, Table, figure_cells, figures


def _limits(source: Source) -> Iterator[Row]:
    book = source.book
    adopted = {use.set_id for engine in [None, *book.engines.values()] for use in book.adoptions(engine)}
    for limit_set in book.limit_sets.values():
        for limit in limit_set.limits:
            for condition in limit.conditions:
                yield from _condition(limit_set, limit, condition, limit_set.id in adopted)


def _condition(limit_set: LimitSet, limit: Limit, condition: Condition, adopted: bool) -> Iterator[Row]:
    common: Row = {
        "limit": limit.id, "path": limit.place.path, "pointer": limit.place.pointer, "set": limit_set.id,
        "adopted": adopted, "stage": limit.stage, "quantity": condition.quantity,
        "seen": bool(condition.seen), "together_with": " ".join(q for q in limit.quantities if q != condition.quantity),
        "where": limit.where, "applies_to": _tests(limit.applies_to), "clause": limit.clause,
        "source": limit_set.title, "edition": limit_set.edition, "seen_on": limit_set.seen_on,
    }  # fmt: skip
    if not condition.bounds:
        yield {**common, "out_when": "seen", **figure_cells("bound", ""), "table_row": ""}
    for bound in condition.bounds:
        if bound.value is not None or limit.table is None:
            yield {**common, "out_when": bound.word, **figure_cells("bound", bound.text), "table_row": ""}
            continue
        for row, text in zip(limit.table.rows, limit.table.texts, strict=True):
            facets = {name: None if most is None else float(most)
                      for name, most in zip(limit.table.facets, row, strict=False)}  # fmt: skip
            yield {**common, "out_when": bound.word, **figure_cells("bound", text), "table_row": json.dumps(facets)}


def _tests(tests: tuple[FacetTest, ...]) -> str:
    told = {test.facet: list(test.words) or {bound.word: bound.text for bound in test.bounds} for test in tests}
    return json.dumps(told, ensure_ascii=False) if told else ""


LIMITS = Table(
    "limits",
    "one bound of a limit on file; of a table of limits, one line of the table",
    (
        LEDGER,
        Column("limit", "text", "The limit's id: SET/ID."),
        PATH,
        Column("pointer", "text", "Where in that record (JSON Pointer)."),
        Column("set", "text", "The limit set."),
        Column("adopted", "yes", "Whether the ledger or one of its engines has adopted the set, at whatever time."),
        Column("stage", "text", "new, shop, condemning, practice or note."),
        Column("quantity", "text", "What is judged; of something looked for, what."),
        Column("seen", "yes", "Whether it is out when the thing is seen."),
        Column("together_with", "text", "Other quantities that must be out as well."),
        Column("out_when", "text", f"Out when the value is {', '.join(WORDS)} the bound; or when it is seen."),
        *figures("bound", "The bound"),
        Column("table_row", "text", "Of a table: up to which size of what this line holds, as JSON in SI units; "
               "null is above all."),
        Column("where", "text", "Where it is to be measured."),
        Column("applies_to", "text", "What the limit asks before it applies, as JSON; all must hold."),
        Column("clause", "text", "The clause."),
        Column("source", "text", "The title of the source."),
        Column("edition", "text", "Its edition."),
        Column("seen_on", "text", "When the source was looked at."),
    ),
    _limits,
)  # fmt: skip
