"""The sheets byte for byte. A change here is a change of what people print: read it, then write the files anew.

    python -m tests.cli.test_sheets_golden
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from tests.cli.commands import call
from tests.cli.fit_ledger import FLAGS, fit_ledger, given

GOLDEN = Path(__file__).parent / "golden"
WHAT_IF = ("fit", *given(FLAGS), "--as-of", "2026-02-28")
SHEETS: dict[str, tuple[str, ...]] = {
    "fit-short.txt": ("fit", "t-new", "d-2-left"),
    "fit.txt": ("fit", "t-new", "d-2-left", "--all"),
    "fit.md": ("fit", "t-new", "d-2-left", "--format", "markdown"),
    "fit.html": ("fit", "t-new", "d-2-left", "--format", "html"),
    "what-if.txt": WHAT_IF,
    "what-if.json": (*WHAT_IF, "--format", "json"),
    "bore.txt": ("bore", "d-2-left", "--all"),
    "bore.md": ("bore", "d-2-left", "--format", "markdown"),
    "bore.html": ("bore", "d-2-left", "--format", "html"),
}


@pytest.mark.parametrize("name", SHEETS)
def test_the_same_records_give_the_same_sheet_to_the_byte(tmp_path: Path, name: str) -> None:
    out = call(*SHEETS[name], at=fit_ledger(tmp_path)).out
    assert out == (GOLDEN / name).read_text(encoding="utf-8")


def _write() -> None:
    with tempfile.TemporaryDirectory() as folder:
        root = fit_ledger(Path(folder))
        for name, arguments in SHEETS.items():
            (GOLDEN / name).write_text(call(*arguments, at=root).out, encoding="utf-8")


if __name__ == "__main__":
    _write()
