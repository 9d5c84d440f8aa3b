"""The demo ledger, with every free text of its records written by someone who means harm."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import yaml
from tests.cli.commands import TOP

OLD = ("201[0-9]", "202[0-2]")  # years left out: a tenth of the records, and of the time
# Whatever reads a report further on: a browser, a spreadsheet, a calendar, a workflow, a comment, a terminal.
TEXTS = (
    "<planted-tag onload=alert(1)>&lt;script&gt;</style></script><script>planted()</script>",
    '=HYPERLINK("http://planted.example","x")',
    "-2+3+cmd|' /C planted'!A0",
    "planted\r\nEND:VCALENDAR\r\nBEGIN:VEVENT\r\nATTACH:planted",
    "planted\n::error file=planted::words\n::set-output name=planted::x",
    '"><svg onload=planted()>{{7*7}}{% raw %}${{ planted }}',
    "[planted](javascript:planted()) ![planted](http://planted.example/x.png) | planted | `planted` @planted #12",
    "planted\u200b\u00ad\u2060zero widths",
    "%s%n%x {0} {planted} %(planted)s \\u001b[31m",
    "p" * 300 + "lanted",
)
FREE = """
note source clause by title how what role reason maker words shop restrictions adopted_by held_by
fuel defect destination owner no_certificate certificate standard witness_mark railway track welds
specification contour method datum shows counts_as from hold marks edition name
"""


def poisoned_demo(into: Path, *, texts: tuple[str, ...] = TEXTS) -> Path:
    """A copy of the demo with hostile words in every free text; the words go round, so that all stand in all kinds."""
    root = into / "book"
    shutil.copytree(TOP / "demo-ledger", root, ignore=shutil.ignore_patterns(*OLD))
    said = _round(texts)
    for path in sorted(root.rglob("*.yaml")):
        tree = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CBaseLoader)
        text = yaml.dump(_poisoned(tree, "", said), Dumper=Written, sort_keys=False, allow_unicode=False)
        path.write_text(text, encoding="utf-8")
    return root


class _round:  # noqa: N801 - a small iterator
    def __init__(self, texts: tuple[str, ...]) -> None:
        self.texts, self.count = texts, 0

    def __call__(self) -> str:
        self.count += 1
        return self.texts[self.count % len(self.texts)]


class Written(yaml.SafeDumper):
    """Writes every text in quotes, and no anchors, which our reader refuses."""

    def ignore_aliases(self, data: Any) -> bool:
        return True


Written.add_representer(str, lambda dumper, text: dumper.represent_scalar("tag:yaml.org,2002:str", text, style='"'))


def _poisoned(tree: Any, key: str, said: _round) -> Any:
    if isinstance(tree, dict):
        return {name: _poisoned(inner, name, said) for name, inner in tree.items()}
    if isinstance(tree, list):
        return [_poisoned(inner, key, said) for inner in tree]
    is_free = key in FREE.split() and (" " in tree or key in ("note", "name", "title"))
    return said() if is_free else tree
