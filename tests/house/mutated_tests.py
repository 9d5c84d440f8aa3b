"""Which tests know a module, quick ones first: what `mutation.py` runs when it flips something there."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

FORMULAS = ["tests/engineering", "tests/published"]
LIMITS = ["tests/records/test_limits.py", "tests/records/test_shipped_limits.py", "tests/checks/test_rows.py"]
CASES = ["tests/checks/test_cases.py"]
AROUND = ["tests/checks/test_rows.py", "tests/checks/test_old_cards.py", "tests/checks/test_waiving.py",
          "tests/checks/test_another_country.py", "tests/trends", "tests/records"]  # fmt: skip
FITS = [f"tests/cli/test_{name}.py" for name in
        ("fit", "fit_what_if", "bore", "braking", "turning", "wear")]  # fmt: skip
DOCTESTS = [f"tool/axlebook/{room}" for room in ("engineering", "limits", "checks")]
BASELINE = [*DOCTESTS, *FORMULAS, *CASES, *AROUND, *FITS, "tests/cli/test_explain.py", "tests/cli/test_check.py"]


def tests_of(module: str, top: Path) -> Iterator[list[str]]:
    """The arguments of pytest for a module, in stages: the next is asked only where the one before noticed nothing."""
    room, _, name = module.partition("/")
    here = f"tool/axlebook/{module}"
    if room == "engineering":
        own = f"tests/engineering/test_{name}"
        yield [here, *([own] if (top / own).exists() else [])]
        yield FORMULAS
        yield ["tests/records/test_derived.py", "tests/records/test_turning_case.py", "tests/trends", *FITS]
    elif room == "limits":
        yield [here, *LIMITS]
        yield [*CASES, "-k", "flange or thickness or waiver or limit or back-to-back or facet"]
    else:
        stems = sorted(_users(top / "tool/axlebook/checks", Path(name).stem))
        ids = [stem.replace("_", "-") for stem in stems if not stem.startswith("_")]
        if ids and len(ids) < 60:
            yield [here, *CASES, "-k", " or ".join([*(f"{id}/" for id in ids), Path(name).stem])]
        else:
            yield [here, *CASES]
        yield [*AROUND, "tests/cli/test_explain.py", "tests/cli/test_check.py"]


@cache
def _imports(checks: Path) -> dict[str, set[str]]:
    """For every module of checks, the modules of checks it imports."""
    stems = {path.stem for path in checks.glob("*.py")}
    found: dict[str, set[str]] = {}
    for path in checks.glob("*.py"):
        named = [node for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
                 if isinstance(node, ast.ImportFrom)]  # fmt: skip
        words = {word for node in named for word in (
            (node.module or "").rpartition(".")[2], *(alias.name for alias in node.names))}  # fmt: skip
        found[path.stem] = words & stems - {"__init__"}
    return found


def _users(checks: Path, stem: str) -> set[str]:
    """A module and all that import it, by however many steps."""
    found, new = {stem}, {stem}
    while new:
        new = {user for user, used in _imports(checks).items() if used & new} - found
        found |= new
    return found
