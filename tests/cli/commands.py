"""Calling the command line as a person does, in this process: arguments in, exit code and both streams out."""

from __future__ import annotations

import contextlib
import io
import json
import os
import re
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator

from axlebook.cli import run

TOP = Path(__file__).resolve().parents[2]
BASE = TOP / "tests" / "checks" / "bases" / "one-engine"


@dataclass(frozen=True)
class Called:
    """What a call gave."""

    code: int
    out: str
    err: str

    @property
    def lines(self) -> list[str]:
        """The lines of standard output."""
        return self.out.splitlines()


def call(*arguments: str, at: Path, encoding: str = "utf-8") -> Called:
    """Call axlebook from a folder."""
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding=encoding, newline="") for _ in range(2))
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err), standing_in(at):
        code = run(list(arguments))
    return Called(code, *(_read(stream) for stream in (out, err)))


def _read(stream: io.TextIOWrapper) -> str:
    stream.flush()
    content = stream.buffer.raw.getvalue() if hasattr(stream.buffer, "raw") else stream.buffer.getvalue()  # type: ignore[attr-defined]
    return str(content.decode(stream.encoding))


@contextlib.contextmanager
def standing_in(folder: Path) -> Iterator[None]:
    """Stand in a folder for a while."""
    before = Path.cwd()
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(before)


@cache
def _schema() -> Draft202012Validator:
    schema = json.loads((TOP / "schema" / "report.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def promised(text: str) -> Any:
    """The JSON of a command, after it was held to the shipped schema."""
    told = json.loads(text)
    assert [f"{e.json_path}: {e.message}" for e in _schema().iter_errors(told)] == []
    return told


def small_ledger(folder: Path, files: dict[str, str] | None = None) -> Path:
    """A copy of the one-engine ledger with the shipped limit sets, and some files more."""
    root = folder / "ledger"
    shutil.copytree(BASE, root)
    for name in ("limits", "plans"):
        shutil.copytree(TOP / "ledger" / name, root / name, dirs_exist_ok=True)
    for path, text in (files or {}).items():
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_text(text, encoding="utf-8")
    return root


_KEY = re.compile(r"\s*# +(- .*|[a-z0-9_][\w -]*:( .*|$))")


def uncommented(text: str) -> str:
    """A template with the `# ` of every line taken away that is a key or an item, and not words."""
    first, *rest = text.splitlines()
    return "\n".join([first, *(line.replace("# ", "", 1) if _KEY.fullmatch(line) else line for line in rest)]) + "\n"


THIN = """kind: inspection
measured_on: 2026-01-10
engine: e-1
purpose: annual
by: lead
readings:
  - quantity: flange_thickness
    place: driver-2 right
    with: gauge-1
    where: 3/8 in above tread
    values:
      worst: 15/16 in
"""
THICK = THIN.replace("15/16 in", "1 1/4 in")
AT = "inspections/2026/2026-01-10-e-1-annual.yaml"


def unweighed(root: Path) -> Path:
    """The ledger without the engine's weight: the table of tire thicknesses has no figure then."""
    engine = root / "engines" / "e-1.yaml"
    text = engine.read_text(encoding="utf-8")
    start = text.index("weight_on_drivers:")
    engine.write_text(text[:start] + text[text.index("wheelsets:") :], encoding="utf-8")
    return root
