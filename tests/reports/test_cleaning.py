"""Cleaning: no text of a record acts on a terminal, and everything printable stays as it is."""

from __future__ import annotations

import sys
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlebook.reports.cleaning import clean, encodable


@given(st.text(st.characters(codec=None)))
def test_nothing_that_acts_is_left_and_it_is_one_line(text: str) -> None:
    left = {unicodedata.category(sign) for sign in clean(text)}
    assert not left & {"Cc", "Cf", "Cs", "Zl", "Zp"} - _harmless(clean(text))


def _harmless(text: str) -> set[str]:
    """Format signs of a few scripts that only join letters are left where they are."""
    acting = {sign for sign in text if unicodedata.category(sign) == "Cf" and unicodedata.bidirectional(sign) not in
              ("AN", "NSM", "L", "ON")}  # fmt: skip
    return set() if acting else {"Cf"}


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("a\x1b]0;title\x07b", "a\\x1b]0;title\\x07b"),
        ("\x9b31m", "\\x9b31m"),
        ("a\u202eb\u2066c\u2069", "a\\u202eb\\u2066c\\u2069"),
        ("two\r\n   lines\tand a tab", "two lines and a tab"),
        ("zero\u200bwidth\ufeff", "zero\\u200bwidth\\ufeff"),
        ("byte \udcff", "byte \\xff"),
        ("53 3/8″, 1½ in, 20 °C, Größe, 車輪", "53 3/8″, 1½ in, 20 °C, Größe, 車輪"),
    ],
)
def test_signs_are_written_out_or_kept(text: str, shown: str) -> None:
    assert clean(text) == shown


def test_every_control_character_is_written_out() -> None:
    for code in [*range(32), *range(127, 160)]:
        assert chr(code) not in clean(f"a{chr(code)}b")


@given(st.text())
def test_what_an_encoding_lacks_is_written_out_and_never_fails(text: str) -> None:
    for encoding in ("ascii", "cp437", "latin-1", "utf-8"):
        encodable(clean(text), encoding).encode(encoding)


def test_the_whole_range_of_signs_is_judged() -> None:
    bad = [
        code
        for code in range(sys.maxunicode + 1)
        if unicodedata.bidirectional(chr(code)) in ("LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI")
        and clean(chr(code)) == chr(code)
    ]
    assert bad == []
