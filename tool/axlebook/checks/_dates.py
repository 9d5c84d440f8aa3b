"""Pairs of dates in one record of which one cannot be before the other, and dates that cannot be to come."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import chain
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


def _looked_at(kind: str) -> Iterator[tuple[str, tuple[str, ...], tuple[tuple[str, str], ...]]]:
    """For each list of a kind: the keys of its dates, and the pairs among them."""
    past, pairs = PAST.get(kind, ()), PAIRS.get(kind, ())
    for inside in dict.fromkeys(one[0] for one in (*past, *pairs)):
        both = tuple((a, b) for where, a, b in pairs if where == inside)
        keys = [key for where, key in past if where == inside]
        yield inside, tuple(dict.fromkeys((*keys, *chain.from_iterable(both)))), both


_LOOKED_AT = {kind: tuple(_looked_at(kind)) for kind in PAST.keys() | PAIRS.keys()}


def date_at(tree: Any, key: str) -> Day | None:
    """The date under a key that may lead inward; None where none is written."""
    told = text_at(tree, key)
    return parse_day(told) if told else None


def text_at(tree: Any, key: str) -> str:
    """The text under a key that may lead inward; '' where none is written."""
    if "/" in key:
        *way, key = _steps(key)
        for step in way:
            tree = tree.get(step) if isinstance(tree, dict) else None
    found = tree.get(key) if isinstance(tree, dict) else None
    return found if isinstance(found, str) else ""


def may_be_wrong(tree: Tree, limit: Day) -> bool:
    """Whether a date of a record may be to come, or may be before what it follows: of most records none is."""
    for inside, keys, pairs in _LOOKED_AT.get(tree.get("kind", ""), ()):
        for entry in _listed(tree, inside) if inside else (tree,):
            days = {key: parse_day(told) for key in keys if (told := text_at(entry, key))}
            for day in days.values():
                if certainly_before(limit, day):
                    return True
            if len(days) > 1 and any(certainly_before(days[b], days[a]) for a, b in pairs if a in days and b in days):
                return True
    return False


@lru_cache(maxsize=256)
def _steps(key: str) -> tuple[str, ...]:
    return tuple(key.split("/"))


def entries(tree: Tree, inside: str) -> Iterable[tuple[str, Any]]:
    """The record itself, or the entries of a list in it, each with its pointer."""
    if not inside:
        return (("", tree),)
    return [(f"/{inside}/{index}", entry) for index, entry in enumerate(_listed(tree, inside))]


def _listed(tree: Any, inside: str) -> list[Any]:
    for step in _steps(inside):
        tree = tree.get(step) if isinstance(tree, dict) else None
    return tree if isinstance(tree, list) else []


def certainly_before(first: Day, second: Day) -> bool:
    """Whether the first date is before the second however little is known of the two."""
    return first.last is not None and second.first is not None and first.last < second.first
