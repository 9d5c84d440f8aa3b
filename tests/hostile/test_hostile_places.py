"""References, attachments, output folders, capsules and revisions that lead elsewhere: refused in a sentence."""

from __future__ import annotations

import csv
import hashlib
import io
import os
import re
import zipfile
from pathlib import Path

import pytest
from tests.cli.commands import AT, THIN, call, small_ledger
from tests.cli.repositories import small_repository
from tests.hostile.poisoned import poisoned_demo
from tests.hostile.test_capsule import zipped
from tests.hostile.test_hostile_ledger import (
    answered,
    in_a_browser,
    in_a_spreadsheet,
    on_a_terminal,
)

# What a reader of a table could be moved or turned by; signs without width are told as they stand in the record.
MOVES = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
SECRET = b"\xff\xd8\xff\xe0 nobody is to see this secret"
CITES = "attachments:\n  - file: {}\n    sha256: " + hashlib.sha256(SECRET).hexdigest() + '\n    shows: "a flange"\n'
ELSEWHERE = ["../../secret.jpg", "/etc/passwd", "..\\\\..\\\\secret.jpg", "2026/../../../secret.jpg", "2026/link.jpg",
             "2026/pipe.jpg", "2026/zero.jpg", "linked/secret.jpg", "file:///etc/passwd", "2026", "."]  # fmt: skip


def with_attachment(folder: Path, named: str) -> Path:
    """A ledger whose record cites a name; beside it and in it, what the name may lead to."""
    (folder / "secret.jpg").write_bytes(SECRET)
    root = small_ledger(folder, {AT: THIN + CITES.format(f'"{named}"')})
    (root / "attachments/2026").mkdir(parents=True)
    (root / "attachments/2026/link.jpg").symlink_to(folder / "secret.jpg")
    (root / "attachments/2026/zero.jpg").symlink_to("/dev/zero")
    (root / "attachments/linked").symlink_to(folder)
    os.mkfifo(root / "attachments/2026/pipe.jpg")
    return root


@pytest.mark.parametrize("named", ELSEWHERE)
def test_an_attachment_that_leads_out_of_the_ledger_is_found_and_not_followed(named: str, tmp_path: Path) -> None:
    root = with_attachment(tmp_path, named)
    checked = call("check", "--all", at=root)
    answered(checked)
    assert checked.code == 1
    assert any(words in checked.out for words in ("attachment", "photo", "does not stand", "cannot"))
    assert call("pages", "../site", at=root).code == 0
    assert call("pack", "1", "-o", "../e.zip", at=root).code == 0
    assert call("annual", "e-1", "2026", "-o", "../annual.html", at=root).code in (0, 1)
    with zipfile.ZipFile(tmp_path / "e.zip") as capsule:
        written = [capsule.read(name) for name in capsule.namelist()]
    written += [path.read_bytes() for path in (tmp_path / "site").rglob("*") if path.is_file()]
    written.append((tmp_path / "annual.html").read_bytes())
    assert not [content for content in written if b"secret\n" in content or SECRET in content or b"root:x:" in content]


@pytest.mark.parametrize("key", ["engine: e-1", "by: lead", "with: gauge-1", "place: driver-2 right"])
@pytest.mark.parametrize("named", ["../../secret", "/etc/passwd", "a/../../b", "\\u0000", "e-1\\u202e", "\\e[31mred"])
def test_a_reference_that_leads_elsewhere_is_a_finding(key: str, named: str, tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THIN.replace(key, f'{key.partition(":")[0]}: "{named}"')})
    called = call("check", "--all", at=root)
    answered(called)
    assert called.code == 1
    on_a_terminal(called.out)
    assert AT in called.out


@pytest.fixture(scope="module")
def poisoned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return poisoned_demo(tmp_path_factory.mktemp("poisoned"))


def test_no_page_of_the_book_acts_in_a_browser(poisoned: Path) -> None:
    assert call("pages", "../site", at=poisoned).code == 0
    pages = sorted((poisoned.parent / "site").rglob("*.html"))
    assert len(pages) > 50
    for page in pages:
        assert b"<planted-tag" not in page.read_bytes(), page.name
    for page in (*pages[:: len(pages) // 12], poisoned.parent / "site" / "index.html"):
        in_a_browser(page.read_text(encoding="utf-8"))


def test_no_paper_sheet_acts_in_a_browser(poisoned: Path) -> None:
    assert call("sheet", "e-12", "-o", "../sheet.html", at=poisoned).code == 0
    in_a_browser((poisoned.parent / "sheet.html").read_text(encoding="utf-8"))


@pytest.mark.parametrize("asked", ["export e-12", "export --existing"])
def test_no_sheet_for_a_spreadsheet_acts_in_it(asked: str, poisoned: Path) -> None:
    called = call(*asked.split(), at=poisoned)
    assert called.code == 0, called.err
    in_a_spreadsheet(called.out.removeprefix("\ufeff"))


def test_no_table_acts_in_a_spreadsheet(poisoned: Path) -> None:
    assert call("export", "--tables", "../tables", at=poisoned).code == 0
    for path in sorted((poisoned.parent / "tables").glob("*.csv")):
        rows = list(csv.reader(io.StringIO(path.read_text(encoding="utf-8-sig"), newline="")))
        words = [cell for row in rows for cell in row if cell.lstrip().startswith(("=", "+", "-", "@"))]
        assert not [cell for cell in words if not cell.lstrip("+-").replace(".", "").replace("e-", "").isdecimal()]
        assert not [cell for row in rows for cell in row if MOVES.search(cell)]


@pytest.mark.parametrize("name", ["../../out", "/tmp/out", "C:/x", "a\\..\\x", "red\x1b[31m", "turned\u202eexe"])
def test_a_capsule_that_would_unpack_elsewhere_is_told_in_clean_words(name: str, tmp_path: Path) -> None:
    (tmp_path / "e.zip").write_bytes(zipped((name, b"x")).getvalue())
    called = call("pack", "--verify", "e.zip", at=tmp_path)
    assert called.code == 1
    assert "leads elsewhere" in called.out
    assert "NOT whole" in called.out
    on_a_terminal(called.out)
    assert [path.name for path in tmp_path.iterdir()] == ["e.zip"]


@pytest.mark.parametrize(
    "content", [b"", b"PK", b"no zip at all", zipped(("a", bytes(20_000_000)), method=8).getvalue()]
)
def test_a_capsule_that_is_none_or_a_bomb_is_told_in_a_sentence(content: bytes, tmp_path: Path) -> None:
    (tmp_path / "e.zip").write_bytes(content)
    called = call("pack", "--verify", "e.zip", at=tmp_path)
    assert called.code == 1
    assert "NOT whole" in called.out


REVISIONS = ["--upload-pack=touch planted", "--output=planted", "--exec=touch planted", "-x", "HEAD:../../etc/passwd",
             "HEAD..planted", "$(touch planted)", "`touch planted`", "HEAD\nplanted", "\x1b[31m", "@{-1}", "x" * 5000,
             "ext::sh -c touch% planted", ":/planted", "HEAD^{/planted}"]  # fmt: skip
AT_A_REVISION = ["check --at", "status --at", "due --at", "history t-2-right --at", "pages ../site --at",
                 "pack 1 --at", "compare", "compare --", "annual e-1 2026 --at"]  # fmt: skip


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return small_repository(tmp_path_factory.mktemp("revisions"), {AT: THIN})


@pytest.mark.parametrize("asked", AT_A_REVISION)
@pytest.mark.parametrize("revision", REVISIONS)
def test_a_revision_that_is_an_option_or_a_command_is_refused(asked: str, revision: str, book: Path) -> None:
    called = call(*asked.split(), revision, at=book)
    answered(called)
    assert called.code == 2
    assert not list(book.parent.rglob("planted*"))
    assert not list(Path.cwd().glob("planted*"))
    assert not (book.parent / "site").exists()
