"""What comes with axlebook itself: the schemas, the empty ledger and the demonstration ledger.

A wheel carries them inside the package; in a checkout, also one installed as editable, they stand at its top.
"""

from __future__ import annotations

import hashlib
from functools import lru_cache
from pathlib import Path

NAMES = ("schema", "ledger", "demo-ledger")
_PACKAGE = Path(__file__).resolve().parent.parent
_CHECKOUT = _PACKAGE.parent.parent
_BOM = b"\xef\xbb\xbf"


@lru_cache
def shipped(name: str) -> Path:
    """Return the folder shipped under that name, one of NAMES.

    Raises
    ------
    FileNotFoundError
        The installation lacks it.
    """
    if name not in NAMES:
        raise ValueError(f"nothing is shipped under the name {name!r}")
    for folder in (_PACKAGE / "shipped" / name, _CHECKOUT / name):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"this installation of axlebook lacks its folder {name}; install it again")


@lru_cache
def shipped_sets() -> tuple[str, ...]:
    """Return the ids of the limit sets that are shipped, in the order of their names."""
    return tuple(sorted(path.stem for path in (shipped("ledger") / "limits").glob("*.yaml")))


def content_hash(content: bytes) -> str:
    r"""Return the hash of a record's content: whatever its line ends are, and without its first line.

    Line 1 names the schema by a path that differs from ledger to ledger.

    >>> content_hash(b"# schema: a\nkind: tire\n") == content_hash(b"# schema: b\r\nkind: tire\r\n")
    True
    """
    plain = content.removeprefix(_BOM).replace(b"\r\n", b"\n")
    return hashlib.sha256(plain.partition(b"\n")[2]).hexdigest()


@lru_cache
def shipped_hash(set_id: str) -> str | None:
    """Return the content hash of a shipped limit set; None where none of that id is shipped."""
    if set_id not in shipped_sets():  # also keeps an id with a path in it from leaving the folder
        return None
    return content_hash((shipped("ledger") / "limits" / f"{set_id}.yaml").read_bytes())
