"""What is there and cannot be read, found or written is never told as absent, nor as a fault of axlebook."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from tests.checks.histories import commit, git
from tests.cli.commands import AT, THICK, call, small_ledger

ENGINE = "engines/e-1.yaml"
BROKEN = "\n<<<<<<< HEAD\n"


def broken(root: Path, path: str) -> Path:
    (root / path).write_text((root / path).read_text(encoding="utf-8") + BROKEN, encoding="utf-8")
    return root


@pytest.mark.parametrize("arguments", [["status", "e-1"], ["due", "--engine", "e-1"], ["sheet", "e-1"],
                                       ["annual", "e-1", "2026"], ["enter", "e-1"], ["history", "e-1"],
                                       ["pack", "e-1"]], ids=" ".join)  # fmt: skip
def test_an_engine_whose_record_cannot_be_read_is_not_absent(tmp_path: Path, arguments: list[str]) -> None:
    called = call(*arguments, at=broken(small_ledger(tmp_path), ENGINE))
    told = " ".join((called.out + called.err).split())
    assert "there is no engine" not in told
    assert f"{ENGINE}:" in told
    assert "half done" in told or "cannot be" in told


@pytest.mark.parametrize("arguments", [["wear"], ["sheet"], ["enter"], ["history"]],
                         ids=" ".join)  # fmt: skip
def test_nor_is_a_tire(tmp_path: Path, arguments: list[str]) -> None:
    root = small_ledger(tmp_path)
    tire = sorted((root / "tires").glob("*.yaml"))[0]
    called = call(arguments[0], tire.stem, at=broken(root, f"tires/{tire.name}"))
    assert f"tires/{tire.name}:" in " ".join((called.out + called.err).split())


def test_of_two_engines_with_one_number_both_are_named(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    text = (root / ENGINE).read_text(encoding="utf-8")
    number = next(line for line in text.splitlines() if line.startswith("number:"))
    (root / "engines" / "e-2.yaml").write_text(text, encoding="utf-8")
    told = call("status", number.partition(":")[2].strip(' "'), at=root).err
    assert "2 engines carry the number" in told
    assert "e-1, e-2" in told


def test_a_number_is_found_in_whatever_form_of_unicode(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    text = (root / ENGINE).read_text(encoding="utf-8")
    number = next(line for line in text.splitlines() if line.startswith("number:"))
    (root / ENGINE).write_text(text.replace(number, "number: Fu\u0308nf"), encoding="utf-8")
    assert call("status", "F\u00fcnf", at=root).out.count("e-1")


def test_a_capsule_says_what_of_it_could_not_be_read(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THICK + BROKEN})
    called = call("pack", "e-1", "-o", str(tmp_path / "a.zip"), at=root)
    assert called.code == 0
    assert f"NOT READ, so missing from every answer in it, though packed as it stands: {AT}:" in called.out


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="there is no full device here")
@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["check", "--help"]], ids=" ".join)
def test_help_into_a_full_stream_is_no_fault_of_axlebook(arguments: list[str]) -> None:
    with open("/dev/full", "w") as full:
        done = subprocess.run([sys.executable, "-m", "axlebook", *arguments], stdout=full, stderr=subprocess.PIPE,
                              text=True, check=False)  # fmt: skip
    assert done.returncode == 2
    assert done.stderr.startswith("axlebook: the output cannot be written (")


def test_a_repository_without_a_commit_says_that_nothing_is_committed(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    git(root, "init", "--quiet")
    told = " ".join(call("history", "e-1", at=root).out.split())
    assert "nothing is committed yet" in told
    assert "ot under version control" not in told


def test_two_commits_of_a_bare_clone_are_compared_from_within(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    git(root, "init", "--quiet")
    commit(root)
    (root / AT).parent.mkdir(parents=True, exist_ok=True)
    (root / AT).write_text(THICK, encoding="utf-8")
    commit(root)
    git(tmp_path, "clone", "--quiet", "--bare", str(root), "book.git")
    called = call("compare", "HEAD~1", "HEAD", at=tmp_path / "book.git")
    assert called.code == 0
    assert "reading" in called.out


def test_a_name_that_a_shallow_clone_does_not_know_may_be_a_slip(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    git(root, "init", "--quiet")
    commit(root)
    commit(root)
    git(tmp_path, "clone", "--quiet", "--depth=1", root.as_uri(), "shallow")
    told = " ".join(call("compare", "typo", "HEAD", at=tmp_path / "shallow").out.split())
    assert "git fetch --unshallow" in told
    assert "no commit, tag or branch has that name" in told
