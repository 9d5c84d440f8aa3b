"""What lets a code host check a ledger: a workflow, a template for pull requests, a form for people without git.

They are written once, at the top of the repository, and never over a file that stands there.
"""

from __future__ import annotations

from pathlib import Path

import axlebook
from axlebook.sources.git import find_repository
from axlebook.sources.writing import AlreadyThere, write_new

_HERE = Path(__file__).resolve().parent / "workflow"
FILES = {
    ".github/workflows/ledger.yml": "ledger.yml",
    ".github/pull_request_template.md": "pull_request_template.md",
    ".github/ISSUE_TEMPLATE/readings.yml": "readings.yml",
}


def top_of(ledger: Path) -> Path:
    """Return the folder that the files belong in: the top of the repository that a ledger stands in, else its own."""
    repository = find_repository(ledger)
    return repository.work_tree if repository and repository.work_tree else ledger


def write_workflow(ledger: Path) -> tuple[Path, list[str], list[str]]:
    """Write the files for a ledger; return where, which were written, and which stood there and were left."""
    top = top_of(ledger.resolve())
    inside = ledger.resolve().relative_to(top.resolve()).as_posix()
    written, left = [], []
    for path, name in FILES.items():
        text = (_HERE / name).read_text(encoding="utf-8")
        text = text.replace("@VERSION@", axlebook.__version__).replace('"@LEDGER@"', _quoted(inside))
        try:
            write_new(top / path, text.encode())
            written.append(path)
        except AlreadyThere:
            left.append(path)
    return top, written, left


def _quoted(path: str) -> str:
    r"""A path as a YAML text in double quotes.

    >>> _quoted('a "b"')
    '"a \\"b\\""'
    """
    return '"' + path.replace("\\", "\\\\").replace('"', '\\"') + '"'
