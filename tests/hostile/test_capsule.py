"""A zip from a stranger: looked at without unpacking it, refused where it would lead elsewhere or swell."""

from __future__ import annotations

import hashlib
import io
import stat
import warnings
import zipfile
from datetime import date

import pytest

from axlebook.sources.capsule import LARGEST, packed, verify
from axlebook.sources.capsule_ledger import closed


def zipped(*entries: tuple[str, bytes], mode: int = 0, method: int = zipfile.ZIP_STORED) -> io.BytesIO:
    """A zip of these entries, whatever they are called, with right checksums."""
    sums = "".join(f"{hashlib.sha256(content).hexdigest()}  {name}\n" for name, content in entries)
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", method) as made, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for name, content in (*entries, ("CHECKSUMS.txt", sums.encode())):
            entry = zipfile.ZipInfo(name)
            entry.compress_type = method
            entry.external_attr = mode << 16 if name != "CHECKSUMS.txt" else 0
            made.writestr(entry, content)
    return out


@pytest.mark.parametrize(
    "name",
    ["../x", "a/../../x", "/etc/x", "C:/x", "a\\..\\x", "a//b", "./a", "a/", "con", "nul.txt", "a\x01b", "a ", "a.",
     "x" * 300],
)  # fmt: skip
def test_a_name_that_leads_elsewhere_is_refused(name: str) -> None:
    found = verify(zipped((name, b"x")))
    assert len(found.problems) == 1
    assert "a name that leads elsewhere" in found.problems[0]


@pytest.mark.parametrize("kind", [stat.S_IFLNK, stat.S_IFIFO, stat.S_IFDIR, stat.S_IFCHR])
def test_a_link_a_pipe_or_a_folder_is_refused(kind: int) -> None:
    assert "no file" in verify(zipped(("a", b"/etc/passwd"), mode=kind | 0o777)).problems[0]


@pytest.mark.parametrize("other", ["a.txt", "A.TXT"])
def test_two_of_one_name_are_refused(other: str) -> None:
    assert "two of that name" in verify(zipped(("a.txt", b"1"), (other, b"2"))).problems[0]


def test_a_bomb_is_not_unpacked() -> None:
    found = verify(zipped(("a", bytes(LARGEST // 4)), method=zipfile.ZIP_DEFLATED))
    assert "are not unpacked" in found.problems[0]


def test_another_way_of_packing_is_not_read() -> None:
    assert "packed in a way" in verify(zipped(("a", b"x"), method=zipfile.ZIP_LZMA)).problems[0]


def test_what_stands_before_or_behind_the_files_is_seen() -> None:
    content = packed({"a": b"x"})
    assert verify(io.BytesIO(content)).as_packed
    assert not verify(io.BytesIO(b"hidden" + content)).as_packed


@pytest.mark.parametrize("step", [1, 2, 3, 5, 7])
def test_a_damaged_zip_is_never_whole_and_never_a_crash(step: int) -> None:
    content = packed({"a": b"some text", "b/c": b"more"})
    for at in range(0, len(content), step):
        found = verify(io.BytesIO(content[:at] + bytes([content[at] ^ 0x5A]) + content[at + 1 :]))
        assert found.problems or not found.as_packed
        assert verify(io.BytesIO(content[:at])).problems


def test_one_without_checksums_is_not_whole() -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made:
        made.writestr("a", "x")
    assert "nothing can be verified" in verify(out).problems[0]


@pytest.mark.parametrize("text", [b"{kind: ledger}\n", b"kind: ledger", b"\xff", b"a: [", b""])
def test_a_ledger_that_takes_no_line_is_left_as_it_is(text: bytes) -> None:
    assert closed(text, date(2026, 2, 28))[0] == text


def test_the_day_it_is_closed_on_is_added_once_and_nothing_else() -> None:
    made, _ = closed(b"kind: ledger\r\nnote: x\r\n", date(2026, 2, 28))
    assert made == b"kind: ledger\r\nclosed_on: 2026-02-28\r\nnote: x\r\n"
    assert closed(made, date(2027, 1, 1))[0] == made
