"""`wear` byte for byte. A change here is a change of what people read: look at it, then write the files anew.

python -m tests.cli.test_wear_golden
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from tests.cli.commands import call
from tests.cli.wear_ledger import wear_ledger

GOLDEN = Path(__file__).parent / "golden"
CALLS: dict[str, tuple[str, ...]] = {
    "wear.txt": ("wear",),
    "wear-part.txt": ("wear", "t-2-right"),
    "wear-all.txt": ("wear", "--all"),
    "wear.md": ("wear", "--format", "markdown"),
}


@pytest.mark.parametrize("name", CALLS)
def test_the_same_records_give_the_same_words_to_the_byte(tmp_path: Path, name: str) -> None:
    assert call(*CALLS[name], at=wear_ledger(tmp_path)).out == (GOLDEN / name).read_text(encoding="utf-8")


def _write() -> None:
    with tempfile.TemporaryDirectory() as folder:
        root = wear_ledger(Path(folder))
        for name, arguments in CALLS.items():
            (GOLDEN / name).write_text(call(*arguments, at=root).out, encoding="utf-8")


if __name__ == "__main__":
    _write()
