"""What comes with axlebook: found in a checkout and in a wheel, and known by its content."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from axlebook.sources import shipped as module
from axlebook.sources.shipped import content_hash, shipped, shipped_hash, shipped_sets


@pytest.fixture
def installed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    limits = tmp_path / "package" / "shipped" / "ledger" / "limits"
    limits.mkdir(parents=True)
    (limits / "old-works.yaml").write_bytes(b"# first line\nkind: limit-set\n")
    monkeypatch.setattr(module, "_PACKAGE", tmp_path / "package")
    kept = (shipped, shipped_sets, shipped_hash)
    for one in kept:
        one.cache_clear()
    yield tmp_path / "package"
    for one in kept:
        one.cache_clear()


def test_a_checkout_has_its_schemas_at_the_top() -> None:
    assert (shipped("schema") / "tire.schema.json").is_file()


def test_a_wheel_carries_its_folders_inside_the_package(installed: Path) -> None:
    assert shipped("ledger") == installed / "shipped" / "ledger"
    assert shipped_sets() == ("old-works",)


def test_the_hash_of_a_shipped_set_leaves_out_its_first_line(installed: Path) -> None:
    assert shipped_hash("old-works") == hashlib.sha256(b"kind: limit-set\n").hexdigest()
    assert shipped_hash("not-there") is None
    assert shipped_hash("../../../x") is None


def test_line_ends_and_a_byte_order_mark_do_not_alter_content_and_a_figure_does() -> None:
    plain = content_hash(b"# line\nunder: 1 in\n")
    assert content_hash(b"\xef\xbb\xbf# other\r\nunder: 1 in\r\n") == plain
    assert content_hash(b"# line\nunder: 2 in\n") != plain


def test_a_folder_that_is_never_shipped_is_an_error_of_the_caller() -> None:
    with pytest.raises(ValueError, match="nothing is shipped"):
        shipped("attic")
