"""Where a limit comes from is not said, or is said to be memory.

What is judged: every limit on file. Its set must name a source that a stranger can open: a title, and with the limits
the clause or page. A limit without a clause among others that have one was most likely added from memory; so was one
whose source says so. The limit still judges what it judges: the figure may be right. Nobody can know.

What to do: find the page, and write title, edition and clause. If it is the railway's own figure, write down the
minute or the drawing that set it.

Source: the limit set itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.limits import Limit, LimitSet
from axlebook.records.book import Book

ID = "limit-from-memory"
MEMORY = re.compile(
    r"\b(?:memory|remember(?:ed|s)?|by heart|hearsay|heard|always been|everybody knows)\b", re.IGNORECASE
)
NEXT = "Find the page, and write title, edition and clause; or the minute that set the railway's own figure."


def check(book: Book) -> Iterator[Finding]:
    """Look at where every limit is from."""
    for found in book.limit_sets.values():
        clauses = any(limit.clause for limit in found.limits)
        for limit in found.limits:
            why = _doubtful(found, limit, clauses)
            if why:
                yield Finding(
                    ID, Verdict.SUSPECT, Severity.DATA, limit.id, limit.place,
                    f"{limit.id}: {why}. It judges, and nobody can look it up.",
                    (Figure("clause", limit.clause, "", limit.id), Figure("source", limit.source, "", found.id)),
                    f"{found.id}: {found.title or 'no title'}", NEXT, ",".join(limit.quantities), "source",
                )  # fmt: skip


def _doubtful(found: LimitSet, limit: Limit, clauses: bool) -> str:
    told = MEMORY.search(f"{found.title} {found.edition}") or MEMORY.search(f"{limit.clause} {limit.note}")
    if told:
        return f"its source says “{told.group()}”"
    if not limit.source.strip():
        return "its set names no source"
    return "it has no clause, and the others of its set have one" if clauses and not limit.clause else ""
