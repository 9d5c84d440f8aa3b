"""What a book keeps of what was worked out has a name of its own: two modules never share one by accident."""

from __future__ import annotations

import re
from collections import defaultdict
from pathlib import Path

TOOL = Path(__file__).parents[2] / "tool/axlebook"
KEPT = re.compile(r'__dict__(?:\.get\(|\.setdefault\(|\[)"(\w+)"')


def test_no_two_modules_keep_different_things_under_one_name() -> None:
    found: dict[str, set[str]] = defaultdict(set)
    for path in TOOL.rglob("*.py"):
        for name in KEPT.findall(path.read_text(encoding="utf-8")):
            found[name].add(path.relative_to(TOOL).as_posix())
    assert len(found) > 20
    assert {name: modules for name, modules in found.items() if len(modules) > 1} == {}
