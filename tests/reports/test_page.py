"""The page of a terminal: the quick way without color and the styled way with it lay out the same lines."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from axlebook.reports.page import Look, Page, Paragraph, Piece, paragraph

COLOR = re.compile(r"\x1b\[[0-9;]*m")
WORDS = st.sampled_from(
    ["a", "wheel", "53 3/8 in", "-", "back-to-back", "x" * 13, "y" * 44, "·", "½ in", "inspections/a.yaml:3:4", "車輪"]
)
TEXTS = st.lists(WORDS, max_size=25).map(" ".join)


@given(
    TEXTS, st.integers(20, 100), st.sampled_from([0, 2, 8]), st.sampled_from([0, 2, 4]), st.booleans(),
    st.sampled_from([0, 1, 2]),
)  # fmt: skip
def test_with_color_and_without_the_words_stand_on_the_same_lines(
    text: str, width: int, hang: int, indent: int, whole: bool, most: int
) -> None:
    one = Paragraph((Piece(text, "bold"),), hang, indent, whole, most)
    plain = Page(Look(width)).lines([one])
    colored = [COLOR.sub("", line) for line in Page(Look(width, color=True)).lines([one])]
    assert plain == colored


def test_a_paragraph_is_wrapped_at_words_and_hangs() -> None:
    lines = Page(Look(30)).lines([paragraph("Read it again with the part at 68 degF.", hang=2, indent=1)])
    assert lines == [" Read it again with the part", "   at 68 degF."]


def test_what_is_cut_off_is_said_with_an_ellipsis() -> None:
    one = Paragraph((Piece("Read it again with the part at 68 degF."),), most=1)
    assert Page(Look(20)).lines([one]) == ["Read it again with …"]
    assert Page(Look(20, encoding="ascii")).lines([one]) == ["Read it again ..."]


def broken(text: str, width: int, hang: int, *, color: bool) -> str:
    """The lines of a paragraph without their indents and styles; nothing of the text is lost or added."""
    lines = [COLOR.sub("", line).strip() for line in Page(Look(width, color=color)).lines([paragraph(text, hang=hang)])]
    assert " ".join(lines) == text
    return "\n".join(lines)


@given(st.integers(20, 60), st.sampled_from([0, 2]), st.booleans())
def test_a_whole_number_and_its_fraction_stand_on_one_line(width: int, hang: int, color: bool) -> None:
    """What is left of 2 13/16 at the head of a line reads as another figure."""
    text = "Last time it was 2 13/16 in on the left, 44 1/2 in there, and now 13/16 in; expect 2 25/32 to 2 7/8 in."
    joined = broken(text, width, hang, color=color)
    assert all(figure in joined for figure in ("2 13/16", "44 1/2", "2 25/32", "2 7/8"))


@given(st.integers(24, 60), st.sampled_from([0, 2]), st.booleans())
def test_a_figure_and_its_unit_stand_on_one_line(width: int, hang: int, color: bool) -> None:
    """A bare `in` at the head of a line reads as a word, and what was left above it as a figure of any unit."""
    text = "It was 1 1/4 in (31.75 mm) at 120 deg, 68 degF; pressed with 45 short tonf after 12 service days in t-1."
    joined = broken(text, width, hang, color=color)
    assert all(one in joined for one in ("1 1/4 in", "(31.75 mm)", "120 deg", "68 degF", "45 short", "12 service"))


def test_a_number_before_another_word_may_end_a_line() -> None:
    assert Page(Look(21)).lines([paragraph("The tires of driver 1 t-1, t-2")]) == ["The tires of driver 1", "t-1, t-2"]
