"""How a source and the clause in it are named for a reader."""

from __future__ import annotations

from functools import lru_cache
from itertools import dropwhile


@lru_cache(maxsize=4096)
def source_and_clause(source: str, clause: str) -> str:
    """Source and clause; what the clause begins with and the source has said in the same words is left out.

    A clause often stands alone, in a table or on a sheet, and so begins with a short name of its source.

    >>> source_and_clause("Running gear notebook of the railway, 2014", "Running gear notebook, page 3")
    'Running gear notebook of the railway, 2014, page 3'
    >>> source_and_clause("Common practice of the trade, no source", "common practice, no source")
    'Common practice of the trade, no source'
    >>> source_and_clause("Passenger car rules and freight car rules, 2014", "freight car rules, 9.1")
    'Passenger car rules and freight car rules, 2014, freight car rules, 9.1'
    """
    said = source.casefold()
    whole = {part.strip() for part in said.split(",")}

    def is_said(part: str) -> bool:
        return said.startswith(f"{part.casefold()} ") or part.casefold() in whole

    return ", ".join([source, *dropwhile(is_said, clause.split(", "))])
