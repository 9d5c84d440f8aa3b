"""How a source and the clause in it are named for a reader."""

from __future__ import annotations

import re
from functools import lru_cache


@lru_cache(maxsize=4096)
def source_and_clause(source: str, clause: str) -> str:
    """Source and clause; a clause that only says again what the source does is left out.

    >>> source_and_clause("Running gear notebook, 2014", "page 3")
    'Running gear notebook, 2014, page 3'
    >>> source_and_clause("Common practice of the trade, no source", "common practice, no source")
    'Common practice of the trade, no source'
    """
    counted = any(sign.isdigit() for sign in clause)  # a page or a paragraph is never said by chance
    return source if not counted and _words(clause) <= _words(source) else f"{source}, {clause}"


def _words(text: str) -> set[str]:
    return set(re.findall(r"\w+", text.casefold()))
