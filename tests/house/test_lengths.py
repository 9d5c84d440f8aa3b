"""Modules and functions are short enough to be read at once; the longest are printed: pytest -s tests/house -k long."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "tool" / "axlebook"
LONGEST_MODULE, LONGEST_FUNCTION = 350, 50  # lines, docstrings not counted
SHOWN = 5
DOCUMENTED = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
Lengths = list[tuple[int, str]]


@cache
def lengths() -> tuple[Lengths, Lengths]:
    """The lengths of all modules and of all functions, the longest first."""
    modules, functions = [], []
    for path in sorted(PACKAGE.rglob("*.py")):
        text, name = path.read_text(encoding="utf-8"), path.relative_to(PACKAGE).as_posix()
        tree = ast.parse(text)
        told = sum(map(docstring, ast.walk(tree)))
        modules.append((len(text.splitlines()) - told, name))
        for node in ast.walk(tree):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                assert node.end_lineno is not None
                own = node.end_lineno - node.lineno + 1 - docstring(node)
                functions.append((own, f"{name}:{node.lineno} {node.name}"))
    return sorted(modules, reverse=True), sorted(functions, reverse=True)


def docstring(node: ast.AST) -> int:
    """The lines of a node's docstring."""
    if not isinstance(node, DOCUMENTED) or ast.get_docstring(node, clean=False) is None:
        return 0
    first = node.body[0]
    assert first.end_lineno is not None
    return first.end_lineno - first.lineno + 1


def told(what: str, found: Lengths) -> str:
    """The longest and the one in the middle, as they are printed."""
    lines = [f"  {length:4} {name}" for length, name in found[:SHOWN]]
    return "\n".join(
        [f"{len(found)} {what}, half of them at most {found[len(found) // 2][0]} lines; the longest:", *lines]
    )


def test_no_module_is_too_long() -> None:
    modules, _ = lengths()
    print(f"\n{told('modules', modules)}")
    assert not [f"{name}: {length} lines" for length, name in modules if length > LONGEST_MODULE]


def test_no_function_is_too_long() -> None:
    _, functions = lengths()
    print(f"\n{told('functions', functions)}")
    assert not [f"{name}: {length} lines" for length, name in functions if length > LONGEST_FUNCTION]
