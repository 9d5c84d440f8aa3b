"""Which readings a fault of form keeps out: whatever its pointer names, and however odd the key."""

from __future__ import annotations

from typing import Any

import pytest

from axlebook.findings import Dropped
from axlebook.records.dropped import dropped_of

BORE = {"quantity": "tire_bore", "part": "t-1", "values": {"0 deg": "44 in"}}
OTHER = {"quantity": "tire_width", "place": "driver-1 left", "values": {"0 deg": "6 in"}}
ODD = {"²": "x", "9" * 5000: "x"}
TREE: dict[str, Any] = {"engine": "e-1", "readings": ["x", BORE], "readngs": [OTHER], "setup": ODD}
OF_BORE = Dropped("tire_bore", "e-1", "", "t-1")
OF_OTHER = Dropped("tire_width", "e-1", "driver-1 left", "")
UNTOLD = Dropped("", "e-1", "", "")


@pytest.mark.parametrize(
    ("left_out", "found"),
    [
        (None, ()),
        ("/readings/1/values/0 deg", (OF_BORE,)),
        ("/readings/0", (UNTOLD,)),
        ("/readngs", (OF_OTHER,)),
        ("", (UNTOLD, OF_BORE, OF_OTHER)),
        ("/setup/²", ()),
        ("/setup/" + "9" * 5000, ()),
        ("/nothing/7", ()),
    ],
    ids=range(8),
)
def test_what_is_left_out_of_a_record_names_its_readings(left_out: str | None, found: tuple[Dropped, ...]) -> None:
    assert dropped_of(TREE, left_out) == found
