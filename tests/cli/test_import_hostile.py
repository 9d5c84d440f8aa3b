"""Files that mean harm, powers that fail: no half record, no memory filled, no path but in the ledger."""

from __future__ import annotations

import io
import random
import zipfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.cli.commands import call
from tests.cli.sheets import FIXTURES, HEADS, importing, records, row, said, sheet, small_ledger
from tests.hostile.faults import Fault, files_of, problems_left, run_watched
from tests.hostile.writers import IMPORT, ROWS, to_import

from axlebook.sources.schemas import judge
from axlebook.sources.yaml_text import read_tree


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    return small_ledger(tmp_path)


@pytest.mark.parametrize("step", [1, 3, 5, 8, 11, 14, 17])
def test_a_kill_at_any_step_leaves_whole_records_and_the_same_call_completes(tmp_path: Path, step: int) -> None:
    (tmp_path / "whole").mkdir()
    (tmp_path / "killed").mkdir()
    undisturbed = to_import(tmp_path / "whole")
    assert run_watched(IMPORT, undisturbed, undisturbed).code == 0
    whole = files_of(undisturbed)
    root = to_import(tmp_path / "killed")
    before = files_of(root)
    ended = run_watched(IMPORT, root, root, Fault("kill", step))
    assert ended.code == -9, "the step was never reached: the file has too few records"
    assert problems_left(IMPORT, root, before, whole) == []
    assert run_watched(IMPORT, root, root).code == 0
    assert files_of(root) == whole


def test_a_full_disk_is_told_and_leaves_nothing_half(tmp_path: Path) -> None:
    root = to_import(tmp_path)
    ended = run_watched(IMPORT, root, root, Fault("full", 3))
    assert ended.code == 2
    assert "cannot be written" in ended.err
    assert records(root) == {}


def test_every_step_is_tried_where_time_allows(tmp_path: Path) -> None:
    root = to_import(tmp_path)
    steps = run_watched(IMPORT, root, root).steps
    assert steps >= 17, "the steps tried above must lie within the run"


def bomb(**members: bytes) -> bytes:
    """A zip file of some members."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members.items():
            archive.writestr(name.replace("__", "/").replace("_xml", ".xml"), content)
    return stream.getvalue()


ENTITIES = b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><x>&b;</x>'


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (bomb(xl__workbook_xml=b"0" * 60_000_000), "it unpacks to far more"),
        (bomb(**{f"f{number}": b"" for number in range(600)}), "it unpacks to far more"),
        (bomb(other=b"x"), "is a zip file, and no workbook"),
        (bomb(xl__workbook_xml=ENTITIES), "it declares things that no spreadsheet writes"),
        (bomb(xl__workbook_xml=b"<x/>"), "cannot be read as a workbook"),
        (b"PK\x03\x04" + b"\0" * 50, "it is broken"),
        (b"\xd0\xcf\x11\xe0" + b"\0" * 50, "of the old kind (.xls)"),
        (b"a\0b,c", "zero bytes"),
        (b"\xff\xfe\x00", "its encoding is not known"),
        (b"what,value\n\x81\x8d\x8f,\n", "its encoding is not known"),
        (b'what,value\n"crack', "cannot be parted into cells"),
        (b"what,value\n" + b"x" * 200_000, "cannot be parted into cells"),
        (b"what\n" * 20_002, "more than 20000 rows"),
        (b"what" + b"," * 300, "no sheet of readings has more than 200"),
    ],
)
def test_a_file_that_is_no_sheet_is_refused_in_a_sentence(ledger: Path, content: bytes, words: str) -> None:
    called = importing(ledger, content, "--write")
    assert called.code == 2
    assert words in called.err
    assert "fault of axlebook" not in called.err
    assert records(ledger) == {}


def test_a_file_larger_than_a_sheet_can_be_is_not_read(ledger: Path) -> None:
    with (ledger.parent / "large.csv").open("wb") as file:
        file.truncate(50_000_000_000)
    called = call("import", "../large.csv", at=ledger)
    assert called.code == 2
    assert "larger than 10 MB" in called.err


def test_a_sheet_that_lies_about_its_size_is_read_by_its_rows(ledger: Path) -> None:
    stream = io.BytesIO()
    with zipfile.ZipFile(FIXTURES / "typed.xlsx") as archive, zipfile.ZipFile(stream, "w") as lying:
        for member in archive.namelist():
            content = archive.read(member)
            if member.startswith("xl/worksheets/"):
                content = content.replace(b'<dimension ref="A1:N7"/>', b'<dimension ref="A1:XFD1048576"/>')
            lying.writestr(member, content)
    assert importing(ledger, stream.getvalue(), name="a.xlsx").code == 0


@pytest.mark.parametrize(
    "changed",
    [
        {"purpose": "../../../outside"}, {"purpose": "a/b"}, {"measured_on": "../2026"}, {"engine": "../e-1"},
        {"engine": "", "place": "", "part": "../../t-1"}, {"by": "../lead"}, {"instrument": "../../x"},
        {"purpose": "con"}, {"measured_on": "2026-01-10/../../x"}, {"purpose": "a\0b"},
    ],
)  # fmt: skip
def test_no_name_leads_out_of_the_ledger(ledger: Path, changed: dict[str, str]) -> None:
    outside = sorted(path.name for path in ledger.parent.iterdir())
    called = importing(ledger, sheet(row(**changed)), "--write")
    assert called.code == 2 or changed == {"purpose": "con"}
    assert sorted(path.name for path in ledger.parent.iterdir() if path.name != "readings.csv") == outside
    assert all(path.startswith("inspections/2026/2026-01-10-") for path in records(ledger))


@pytest.mark.parametrize("text", ["\x1b[31mred", "a\u202eb", "\x07", "a\u200bb"])
def test_signs_that_cannot_be_typed_are_refused_and_never_reach_the_terminal(ledger: Path, text: str) -> None:
    called = importing(ledger, sheet(row(note=text)), "--write")
    assert called.code == 2
    assert "signs that cannot be typed" in said(called)
    shown = importing(ledger, sheet(row(what=text)))
    assert text not in shown.out + shown.err


def test_a_cell_of_many_signs_is_refused(ledger: Path) -> None:
    assert "the cell holds 5000 characters" in said(importing(ledger, sheet(row(note="x" * 5000))))


def test_text_that_a_spreadsheet_would_run_is_taken_as_text_and_goes_out_neutral(ledger: Path) -> None:
    note = "=HYPERLINK(1)"
    assert importing(ledger, sheet(row(note=note)), "--write").code == 0
    assert call("export", "--existing", "-o", "../all.csv", at=ledger).code == 0
    assert f",'{note}" in (ledger.parent / "all.csv").read_text(encoding="utf-8-sig")
    called = call("import", "../all.csv", at=ledger)
    assert "0 rows new, 1 on record already" in said(called)


CELLS = st.one_of(
    st.sampled_from([
        "", "e-1", "e-9", "2026-01-10", "2026-13-40", "unknown", "annual", "lead v1", "tire_thickness", "crack",
        "lateral", "driver-1 left", "driver-1", "t-1-left", "0 deg", "worst", "2 7/16 in", "62 mm", "1/16", "16-Jan",
        "seen", "not seen", "no access", "rule-1", "1,5 in", "under 0.0015 in", "54 degF", "2 in; 3 in", "unknown",
    ]),
    st.text(max_size=12),
)  # fmt: skip
SOUND = {
    "measured on": ["2026-01-10", "2026-01-11", "2026-01", "unknown"], "purpose": ["annual", "periodic"],
    "by": ["lead", "v1 lead", ""], "position": ["0 deg", "90 deg", "worst"], "note": ["", "oil, \"thick\"", "; ;"],
    "place": ["driver-1 left", "driver-2 right"], "value": ["2 7/16 in", "62 mm", "2 in; 3 in", "unknown", ""],
    "instrument": ["rule-1", ""], "hold": ["on blocks", ""], "air temperature": ["54 degF", ""],
}  # fmt: skip
COLUMNS = [*HEADS, "row key", "part", "not measured because", "angle", "length"]
SOUND_ROWS = st.fixed_dictionaries({}, optional={head: st.sampled_from(cells) for head, cells in SOUND.items()})
WILD_ROWS = st.dictionaries(st.sampled_from([*COLUMNS, *SOUND]), CELLS, max_size=3)
FUZZED = st.tuples(
    st.sampled_from(",;\t"),
    st.one_of(st.lists(SOUND_ROWS, min_size=1, max_size=6), st.lists(SOUND_ROWS | WILD_ROWS, min_size=1, max_size=6)),
    st.one_of(st.just((0, b"")), st.just((0, b"")), st.tuples(st.integers(0, 600), st.binary(max_size=3))),
)


def never_a_part_of_a_record(folder: Path, drawn: tuple[str, list[dict[str, str]], tuple[int, bytes]]) -> None:
    """Whatever the file: exit 0 to 2, every record whole and sound, and the same file again adds nothing."""
    separator, changes, (at, spoil) = drawn
    root = small_ledger(folder)
    content = sheet(*({**ROWS[n % len(ROWS)], **one} for n, one in enumerate(changes)), separator=separator)
    content_bytes = content.encode("utf-8", "replace")
    if spoil:
        content_bytes = content_bytes[:at] + spoil + content_bytes[at + len(spoil) :]
    called = importing(root, content_bytes, "--write")
    assert called.code in (0, 1, 2)
    assert "fault of axlebook" not in called.err
    written = records(root)
    assert called.code != 2 or not written
    for path, text in written.items():
        assert judge(read_tree(text.encode()), path) == []
    assert importing(root, content_bytes, "--write").code in (0, 2)
    assert records(root) == written


def _once(tmp_path_factory: pytest.TempPathFactory, drawn: tuple[str, list[dict[str, str]], tuple[int, bytes]]) -> None:
    never_a_part_of_a_record(tmp_path_factory.mktemp("fuzz"), drawn)


@given(drawn=FUZZED)
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
def test_a_fuzzed_file_never_writes_a_part_of_a_record(
    tmp_path_factory: pytest.TempPathFactory, drawn: tuple[str, list[dict[str, str]], tuple[int, bytes]]
) -> None:
    _once(tmp_path_factory, drawn)


@pytest.mark.fuzz
@given(drawn=FUZZED)
@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
def test_many_fuzzed_files_never_write_a_part_of_a_record(
    tmp_path_factory: pytest.TempPathFactory, drawn: tuple[str, list[dict[str, str]], tuple[int, bytes]]
) -> None:
    _once(tmp_path_factory, drawn)


@pytest.mark.fuzz
def test_a_workbook_with_bytes_changed_is_refused_or_read_and_nothing_else(tmp_path: Path) -> None:
    whole = (FIXTURES / "typed.xlsx").read_bytes()
    chance = random.Random(15)
    for number in range(200):
        spoilt = bytearray(whole)
        for _ in range(chance.randint(1, 6)):
            spoilt[chance.randrange(len(spoilt))] = chance.randrange(256)
        (tmp_path / str(number)).mkdir()
        called = importing(small_ledger(tmp_path / str(number)), bytes(spoilt), name="a.xlsx")
        assert called.code in (0, 1, 2)
        assert "fault of axlebook" not in called.err
