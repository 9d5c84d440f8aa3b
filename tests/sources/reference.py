"""jsonschema, the reference for what our own reading of the schemas says of a value."""

from __future__ import annotations

from typing import Any

from jsonschema import FormatChecker, ValidationError
from jsonschema.validators import Draft202012Validator

from axlebook.sources.formats import WRITTEN, known_formats, measured_formats
from axlebook.sources.schema_faults import Fault
from axlebook.sources.schema_files import Schema


def satisfies(name: str, text: str) -> bool:
    """Say whether a text satisfies the format of that name."""
    written = WRITTEN.get(name)
    return written(text) if written else name in measured_formats(text)


_FORMATS = FormatChecker(formats=())


def _register(name: str) -> None:
    _FORMATS.checkers[name] = (lambda value: not isinstance(value, str) or satisfies(name, value), ())


for _name in known_formats():
    _register(_name)


def build_validator(schema: Schema) -> Any:
    """Return a validator of the schema."""
    return Draft202012Validator(schema, format_checker=_FORMATS)


def reference_faults(schema: Schema, value: Any) -> list[Fault]:
    """Return what jsonschema finds wrong, in its order, as our faults; keys that are missing from a group as one."""
    return _alike(build_validator(schema).iter_errors(value))


def _alike(errors: Any) -> list[Fault]:
    found: list[Fault] = []
    for error in errors:
        fault = _fault(error)
        if not (fault.keyword == "required" and fault in found):
            found.append(fault)
    return found


def _fault(error: ValidationError) -> Fault:
    by_branch: tuple[tuple[Fault, ...], ...] = ()
    if error.context:
        by_branch = tuple(
            tuple(_alike(inner for inner in error.context if inner.relative_schema_path[0] == number))
            for number in range(len(error.validator_value))  # type: ignore[arg-type]
        )
    of_key = "propertyNames" in error.relative_schema_path
    return Fault(str(error.validator), error.instance, error.schema, tuple(error.absolute_path), of_key, by_branch)  # type: ignore[arg-type]
