"""The engine a command is about: by its id, or by the number it carries."""

from __future__ import annotations

from typing import TYPE_CHECKING

from . import CannotRun

if TYPE_CHECKING:
    from axlebook.records.book import Book
    from axlebook.records.engine import Engine


def engine_named(book: Book, name: str) -> Engine:
    """An engine by its id, or by the number it carries where one alone carries it."""
    found = book.engine_named(name)
    if found is None:
        there = ", ".join(book.engines) or "none"
        raise CannotRun(f"there is no engine {name[:60]!r}. There are: {there}.")
    return found
