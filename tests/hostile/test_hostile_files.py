"""A folder from a stranger: every file in it gets an answer, none is followed, none holds us up."""

import os
import socket
import time
import tracemalloc
from pathlib import Path

import pytest

from axlebook.sources.folder import read_folder
from axlebook.sources.names import Entry
from axlebook.sources.refusals import Refusal
from axlebook.sources.yaml_text import read_tree

GOOD = b"kind: tire\n"
ALIAS_BOMB = b"a: &a [x,x,x,x,x,x,x,x,x]\n" + b"".join(
    b"%c: &%c [%s]\n" % (new, new, b",".join([b"*%c" % old] * 9))
    for old, new in zip(b"abcdefgh", b"bcdefghi", strict=True)
)
ENTITY_BOMB = b'<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;">]>\n<x>&b;</x>\n'
CONTENTS = {
    "empty": (b"", "empty"),
    "binary": (bytes(range(256)) * 40, "not-utf-8"),
    "picture": (b"\x89PNG\r\n\x1a\n" + bytes(100), "not-utf-8"),
    "archive": (b"PK\x03\x04" + bytes(100), "control-character"),
    "alias-bomb": (ALIAS_BOMB, "anchor"),
    "entity-bomb": (ENTITY_BOMB, "not-a-mapping"),
    "deep-lists": (b"a: " + b"[" * 10_000, "too-deep"),
    "deep-groups": (b"a: " + b"{a: " * 10_000, "too-deep"),
    "deep-dashes": (b"a:\n" + b"- " * 10_000 + b"x\n", "too-deep"),
    "deep-steps": (b"".join(b" " * step + b"a:\n" for step in range(1_200)), "too-deep"),
    "python-object": (b"a: !!python/object/apply:os.system ['true']\n", "tag"),
    "wide-anchor": (b"a: &" + b"x" * 500_000 + b" 1\n", "anchor"),
    "escape-codes": (b"a: \x1b]0;x\x07\n", "control-character"),
    "escape-behind-backslash": (b'a: "\\x1b[2J"\n', "control-character"),
    "turned-round": ("a: 1 \u202e ni 5\n".encode(), "control-character"),
    "open-quotes": (b'a: "' + b"'\"" * 100_000, "not-yaml"),
    "utf-16": ("kind: tire\n".encode("utf-16"), "not-utf-8"),
}
READ = {
    "many-names": b"".join(b"k%d: x\n" % number for number in range(60_000)),
    "long-line": b"a: " + b"9" * 1_000_000 + b"\n",
    "many-list-marks": b"a: [" + b"x," * 200_000 + b"]\n",
}


def answer(content: bytes) -> str:
    try:
        read_tree(content)
    except Refusal as refused:
        found = refused
    else:
        return "read"
    assert str(found).isprintable()
    assert len(str(found)) < 500
    return found.kind


@pytest.mark.parametrize("name", CONTENTS)
def test_a_hostile_text_is_refused_quickly_and_in_few_words(name: str) -> None:
    content, kind = CONTENTS[name]
    started = time.process_time()
    assert answer(content) == kind
    assert time.process_time() - started < 2


@pytest.mark.parametrize("name", READ)
def test_an_odd_but_honest_text_is_read_in_good_time(name: str) -> None:
    started = time.process_time()
    assert answer(READ[name]) == "read"
    assert time.process_time() - started < 5


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a ledger whose folder of tires holds everything that a stranger may put there."""
    outside = tmp_path / "outside.yaml"
    outside.write_bytes(b"secret: yes\n")
    tires = tmp_path / "book/tires"
    tires.mkdir(parents=True)
    (tires.parent / "ledger.yaml").write_bytes(b"kind: ledger\n")
    (tires / "a-good.yaml").write_bytes(GOOD)
    (tires / "z-good.yaml").write_bytes(GOOD)
    for name, (content, _) in CONTENTS.items():
        (tires / f"{name}.yaml").write_bytes(content)
    with open(tires / "large.yaml", "wb") as large:
        large.truncate(50 * 1024 * 1024)
    (tires / "link-out.yaml").symlink_to(outside)
    (tires / "link-in.yaml").symlink_to(tires / "a-good.yaml")
    (tires / "link-nowhere.yaml").symlink_to("nowhere")
    (tires / "link-round.yaml").symlink_to("link-round.yaml")
    (tires / "link-device.yaml").symlink_to("/dev/zero")
    (tires / "2025").symlink_to(tmp_path)
    (tires.parent / "people").symlink_to(tmp_path)
    os.mkfifo(tires / "pipe.yaml")
    (tires / "new\nline.yaml").write_bytes(GOOD)
    (tires / "red\x1b[31m.yaml").write_bytes(GOOD)
    (tires / "turned\u202elmay.yaml").write_bytes(GOOD)
    with open(os.fsencode(tires) + b"/bytes\xff\xfe.yaml", "wb") as bad:
        bad.write(GOOD)
    return tires.parent


def test_every_hostile_file_has_an_answer_and_the_others_are_read(folder: Path) -> None:
    entries = {entry.path: entry for entry in read_folder(folder)}
    kinds = {path: entry.problem.kind for path, entry in entries.items() if entry.problem}
    assert kinds == {
        "people": "symlink",
        "tires/2025": "symlink",
        "tires/bytes\\xff\\xfe.yaml": "bad-name",
        "tires/large.yaml": "too-large",
        "tires/link-device.yaml": "symlink",
        "tires/link-in.yaml": "symlink",
        "tires/link-nowhere.yaml": "symlink",
        "tires/link-out.yaml": "symlink",
        "tires/link-round.yaml": "symlink",
        "tires/new\\nline.yaml": "bad-name",
        "tires/pipe.yaml": "not-a-file",
        "tires/red\\x1b[31m.yaml": "bad-name",
        "tires/turned\\u202elmay.yaml": "bad-name",
    }
    for name, (_, kind) in CONTENTS.items():
        assert answer(content_of(entries[f"tires/{name}.yaml"])) == kind
    assert [path for path, entry in entries.items() if entry.content == GOOD] == [
        "tires/a-good.yaml", "tires/z-good.yaml",
    ]
    assert not any(b"secret" in (entry.content or b"") for entry in entries.values())


def content_of(entry: Entry) -> bytes:
    assert entry.content is not None
    return entry.content


def test_every_answer_can_be_printed(folder: Path) -> None:
    for entry in read_folder(folder):
        assert entry.path.isprintable()
        assert entry.problem is None or str(entry.problem).isprintable()


def test_a_file_of_fifty_megabytes_costs_no_memory(folder: Path) -> None:
    tracemalloc.start()
    try:
        assert [entry.path for entry in read_folder(folder)]
        assert tracemalloc.get_traced_memory()[1] < 10 * 1024 * 1024
    finally:
        tracemalloc.stop()


def test_a_socket_is_not_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "tires").mkdir()
    monkeypatch.chdir(tmp_path / "tires")
    with socket.socket(socket.AF_UNIX) as listening:
        listening.bind("s.yaml")
        (entry,) = read_folder(tmp_path)
    assert entry.problem is not None
    assert entry.problem.kind == "not-a-file"


def test_a_device_is_not_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # A link stands in for the device, which only root can make; the walk is told that it is none.
    (tmp_path / "tires").mkdir()
    try:
        os.mknod(tmp_path / "tires/zero.yaml", 0o20666, os.makedev(1, 5))
    except PermissionError:
        os.mkfifo(tmp_path / "tires/zero.yaml")
    opened: list[object] = []
    monkeypatch.setattr(os, "open", lambda *asked: opened.append(asked))
    (entry,) = read_folder(tmp_path)
    assert entry.problem is not None
    assert entry.problem.kind == "not-a-file"
    assert opened == []


def test_a_pipe_that_takes_a_files_place_after_the_listing_holds_nobody_up(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "tires/t-1.yaml"
    place.parent.mkdir()
    place.write_bytes(GOOD)
    opened = os.open

    def swapped(path: str, flags: int) -> int:
        place.unlink()
        os.mkfifo(place)
        return opened(path, flags)

    monkeypatch.setattr(os, "open", swapped)
    (entry,) = read_folder(tmp_path)
    assert entry.problem is not None
    assert entry.problem.kind == "not-a-file"


def test_a_link_that_takes_a_files_place_after_the_listing_is_not_followed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "tires/t-1.yaml"
    place.parent.mkdir()
    place.write_bytes(GOOD)
    (tmp_path / "outside").write_bytes(b"secret: yes\n")
    opened = os.open

    def swapped(path: str, flags: int) -> int:
        place.unlink()
        place.symlink_to(tmp_path / "outside")
        return opened(path, flags)

    monkeypatch.setattr(os, "open", swapped)
    (entry,) = read_folder(tmp_path)
    assert entry.content is None
    assert entry.problem is not None
    assert entry.problem.kind == "unreadable"


def test_a_file_that_grows_while_it_is_read_is_still_held_to_the_limit(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "tires/t-1.yaml"
    place.parent.mkdir()
    place.write_bytes(GOOD)
    found = os.fstat

    def grown(handle: int) -> os.stat_result:
        before = found(handle)
        place.write_bytes(b"x" * 5000)
        return before

    monkeypatch.setattr(os, "fstat", grown)
    (entry,) = read_folder(tmp_path, max_bytes=1000)
    assert entry.problem is not None
    assert entry.problem.kind == "too-large"
