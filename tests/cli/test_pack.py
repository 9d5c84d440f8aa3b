"""`pack`: one zip that can be read without this tool, the same bytes for the same book, and verified."""

from __future__ import annotations

import hashlib
import io
import zipfile
from pathlib import Path

from tests.cli.commands import AT, THIN, call, promised, small_ledger

JPEG = b"\xff\xd8\xff\xe0" + bytes(range(200))
CITED = f'attachments:\n  - file: 2026/a.jpg\n    sha256: {hashlib.sha256(JPEG).hexdigest()}\n    shows: "a flange"\n'


def packed(folder: Path) -> Path:
    """A capsule of the small ledger with a photo."""
    root = small_ledger(folder, {AT: THIN + CITED})
    (root / "attachments" / "2026").mkdir(parents=True)
    (root / "attachments" / "2026" / "a.jpg").write_bytes(JPEG)
    called = call("pack", "1", "-o", str(folder / "e.zip"), at=root)
    assert (called.code, called.err) == (0, "")
    return folder / "e.zip"


def contents(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as capsule:
        return {name: capsule.read(name) for name in capsule.namelist()}


def test_it_holds_records_limits_schemas_photos_and_a_page_in_plain_words(tmp_path: Path) -> None:
    found = contents(packed(tmp_path))
    assert found["ledger/attachments/2026/a.jpg"] == JPEG
    assert b"HOW TO READ THIS IN THIRTY YEARS" in found["README.txt"]
    assert {"status.txt", "findings.txt", "CHECKSUMS.txt", f"ledger/{AT}", "ledger/limits/us-49-cfr-230.yaml",
            "ledger/schema/tire.schema.json", "ledger/ledger.yaml"} <= set(found)  # fmt: skip


def test_every_checksum_is_that_of_its_file_and_none_is_left_out(tmp_path: Path) -> None:
    found = contents(packed(tmp_path))
    lines = (line.split("  ", 1) for line in found.pop("CHECKSUMS.txt").decode().splitlines())
    assert {path: sha256 for sha256, path in lines} == {
        path: hashlib.sha256(content).hexdigest() for path, content in found.items()
    }


def test_the_same_book_gives_the_same_bytes(tmp_path: Path) -> None:
    one = packed(tmp_path)
    assert call("pack", "1", "-o", str(tmp_path / "f.zip"), at=tmp_path / "ledger").code == 0
    assert (tmp_path / "f.zip").read_bytes() == one.read_bytes()
    with zipfile.ZipFile(one) as capsule:
        entries = capsule.infolist()
    assert [entry.filename for entry in entries] == sorted(entry.filename for entry in entries)
    assert {entry.date_time for entry in entries} == {(1980, 1, 1, 0, 0, 0)}
    assert {entry.compress_type for entry in entries} == {zipfile.ZIP_STORED}


def test_the_unpacked_book_answers_as_of_its_day(tmp_path: Path) -> None:
    with zipfile.ZipFile(packed(tmp_path)) as capsule:
        capsule.extractall(tmp_path / "out")
    inside = promised(call("check", "--format", "json", at=tmp_path / "out" / "ledger").out)
    outside = promised(call("check", "--format", "json", at=tmp_path / "ledger").out)
    assert inside["as_of"] == outside["as_of"]
    assert inside["counts"] == outside["counts"]


def test_a_whole_capsule_is_verified(tmp_path: Path) -> None:
    called = call("pack", "--verify", str(packed(tmp_path)), at=tmp_path)
    assert called.code == 0
    assert "all there, none altered, nothing besides.\n" in called.out


def test_one_that_was_packed_again_is_whole_and_said_to_be_packed_again(tmp_path: Path) -> None:
    found = contents(packed(tmp_path))
    with zipfile.ZipFile(tmp_path / "g.zip", "w", zipfile.ZIP_DEFLATED) as capsule:
        for path, content in found.items():
            capsule.writestr(path, content)
    called = call("pack", "--verify", "g.zip", at=tmp_path)
    assert called.code == 0
    assert "packed again" in called.out


def test_altered_missing_and_extra_are_told_apart(tmp_path: Path) -> None:
    found = contents(packed(tmp_path))
    del found["status.txt"]
    found["README.txt"] += b"!"
    found["more.txt"] = b"x"
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as capsule:
        for path, content in found.items():
            capsule.writestr(path, content)
    (tmp_path / "h.zip").write_bytes(out.getvalue())
    called = call("pack", "--verify", "h.zip", "--format", "json", at=tmp_path)
    assert called.code == 1
    assert promised(called.out)["result"]["problems"] == [
        "'README.txt' was altered", "'status.txt' is missing", "'more.txt' is extra: no checksum tells of it",
    ]  # fmt: skip


def test_nothing_is_overwritten_and_wrong_calls_are_refused(tmp_path: Path) -> None:
    one = packed(tmp_path)
    before = one.read_bytes()
    for arguments in (("1", "-o", str(one)), ("9",), (), ("1", "--verify", str(one)), ("--verify", "none.zip")):
        called = call("pack", *arguments, at=tmp_path / "ledger")
        assert (called.code, called.out) == (2, "")
    assert one.read_bytes() == before
