"""A new ledger from the shipped empty one, with its schemas beside it, so that editors help without a network."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from axlebook.sources.shipped import shipped
from axlebook.sources.writing import new_folder, write_new

MODELINE = "# yaml-language-server: $schema="
ATTRIBUTES = b"* text=auto eol=lf\n*.jpg binary\n*.jpeg binary\n*.png binary\n*.pdf binary\n"
IGNORED = b"# drafts of guided entry: kept on the machine, never part of the book\n.drafts/\n*.part\n"


def modeline(root: Path, path: str, kind: str) -> str:
    """Return line 1 of a record at `path`: where its schema is, as seen from there."""
    return MODELINE + "../" * path.count("/") + _schema_folder(root, kind) + f"{kind}.schema.json"


def _schema_folder(root: Path, kind: str) -> str:
    """The ledger's own `schema/`; in a checkout, where the ledger has none, the one beside it."""
    here, beside = (folder / "schema" / f"{kind}.schema.json" for folder in (root, root.parent))
    return "../schema/" if beside.is_file() and not here.is_file() else "schema/"


def write_ledger(target: Path) -> list[str]:
    """Write a new ledger into a folder that is empty or not there, all of it or nothing; return the paths, in order."""
    with new_folder(target) as beside:
        written = []
        for path, content in new_files():
            write_new(beside / path, content)
            written.append(path)
    return written


def new_files() -> Iterator[tuple[str, bytes]]:
    """Yield the files of a new ledger; `ledger.yaml` comes last, so that half a ledger is none."""
    ledger, schema = shipped("ledger"), shipped("schema")
    yield ".gitattributes", ATTRIBUTES
    yield ".gitignore", IGNORED
    for path in sorted(schema.iterdir()):
        if path.is_file():
            yield f"schema/{path.name}", path.read_bytes()
    files = sorted(path for path in ledger.rglob("*") if path.is_file())
    for path in sorted(files, key=lambda path: path == ledger / "ledger.yaml"):
        inside = path.relative_to(ledger).as_posix()
        yield inside, with_own_schema(path.read_bytes(), inside)


def with_own_schema(content: bytes, path: str) -> bytes:
    r"""Return a record with its first line pointing at the ledger's own `schema/`.

    >>> with_own_schema(b"# yaml-language-server: $schema=../../schema/plan.schema.json\nkind: plan\n", "plans/p.yaml")
    b'# yaml-language-server: $schema=../schema/plan.schema.json\nkind: plan\n'
    """
    first, end, rest = content.partition(b"\n")
    if not path.endswith(".yaml") or not first.startswith(MODELINE.encode()):
        return content
    name = first.rpartition(b"/")[2]
    return f"{MODELINE}{'../' * path.count('/')}schema/".encode() + name + end + rest
