"""The quick reader says what the exact one says, or leaves the text to it; and what is written plainly it does read.

Longer searches for a difference: `tests/hostile/test_two_readers.py`, `python -m tests.hostile.every_byte`.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from tests.cli.commands import TOP, call, small_ledger
from tests.cli.test_new import IDS, KINDS
from tests.sources.lines_cases import EITHER, NO_TEXT, READ
from tests.sources.two_readers import ALIKE, DECLINED, compared, exact, quick

from axlebook.sources import yaml_lines
from axlebook.sources.refusals import Refusal
from axlebook.sources.yaml_text import MAX_BYTES, MAX_DEPTH, read_tree

DEMO = TOP / "demo-ledger"
RECORDS = [path.relative_to(DEMO).as_posix() for path in sorted(DEMO.rglob("*.yaml"))]
IN_BLOCKS = {"limits/arm-mm-shrinkage.yaml", "limits/de-ebo-anlage-6.yaml", "limits/us-49-cfr-230.yaml"}
READ_CASES = [(about, text) for about, texts in READ.items() for text in texts]
EITHER_CASES = [(about, text) for about, texts in EITHER.items() for text in texts]


def shown(value: str | bytes) -> str:
    return ascii(value)[:60]


@pytest.mark.parametrize(("about", "text"), READ_CASES, ids=shown)
def test_what_is_written_plainly_is_read_quickly_and_alike(about: str, text: str) -> None:
    assert compared(text.encode()) == ALIKE, about


@pytest.mark.parametrize(("about", "text"), EITHER_CASES, ids=shown)
def test_what_is_not_is_left_or_read_alike(about: str, text: str) -> None:
    for before in ("", "z: 1\n", "z:\n"):
        for ending in ("\n", "\r\n", "\n\n"):
            content = (before + text).replace("\n", ending).encode()
            assert compared(content) in (ALIKE, DECLINED), about


@pytest.mark.parametrize("content", NO_TEXT, ids=shown)
def test_what_is_no_text_is_never_read_quickly(content: bytes) -> None:
    assert isinstance(exact(content), Refusal)
    assert quick(content) is None


def test_a_text_over_the_largest_size_is_refused_however_plain() -> None:
    with pytest.raises(Refusal, match=r"."):
        read_tree(b"a: 1\n" + b"# \n" * (MAX_BYTES // 3))


def test_a_line_so_long_that_an_expression_would_take_much_memory_is_left() -> None:
    longest = b"a: " + b"x" * 997
    assert compared(longest + b"\nb: 1\n") == ALIKE
    assert quick(longest + b"x\nb: 1\n") is None


def test_the_exact_reader_words_what_the_quick_one_leaves() -> None:
    assert quick(b"a: 1\na: 2\n") is None
    with pytest.raises(Refusal) as caught:
        read_tree(b"a: 1\na: 2\n")
    assert (caught.value.kind, caught.value.line) == ("duplicate-key", 2)


# --- depth --------------------------------------------------------------------------------------------------


def deep(groups: int, way: str) -> bytes:
    """A record that nests so many groups and lists, itself among them."""
    lines, depth, column = ["a:"], 1, 0
    while depth < groups:
        if "lists" in way and depth + 2 + ("words" in way) <= groups:
            lines.append(" " * column + "- a:")
            depth, column = depth + 2, column + 2
        elif "words" in way and depth + 1 == groups:
            lines[-1] += " [x]"
            depth += 1
        else:
            column += 2
            lines.append(" " * column + "a:")
            depth += 1
    return "\n".join(lines).encode()


@pytest.mark.parametrize("max_depth", [0, 1, 2, 3, 4, 5, 6, 19, MAX_DEPTH])
@pytest.mark.parametrize("way", ["groups", "lists", "words", "words in lists"])
def test_what_is_too_deep_for_the_exact_reader_is_never_read_quickly(way: str, max_depth: int) -> None:
    for groups in range(1, max_depth + 4):
        content = deep(groups, way)
        assert compared(content, max_depth) in (ALIKE, DECLINED), content
        if max_depth > 0:
            assert isinstance(exact(content, max_depth), Refusal) == (groups > max_depth), content
            assert compared(content, max_depth) == ALIKE or groups > max_depth - 2, content


# --- what must be read quickly ------------------------------------------------------------------------------


@pytest.mark.parametrize("path", RECORDS)
def test_every_record_of_the_demo_without_a_block_of_text_is_read_quickly(path: str) -> None:
    assert compared((DEMO / path).read_bytes()) == (DECLINED if path in IN_BLOCKS else ALIKE)


@pytest.mark.parametrize("path", RECORDS[::10])
def test_a_record_with_the_line_ends_of_dos_is_read_as_without(path: str) -> None:
    content = (DEMO / path).read_bytes()
    assert repr(quick(content.replace(b"\n", b"\r\n"))) == repr(quick(content))


@pytest.mark.parametrize("kind", KINDS)
def test_the_template_of_every_kind_is_read_quickly_as_written(kind: str, tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    path = call("new", kind, IDS[kind], at=root).lines[0]
    assert compared((root / path).read_bytes()) == ALIKE


# --- every tree is its own ----------------------------------------------------------------------------------

FRESH = b"a: [x, y]\nb:\n- [x, y]\n- c: [x, y]\n  d:\n    e: 1\nf: []\n"


def spoiled(tree: Any) -> None:
    """Change every list and every group of a tree."""
    for inner in tree.values() if isinstance(tree, dict) else tree:
        if not isinstance(inner, str):
            spoiled(inner)
    if isinstance(tree, dict):
        tree["new"] = "z"
    else:
        tree.append("z")


def test_a_tree_is_changed_and_no_other_is() -> None:
    first, second = quick(FRESH), quick(FRESH)
    assert first == second
    spoiled(first)
    assert first != second
    assert second == quick(FRESH) == exact(FRESH)
    assert quick(b"g: [x, y]\na: [x, y]\n") == {"g": ["x", "y"], "a": ["x", "y"]}


def test_many_different_lines_are_read_as_few_are_and_not_all_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    kept = yaml_lines._Lines()
    monkeypatch.setattr(yaml_lines, "_MOST_KEPT", 10)
    monkeypatch.setattr(yaml_lines, "_line_of", kept.__getitem__)
    content = "".join(f"k{n}: {'x' * (n % 130)}\nl{n}: [a, b]\n" for n in range(200)).encode()
    for _ in range(2):
        assert compared(content) == ALIKE
        assert 0 < len(kept) <= 10
        assert max(map(len, kept)) <= yaml_lines._LONGEST_KEPT
