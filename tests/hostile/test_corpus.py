"""The kept inputs of the coverage-guided search, each told once more: what once broke, and what reaches most code."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from tests.hostile.fuzz_changes import changed
from tests.hostile.fuzz_targets import records_of, tell_records, tell_rows

CORPUS = Path(__file__).with_name("corpus")
RECORDS, ROWS = (sorted((CORPUS / name).iterdir()) for name in ("records", "rows"))


@pytest.mark.parametrize("path", RECORDS, ids=lambda path: path.stem)
def test_kept_records_are_told_in_clean_words(path: Path) -> None:
    assert tell_records(path.read_bytes())


@pytest.mark.parametrize("path", ROWS, ids=lambda path: path.stem)
def test_kept_rows_are_told_in_clean_words(path: Path) -> None:
    assert tell_rows(path.read_bytes())


@pytest.mark.parametrize("seed", range(40))
def test_a_kept_input_with_lines_changed_is_told_in_clean_words(seed: int) -> None:
    chance = random.Random(seed)
    assert tell_records(changed(chance.choice(RECORDS).read_bytes(), chance, CORPUS / "records"))
    assert tell_rows(changed(chance.choice(ROWS).read_bytes(), chance, CORPUS / "rows"))


def test_an_input_may_hold_several_records_each_at_its_place() -> None:
    two = b"# at tires/t-9.yaml\nkind: tire\n# at people/v9.yaml\nkind: person\n"
    assert records_of(two) == {"tires/t-9.yaml": b"kind: tire\n", "people/v9.yaml": b"kind: person\n"}
    assert list(records_of(b"kind: inspection\n")) == ["inspections/2026/2026-01-10-e-1-annual.yaml"]
    assert list(records_of(b"# at ../etc.yaml\nx: 1\n")) == ["inspections/2026/2026-01-10-e-1-annual.yaml"]
