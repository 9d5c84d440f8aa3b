"""The annual summary byte for byte. A change here is a change of what people print: read it, then write it anew.

python -m tests.reports.test_annual_golden
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from tests.cli.commands import AT, THIN, call, small_ledger

GOLDEN = Path(__file__).parent / "golden"
FILES = {
    AT: THIN + "not_measured:\n  - quantity: flange_height\n    places: [driver-1 left]\n    because: no access\n",
    "defects/2026/2026-01-10-flange.yaml": """kind: defect
found_on: 2026-01-10
engine: e-1
place: driver-2 right
what: "Flange at 15/16 in."
restriction:
  words: "Not to be used."
disposition: open
""",
}
SHAPES = {"annual.html": "html", "annual.md": "markdown"}


def rendered(folder: Path, shape: str) -> str:
    """The summary of the small ledger."""
    return call("annual", "e-1", "2026", "--format", shape, at=small_ledger(folder, FILES)).out


@pytest.mark.parametrize("name", SHAPES)
def test_the_same_records_give_the_same_summary_to_the_byte(tmp_path: Path, name: str) -> None:
    assert rendered(tmp_path, SHAPES[name]) == (GOLDEN / name).read_text(encoding="utf-8")


def _write() -> None:
    GOLDEN.mkdir(exist_ok=True)
    for name, shape in SHAPES.items():
        with tempfile.TemporaryDirectory() as folder:
            (GOLDEN / name).write_text(rendered(Path(folder), shape), encoding="utf-8")


if __name__ == "__main__":
    _write()
