"""The text of a report, byte for byte, and what it owes its reader at any length, width and encoding."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from tests.reports.made import COUNTS, FULL, HIGH, MOVED, NARROW, THIN, report

from axlebook.findings import Verdict
from axlebook.reports.page import SHORT, Look
from axlebook.reports.text import render_report

EIGHTY = """\
As of 2026-02-28 (closed): 26 read, 9 checked: 2 outside, 1 suspect, 1
  undecided, 4 not assessed, 0 unreadable.
✗ OUTSIDE, condemning: e-1 driver-2 right, flange thickness, worst: 15/16 in
  (23.8125 mm). Out at or under 15/16 in (23.8125 mm).
  by 49 CFR part 230, annual edition of 2015, 230.113(g).
  → Re-measure at the same place with the same gauge; then a second person.
  here/inspections/2026/2026-01-10-e-1-annual.yaml:12:14  flange-thin
? SUSPECT, watch: Back-to-back grew by 1/16 in, and nothing was done to the
  pair.
  → Read it again in the same hold.
  here/inspections/2026/b.yaml:4:2  back-to-back-moved
≈ UNDECIDED, shop: Interference 0.046 in; the reading cannot tell.
  → Write down the temperature.
  here/tires/t-9.yaml:7:3  interference-outside-practice
✗ OUTSIDE, shop, waived by w-1: e-1 driver-1 left, flange height: 1 7/16 in.
  here/inspections/2026/b.yaml:9:2  flange-high
○ NOT ASSESSED, 1: axle load is not on record. → Write it down.
  here/inspections/2026/2.yaml:2:5  tire-thin
○ NOT ASSESSED, 2: no limit on file for tire width. → Add the limit.
  here/inspections/2026/1.yaml:1:5  tire-thin
○ NOT ASSESSED, 1: no limit on file for lateral. → Add that limit.
  here/inspections/2026/4.yaml:4:5  tire-thin
This reports against the limits on file; qualified people and the authority
having jurisdiction decide.
"""


def test_a_report_at_80_columns_byte_for_byte() -> None:
    assert render_report(FULL, Look(), whole=False, beside="here/") == EIGHTY


def test_what_does_not_fit_is_counted_in_one_line() -> None:
    """Of 24 lines 2 are the head, 2 the foot, 1 this one, 2 the first cause: 17 for findings of 5, 5, 4, 3 and 2."""
    text = render_report(report(THIN, *FULL.findings), Look(), whole=False)
    assert text.endswith(
        "Not shown: 1 finding, 3 not assessed. In full: --all\n"
        "This reports against the limits on file; qualified people and the authority\nhaving jurisdiction decide.\n"
    )


def test_what_to_do_stays_where_a_cause_has_no_room_to_be_told_in_full() -> None:
    cause = "the regulation of a country far away, of 1967 as amended 2019, " * 4
    long = replace(NARROW[0], cause=cause.rstrip(", "), next="Read it there, in the plane of the limit.")
    text = render_report(report(long), Look(), whole=False)
    [told] = re.findall(r"(?:○ NOT ASSESSED.*\n)(?:  .*\n)+", text)
    lines = told.splitlines()
    assert len(lines) == 4
    assert lines[1].endswith(" …")
    assert lines[2] == "  → Read it there, in the plane of the limit."


def test_all_of_it_has_every_cause_and_no_line_on_what_is_not_shown() -> None:
    whole = render_report(FULL, Look(), whole=True, beside="here/")
    assert "○ NOT ASSESSED, 1: no limit on file for lateral. → Add that limit.\n" in whole
    assert "Not shown" not in whole


def test_all_of_it_says_of_a_cause_that_holds_once_what_it_holds_for() -> None:
    causes = [f for f in FULL.findings if f.verdict is Verdict.NOT_ASSESSED]
    assert render_report(FULL, Look(), whole=True).count("  - kept.\n") == len(causes) == 4
    assert "- kept." not in render_report(FULL, Look(), whole=False)


@pytest.mark.parametrize("width", [40, 60, 80, 120, 200])
@pytest.mark.parametrize("many", [0, 1, 2, 7, 500])
def test_no_more_than_a_screen_and_every_finding_shown_or_counted(width: int, many: int) -> None:
    made = report(*[THIN] * many, *NARROW * many)
    text = render_report(made, Look(width), whole=False)
    assert len(text.splitlines()) <= SHORT
    shown = text.count("OUTSIDE, condemning")
    said = re.search(r"(\d+) findings?", text)
    assert shown + (int(said[1]) if said else 0) == many
    grouped = sum(int(count) for count in re.findall(r"NOT ASSESSED, (\d+)", text))
    said = re.search(r"(\d+) not assessed\. In full", text)
    assert grouped + (int(said[1]) if said else 0) == 4 * many


def test_no_line_is_wider_than_the_terminal_but_one_with_a_path() -> None:
    for width in (40, 80, 120):
        lines = render_report(FULL, Look(width), whole=True).splitlines()
        assert [line for line in lines if len(line) > width and ".yaml:" not in line] == []


def test_a_long_message_is_cut_with_an_ellipsis_on_a_screen_and_whole_in_full() -> None:
    long = replace(THIN, message="word " * 100 + "end.")
    assert "word …\n" in render_report(report(long), Look(), whole=False)
    assert "end." in render_report(report(long), Look(), whole=True)
    assert "word ...\n" in render_report(report(long), Look(encoding="ascii"), whole=False)


@pytest.mark.parametrize("width", [40, 80])
def test_a_command_in_a_next_step_is_never_cut(width: int) -> None:
    asked = (
        "Measure again at the same place with the same gauge. If it stands: axlebook new defect 2025-10-25-e-12-thin."
    )
    for finding in (replace(THIN, next=asked), replace(NARROW[0], cause="word " * 40, next=asked)):
        words = " ".join(render_report(report(finding), Look(width), whole=False).split())
        assert "axlebook new defect 2025-10-25-e-12-thin." in words


def test_in_ascii_a_plain_sign_and_the_words_stand_for_each_symbol() -> None:
    text = render_report(FULL, Look(encoding="ascii"), whole=False)
    assert text.isascii()
    assert "x OUTSIDE, condemning" in text
    assert "~ UNDECIDED, shop" in text
    assert "o NOT ASSESSED, 2" in text


def test_color_adds_nothing_to_the_words() -> None:
    colored = render_report(FULL, Look(color=True), whole=False, beside="here/")
    assert "\x1b[1;31m" in colored
    assert re.sub(r"\x1b\[[0-9;]*m", "", colored) == EIGHTY


def test_what_a_record_says_is_cleaned_in_every_part() -> None:
    bad = "\x1b[2J\u202e\x07\r"
    evil = replace(
        THIN, message=bad, next=bad, source=bad, check=bad, waived=bad,
        place=THIN.place._replace(path=bad),
    )  # fmt: skip
    cause = replace(NARROW[0], cause=bad, next=bad, place=evil.place, waived=bad)
    made = report(evil, cause, first_step=bad, only=(bad,))
    for whole in (True, False):
        text = render_report(made, Look(), whole=whole, beside=bad)
        assert not [sign for sign in text if not sign.isprintable() and sign != "\n"]
        assert "\\x1b[2J\\u202e\\x07" in text


def test_no_finding_is_no_praise() -> None:
    text = render_report(report(), Look(), whole=False)
    assert "What was judged is within the limits on file." in text
    assert not re.search(r"\bsafe\b|\bOK\b|\bfit to run\b", text)
    nothing = report()._replace(counts=dict.fromkeys(COUNTS, 0))
    assert "Nothing has been judged yet: silence is no pass." in render_report(nothing, Look(), whole=False)


def test_a_waived_finding_and_a_note_do_not_count_for_the_exit() -> None:
    assert report(THIN).fails(strict=False)
    assert report(MOVED).fails(strict=False)
    assert not report(HIGH).fails(strict=True)
    assert not report(NARROW[1]).fails(strict=False)
    assert report(NARROW[1]).fails(strict=True)
    assert not report(NARROW[0]).fails(strict=True)
    assert Verdict.WITHIN not in {finding.verdict for finding in FULL.findings}
