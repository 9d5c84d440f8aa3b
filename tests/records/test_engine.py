"""Where wheelsets stand along an engine."""

from __future__ import annotations

from axlebook.records.engine import from_front


def test_places_go_from_the_front_to_the_rear_and_what_is_none_of_them_comes_last() -> None:
    written = ["tender-1", "driver-10", "driver-2", "booster-1", "engine-truck-1", "trailing-truck-3", "driver-x"]
    assert sorted(written, key=from_front) == [
        "engine-truck-1", "driver-x", "driver-2", "driver-10", "trailing-truck-3", "tender-1", "booster-1",
    ]  # fmt: skip
