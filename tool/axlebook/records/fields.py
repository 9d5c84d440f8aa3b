"""Fields of a record's tree, typed. The form of every text was judged before; what is absent is None or empty."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from axlebook.quantities import Interval, NotAMeasure, Quantity, parse_measure

from .dates import UNKNOWN, Day, parse_day
from .forms import parse_number, parse_period

Tree = Mapping[str, Any]
EMPTY: Tree = {}
LONG = 10  # digits; no list has so many entries


def text(tree: Tree, key: str) -> str:
    """The text, or ''."""
    found = tree.get(key, "")
    return found if isinstance(found, str) else ""


def texts(tree: Tree, key: str) -> tuple[str, ...]:
    """A text or a list of texts as a tuple."""
    found = tree.get(key)
    if not found:
        return ()
    if isinstance(found, str):
        return (found,)
    return tuple(item for item in found if isinstance(item, str))


def inner(tree: Tree, key: str) -> Tree:
    """The mapping under a key, or an empty one."""
    found = tree.get(key, EMPTY)
    return found if isinstance(found, dict) else EMPTY


def items(tree: Tree, key: str) -> list[Any]:
    """The list under a key, or an empty one."""
    found = tree.get(key, [])
    return found if isinstance(found, list) else []


def day(tree: Tree, key: str) -> Day:
    """The date under a key, or unknown."""
    found = tree.get(key)
    return parse_day(found) if isinstance(found, str) else UNKNOWN


def yes(tree: Tree, key: str) -> bool | None:
    """True for yes, False for no, None where nothing is said."""
    return {"yes": True, "no": False}.get(text(tree, key))


def whole(tree: Tree, key: str) -> int | None:
    """A whole number, or None."""
    found = text(tree, key).split(" ")[0]
    return int(found) if found.isascii() and found.isdigit() else None


def measure(tree: Tree, key: str) -> Quantity | Interval | None:
    """The measure under a key, or None."""
    found = text(tree, key)
    return parse_measure(found) if found else None


def quantity(tree: Tree, key: str) -> Quantity | None:
    """The single quantity under a key; None for absent and for intervals."""
    found = measure(tree, key)
    return found if isinstance(found, Quantity) else None


def exact(tree: Tree, key: str) -> Fraction | None:
    """The exact SI figure under a key, or None."""
    found = quantity(tree, key)
    return found.exact if found else None


def entry(found: Any, step: str) -> Any:
    """The entry of a list that a step of a JSON Pointer names; None where there is none, or what is found is no list.

    >>> entry(["a", "b"], "1"), entry(["a"], "\u00b2"), entry(["a"], "9" * 5000), entry({"1": "a"}, "1")
    ('b', None, None, None)
    """
    if not isinstance(found, list) or not (step.isascii() and step.isdigit() and len(step) < LONG):
        return None
    return found[int(step)] if int(step) < len(found) else None


def counted(tree: Tree, key: str) -> tuple[int, str] | None:
    """A whole number of a counted unit: (31, 'service day'), (368, 'day'), (15, 'year')."""
    return parse_period(text(tree, key))


def number(tree: Tree, key: str) -> Fraction | None:
    """A plain number such as a coverage factor, or a share in percent, exact; None where nothing is said."""
    return parse_number(text(tree, key))


__all__ = [
    "EMPTY", "NotAMeasure", "Tree", "counted", "day", "entry", "exact", "inner", "items", "measure", "number",
    "quantity", "text", "texts", "whole", "yes",
]  # fmt: skip
