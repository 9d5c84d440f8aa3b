"""What a heading of a comparison counts is what stands below it, or it says of how many."""

from __future__ import annotations

from pathlib import Path

from tests.cli.commands import call

from axlebook.reports.page import Look, Page, Paragraph, Piece


def test_a_heading_counts_what_is_shown_and_of_how_many(tmp_path: Path) -> None:
    """The branch of the demo: eleven findings are new, two of them count, some are told as one for their cause."""
    assert call("demo", "copy", at=tmp_path).code == 0
    short, whole = (call("compare", "main", "re-tiring-d-1", *more, at=tmp_path / "copy") for more in ((), ("--all",)))
    assert "Findings that are new and count (2)" in short.lines
    assert "New findings that do not count (3 of 9)" in short.lines
    assert "New findings that do not count (9)" in whole.lines


def test_a_figure_that_lost_its_end_is_left_out_where_a_text_is_cut() -> None:
    for text in ("expected -0.010 in ± 0.004 in each way round", "it is wider than before by 1.250 millimetres now"):
        for width in range(20, 40):
            [line] = Page(Look(width)).lines([Paragraph((Piece(text),), most=1)])
            kept = line.removesuffix(" …")
            assert not kept.endswith(("±", "0.004", "0.010", "1.250")), line
