"""The records of a ledger as they lie in a capsule: closed on its day, and with their schemas beside them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date

from axlebook.sources.capsule import is_plain
from axlebook.sources.names import ATTACHMENTS, LEDGER, Entry
from axlebook.sources.new_ledger import with_own_schema
from axlebook.sources.refusals import Refusal, shown
from axlebook.sources.shipped import shipped
from axlebook.sources.yaml_text import read_tree

_KIND = re.compile(rb"^kind:.*\n", re.MULTILINE)


def capsule_ledger(
    entries: Iterable[Entry], attachments: dict[str, bytes], cited: Iterable[str], day: date
) -> tuple[dict[str, bytes], str, tuple[str, ...]]:
    """Return the files of a packed ledger by path, what was done to `ledger.yaml`, and what could not be packed."""
    files: dict[str, bytes] = {}
    left = []
    closing = "ledger.yaml could not be read and is not in here."
    for path, content, problem in entries:
        if content is None:
            left.append(f"{path}: {problem.reason if problem else 'not read'}")
        elif not is_plain(path):
            left.append(f"{shown(path)}: some disks cannot have a file of this name")
        else:
            if path == LEDGER:
                content, closing = closed(content, day)
            files[f"ledger/{path}"] = with_own_schema(content, path)
    for name, content in attachments.items():
        path = f"ledger/{ATTACHMENTS}/{name}"
        if is_plain(path):
            files[path] = content
    left += [f"{ATTACHMENTS}/{shown(name)}: it is not there, or is too large" for name in sorted(set(cited))
             if f"ledger/{ATTACHMENTS}/{name}" not in files]  # fmt: skip
    for place in sorted(shipped("schema").iterdir()):
        if place.is_file():
            files[f"ledger/schema/{place.name}"] = place.read_bytes()
    return files, closing, tuple(left)


def closed(content: bytes, day: date) -> tuple[bytes, str]:
    r"""Return `ledger.yaml` with the day it rests on, and what was done in a sentence.

    A line is added and nothing else is touched; where that would change what the record says, it is left alone.

    >>> closed(b"kind: ledger\nrailway: A\n", date(2026, 2, 28))[0]
    b'kind: ledger\nclosed_on: 2026-02-28\nrailway: A\n'
    """
    tree = _tree(content)
    if tree is None:
        return content, "ledger.yaml cannot be read as it is written; nothing was added to it."
    if "closed_on" in tree:
        return content, f"The book was closed already: ledger.yaml says closed_on: {tree['closed_on']}."
    end = b"\r\n" if b"\r\n" in content else b"\n"
    line = f"closed_on: {day}".encode() + end
    match = _KIND.search(content)
    if match is not None:
        made = content[: match.end()] + line + content[match.end() :]
        if _tree(made) == {**tree, "closed_on": day.isoformat()}:
            return made, (f"The line closed_on: {day} was added to ledger.yaml, so that checks of this copy answer as "
                          "of that day and nothing in it falls overdue.")  # fmt: skip
    return content, "ledger.yaml is written in a way that no line could be added to; it does not say closed_on."


def _tree(content: bytes) -> dict[str, object] | None:
    try:
        return dict(read_tree(content))
    except Refusal:
        return None
