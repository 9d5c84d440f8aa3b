"""A table as Parquet, through pyarrow (the extra `tables`)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

SORTS = {"text": "string", "number": "double", "whole": "int64", "day": "date32", "yes": "bool"}


class NoParquet(Exception):  # noqa: N818 - an answer, not an error of the program
    """The library that writes Parquet is not installed."""


def parquet(columns: Sequence[tuple[str, str, str]], rows: Iterable[Sequence[Any]]) -> bytes:
    """The bytes of a file; a column is its name, its sort and what it tells, which goes into the file too."""
    try:
        import pyarrow
        from pyarrow import parquet as writer
    except ImportError:
        raise NoParquet from None
    fields = [
        pyarrow.field(name, pyarrow.type_for_alias(SORTS[sort]), metadata={"description": meaning})
        for name, sort, meaning in columns
    ]
    cells: list[tuple[Any, ...]] = list(zip(*rows, strict=True)) or [() for _ in fields]
    arrays = [pyarrow.array(column, type=field.type) for column, field in zip(cells, fields, strict=True)]
    sink = pyarrow.BufferOutputStream()
    writer.write_table(pyarrow.Table.from_arrays(arrays, schema=pyarrow.schema(fields)), sink)
    return bytes(sink.getvalue().to_pybytes())
