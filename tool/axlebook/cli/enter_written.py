"""The record at the end of guided entry: its text, its file, and what is said once it is there."""

from __future__ import annotations

import shlex
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .opened import Opened


def text_of(root: Path, path: str, tree: Mapping[str, Any]) -> str:
    """The text of the record; without its first line where it has no path yet."""
    from axlebook.reports.record_text import render_record
    from axlebook.sources.new_ledger import modeline

    return render_record(modeline(root, path, "inspection") if path else "", tree)


def write_record(root: Path, tree: Mapping[str, Any], about: str, taken: frozenset[str]) -> str:
    """Write the record under the next id that is free, never over another; give its path."""
    from axlebook.records.entry.record import new_id
    from axlebook.sources.schemas import judge
    from axlebook.sources.writing import AlreadyThere, write_new

    there = set(taken)
    while True:
        id = new_id(tree["measured_on"], about, tree["purpose"], there)
        path = f"inspections/{id[:4]}/{id}.yaml"
        faults = judge(dict(tree), path)
        if faults:
            raise AssertionError(f"the record would not be sound: {faults[0].pointer} {faults[0].message}")
        try:
            write_new(root / path, text_of(root, path, tree).encode())
        except AlreadyThere:
            there.add(id)
            continue
        return path


def find_written(root: Path, tree: Mapping[str, Any], about: str, taken: frozenset[str]) -> str | None:
    """The path of a record of this occasion that says the same to the letter; None where there is none."""
    from axlebook.records.entry.record import new_id

    first = new_id(tree["measured_on"], about, tree["purpose"], set())
    paths = (f"inspections/{id[:4]}/{id}.yaml" for id in sorted(taken) if id.startswith(first))
    there = (path for path in paths if (root / path).is_file())
    return next((path for path in there if (root / path).read_bytes() == text_of(root, path, tree).encode()), None)


def after_words(found: Opened, path: str, header: Mapping[str, str], about: str) -> str:
    """That the record is safe, and the lines that bring it into git, so that they work where they are read."""
    from axlebook.sources.git import state_of

    from .opened import named_again

    ledger, state = named_again(found), state_of(found.root)
    look = f"Look it over: axlebook check{ledger} {shlex.quote(found.beside + path)}"
    words = "The record is written and safe on this disk, with or without git."
    if state.root is None:
        return f"{words}\nThis folder is not under version control.\n{look}"
    git = f"git -C{ledger.removeprefix(' --ledger')}" if ledger else "git"
    message = f"{header.get('purpose', '')} inspection of {about}, {header.get('measured_on', '')}".strip()
    return "\n".join([
        words,
        "To keep its history too, copy these lines:",
        f"  {git} add {shlex.quote(path)}",
        f"  {git} commit -m {shlex.quote(message)}",
        look,
    ])  # fmt: skip
