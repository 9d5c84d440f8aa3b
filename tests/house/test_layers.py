"""Upper may import lower.

cli > run > sources, renderers > view > checks, records > trends > engineering > limits > findings > quantities.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "tool" / "axlebook"
HEIGHT = {
    "quantities": 0,
    "findings": 1,
    "limits": 2,
    "engineering": 3,
    "trends": 4,
    "records": 5,
    "checks": 6,
    "practice": 6,
    "reports": 7,
    "sources": 7,
    "read": 8,
    "run": 8,
    "run_two": 8,
    "cli": 9,
    "__main__": 10,
    "__init__": 0,
}
# What the shell may touch and the core may not: files, clock, git, printing.
WORLD = {"os", "pathlib", "io", "subprocess", "git", "shutil", "tempfile", "sys", "time", "socket", "urllib", "logging"}
CORE = {"quantities", "findings", "limits", "engineering", "trends", "records", "checks", "practice"}


def modules() -> Iterator[tuple[str, Path]]:
    """Every module with the layer it belongs to."""
    for path in sorted(PACKAGE.rglob("*.py")):
        relative = path.relative_to(PACKAGE)
        yield relative.parts[0].removesuffix(".py"), path


@cache
def parsed(path: Path) -> ast.Module:
    """A module's tree."""
    return ast.parse(path.read_text(encoding="utf-8"))


def imported(path: Path) -> Iterator[tuple[int, str, list[str]]]:
    """(line, module, names) of every import, relative ones made absolute."""
    package = ["axlebook", *path.relative_to(PACKAGE).parent.parts]
    for node in ast.walk(parsed(path)):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name, []) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            module = ".".join([*base, node.module] if node.module else base)
            yield node.lineno, module, [alias.name for alias in node.names]


def layer_of(module: str, names: list[str]) -> str | None:
    """The layer an import reaches, or None outside the package."""
    parts = module.split(".")
    if parts[0] != "axlebook":
        return None
    if len(parts) > 1:
        return parts[1]
    inside = [name for name in names if name in HEIGHT]
    return inside[0] if inside else "__init__"


def test_nothing_imports_what_stands_above_it() -> None:
    for layer, path in modules():
        assert layer in HEIGHT, f"{layer} has no place in the house: give it one here and in DEVELOPERS.md"
        for line, module, names in imported(path):
            reached = layer_of(module, names)
            if reached is not None:
                assert HEIGHT[reached] <= HEIGHT[layer], f"{path}:{line}: {layer} imports {reached}"


def test_the_core_does_not_touch_the_world() -> None:
    for path in [path for layer, path in modules() if layer in CORE]:
        for line, module, _ in imported(path):
            assert module.split(".")[0] not in WORLD, f"{path}:{line} imports {module}"
        for node in ast.walk(parsed(path)):
            if isinstance(node, ast.Call):
                name = ast.unparse(node.func)
                assert name not in {"open", "print", "input", "date.today", "datetime.now", "datetime.today"}, (
                    f"{path}:{node.lineno} calls {name}"
                )


def test_git_is_reached_through_one_module() -> None:
    users = {p.name for _, p in modules() for _, module, _ in imported(p) if module.split(".")[0] == "git"}
    assert users <= {"git.py"}


HEAVY = {"numpy", "scipy", "matplotlib", "pint", "jinja2", "git", "jsonschema", "rich", "ruamel", "openpyxl", "pyarrow"}


def test_heavy_libraries_are_imported_where_used() -> None:
    for path, node in ((at, node) for _, at in modules() for node in parsed(at).body):
        found = (
            [a.name for a in node.names]
            if isinstance(node, ast.Import)
            else [node.module or ""]
            if isinstance(node, ast.ImportFrom) and not node.level
            else []
        )
        for module in found:
            assert module.split(".")[0] not in HEAVY, f"{path}:{node.lineno} imports {module} at start"
