"""What the id of a new record already says: its date, its engine, tire, month. Never more than stands in it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from axlebook.records.forms import is_day

_DATED = re.compile(r"([12][0-9]{3}(?:-[0-9]{2}(?:-[0-9]{2})?)?)-(.+)")
_HALF_DATED = re.compile(r"[0-9]{4}-(?:[0-9]-[0-9]{1,2}|[0-9]{2}-[0-9])(?:-|$)")  # month or day without its 0
_SERVICE = re.compile(r"(.+)-([12][0-9]{3})(-[0-9]{2})?")
DATE_KEYS = {
    "inspection": "measured_on", "tire-applied": "applied_on", "tire-removed": "removed_on",
    "tire-found": "found_on", "mounting": "mounted_on", "turning": "turned_on", "defect": "found_on",
}  # fmt: skip


def prefilled(kind: str, id: str, known: Mapping[str, str]) -> dict[str, Any]:
    """The top keys that the id fills in; `known` is the folder of every record there is, by id.

    >>> prefilled("inspection", "2026-01-10-e-12-annual", {"e-12": "engines"})
    {'measured_on': '2026-01-10', 'engine': 'e-12', 'purpose': 'annual'}
    >>> prefilled("service", "e-12-2026-05", {}), prefilled("service", "2026-05-e-12", {})
    ({'engine': 'e-12', 'month': '2026-05'}, {'engine': 'e-12', 'month': '2026-05'})
    """
    if kind == "service":
        return _service(id)
    if kind == "driver":
        return {"centers": {f"{id}-{side}": {"first_side": side} for side in ("left", "right")}}
    match = _DATED.fullmatch(id)
    if kind not in DATE_KEYS or match is None:
        return {}
    filled: dict[str, Any] = {DATE_KEYS[kind]: match[1]}
    part = _longest_known(match[2], known)
    if kind.startswith("tire-") and known.get(part) == "tires":
        filled["tire"] = part
    if known.get(part) == "engines":
        filled["engine"] = part
    rest = match[2].removeprefix(part).strip("-") if part else match[2].rpartition("-")[2]
    if kind == "inspection" and rest:
        filled["purpose"] = rest
    return filled


def _longest_known(text: str, known: Mapping[str, str]) -> str:
    words = text.split("-")
    starts = ("-".join(words[:count]) for count in range(len(words), 0, -1))
    return next((start for start in starts if start in known), "")


def _service(id: str) -> dict[str, Any]:
    dated = _DATED.fullmatch(id)  # month first is as good, as in the ids of all else
    match = _SERVICE.fullmatch(f"{dated[2]}-{dated[1]}" if dated and len(dated[1]) < 10 else id)
    if match is None:
        return {}
    period = {"month": f"{match[2]}{match[3]}"} if match[3] else {"year": match[2]}
    return {"engine": match[1], **period}


def date_is_missing(kind: str, id: str) -> bool:
    """Whether a record of this kind is named by its date, and the id does not begin with one.

    >>> date_is_missing("turning", "t-1-turned"), date_is_missing("tire", "t-1")
    (True, False)
    >>> date_is_missing("inspection", "2026-1-10-e-12"), date_is_missing("inspection", "2026-e-12-annual")
    (True, False)
    """
    match = _DATED.fullmatch(id)
    if kind not in DATE_KEYS:
        return False
    if match is None or _HALF_DATED.match(id):
        return True
    return len(match[1]) == 10 and not is_day(match[1])
