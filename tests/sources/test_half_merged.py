"""A record in which git left the lines of a merge is told as such, wherever they stand in it."""

from __future__ import annotations

import pytest

from axlebook.sources.refusals import Refusal
from axlebook.sources.yaml_text import read_places, read_tree

BOTH = "<<<<<<< HEAD\nnote: a\n=======\nnote: b\n>>>>>>> topic\n"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (f"kind: tire\n{BOTH}", 2),
        (f"{BOTH}kind: tire\n", 1),
        (f"kind: tire\n{BOTH}".replace("\n", "\r\n"), 2),
        (f'kind: tire\nnote: "a\n{BOTH}d"\n', 3),
        (f"kind: tire\nnote: |\n  hello\n{BOTH}", 4),
        ("kind: tire\n||||||| base\nnote: a\n", 2),
        ("kind: tire\nnote: a\n>>>>>>> topic\n", 3),
        ("kind: tire\nnote: a\n=======\nnote: b\n", 3),
    ],
)
def test_a_merge_left_half_done_is_told_with_its_line(text: str, line: int) -> None:
    with pytest.raises(Refusal) as told:
        read_tree(text.encode())
    assert (told.value.kind, told.value.line) == ("half-merged", line)
    assert "A merge was left half done" in told.value.reason
    assert "git add" in told.value.hint
    with pytest.raises(Refusal):
        read_places(text.encode())


@pytest.mark.parametrize("text", ["note: |\n  Found\n  =======\n  cracked\n", "note: a <<<<<<< b\n",
                                  "note: '>>>>>>>'\n",
                                  "note: |\n  <<<<<<< left\n"])  # fmt: skip
def test_signs_that_stand_elsewhere_are_text(text: str) -> None:
    assert "note" in read_tree(text.encode())
