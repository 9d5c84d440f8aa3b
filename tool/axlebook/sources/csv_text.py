"""The bytes of a CSV to rows of cells: its encoding and its separator found, both told, nothing guessed in silence."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from typing import NamedTuple

from axlebook.records.rows.cells import Cell
from axlebook.records.rows.columns import HEADS, folded
from axlebook.reports.as_csv import as_written

LARGEST = 10_000_000  # bytes of a file
MOST_ROWS = 20_000
MOST_COLUMNS = 200
SEPARATORS = {",": "commas", ";": "semicolons", "\t": "tabs"}


class NotRead(Exception):  # noqa: N818 - an answer, not an error of the program
    """Why a file cannot be read as a sheet, in a sentence."""


class Grid(NamedTuple):
    """The rows of a file with their numbers, and how it was read, in words."""

    rows: list[tuple[int, list[Cell]]]
    words: str


def read_csv(content: bytes) -> Grid:
    """Read a CSV.

    Raises
    ------
    NotRead
        It is no text, is larger than a sheet of readings can be, or its quotes do not match.
    """
    text, encoding = _decoded(content)
    if "\0" in text:
        raise NotRead("it is no text: there are zero bytes in it.")
    said, text = _said_separator(text)
    separator = said or _separator(text)
    rows = list(_rows(text, separator, 2 if said else 1))
    return Grid(rows, f"{encoding}, separated by {SEPARATORS[separator]}")


def _decoded(content: bytes) -> tuple[str, str]:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return _strict(content, "utf-16", "UTF-16")
    if content.startswith(b"\xef\xbb\xbf"):
        return _strict(content[3:], "utf-8", "UTF-8")
    for encoding, order in (("utf-16-le", 1), ("utf-16-be", 0)):
        if len(content) > 3 and content[:4][order::2] == b"\0\0" and b"\0" not in content[:4][1 - order :: 2]:
            return _strict(content, encoding, "UTF-16")
    try:
        return content.decode("utf-8"), "UTF-8"
    except UnicodeDecodeError:
        return _strict(content, "cp1252", "not UTF-8, so read as Windows-1252 (look at names and signs)")


def _strict(content: bytes, encoding: str, words: str) -> tuple[str, str]:
    try:
        return content.decode(encoding), words
    except UnicodeDecodeError:
        raise NotRead("its encoding is not known. Save it as CSV UTF-8.") from None


def _said_separator(text: str) -> tuple[str, str]:
    """A first line `sep=;`, as some spreadsheets write it."""
    first, _, rest = text.partition("\n")
    line = first.strip("\r ")
    if line.lower().startswith("sep=") and line[4:] in SEPARATORS:
        return line[4:], rest
    return "", text


def _separator(text: str) -> str:
    """The separator by which the first line falls into the most heads that are known."""
    line = next((line for line in io.StringIO(text[:100_000], newline=None) if line.strip()), "")

    def known(separator: str) -> int:
        try:
            heads = next(csv.reader([line], delimiter=separator), [])
        except csv.Error:
            return 0
        return sum(folded(head.partition("(")[0]) in HEADS for head in heads)

    return max(SEPARATORS, key=lambda separator: (known(separator), line.count(separator)))


def _rows(text: str, separator: str, first: int) -> Iterator[tuple[int, list[Cell]]]:
    reader = csv.reader(io.StringIO(text, newline=None), delimiter=separator, strict=True)
    number = first - 1
    try:
        for number, row in enumerate(reader, first):
            if number > MOST_ROWS:
                raise NotRead(f"it has more than {MOST_ROWS} rows. Part it.")
            if len(row) > MOST_COLUMNS:
                raise NotRead(
                    f"row {number} has {len(row)} columns; no sheet of readings has more than {MOST_COLUMNS}."
                )
            yield number, [Cell(as_written(text), "shown") for text in row]
    except csv.Error as error:
        raise NotRead(f"row {number + 1} cannot be parted into cells ({error}). Are its quotes right?") from None
