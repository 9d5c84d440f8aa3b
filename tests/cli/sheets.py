"""Sheets of readings for the tests of import: a few rows, written as a spreadsheet writes them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.cli.commands import Called, call, small_ledger

from axlebook.sources.yaml_text import read_tree

FIXTURES = Path(__file__).with_name("fixtures")
HEADS = ("engine", "measured on", "purpose", "by", "what", "place", "position", "value", "seen", "instrument")
ROW = {
    "engine": "e-1", "measured on": "2026-01-10", "purpose": "annual", "by": "lead", "what": "tire_thickness",
    "place": "driver-1 left", "position": "0 deg", "value": "2 7/16 in", "instrument": "rule-1",
}  # fmt: skip


def row(**changed: str) -> dict[str, str]:
    """The usual row, some cells changed; `_` stands for the space in a head."""
    return ROW | {key.replace("_", " "): text for key, text in changed.items()}


def look(**changed: str) -> dict[str, str]:
    """A row of something looked for."""
    return row(**{"what": "crack", "position": "", "value": "", "seen": "not seen", "instrument": "", **changed})


def sheet(*rows: dict[str, str], separator: str = ",", heads: dict[str, str] | None = None) -> str:
    """Rows as CSV, every cell in quotes; `heads` are heads written otherwise."""
    columns = list(dict.fromkeys([*HEADS, *(head for one in rows for head in one)]))

    def line(cells: list[str]) -> str:
        return separator.join('"' + cell.replace('"', '""') + '"' for cell in cells)

    first = line([(heads or {}).get(column, column) for column in columns])
    return "\r\n".join([first, *(line([one.get(column, "") for column in columns]) for one in rows)]) + "\r\n"


def importing(ledger: Path, content: str | bytes, *arguments: str, name: str = "readings.csv") -> Called:
    """Import a sheet into a ledger."""
    file = ledger.parent / name
    file.write_bytes(content.encode() if isinstance(content, str) else content)
    return call("import", str(file), *arguments, at=ledger)


def said(called: Called) -> str:
    """What was printed, lines joined: for a sentence to be found however it was wrapped."""
    return " ".join(called.out.split())


def tree_at(ledger: Path, path: str) -> Any:
    """A record's tree."""
    return read_tree((ledger / path).read_bytes())


def records(ledger: Path) -> dict[str, str]:
    """Every inspection of a ledger: its path and text."""
    return {
        path.relative_to(ledger).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(ledger.rglob("*"))
        if path.is_file() and path.relative_to(ledger).parts[0] == "inspections"
    }


__all__ = ["FIXTURES", "importing", "look", "records", "row", "said", "sheet", "small_ledger", "tree_at"]
