"""One side of a comparison: a book, what the checks found in it, and its records as they are written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from axlebook.findings import Finding
from axlebook.records import fields
from axlebook.records.book import Book


@dataclass(frozen=True)
class Side:
    """A state of the book. Trees are as written: no correction has touched them, nothing was left out."""

    book: Book
    findings: tuple[Finding, ...] = ()  # without what is within
    texts: Mapping[str, bytes] = field(default_factory=dict)  # by path
    trees: Mapping[str, fields.Tree | None] = field(default_factory=dict)  # by path; None: it could not be read


def title_of(book: Book, name: str) -> str:
    """What a quantity or an observation is called in the shop."""
    word = book.vocabulary.find_word(name)
    return word.title if word else name.replace("_", " ")
