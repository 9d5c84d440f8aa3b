"""The catalogue of checks: each has an id that names its file, a manual, a source, cases; none is left out."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from axlebook.checks import NAMES, all_checks

TOP = Path(__file__).parents[2]
CHECKS = TOP / "tool" / "axlebook" / "checks"
LEAST_CASES = 6
LONGEST = 120


def test_every_check_file_is_in_the_catalogue_once() -> None:
    files = {path.stem for path in CHECKS.glob("*.py") if not path.stem.startswith("_")}
    assert files == set(NAMES)
    assert len(NAMES) == len(set(NAMES))


@pytest.mark.parametrize("module", all_checks(), ids=lambda m: m.ID)
def test_a_check_has_an_id_a_manual_a_source_and_cases(module: object) -> None:
    id, manual = module.ID, module.__doc__ or ""  # type: ignore[attr-defined]
    assert id == module.__name__.rsplit(".", 1)[-1].replace("_", "-")  # type: ignore[attr-defined]
    assert len(manual.splitlines()) >= 5, f"{id} has no manual page"
    assert "What to do" in manual, f"{id} does not say what to do"
    assert "Source" in manual or "source" in manual, f"{id} does not say where it comes from"
    cases = list((TOP / "tests" / "checks" / id).glob("*.yaml"))
    assert len(cases) >= LEAST_CASES, f"{id} has {len(cases)} cases"


@pytest.mark.parametrize("path", sorted(CHECKS.glob("[!_]*.py")), ids=lambda p: p.stem)
def test_a_check_is_one_page(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST


@pytest.mark.parametrize("path", sorted(CHECKS.glob("*.py")), ids=lambda p: p.stem)
def test_no_check_swallows_every_error(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ExceptHandler):
            kind = ast.unparse(node.type) if node.type else ""
            assert kind not in {"", "Exception", "BaseException"}, f"{path.name}:{node.lineno}"


COUNTRIES = re.compile(r"\b(cfr|ebo|eisbbbv|germany|austria|canada|united states|fra)\b", re.IGNORECASE)


def test_no_country_is_in_code() -> None:
    for path in sorted((TOP / "tool" / "axlebook").rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
        docstrings = {
            id(node.body[0].value)
            for node in ast.walk(tree)
            if isinstance(node, documented) and node.body and isinstance(node.body[0], ast.Expr)
        }
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docstrings:
                assert not COUNTRIES.search(node.value), f"{path}:{node.lineno}: {node.value!r}"
