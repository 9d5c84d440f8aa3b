"""A time capsule: one zip that holds its own checksums, the same bytes for the same files, and how it is verified.

Entries are stored, not compressed: a program of another age needs to know less, and what is left of a damaged disk can
be read by eye. A stranger's zip is looked at without unpacking it, and never more of it is read than is allowed.
"""

from __future__ import annotations

import hashlib
import io
import re
import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from typing import IO, NamedTuple

SUMS = "CHECKSUMS.txt"
MOST_FILES, MOST_BYTES, LARGEST = 50_000, 1_000_000_000, 64_000_000
_ALWAYS = (1980, 1, 1, 0, 0, 0)  # the first day a zip can tell
_LINE = re.compile(r"([0-9a-f]{64})  (.+)")
_PART = re.compile(r"[^/\\:*?\"<>|\x00-\x1f\x7f]+")
_DEVICE = re.compile(r"(?i)(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?")
_CHUNK = 1 << 20
_SWELLS = 50  # times: text does not shrink more than that, and a bomb does
_KNOWN = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)  # the latter where somebody packed it again
_DAMAGED = (zipfile.BadZipFile, zipfile.LargeZipFile, EOFError, OSError, ValueError, RuntimeError,
            struct.error, zlib.error)  # fmt: skip


class TooLarge(Exception):  # noqa: N818 - an answer, not an error of the program
    """More than a capsule may hold."""


class Verified(NamedTuple):
    """What a look at a capsule gave: how many files, what is wrong, and whether the zip itself is as it was packed."""

    files: int
    problems: tuple[str, ...]
    as_packed: bool = False


def is_plain(path: str) -> bool:
    """Return whether a path stays inside the folder it is unpacked to, and every disk can have it.

    >>> is_plain("ledger/tires/t-1.yaml"), is_plain("../x"), is_plain("/x"), is_plain("c:/x"), is_plain("a//b")
    (True, False, False, False, False)
    """
    return len(path) <= 240 and path.isprintable() and all(
        _PART.fullmatch(part) and part.strip(" ") == part and not part.endswith(".") and not _DEVICE.fullmatch(part)
        for part in path.split("/")
    )  # fmt: skip


def packed(files: Mapping[str, bytes]) -> bytes:
    """Return a capsule of files; its checksums are added.

    Raises
    ------
    TooLarge
        It would hold more than `verify` allows.
    """
    whole = {**files, SUMS: _sums(files)}
    if len(whole) > MOST_FILES or sum(map(len, whole.values())) > MOST_BYTES:
        raise TooLarge
    if any(len(content) > LARGEST for content in whole.values()):
        raise TooLarge
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as capsule:
        for path in sorted(whole):
            entry = zipfile.ZipInfo(path, _ALWAYS)
            entry.create_system = 3  # so that the rights below mean something, whatever packs it
            entry.external_attr = (stat.S_IFREG | 0o644) << 16
            capsule.writestr(entry, whole[path])
    return out.getvalue()


def _sums(files: Mapping[str, bytes]) -> bytes:
    """Return the checksums in the form that `sha256sum -c` reads."""
    return "".join(f"{hashlib.sha256(files[path]).hexdigest()}  {path}\n" for path in sorted(files)).encode()


def verify(file: IO[bytes]) -> Verified:
    """Look at a capsule: every file is there, is what it was, and nothing else is in it."""
    try:
        with zipfile.ZipFile(file) as capsule:
            entries = capsule.infolist()
            refused = tuple(_refusals(entries, _size(file)))
            if refused:
                return Verified(len(entries), refused)
            contents = {entry.filename: _read(capsule, entry) for entry in entries}
    except _DAMAGED as error:
        return Verified(0, (f"it is no zip, or a damaged one ({_short(error)})",))
    problems = tuple(_differences(contents))
    return Verified(len(contents), problems, not problems and _is_as_packed(file, contents))


def _short(error: Exception) -> str:
    return " ".join(str(error).split())[:120] or type(error).__name__


def _size(file: IO[bytes]) -> int:
    return file.seek(0, io.SEEK_END)


def _refusals(entries: list[zipfile.ZipInfo], size: int) -> Iterator[str]:
    """What is wrong with a zip of so many bytes, before any of it is unpacked."""
    if len(entries) > MOST_FILES:
        yield f"it holds {len(entries)} files, more than the {MOST_FILES} that are read"
        return
    swollen = sum(entry.file_size for entry in entries)
    if swollen > min(MOST_BYTES, _SWELLS * size):
        yield f"its {size} bytes would become {swollen}, and are not unpacked"
    seen: set[str] = set()
    for entry in entries:
        name = entry.orig_filename
        why = _refused(entry)
        if name.casefold() in seen:
            why = "there are two of that name"
        seen.add(name.casefold())
        if why:
            yield f"{name[:80]!r}: {why}"


def _refused(entry: zipfile.ZipInfo) -> str:
    kind = stat.S_IFMT(entry.external_attr >> 16)
    if not is_plain(entry.orig_filename):
        return "a name that leads elsewhere, or that some disk cannot have"
    if kind not in (0, stat.S_IFREG):
        return "a link, a folder or a device, no file"
    if entry.flag_bits & 0x1:
        return "it is locked with a password"
    if entry.compress_type not in _KNOWN:
        return "packed in a way that is not read"
    if entry.file_size > LARGEST or entry.compress_size > LARGEST:
        return f"larger than the {LARGEST} bytes that are read of one file"
    return ""


def _read(capsule: zipfile.ZipFile, entry: zipfile.ZipInfo) -> bytes:
    """Read an entry; one that holds more than it says is refused as soon as that is seen."""
    content = bytearray()
    with capsule.open(entry) as file:
        while chunk := file.read(_CHUNK):
            content += chunk
            if len(content) > entry.file_size:
                raise zipfile.BadZipFile(f"{entry.filename} holds more than it says")
    return bytes(content)


def _differences(contents: Mapping[str, bytes]) -> Iterator[str]:
    if SUMS not in contents:
        yield f"it has no {SUMS}: nothing can be verified"
        return
    named: dict[str, str] = {}
    for line in contents[SUMS].decode("utf-8", "replace").splitlines():
        match = _LINE.fullmatch(line)
        if match is None or match[2] in named:
            yield f"{SUMS}: a line that tells no checksum, or one told twice: {line[:80]!r}"
            continue
        named[match[2]] = match[1]
    for path, sha256 in named.items():
        if path not in contents or path == SUMS:
            yield f"{path!r} is missing"
        elif hashlib.sha256(contents[path]).hexdigest() != sha256:
            yield f"{path!r} was altered"
    yield from (f"{path!r} is extra: no checksum tells of it" for path in contents if path not in (SUMS, *named))


def _is_as_packed(file: IO[bytes], contents: Mapping[str, bytes]) -> bool:
    """Whether the zip is to the byte what is packed from its files: nothing before, between or behind them."""
    again = packed({path: content for path, content in contents.items() if path != SUMS})
    file.seek(0)
    return file.read(len(again) + 1) == again
