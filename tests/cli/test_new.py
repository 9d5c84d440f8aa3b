"""`new`: a commented template that is valid as written, in its place, and never over another file."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.cli.commands import call, promised, small_ledger, uncommented

from axlebook.sources.schemas import FOLDERS, judge
from axlebook.sources.yaml_text import read_tree

KINDS = [kind for kind in FOLDERS if kind != "ledger"]
DATED = {"inspection", "tire-applied", "tire-removed", "tire-found", "mounting", "turning", "defect"}
IDS = {kind: f"2026-01-10-{kind}-x" if kind in DATED else f"{kind}-x" for kind in KINDS} | {"service": "e-1-2026-05"}


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    return small_ledger(tmp_path)


@pytest.mark.parametrize("kind", KINDS)
def test_the_template_of_every_kind_has_no_fault_of_form_as_written(ledger: Path, kind: str) -> None:
    called = call("new", kind, IDS[kind], at=ledger)
    assert called.code == 0, called.err
    path = called.lines[0]
    assert path == f"{FOLDERS[kind]}/{'2026/' if kind in DATED else ''}{IDS[kind]}.yaml"
    content = (ledger / path).read_bytes()
    assert judge(read_tree(content), path) == []
    assert b"\r" not in content


@pytest.mark.parametrize("kind", KINDS)
def test_a_template_with_every_comment_taken_away_is_yaml_and_knows_all_its_keys(ledger: Path, kind: str) -> None:
    path = call("new", kind, IDS[kind], at=ledger).lines[0]
    text = uncommented((ledger / path).read_text(encoding="utf-8"))
    assert "\n# note" not in text
    found = {problem.check for problem in judge(read_tree(text.encode()), path)}
    assert found <= {"wrong-form", "place-and-part"}  # a choice of two keys, of which only one may be used


def test_the_first_line_names_the_schema_by_a_path_that_is_there(ledger: Path) -> None:
    (ledger / "schema").mkdir()
    for kind, path in (("tire", "tires/t-9.yaml"), ("inspection", "inspections/2026/2026-01-10-a.yaml")):
        (ledger / "schema" / f"{kind}.schema.json").write_text("{}")
        assert call("new", kind, Path(path).stem, at=ledger).code == 0
        first = (ledger / path).read_text(encoding="utf-8").splitlines()[0]
        assert ((ledger / path).parent / first.partition("$schema=")[2]).is_file()


def test_the_id_fills_in_what_it_says(ledger: Path) -> None:
    call("new", "inspection", "2026-01-10-e-1-annual", at=ledger)
    tree = read_tree((ledger / "inspections/2026/2026-01-10-e-1-annual.yaml").read_bytes())
    assert tree == {"kind": "inspection", "measured_on": "2026-01-10", "engine": "e-1", "purpose": "annual"}
    call("new", "tire-found", "2026-01-10-t-1-left-found", at=ledger)
    tree = read_tree((ledger / "tire-work/2026/2026-01-10-t-1-left-found.yaml").read_bytes())
    assert tree == {"kind": "tire-found", "found_on": "2026-01-10", "tire": "t-1-left", "center": "which-center"}


def test_the_help_names_every_kind_in_order(tmp_path: Path) -> None:
    words = " ".join(call("new", "--help", at=tmp_path).out.split()).replace("- ", "-")  # a line may end at a hyphen
    assert f"KIND is one of {', '.join(KINDS)}." in words


def test_a_template_of_a_driver_has_pins_of_the_size_of_pins_and_offers_all_of_each_center(ledger: Path) -> None:
    call("new", "driver", "d-9", at=ledger)
    text = (ledger / "drivers" / "d-9.yaml").read_text(encoding="utf-8")
    pins = text.partition("# crank_pins:")[2].partition("\n\n")[0]
    assert "nominal_diameter: 5 in  # Of the pin, as made." in pins
    for side in ("left", "right"):
        center = text.partition(f"  d-9-{side}:")[2].partition("\n\n")[0]
        assert "    # nominal_diameter: 44 in  # Outside, over the seat of the tire, as made.\n" in center
        assert "    # solid: no  # yes, a plate in place of spokes.\n" in center


def test_a_center_is_told_to_be_a_key_of_its_wheelset_and_no_record(ledger: Path) -> None:
    for kind in ("tire-applied", "tire-found", "tire-removed", "mounting"):
        call("new", kind, f"2026-01-10-{kind}", at=ledger)
        folder = "mountings" if kind == "mounting" else "tire-work"
        text = (ledger / folder / "2026" / f"2026-01-10-{kind}.yaml").read_text(encoding="utf-8")
        above = text.partition("\ncenter: ")[0].splitlines()[-1]
        assert above.startswith("# Which center: its key under `centers` of ")


def test_what_is_not_known_is_asked_for_and_never_stated(ledger: Path) -> None:
    call("new", "tire-applied", "2026-01-10-x", at=ledger)
    tree = read_tree((ledger / "tire-work/2026/2026-01-10-x.yaml").read_bytes())
    assert (tree["tire"], tree["center"]) == ("which-tire", "which-center")
    assert "which-tire" in call("check", "--all", at=ledger).out


@pytest.mark.parametrize(
    ("kind", "id", "key", "stands", "such_as"),
    [
        ("person", "v9", "role", "unknown", "mechanical lead"),
        ("instrument", "tape-9", "type", "unknown", "pi tape"),
        ("waiver", "w-9", "reason", "...", "a new tire is on order"),
        ("correction", "c-9", "reason", "...", "read again by two people"),
    ],
)
def test_an_example_is_told_beside_what_stands_and_never_stated(
    ledger: Path, kind: str, id: str, key: str, stands: str, such_as: str
) -> None:
    path = call("new", kind, id, at=ledger).out.splitlines()[0]
    assert read_tree((ledger / path).read_bytes())[key] == stands
    above = (ledger / path).read_text(encoding="utf-8").partition(f"\n{key}:")[0].splitlines()[-1]
    assert above.endswith(f"Such as: {such_as}.")


@pytest.mark.parametrize(
    ("kind", "id", "says"),
    [
        ("tyre", "t-9", "Did you mean tire?"),
        ("zzz", "t-9", "Kinds: engine, driver"),
        ("\x1b[31m", "t-9", "\\x1b[31m"),
        ("ledger", "x", "axlebook init DIR"),
        ("tire", "T 9", "Write t-9"),
        ("tire", "../../t-9", "is no id"),
        ("tire", "nul", "is no id"),
        ("engine", "99 11", "such as e-99-11 for an engine"),
        ("tire", "", "is no id"),
        ("tire", "t" * 61, "at most 60"),
        ("tire", "t\x1b[31m\n", "is no id"),
        ("tire", "t-1-left", "there is a record t-1-left already: tires/t-1-left.yaml"),
        ("engine", "t-1-left", "An id is used once"),
        ("inspection", "e-1-annual", "begins with its date, such as 2026-01-10-e-1-annual"),
        ("inspection", "2026-02-30-a", "is no id"),
    ],
)
def test_a_bad_kind_or_id_is_refused_with_what_to_write(ledger: Path, kind: str, id: str, says: str) -> None:
    before = sorted(ledger.rglob("*"))
    called = call("new", kind, id, at=ledger)
    assert (called.code, called.out) == (2, "")
    assert says in called.err
    assert "\x1b" not in called.err
    assert sorted(ledger.rglob("*")) == before


def test_a_file_that_is_no_record_is_not_written_over_either(ledger: Path) -> None:
    (ledger / "people" / "chair.yaml").symlink_to("nowhere.yaml")
    called = call("new", "person", "chair", at=ledger)
    assert called.code == 2
    assert not (ledger / "people" / "nowhere.yaml").exists()


def test_a_folder_that_cannot_be_made_is_a_sentence(ledger: Path) -> None:
    (ledger / "mountings").write_text("a file where a folder should be")
    called = call("new", "mounting", "2026-01-10-a", at=ledger)
    assert called.code == 2
    assert "cannot be written" in called.err


def test_the_json_tells_the_path(ledger: Path) -> None:
    told = promised(call("new", "tire", "t-9", "--format", "json", at=ledger).out)
    assert told["result"] == {"path": "tires/t-9.yaml"}


def test_the_tolerance_that_the_template_of_a_limit_set_shows_is_no_size_of_a_tire(tmp_path: Path) -> None:
    assert call("init", "book", at=tmp_path).code == 0
    assert call("new", "limit-set", "our-shop", at=tmp_path / "book").code == 0
    text = (tmp_path / "book/limits/our-shop.yaml").read_text(encoding="utf-8")
    assert "#       minus: 1/32 in\n#       plus: 1/32 in\n" in text
    assert "#     value: 0.012 in  # The figure itself, in place of a table or a share.\n" in text
    assert "#     per: 1 ft  # Where value and tolerance are for each of this and not as they stand.\n" in text


METRIC = "kind: ledger\nrailway: Invented\ndefaults:\n  display_units: mm\n"
OTHERS = r"[0-9] (?:in|ft|lb|mph|mi|mile|psi|ksi|lbf|(?:short|long) tonf?)\b(?! [0-9])|degF"


@pytest.mark.parametrize("kind", KINDS)
def test_a_railway_that_shows_millimetres_is_shown_no_other_measure(tmp_path: Path, kind: str) -> None:
    ledgers = small_ledger(tmp_path / "inches"), small_ledger(tmp_path / "mm", {"ledger.yaml": METRIC})
    path, _ = (call("new", kind, IDS[kind], at=ledger).lines[0] for ledger in ledgers)
    inches, text = ((ledger / path).read_text(encoding="utf-8") for ledger in ledgers)
    values = [line.partition("  # ")[0] for line in text.splitlines() if ": " in line and not line.startswith("# A")]
    assert [line for line in values if re.search(OTHERS, line)] == []
    found, known = (
        [(problem.check, problem.pointer) for problem in judge(read_tree(uncommented(one).encode()), path)]
        for one in (text, inches)
    )
    assert found == known  # each is a measure of what its key asks for, as in inches


@pytest.mark.parametrize(
    ("ledger_says", "engine_says", "shown"), [("inch", "mm", "62 mm"), ("mm", "inch", "2 7/16 in")]
)
def test_a_record_of_an_engine_with_units_of_its_own_is_shown_those(
    tmp_path: Path, ledger_says: str, engine_says: str, shown: str
) -> None:
    said = METRIC.replace("display_units: mm", f"display_units: {ledger_says}")
    engine = f"kind: engine\noverrides:\n  display_units: {engine_says}\n"
    ledger = small_ledger(tmp_path, {"ledger.yaml": said, "engines/e-2.yaml": engine})
    path = call("new", "inspection", "2026-01-10-e-2-annual", at=ledger).lines[0]
    assert f"#       0 deg: {shown}\n" in (ledger / path).read_text(encoding="utf-8")


@pytest.mark.parametrize("said", ["", "defaults: {display_units: inch}\n", "defaults: [mm]\n", "defaults: {\n"])
def test_a_ledger_that_says_nothing_of_its_units_or_cannot_be_read_is_shown_inches(tmp_path: Path, said: str) -> None:
    ledger = small_ledger(tmp_path, {"ledger.yaml": f"kind: ledger\nrailway: Invented\n{said}"})
    call("new", "driver", "d-9", at=ledger)
    assert "# nominal_diameter: 44 in" in (ledger / "drivers" / "d-9.yaml").read_text(encoding="utf-8")
