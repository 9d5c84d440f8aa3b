"""The quick reader of YAML gives what the exact one gives, or leaves the text: bytes changed, and parts of lines.

All bytes of the demo: `python -m tests.hostile.every_byte`.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.hostile.every_byte import changed, demo, spots_of
from tests.sources.two_readers import ALIKE, DECLINED, compared

CALM = {"deadline": None, "suppress_health_check": list(HealthCheck), "database": None}
KEYS = ["a", "b", "c", "d", "0 deg", "e-f", "g.h/i (j)", "é", "kä"]
VALUES = ["", "x", "2 7/8 in", "-4", "2025-03-14", "½ in", '"x"', "'53 3/8\"'", "[x, y]", "[]", "(x)", "a:b"]
# What is put in place of, or before, a part of a line: an indent, a dash, a key, a colon, a value, an end.
NASTY = [
    *("", " ", "  ", "    ", "\t", "\n", "\n\n", "\n ", "\n  ", "\n    ", "\r", "\r\n", "\u00a0",
      "\u2028", "\x85", "\ufeff"),
    *("-", "- ", "-  ", "- - ", "-\t", "--", "--- ", "\n---\n", "\n...\n", "\n--- a", "...",
      "%YAML 1.2\n---\n", "\x7f", "\x00"),
    *(":", ": ", " : ", " :", ":\t", "::", ": :", ":a", "a:", "a: b", "a:b", "?", "? ", "? x", "\n? x\n", "\n: x\n"),
    *("#", " #", " # c", "#c", "\n# c\n", "\n   # a: b\n", " # é\t", "a #b", "a# b", ","),
    *('"', "'", '""', "''", '"a" b', "'a''b'", '"a\\"', '"\\x1b"', '"a: b"', "'a #b'", '" "', '"a', "a'",
      '"a": ', "'a': b"),
    *("[", "]", "[x", "x]", "[x,y]", "[x,, y]", "[x, ]", "[ x]", "[x ]", "[-1]", "[x: y]", "[x:y]",
      "[x #y]", "[x@y]"),
    *("[(x)]", "[x (y)]", "[x -]", "[x - y]", "[[x]]", "['x']", "[x] y", "[x]:", "[é]", "[.]", "[...]", "[a]: b"),
    *("{", "}", "{}", "{a: b}", "|", "|\n", ">-\n", "|2\n", "&", "&a ", "&a", "*a", "!", "!!str ", "%",
      "@", "`", "~", "="),
    *("<<", "<<: ", "<<: {a: b}\n", "a & b", "a * b", "hot!", "\\", "+", ".", "/", "(", ")", "_", "x",
      "0", "é", "\U0001f600"),
    *("x  y", "x y", "x, y", "k" * 80, "k" * 82, "k" * 1025, "x" * 121 + " ", "a:\n- ", "\n- a\n",
      "\n  - b: c\n", "\n  a: b\n"),
]  # fmt: skip
LEAVES = st.sampled_from(VALUES)
TREES = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=3),
    max_leaves=6,
)
RECORDS = st.dictionaries(st.sampled_from(KEYS), TREES, min_size=1, max_size=3)
CHANGES = st.lists(st.tuples(st.integers(0, 60), st.booleans(), st.sampled_from(NASTY)), max_size=3)


def parts_of(tree: Any, indent: int, step: int) -> Iterator[str]:
    """Yield the parts of the lines of a group; a group in it is further in by a step, a list in it by two less."""
    for key, value in tree.items():
        yield from (" " * indent, key, ":")
        if isinstance(value, str):
            yield from (" ", value, "\n")
        elif isinstance(value, dict):
            yield from ("\n", *parts_of(value, indent + step, step))
        else:
            yield "\n"
            for item in value:
                yield from (" " * (indent + step - 2), "- ")
                yield from _item(item, indent + step, step)


def _item(item: Any, indent: int, step: int) -> Iterator[str]:
    if isinstance(item, dict) and item:
        _, *parts = parts_of(item, indent, step)
        yield from parts
    elif isinstance(item, list) and item:
        yield "- "
        yield from _item(item[0], indent + 2, step)
    else:
        yield from (item or "x", "\n")


def written(tree: Any, step: int, changes: list[tuple[int, bool, str]]) -> bytes:
    """Write a tree plainly, with parts of its lines changed."""
    parts = list(parts_of(tree, 0, step))
    for place, instead, nasty in changes:
        at = place % len(parts)
        parts[at : at + instead] = [nasty]
    return "".join(parts).encode()


TEXTS = st.builds(written, RECORDS, st.sampled_from([2, 2, 3, 4]), CHANGES)
DEPTHS = st.sampled_from([20, 20, 20, 1, 2, 3, 4, 5])


def test_a_share_of_all_changed_bytes_of_the_demo_is_read_alike_or_left() -> None:
    spots = random.Random(16).sample(list(spots_of(demo())), 60)
    outcomes = Counter(compared(content) for text, at in spots for content in changed(text, at))
    assert set(outcomes) == {ALIKE, DECLINED}
    assert outcomes[ALIKE] > 500


@pytest.mark.parametrize("seed", range(3))
def test_a_change_in_a_whole_record_is_read_alike_or_left(seed: int) -> None:
    chance = random.Random(seed)
    text = chance.choice([text for text in demo() if compared(text) == ALIKE])
    outcomes = {compared(content) for _ in range(3) for content in changed(text, chance.randrange(len(text)))}
    assert outcomes <= {ALIKE, DECLINED}


def test_changed_parts_of_lines_are_read_alike_or_left() -> None:
    search(200, enough=30)


@pytest.mark.fuzz
def test_changed_parts_of_lines_are_read_alike_or_left_however_long_one_tries() -> None:
    search(2000, enough=400)


def search(tries: int, enough: int) -> None:
    """Try texts; hold that enough of them were read quickly, or nothing is said by their being alike."""
    outcomes = Counter[str]()

    @settings(max_examples=tries, **CALM)  # type: ignore[arg-type]
    @given(TEXTS, DEPTHS)
    def one(content: bytes, max_depth: int) -> None:
        outcome = compared(content, max_depth)
        outcomes[outcome] += 1
        assert outcome in (ALIKE, DECLINED)

    one()
    assert outcomes[ALIKE] > enough
