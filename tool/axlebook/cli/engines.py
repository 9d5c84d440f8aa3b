"""The engine a command is about: by its id, or by the number it carries; and why a name finds nothing."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from . import CannotRun

if TYPE_CHECKING:
    from axlebook.records.book import Book
    from axlebook.records.engine import Engine

LISTED = 12  # names in a refusal


def engine_named(book: Book, name: str) -> Engine:
    """An engine by its id, or by the number it carries where one alone carries it."""
    found = book.engine_named(name)
    if found is None:
        require_read(book, name)
        many = [engine.id for engine in book.engines_numbered(name)]
        if len(many) > 1:
            raise CannotRun(f"{len(many)} engines carry the number {name[:60]!r}: {', '.join(many)}. Name one of them.")
        there = _some(book.engines) or "none"
        raise CannotRun(f"there is no engine {name[:60]!r}. There are: {there}.{_not_read(book)}")
    return found


def require_read(book: Book, name: str) -> None:
    """Refuse a name whose record is there and cannot be read: it is not absent."""
    for problem in book.problems:
        path = PurePosixPath(problem.place.path)
        if path.stem == name and path.suffix == ".yaml":
            at = f"{path}:{problem.line}" if problem.line else str(path)
            raise CannotRun(f"the record of {name[:60]!r} is there and cannot be used: {at}. {problem.message} "
                            f"{problem.next}")  # fmt: skip


def _not_read(book: Book) -> str:
    """The records of engines that nobody can read: a number may be in one of them."""
    paths = {one.place.path for one in book.problems if one.place.path.startswith("engines/")}
    lost = sorted(path for path in paths if PurePosixPath(path).stem not in book.engines)
    return f" Not read: {_some(lost)}." if lost else ""


def _some(names: Iterable[str]) -> str:
    """The first few: of hundreds nobody reads all."""
    from axlebook.checks._records import some

    return some(names, LISTED)
