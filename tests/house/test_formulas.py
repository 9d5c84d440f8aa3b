"""Every public formula says what it takes and gives, in which units, when it fails, where it comes from, and runs."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ENGINEERING = Path(__file__).parents[2] / "tool" / "axlebook" / "engineering"
SECTIONS = ("Parameters", "Returns", "Raises", "Examples", ">>>", "References")


def formulas() -> list[tuple[str, ast.FunctionDef]]:
    """Every public function of the formula modules."""
    return [
        (path.stem, node)
        for path in sorted(ENGINEERING.glob("[!_]*.py"))
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
    ]


@pytest.mark.parametrize(("module", "formula"), formulas(), ids=lambda v: v if isinstance(v, str) else v.name)
def test_a_formula_is_documented_in_full(module: str, formula: ast.FunctionDef) -> None:
    doc = ast.get_docstring(formula) or ""
    wanted = [s for s in SECTIONS if s != "Parameters" or formula.args.args or formula.args.kwonlyargs]
    assert not [section for section in wanted if section not in doc]
    assert "[" in doc, "no unit in brackets"
