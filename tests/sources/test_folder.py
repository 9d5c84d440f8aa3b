"""Which files of a folder are records, in which order, and what is said of the others."""

import os
from pathlib import Path

import pytest

from axlebook.sources.folder import find_ledger, list_attachments, read_folder
from axlebook.sources.names import file_problem, twin_problem


def write(root: Path, *paths: str) -> Path:
    for path in paths:
        place = root / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(f"kind: {path}\n".encode())
    return root


def problems(root: Path) -> dict[str, str]:
    return {entry.path: entry.problem.kind for entry in read_folder(root) if entry.problem}


def test_records_come_in_the_same_order_with_their_bytes(tmp_path: Path) -> None:
    write(tmp_path, "tires/t-2.yaml", "tires/t-1.yaml", "inspections/2026/2026-01-10-e-12.yaml",
          "engines/e-12.yaml", "ledger.yaml", "service/e-12-2026-01.yaml")
    entries = list(read_folder(tmp_path))
    assert [entry.path for entry in entries] == [
        "ledger.yaml", "engines/e-12.yaml", "tires/t-1.yaml", "tires/t-2.yaml",
        "inspections/2026/2026-01-10-e-12.yaml", "service/e-12-2026-01.yaml",
    ]
    assert all(entry.content == f"kind: {entry.path}\n".encode() for entry in entries)
    assert not problems(tmp_path)


def test_notes_for_people_and_dot_files_are_nobodys_records(tmp_path: Path) -> None:
    write(tmp_path, "ledger.yaml", "README.md", ".gitattributes", "tires/README.md", "tires/.gitkeep",
          "tires/.hidden/x.yaml", ".git/x.yaml", "schema/tire.schema.json", "drawings/plan.pdf",
          "attachments/2026/photo.jpg")
    assert [entry.path for entry in read_folder(tmp_path)] == ["ledger.yaml"]


def test_anything_else_among_the_records_is_named(tmp_path: Path) -> None:
    write(tmp_path, "tires/t-1.yml", "tires/t-2.txt", "tires/t-3.yaml~", "tires/t-4.YAML", "spare.yaml",
          "inspection/2026/a.yaml")
    assert problems(tmp_path) == {
        "tires/t-1.yml": "stray-file", "tires/t-2.txt": "stray-file", "tires/t-3.yaml~": "stray-file",
        "tires/t-4.YAML": "stray-file", "spare.yaml": "stray-file", "inspection": "unknown-folder",
    }


@pytest.mark.parametrize("stem", [
    "t-4471", "e-12-2026-03", "2026-01-10-e-12-annual", "1998-e-12-found", "a", "a" * 60, "com", "com10",
])
def test_an_id_is_lower_case_and_starts_with_a_letter_or_a_date(stem: str) -> None:
    assert file_problem(stem + ".yaml") is None


@pytest.mark.parametrize("stem", [
    "", "T-4471", "4471", "-a", "a b", "a_b", "a.b", "ä", "a" * 61, "con", "nul", "com1", "lpt9",
    "20260110-a", "aux", "2026", "2026-" + "a" * 56,
])
def test_any_other_id_is_refused(stem: str) -> None:
    problem = file_problem(stem + ".yaml")
    assert problem is not None
    assert problem.kind == "bad-name"


def test_a_badly_named_record_is_still_read(tmp_path: Path) -> None:
    write(tmp_path, "tires/T-1.yaml")
    (entry,) = read_folder(tmp_path)
    assert entry.problem is not None
    assert entry.content == b"kind: tires/T-1.yaml\n"


def test_two_names_that_differ_in_capitals_only_are_told_apart() -> None:
    seen: dict[str, str] = {}
    assert twin_problem("tires/T-1.yaml", seen) is None
    problem = twin_problem("tires/t-1.yaml", seen)
    assert problem is not None
    assert "tires/T-1.yaml" in problem.reason


def test_a_folder_too_deep_is_named_and_a_year_with_months_is_not(tmp_path: Path) -> None:
    write(tmp_path, "inspections/2026/01/2026-01-10-a.yaml", "inspections/2026/01/x/2026-01-10-b.yaml")
    entries = {entry.path: entry.problem and entry.problem.kind for entry in read_folder(tmp_path)}
    assert entries == {"inspections/2026/01/2026-01-10-a.yaml": None, "inspections/2026/01/x": "too-deep"}


def test_a_file_where_a_folder_belongs_is_named(tmp_path: Path) -> None:
    write(tmp_path, "tires")
    assert problems(tmp_path) == {"tires": "not-a-folder"}


def test_what_may_not_be_opened_is_a_problem_and_the_rest_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Refused by hand: the tests may run as a user who may open everything.
    write(tmp_path, "tires/t-1.yaml", "tires/t-2.yaml", "people/v1.yaml")
    scandir, opened = os.scandir, os.open

    def no_listing(place: str) -> object:
        if place.endswith("people"):
            raise PermissionError(13, "Permission denied")
        return scandir(place)

    def no_opening(place: str, flags: int) -> int:
        if place.endswith("t-1.yaml"):
            raise PermissionError(13, "Permission denied")
        return opened(place, flags)

    monkeypatch.setattr(os, "scandir", no_listing)
    monkeypatch.setattr(os, "open", no_opening)
    assert problems(tmp_path) == {"tires/t-1.yaml": "unreadable", "people": "unreadable"}
    assert [entry.path for entry in read_folder(tmp_path) if entry.content] == ["tires/t-2.yaml"]


def test_a_ledger_that_is_not_there_is_a_problem(tmp_path: Path) -> None:
    assert problems(tmp_path / "nowhere") == {".": "unreadable"}


def test_attachments_are_listed_and_not_read(tmp_path: Path) -> None:
    write(tmp_path, "attachments/2026/photo.jpg", "attachments/README.md", "attachments/2025/C-118.pdf")
    (tmp_path / "attachments/2026/link.pdf").symlink_to("/etc/passwd")
    assert [(entry.path, entry.content, entry.problem and entry.problem.kind)
            for entry in list_attachments(tmp_path)] == [
        ("attachments/2025/C-118.pdf", None, None),
        ("attachments/2026/link.pdf", None, "symlink"),
        ("attachments/2026/photo.jpg", None, None),
    ]
    assert list(list_attachments(tmp_path / "nowhere")) == []


def test_the_ledger_is_found_upward(tmp_path: Path) -> None:
    write(tmp_path, "book/ledger.yaml", "book/tires/2026/t-1.yaml", "other/x.yaml")
    book = Path(os.path.realpath(tmp_path)) / "book"
    assert find_ledger(tmp_path / "book") == book
    assert find_ledger(tmp_path / "book/tires/2026/t-1.yaml") == book
    assert find_ledger(tmp_path / "book/tires/nowhere") == book
    assert find_ledger(tmp_path / "other") is None
