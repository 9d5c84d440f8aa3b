"""How a source and the clause in it are named for a reader."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import dropwhile


@lru_cache(maxsize=4096)
def source_and_clause(source: str, clause: str) -> str:
    """Source and clause; what the clause begins with and the source has said is left out.

    A clause often stands alone, in a table or on a sheet, and so begins with a short name of its source.

    >>> source_and_clause("Running gear notebook of the railway, 2014", "Running gear notebook, page 3")
    'Running gear notebook of the railway, 2014, page 3'
    >>> source_and_clause("Common practice of the trade, no source", "common practice, no source")
    'Common practice of the trade, no source'
    """
    known = _words(source)
    more = dropwhile(lambda part: not _counts(part) and _words(part) <= known, clause.split(", "))
    return ", ".join([source, *more])


def _counts(part: str) -> bool:
    """Whether it names a page or a paragraph by number: a year in the source may have the same digits by chance."""
    return any(sign.isdigit() for sign in part)


def _words(text: str) -> set[str]:
    return set(re.findall(r"\w+", text.casefold()))
