"""A sum that cannot be worked out gives the lines to write and their file; a blank left in them never passes."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.commands import call
from tests.cli.fit_ledger import BORE_AT, TIRE, fit_ledger

NO_METAL = """\
kind: ledger
railway: "Bracken Vale Railway (invented)"
"""
DRIVER = """\
kind: driver
axle:
  stamped_end: unknown
centers:
  d-1-left:
    first_side: left
"""
SHOP = """\
kind: inspection
measured_on: 2026-03-01
purpose: shop
readings:
"""
SHOP_AT = "inspections/2026/2026-03-01-d-1-shop.yaml"


def begun(at: Path, **files: str) -> Path:
    """A new ledger with one bare wheelset."""
    assert call("init", "book", at=at).code == 0
    for path, text in {"ledger.yaml": NO_METAL, "drivers/d-1.yaml": DRIVER, **files}.items():
        (at / "book" / path).parent.mkdir(parents=True, exist_ok=True)
        (at / "book" / path).write_text(text, encoding="utf-8")
    return at / "book"


def lines_of(root: Path, *words: str) -> tuple[str, str]:
    """What a refusal says, and the lines below it."""
    called = call(*words, at=root)
    assert (called.code, called.out) == (2, "")
    said, _, lines = called.err.partition("\n")
    return said, lines


def test_a_railway_that_shows_millimetres_is_asked_for_no_inches(tmp_path: Path) -> None:
    root = begun(tmp_path, **{"ledger.yaml": f"{NO_METAL}defaults:\n  display_units: mm\n"})
    _, lines = lines_of(root, "bore", "d-1-left")
    assert "    part_temperature: ... degC\n" in lines
    assert "      0 deg inner: ... mm\n" in lines
    assert " in\n" not in lines
    assert "degF" not in lines


def test_a_begun_book_comes_to_a_bore_by_copying_what_each_refusal_asks(tmp_path: Path) -> None:
    root = begun(tmp_path)
    bore = ("bore", "d-1-left")

    said, lines = lines_of(root, *bore)
    assert "The lines for an inspection (`axlebook new inspection DAY-d-1-shop`" in said
    reading = lines.replace("readings:\n", "").replace("... in", "44.003 in").replace("INSTRUMENT", "micrometer-1")
    (root / SHOP_AT).parent.mkdir(parents=True)
    (root / SHOP_AT).write_text(SHOP + reading.replace("... degF", "61 degF"), encoding="utf-8")

    said, lines = lines_of(root, *bore)
    assert said.endswith("The lines for drivers/d-1.yaml, below `d-1-left:`:")
    (root / "drivers/d-1.yaml").write_text(DRIVER + lines, encoding="utf-8")

    said, lines = lines_of(root, *bore)
    assert said.endswith(
        "Enter it under `materials: cast steel` in ledger.yaml, with its source. The lines for ledger.yaml:"
    )
    (root / "ledger.yaml").write_text(NO_METAL + lines, encoding="utf-8")

    said, lines = lines_of(root, *bore)
    assert said.endswith("(`axlebook new instrument micrometer-1`), one of the two:")
    instrument = "kind: instrument\ntype: outside micrometer\n" + lines.partition("\n")[0] + "\n"
    (root / "instruments/micrometer-1.yaml").write_text(instrument, encoding="utf-8")

    said, lines = lines_of(root, *bore)
    assert said.endswith("The lines for limits/own-practice.yaml:")
    (root / "limits/own-practice.yaml").write_text(lines.replace("... in", ".005 in"), encoding="utf-8")

    said, lines = lines_of(root, *bore)
    assert "limits/own-practice.yaml has one" in said
    adopted = lines.replace("adopted_on: ...", "adopted_on: 2026-02-01")
    ledger = (root / "ledger.yaml").read_text(encoding="utf-8")
    (root / "ledger.yaml").write_text(ledger + adopted, encoding="utf-8")

    called = call(*bore, "--as-of", "2026-03-02", at=root)
    # 44.003 in at 61 degF by true length is 44.005 in at 68 degF; less .047 in by the printed table for 44 in
    assert "Aim at: 43.958 in" in called.out, called.out + called.err


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("materials: cast steel: 6.5e-6\n", "line 3 of ledger.yaml is not read as it is written: A colon stands where"),
        ("materials:\n  cast steel: 6.5e-6\n", "line 4 of ledger.yaml is not read as it is written: `cast steel` must"),
        (
            "materials:\n  cast steel:\n    expansion: 6.5e-6\n    source: ours\n",
            "line 5 of ledger.yaml is not read as it is written: `expansion`: read `6.5e-6`: the number has no unit",
        ),
        ("materials:\n  Cast-Steel:\n    expansion: 6.5e-6 /degF\n    source: ours\n", "There now: Cast-Steel."),
    ],
)
def test_figures_of_a_metal_in_a_wrong_form_are_answered_by_their_line_not_as_absent(
    tmp_path: Path, written: str, says: str
) -> None:
    reading = SHOP + "  - quantity: center_diameter\n    part: d-1-left\n    values:\n      0 deg: 44 in\n"
    files = {
        "ledger.yaml": NO_METAL + written, SHOP_AT: reading, "drivers/d-1.yaml": DRIVER + "    material: cast steel\n"
    }  # fmt: skip
    said, lines = lines_of(begun(tmp_path, **files), "bore", "d-1-left")
    assert says in said
    assert "    expansion: 6.5e-6 /degF\n" in lines


def test_the_lines_as_they_are_given_measure_nothing_and_are_found_by_check(tmp_path: Path) -> None:
    root = begun(tmp_path)
    _, lines = lines_of(root, "bore", "d-1-left")
    (root / SHOP_AT).parent.mkdir(parents=True)
    (root / SHOP_AT).write_text(SHOP.replace("readings:\n", "") + lines, encoding="utf-8")
    checked = " ".join(call("check", "--all", at=root).out.split())
    assert "read `... in`" in checked
    assert call("bore", "d-1-left", at=root).code == 2


def test_a_tire_that_nobody_measured_is_told_with_the_lines_of_its_bore(tmp_path: Path) -> None:
    reading = SHOP + (
        "  - quantity: center_diameter\n    part: d-1-left\n    with: true-1\n    part_temperature: 61 degF\n"
        "    values:\n      0 deg: 44 in\n"
    )
    metals = "materials:\n  cast steel:\n    expansion: 6.5e-6 /degF\n    source: ours\n"
    files = {
        "ledger.yaml": NO_METAL + metals, SHOP_AT: reading, "drivers/d-1.yaml": DRIVER + "    material: cast steel\n",
        "instruments/true-1.yaml": "kind: instrument\ntype: outside micrometer\nexpansion: reads true length\n",
        "tires/t-1.yaml": "kind: tire\n",
    }  # fmt: skip
    said, lines = lines_of(begun(tmp_path, **files), "fit", "t-1", "d-1-left")
    assert "no tire bore is on record" in said
    assert "axlebook enter t-1 --purpose receiving" in said
    assert lines.startswith("readings:\n  - quantity: tire_bore\n    part: t-1\n    with: INSTRUMENT\n")


def test_a_wheelset_whose_record_is_not_read_is_no_unknown_center(tmp_path: Path) -> None:
    root = begun(tmp_path, **{"drivers/d-2.yaml": "kind: driver\ncenters:\n  d-2-left:\n    first_side: left\n"})
    said, _ = lines_of(root, "bore", "d-2-left")
    assert "line 1 of drivers/d-2.yaml is not read as it is written: `axle` is missing" in said


OTHER_AT = "inspections/2026/2026-01-11-d-2-shop.yaml"
INSPECTION = """kind: inspection
measured_on: 2026-01-11
engine: e-1
purpose: shop
by: lead
readings:
"""
TAPED = "  - {quantity: tread_diameter, part: t-new, with: true-1, values: {all round: 51 in}}\n"


@pytest.mark.parametrize(
    ("written", "line"),
    [
        ("{quantity: tire_bore, part: t-new, with: true-1, values: {0 deg: 43.965}}", 7),
        ("{quantity: tire_bor, part: t-new, with: true-1, values: {0 deg: 43.965 in}}", 7),
        ("{quantity: tire_bore, with: true-1, values: {0 deg: 43.965 in}}", 7),
        ("{quantity: tire_bore, part: t-new\twith: true-1}", 7),
        ("{quantity: tire_bore, part: t-old, with: true-1, values: {0 deg: 43.965}}", 0),
        ("{quantity: tread_diameter, part: t-new, with: true-1, values: {0 deg: 43.965}}", 0),
        ("{quantity: tire_bore, place: driver-1 right, with: true-1, values: {0 deg: 43.965}}", 0),
        ("{quantity: tread_diameter, part: t-old\twith: true-1}", 0),
    ],
)
def test_a_missing_bore_is_laid_to_a_reading_that_is_not_read_only_where_it_may_be_that_bore(
    tmp_path: Path, written: str, line: int
) -> None:
    files = {
        BORE_AT: INSPECTION + TAPED, OTHER_AT: f"{INSPECTION}  - {written}\n", "tires/t-old.yaml": TIRE
    }  # fmt: skip
    said, lines = lines_of(fit_ledger(tmp_path, **files), "fit", "t-new", "d-2-left")
    assert (f"line {line} of {OTHER_AT} is not read as it is written" in said) is bool(line), said
    assert ("no tire bore is on record. Measure it" in said) is (not line)
    assert "part: t-new" in lines


def test_an_expansion_of_an_instrument_in_a_wrong_form_is_answered_by_its_line(tmp_path: Path) -> None:
    wrong = {"instruments/true-1.yaml": "kind: instrument\ntype: length bar\nexpansion: 6.5e-6\n"}
    said, _ = lines_of(fit_ledger(tmp_path, **wrong), "fit", "t-new", "d-2-left")
    assert "line 3 of instruments/true-1.yaml is not read as it is written" in said
    assert "Until then the expansion of true-1 is not on record." in said
