"""What a thing can never have: by its kind, its make, its side and its flange."""

from types import SimpleNamespace
from typing import Any

import pytest

from axlebook.checks._things import Things


def things() -> Things:
    """A driver with tires, a wheelset in one piece, a plain tire, and what some words are of."""
    found = Things.__new__(Things)
    wheelsets = {
        "d-1": SimpleNamespace(made="tired", ends=("left", "right")),
        "tw-1": SimpleNamespace(made="one-piece", ends=("A", "B")),
    }
    lines = {
        ("e-1", "driver-1"): [SimpleNamespace(wheelset="d-1")],
        ("e-1", "tender-1"): [SimpleNamespace(wheelset="tw-1")],
        ("e-1", "tender-2"): [SimpleNamespace(wheelset="tw-1"), SimpleNamespace(wheelset="d-1")],
        ("e-1", "tender-3"): [SimpleNamespace(wheelset="lost")],
    }
    tires = {"t-1": SimpleNamespace(flange="flanged"), "t-2": SimpleNamespace(flange="plain")}
    book: Any = SimpleNamespace(
        tires=tires, centers={"c-1": None}, wheelsets=wheelsets, standing=SimpleNamespace(lines=lines)
    )
    found.book, found.any_plain, found._made_at = book, True, {}
    found.of = {
        "tire_thickness": "tire", "flange_thickness": "wheel", "rim_thickness": "wheel", "center_diameter": "center",
        "back_to_back": "wheelset", "wheel_seat_diameter": "end",
    }  # fmt: skip
    return found


@pytest.mark.parametrize(
    ("quantity", "place", "part", "wrong"),
    [
        ("tire_thickness", "driver-1 left", "", None),
        ("tire_thickness", "driver-1", "", "the side is missing"),
        ("tire_thickness", "tender-1 left", "", "the wheels there are one piece: they have no tire"),
        ("center_diameter", "tender-1 left", "", "the wheels there are one piece: they have no center"),
        ("tire_thickness", "tender-2 left", "", None),  # by one line or the other
        ("tire_thickness", "tender-3 left", "", None),
        ("rim_thickness", "driver-1 left", "", "the wheels there have tires: tire thickness is what is meant"),
        ("rim_thickness", "tender-1 left", "", None),
        ("back_to_back", "driver-1", "", None),
        ("back_to_back", "driver-1 left", "", "it belongs to both wheels together, and a side is named (left)"),
        ("back_to_back", "crosshead left", "", "crosshead left is no wheelset"),
        ("coupler_height", "crosshead left", "", None),
        ("tire_thickness", "", "t-1", None),
        ("flange_thickness", "", "t-1", None),
        ("flange_thickness", "", "t-2", "t-2 is a plain tire: it has no flange"),
        ("tire_thickness", "", "t-2", None),
        ("back_to_back", "", "t-1", "t-1 is a tire"),
        ("center_diameter", "", "c-1", None),
        ("tire_thickness", "", "c-1", "c-1 is a wheel center"),
        ("tire_thickness", "", "lost", None),
        ("back_to_back", "", "d-1", None),
        ("back_to_back", "", "d-1 left", "it belongs to both wheels together, and a side is named (left)"),
        ("back_to_back", "", "d-1 A", "the ends of d-1 are named left and right"),
        ("wheel_seat_diameter", "", "d-1 left", None),
        ("wheel_seat_diameter", "", "d-1", "the side or end is missing"),
        ("tire_thickness", "", "tw-1 A", "the wheels there are one piece: they have no tire"),
        ("coupler_height", "", "d-1", "d-1 is a wheelset"),
    ],
)
def test_what_a_thing_can_never_have_is_said_by_what_it_is(
    quantity: str, place: str, part: str, wrong: str | None
) -> None:
    assert things().always_wrong(quantity, place, part, "e-1") == wrong
