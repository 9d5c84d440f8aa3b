"""Sheets to take to the wheel, byte for byte. A change here is a change of what people print: read it, then

python -m tests.cli.test_sheet_golden
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from tests.cli.commands import call
from tests.cli.fit_ledger import fit_ledger
from tests.cli.sheet_ledger import sheet_ledger

GOLDEN = Path(__file__).parent / "golden"
SHEETS: dict[str, tuple[str, ...]] = {
    "sheet-wheelset.html": ("sheet", "d-2", "--purpose", "yearly"),
    "sheet-wheelset.md": ("sheet", "d-2", "--purpose", "yearly", "--format", "markdown"),
    "sheet-receiving.md": ("sheet", "t-new", "--purpose", "receiving", "--format", "markdown"),
    "sheet-apply.html": ("sheet", "t-new", "--purpose", "apply"),
}


def _printed(folder: Path, name: str) -> str:
    ledger = sheet_ledger if "wheelset" in name else fit_ledger
    return call(*SHEETS[name], at=ledger(folder)).out


@pytest.mark.parametrize("name", SHEETS)
def test_the_same_records_give_the_same_sheet_to_the_byte(tmp_path: Path, name: str) -> None:
    assert _printed(tmp_path, name) == (GOLDEN / name).read_text(encoding="utf-8")


def _write() -> None:
    for name in SHEETS:
        with tempfile.TemporaryDirectory() as folder:
            (GOLDEN / name).write_text(_printed(Path(folder), name), encoding="utf-8")


if __name__ == "__main__":
    _write()
