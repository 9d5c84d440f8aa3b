"""Every command that writes: its ledger, what is typed, and what it may leave behind when the power goes.

A new command that writes is added here, and is then killed, filled and forbidden with the others.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tests.cli.commands import AT, THIN, call, small_ledger
from tests.cli.repositories import small_repository
from tests.cli.sheets import look, row, sheet
from tests.cli.turning_ledger import FLAGS, turning_ledger


@dataclass(frozen=True)
class Writer:
    """A command that writes: how its ledger is made, what is given and typed, and what is said to be whole."""

    name: str
    asked: tuple[str, ...]
    ledger: Callable[[Path], Path]
    new_folder: str = ""  # where the command makes a folder of its own
    all_or_nothing: bool = True  # of that folder: it is there whole, or not at all
    typed: tuple[str, ...] = ()  # the answers, a line each
    may_be_gone: bool = False  # of that folder: the old one may be gone, for the same call makes it again


def _plain(folder: Path) -> Path:
    return small_ledger(folder, {AT: THIN})


def _in_git(folder: Path) -> Path:
    return small_repository(folder, {AT: THIN})


def _ran_before(folder: Path) -> Path:
    month = "kind: service\nengine: e-1\nmonth: 2026-02\ndays:\n  - day: 2026-02-01\n    miles: 12 mile\n"
    return small_ledger(folder, {"service/e-1-2026-02.yaml": month})


def _with_pages(folder: Path) -> Path:
    root = small_ledger(folder)
    assert call("pages", "../site", at=root).code == 0
    (root / AT).parent.mkdir(parents=True, exist_ok=True)
    (root / AT).write_text(THIN, encoding="utf-8")
    return root


def _empty(folder: Path) -> Path:
    (folder / "empty").mkdir(parents=True)
    return folder / "empty"


ROWS = (row(), look(), row(measured_on="2026-01-11"), row(purpose="periodic", position="90 deg"))


def to_import(folder: Path) -> Path:
    """The small ledger, and a sheet of readings that make three records."""
    root = small_ledger(folder)
    (root / "readings.csv").write_text(sheet(*ROWS), encoding="utf-8")
    return root


PLAN = """kind: plan
purposes: [annual]
asks:
  - {quantity: tire_thickness, roles: [driver], positions: [0 deg, 180 deg], how: "Rule.", stage: asked}
  - {looked_for: flat, roles: [driver], stage: asked}
"""
ANSWERS = (
    "2026-01-10", "lead", "4", "6 o'clock", "54 degF", "54 degF", "-", "rule-1 gauge-1 micrometer-1", "in",
    "2 7/16", "2 1/2", "no", "62 mm", "2 1/2", "yes", "140", "1 1/4", "", "w",
)  # fmt: skip


def to_enter(folder: Path) -> Path:
    """The small ledger with one plan, of six questions."""
    root = small_ledger(folder)
    for path in (root / "plans").iterdir():
        path.unlink()
    (root / "plans/own-annual.yaml").write_text(PLAN, encoding="utf-8")
    with open(root / "instruments/rule-1.yaml", "a", encoding="utf-8") as file:
        file.write("measures: [tire_thickness]\n")
    return root


ENTER = Writer("enter", ("enter", "d-2", "--purpose", "annual"), to_enter, typed=ANSWERS)
IMPORT = Writer("import --write", ("import", "readings.csv", "--write"), to_import)
WRITERS = [
    ENTER,
    IMPORT,
    Writer("new", ("new", "tire", "t-9"), _plain),
    Writer("steam, the month's first", ("steam", "e-1", "2026-02-07", "--miles", "34"), _plain),
    Writer("steam, one day more", ("steam", "e-1", "2026-02-07", "--miles", "34"), _ran_before),
    Writer("turning --save", ("turning", "e-1", *FLAGS, "--save", "2026-04-01-x"), turning_ledger),
    Writer("annual -o", ("annual", "e-1", "2026", "-o", "annual.html"), _plain),
    Writer("sheet -o", ("sheet", "e-1", "-o", "sheet.html"), _plain),
    Writer("export -o", ("export", "e-1", "-o", "sheet.csv"), _plain),
    Writer("export --tables", ("export", "--tables", "../tables"), _plain, "tables"),
    Writer("pack -o", ("pack", "1", "-o", "e-1.zip"), _plain),
    Writer("pages", ("pages", "../site"), _plain, "site"),
    Writer("pages, over old ones", ("pages", "../site"), _with_pages, "site", may_be_gone=True),
    Writer("init", ("init", "../other"), _plain, "other"),
    Writer("init, in a folder stood in", ("init", "."), _empty, "empty", all_or_nothing=False),
    Writer("init --ci", ("init", "--ci", "."), _in_git),
    Writer("demo", ("demo", "../demo"), _plain, "demo"),
    Writer("demo --practice", ("demo", "--practice", "--seed", "1", "../drill"), _plain, "drill"),
]
