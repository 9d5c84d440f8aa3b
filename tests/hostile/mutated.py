"""Records of the demo with something else put in a place or two, for hypothesis; and one run over them."""

from __future__ import annotations

import json
from datetime import date
from functools import cache
from typing import Any

import yaml
from hypothesis import strategies as st
from tests.checks.cases import base_files
from tests.cli.commands import TOP

from axlebook.run import Outcome, run_entries
from axlebook.sources.names import Entry

TODAY = date(2026, 3, 1)
ODD = [
    "", " ", "0", "-1", "1e9", "nan", "null", "~", "true", "unknown", "2026-02-30", "0001-01-01", "9999-12-31", "24:61",
    "1/0 in", "under 0 in", "over 1 in", "3 in to 2 in", "-40 degF", "600 degC", "68 K", "0 in", "99999999999999 in",
    "1 mile", "driver-2 right", "driver-99 left", "tender", "t-1-left left", "e-1", "d-2", "left", "360 deg", "worst",
    "all round", "-0 deg inner", "https://planted.example", "../../etc/passwd", "\u202e", "½", "∞",
    "\U0001f600", "x" * 3000,
]  # fmt: skip


@cache
def records() -> dict[str, tuple[str, Any]]:
    """One record of the demo for every sort of content it has, by path; and those of the one-engine book."""
    found: dict[str, tuple[str, Any]] = {}
    for path in sorted((TOP / "demo-ledger").rglob("*.yaml")):
        tree = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CBaseLoader)
        shape = f"{tree.get('kind')} {sorted(tree)}"
        found.setdefault(shape, (path.relative_to(TOP / "demo-ledger").as_posix(), tree))
    here = {path: yaml.load(text, Loader=yaml.CBaseLoader) for path, text in base_files("one-engine").items()}
    return {**{path: (path, tree) for path, tree in here.items()}, **{path: (path, t) for path, t in found.values()}}


def texts() -> st.SearchStrategy[str]:
    """A text that may stand anywhere."""
    return st.one_of(st.sampled_from(ODD), st.text(max_size=20))


def trees() -> st.SearchStrategy[Any]:
    """A small tree of any form."""
    return st.recursive(
        texts(), lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts(), inner, max_size=3), max_leaves=5
    )


@st.composite
def mutated(draw: st.DrawFn) -> tuple[str, Any]:
    """A record with one to four places changed, taken out, doubled, or put elsewhere."""
    path, tree = records()[draw(st.sampled_from(sorted(records())))]
    tree = json.loads(json.dumps(tree))
    for _ in range(draw(st.integers(1, 4))):
        spots = list(_spots(tree))
        if not spots:
            break  # nothing is left to change
        holder, key = draw(st.sampled_from(spots))
        what = draw(st.sampled_from(["other", "other", "tree", "gone", "doubled", "moved", "new"]))
        if what == "other":
            holder[key] = draw(texts())
        elif what == "tree":
            holder[key] = draw(trees())
        elif what == "gone":
            del holder[key]
        elif what == "doubled" and isinstance(holder, list):
            holder.append(holder[key])
        elif what == "moved":
            other, name = draw(st.sampled_from(spots))
            holder[key] = json.loads(json.dumps(other[name]))
        elif isinstance(holder, dict):
            holder[draw(texts())] = draw(trees())
    return path, tree


def _spots(tree: Any) -> Any:
    """Every place of a tree: what holds it, and its key or number."""
    for key in tree if isinstance(tree, dict) else range(len(tree)):
        yield tree, key
        if isinstance(tree[key], dict | list):
            yield from _spots(tree[key])


def as_text(tree: Any) -> bytes:
    """A tree as a record's text; every value in quotes, as JSON, which is YAML too."""
    return json.dumps(tree, ensure_ascii=True).encode()


def run_with(changed: dict[str, bytes]) -> Outcome:
    """Run the one-engine book with some records put in or replaced."""
    files = {**base_files("one-engine"), **changed}
    return run_entries([Entry(*pair, None) for pair in sorted(files.items())], as_of=None, today=TODAY)
