"""A small ledger with a coupled set of four wheels that were all read one day, for the what-if of turning."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from tests.cli.commands import small_ledger

AT = "inspections/2026/2026-02-01-e-1-annual.yaml"
Read = Mapping[str, tuple[str, ...]]
PLACES = ("driver-1 left", "driver-1 right", "driver-2 left", "driver-2 right")
# A flange that needs an eighth of an inch: at 70 degrees .125 x 2.74748 = .34343, told as .3435 in.
READ = {
    "tread_diameter": ("50 in", "50 in", "50 1/32 in", "50 1/32 in"),
    "flange_thickness": ("1 in", "1 1/8 in", "1 1/8 in", "1 1/8 in"),
    "tread_hollow": ("1/8 in", "1/8 in", "1/16 in", "1/16 in"),
    "flange_height": ("1 1/4 in", "1 1/4 in", "1 1/4 in", "1 1/4 in"),
    "tire_thickness": ("2 1/2 in", "2 1/2 in", "2 1/2 in", "2 1/2 in"),
}
FLAGS = ("--flange", "1 1/8 in", "--flange-angle", "70 deg")
FLAT = """observations:
  - {looked_for: flat, place: driver-2 left, answer: seen, length: 2 in}
"""


def inspection(read: Read, day: str = "2026-02-01", more: str = "") -> str:
    """An inspection; an empty text is a reading not taken."""
    lines = [
        f"  - {{quantity: {quantity}, place: {place}, with: rule-1, values: {{worst: {value}}}"
        + (", where: 3/8 in above tread" if quantity == "flange_thickness" else "")
        + "}"
        for quantity, values in read.items()
        for place, value in zip(PLACES, values, strict=True)
        if value
    ]
    head = f"kind: inspection\nmeasured_on: {day}\nengine: e-1\npurpose: annual\nby: lead\nreadings:\n"
    return head + "\n".join(lines) + "\n" + more


def turning_ledger(
    folder: Path, read: Read | None = None, more: str = "", files: Mapping[str, str] | None = None
) -> Path:
    """The ledger, some of what was read otherwise, and some files more."""
    return small_ledger(folder, {AT: inspection({**READ, **(read or {})}, more=more), **(files or {})})
