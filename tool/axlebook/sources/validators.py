"""The validators of jsonschema with our formats; its own module, because importing jsonschema is slow."""

from __future__ import annotations

from typing import Any

from jsonschema import FormatChecker
from jsonschema.validators import Draft202012Validator

from axlebook.sources.formats import known_formats, satisfies
from axlebook.sources.schema_files import Schema

_FORMATS = FormatChecker(formats=())


def _register(name: str) -> None:
    _FORMATS.checkers[name] = (lambda value: not isinstance(value, str) or satisfies(name, value), ())


for _name in known_formats():
    _register(_name)


def build_validator(schema: Schema) -> Any:
    """Return a validator of the schema."""
    return Draft202012Validator(schema, format_checker=_FORMATS)
