"""What in a value does not meet a schema: each fault with its place and the keyword that asks for something else.

The reference is jsonschema, which the tests hold this against, fault by fault. It is not asked here, because to import
it takes ten times as long as to start Python, a quarter of the time of a check of a small ledger; and its order, where
keys have no meaning, changes from run to run. Of its keywords the schemas use those of `shapes.JUDGING`, on texts,
lists and groups alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from axlebook.sources.schema_files import Schema
from axlebook.sources.shapes import ON_TEXT
from axlebook.sources.verdicts import Verdicts


class Fault(NamedTuple):
    """One keyword of a schema that a value does not meet."""

    keyword: str
    value: Any
    schema: Schema
    steps: tuple[Any, ...]  # keys and numbers that lead to the value
    of_key: bool = False  # whether the value is itself a key of the group that the steps lead to
    branches: tuple[tuple[Fault, ...], ...] = ()  # of anyOf and oneOf, where no branch is met: the faults by each

    @property
    def asked(self) -> Any:
        """What stands after the keyword."""
        return self.schema[self.keyword]


def find_faults(
    verdicts: Verdicts, schema: Schema, value: Any, steps: tuple[Any, ...] = (), *, of_key: bool = False
) -> Iterator[Fault]:
    """Yield every fault of a value under a schema of the set that `verdicts` knows, keyword by keyword."""
    for keyword, asked in schema.items():
        fault = Fault(keyword, value, schema, steps, of_key)
        if keyword == "type":
            if not verdicts.is_of_type(schema, value):
                yield fault
        elif keyword in ON_TEXT:
            if not verdicts.meets(keyword, asked, value):
                yield fault
        elif keyword in _ON_GROUP:
            if type(value) is dict:
                yield from _of_group(verdicts, fault)
        elif keyword == "minItems":
            if type(value) is list and len(value) < asked:
                yield fault
        elif keyword == "items":
            for number, item in enumerate(value if type(value) is list else ()):
                yield from find_faults(verdicts, asked, item, (*steps, number))
        else:
            yield from _of_branches(verdicts, fault)


_ON_GROUP = frozenset({"properties", "required", "additionalProperties", "propertyNames"})


def _of_group(verdicts: Verdicts, fault: Fault) -> Iterator[Fault]:
    keyword, group, schema, steps, *_ = fault
    asked = fault.asked
    if keyword == "required":
        if any(key not in group for key in asked):
            yield fault
    elif keyword == "properties":
        for key, inside in asked.items():
            if key in group:
                yield from find_faults(verdicts, inside, group[key], (*steps, key))
    elif keyword == "propertyNames":
        for key in group:
            yield from find_faults(verdicts, asked, key, steps, of_key=True)
    else:
        others = [key for key in group if key not in schema.get("properties", {})]
        if asked is False and others:
            yield fault
        for key in others if isinstance(asked, dict) else ():
            yield from find_faults(verdicts, asked, group[key], (*steps, key))


def _of_branches(verdicts: Verdicts, fault: Fault) -> Iterator[Fault]:
    """The faults of what judges the same value again."""
    keyword, value, schema, steps, of_key, _ = fault
    if keyword == "allOf":
        for branch in fault.asked:
            yield from find_faults(verdicts, branch, value, steps, of_key=of_key)
    elif keyword == "if":
        if verdicts.is_met(fault.asked, value):
            yield from find_faults(verdicts, schema.get("then", {}), value, steps, of_key=of_key)
    elif keyword in ("anyOf", "oneOf"):
        met = sum(verdicts.is_met(branch, value) for branch in fault.asked)
        if not met:
            by_each = (find_faults(verdicts, branch, value, steps) for branch in fault.asked)
            yield fault._replace(branches=tuple(map(tuple, by_each)))
        elif met > 1 and keyword == "oneOf":
            yield fault
