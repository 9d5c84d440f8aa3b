"""Pairs of dates in one record of which one cannot be before the other, and dates that cannot be to come."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from axlebook.records.dates import Day, parse_day
from axlebook.records.fields import Tree

# kind: (list, or "" for the record itself; earlier key; later key); keys may lead inward with a slash
PAIRS: dict[str, tuple[tuple[str, str, str], ...]] = {
    "engine": (("wheelsets", "from", "until"), ("overrides/limit_sets", "from", "until")),
    "ledger": (("defaults/limit_sets", "from", "until"),),
    "tire": (("", "ordered/ordered_on", "ordered/received_on"),),
    "instrument": (("certificates", "issued_on", "expires_on"),),
    "person": (("", "from", "until"), ("qualifications", "from", "until")),
    "inspection": (("", "measured_on", "signed/signed_on"), ("", "measured_on", "reported_on")),
    "tire-applied": (("", "applied_on", "signed/signed_on"),),
    "tire-removed": (("", "removed_on", "signed/signed_on"),),
    "tire-found": (("", "found_on", "signed/signed_on"), ("", "since", "found_on")),
    "turning": (("", "turned_on", "signed/signed_on"),),
    "mounting": (("", "mounted_on", "signed/signed_on"),),
    "service": (("days", "day", "until"),),
    "defect": (
        ("", "found_on", "closed_on"),
        ("", "found_on", "repair/done_on"),
        ("", "restriction/from", "restriction/until"),
    ),
    "waiver": (("", "approved_on", "expires_on"), ("", "approved_on", "closed_on")),
}  # fmt: skip
# kind: earlier and later key of two times of one day of work
CLOCKS: dict[str, tuple[tuple[str, str], ...]] = {
    "tire-applied": (
        ("heated_from", "heated_until"),
        ("heated_until", "seating/seated"),
        ("heated_from", "seating/seated"),
        ("seating/seated", "seating/gripped"),
        ("heated_until", "seating/clamps_fitted"),
    ),
}
# kind: keys (list, key) of dates that tell of what has been
PAST: dict[str, tuple[tuple[str, str], ...]] = {
    "engine": (("", "built"), ("wheelsets", "from")),
    "tire": (("", "marks/made_on"), ("", "ordered/ordered_on"), ("", "ordered/received_on")),
    "driver": (("", "axle/forged_on"),),
    "wheelset": (("", "axle/forged_on"),),
    "instrument": (("certificates", "issued_on"),),
    "inspection": (("", "measured_on"), ("", "signed/signed_on")),
    "tire-applied": (("", "applied_on"), ("", "signed/signed_on")),
    "tire-removed": (("", "removed_on"), ("", "signed/signed_on")),
    "tire-found": (("", "found_on"), ("", "signed/signed_on")),
    "turning": (("", "turned_on"), ("", "signed/signed_on")),
    "mounting": (("", "mounted_on"), ("", "signed/signed_on")),
    "service": (("days", "day"),),
    "defect": (("", "found_on"), ("", "closed_on")),
    "correction": (("", "corrected_on"),),
}


def date_at(tree: Any, key: str) -> Day | None:
    """The date under a key that may lead inward; None where none is written."""
    told = text_at(tree, key)
    return parse_day(told) if told else None


def text_at(tree: Any, key: str) -> str:
    """The text under a key that may lead inward; '' where none is written."""
    for step in _steps(key):
        if not isinstance(tree, dict):
            return ""
        tree = tree.get(step)
    return tree if isinstance(tree, str) else ""


@lru_cache(maxsize=256)
def _steps(key: str) -> tuple[str, ...]:
    return tuple(key.split("/"))


def entries(tree: Tree, inside: str) -> Iterator[tuple[str, Any]]:
    """The record itself, or the entries of a list in it, each with its pointer."""
    found: Any = tree
    if not inside:
        yield "", tree
        return
    for step in _steps(inside):
        found = found.get(step) if isinstance(found, dict) else None
    for index, entry in enumerate(found if isinstance(found, list) else ()):
        yield f"/{inside}/{index}", entry


def certainly_before(first: Day, second: Day) -> bool:
    """Whether the first date is before the second however little is known of the two."""
    return first.last is not None and second.first is not None and first.last < second.first
