"""The condition of an engine as text, byte for byte."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

from tests.reports.made import MOVED, NARROW, THIN, report

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.due import Due, Kind
from axlebook.records.restrictions import Restriction
from axlebook.reports.condition_text import SCREEN, render_condition
from axlebook.reports.condition_view import Axle, EngineCondition, NotMeasuredNow, Row
from axlebook.reports.page import Look

OUT = Row(
    "driver-2 right", "t-4", "flange thickness, worst", "15/16 in (23.8125 mm)", "at or under 15/16 in, 230.113(g)",
    "0 in", "2026-01-10", ("lead", "v1"), True, Fraction(0), THIN, position="worst",
)  # fmt: skip
WITHIN = replace(
    OUT, reading="1 1/4 in (31.75 mm)", margin="5/16 in", share_left=Fraction(1, 3),
    finding=replace(THIN, verdict=Verdict.WITHIN),
)  # fmt: skip
WIDE = replace(
    WITHIN, place="driver-3", title="back-to-back, 0 deg", position="0 deg", wears=False, share_left=Fraction(1, 400)
)
THICKER = replace(WITHIN, place="driver-3 right")
NARROWER = replace(WITHIN, place="driver-2 left", reading="1 1/8 in (28.575 mm)", share_left=Fraction(1, 5))
OPEN = replace(WITHIN, title="tire width", limit="", margin="", share_left=None, finding=NARROW[0], by=())
ENGINE = EngineCondition(
    "e-1",
    (
        Axle("driver-1", "d-1", ()),
        Axle("driver-2", "d-2", (OUT, WITHIN, OPEN)),
        Axle("driver-3", "d-3", (WIDE, THICKER, replace(NARROWER, place="driver-3 left"))),
        Axle("tender-1", "tw-1", (OPEN,)),
        Axle("tender-2", "tw-2", (WITHIN,), (MOVED,)),
    ),
    (NotMeasuredNow("flange height", "driver-1 left", "no access", "2026-01-10-e-1-annual"),),
    "2026-01-10-e-1-annual",
)
EIGHTY = """\
As of 2026-02-28 (closed): condition of the wheels of 1 engine.

e-1 (last inspected: 2026-01-10-e-1-annual)
  FRONT pair  left                             right
  driver-1 -  - nothing read                   - nothing read
  driver-2 -  - nothing read                   ✗ flange thickness 15/16 in
  driver-3 ✓  ✓ flange thickness +5/16 in      ✓ flange thickness +5/16 in
  tender-1 -  - nothing read                   - nothing read
  tender-2 ?  - nothing read                   - nothing read
  ✗ driver-2 right: outside: flange thickness, worst 15/16 in (23.8125 mm); out
      at or under 15/16 in, 230.113(g); margin 0 in; 2026-01-10 by lead, v1.
  ? suspect: Back-to-back grew by 1/16 in, and nothing was done to the pair.
  ✓ tightest within: driver-3 left, flange thickness, worst 1 1/8 in
      (28.575 mm); out at or under 15/16 in, 230.113(g); margin 5/16 in;
      2026-01-10 by lead, v1.
  1 outside, 1 suspect, 5 within the limits on file, 2 not assessed. Nothing was
    read on driver-1 (d-1).
  Not measured: flange height, driver-1 left: no access.

A trend is the median of past wear at the worst place; ranges, limits and plots:
axlebook wear.
This reports against the limits on file; qualified people and the authority
having jurisdiction decide.
"""


def test_an_engine_at_80_columns_byte_for_byte() -> None:
    """What wears is compared by the share that is left: 1/8 in of a flange is tighter than back-to-back's 1/8 in."""
    assert render_condition(report(), [ENGINE], Look(), whole=False) == EIGHTY


def test_all_has_a_line_for_every_quantity_of_every_wheel() -> None:
    text = " ".join(render_condition(report(), [ENGINE], Look(), whole=True).split())
    assert "✓ within driver-3 left (t-4): flange thickness, worst 1 1/8 in (28.575 mm)" in text
    assert "tire width 1 1/4 in (31.75 mm); not judged: no limit on file for tire width; 2026-01-10 by nobody" in text


def test_where_not_all_fits_what_is_out_is_shown_and_the_rest_is_counted_and_named() -> None:
    rows = {n: replace(WITHIN if n < 39 else OUT, place=f"tender-{n} right") for n in range(1, 41)}
    axles = tuple(Axle(f"tender-{n}", f"tw-{n}", (row,)) for n, row in rows.items())
    text = render_condition(report(), [replace(ENGINE, axles=axles, not_measured=())], Look(), whole=False)
    of_engine = text.split("\n\n")[1].splitlines()
    assert len(of_engine) <= SCREEN
    assert [line.split()[0] for line in of_engine if " ✗ flange" in line] == ["tender-39", "tender-40"]
    left_out = 40 - sum(line.startswith("  tender-") for line in of_engine)
    assert f"Not shown (--all), {left_out}, nothing outside, suspect or undecided on them: tender-" in " ".join(
        text.split()
    )


def test_a_narrow_terminal_keeps_sign_and_verdict_of_every_wheel() -> None:
    lines = render_condition(report(), [ENGINE], Look(width=40), whole=False).splitlines()
    [line] = [line for line in lines if line.startswith("  driver-2")]
    assert line.endswith("✗ outside")
    assert max(map(len, lines)) <= 40


def test_what_is_due_stands_below_overdue_first_and_each_in_a_line() -> None:
    due = [
        DUE._replace(title="Annual inspection", verdict=Verdict.OUTSIDE, since=date(2026, 2, 24)),
        DUE._replace(title="31 service day inspection", due_on=date(2026, 6, 14)),
        DUE._replace(kind=Kind.WATCH, subject="e-1 driver-2 right", told="open on it: rust line"),
    ]
    text = render_condition(report(), [ENGINE], Look(), whole=False, due={"e-1": due})
    assert "  Overdue: since 2026-02-24, Annual inspection, e-1.\n" in text
    assert "  Watch list: e-1 driver-2 right (open on it: rust line).\n" in text
    assert "  Next due: by 2026-06-14, 31 service day inspection, e-1.\n" in text


def test_what_is_due_and_does_not_fit_is_counted_with_the_command_that_shows_it() -> None:
    late = DUE._replace(title="Axles, ultrasonic, both ends", verdict=Verdict.OUTSIDE, since=date(2026, 2, 24))
    due = [late._replace(subject=f"e-1 d-{number}") for number in range(1, 10)]
    due += [DUE._replace(title="31 service day inspection", due_on=date(2026, 6, day)) for day in range(1, 10)]
    for width in (40, 60, 80, 120):
        text = " ".join(render_condition(report(), [ENGINE], Look(width), whole=False, due={"e-1": due}).split())
        overdue, ahead = text.partition("Next due: ")[::2]
        shown = overdue.count("since 2026-02-24")
        assert f"{9 - shown} more: axlebook due --engine e-1." in overdue
        assert ahead.startswith("by 2026-06-01, ")
        assert f"{9 - ahead.count('2026-06-0')} more: axlebook due --engine e-1." in ahead


def test_a_day_that_has_gone_by_is_not_next_due_where_nobody_wrote_that_it_was_done() -> None:
    filed = DUE._replace(kind=Kind.REPORT, title="Report of the annual inspection", verdict=Verdict.NOT_ASSESSED,
        due_on=date(2026, 2, 24),
    )  # fmt: skip
    for whole in (True, False):
        text = render_condition(report(), [ENGINE], Look(), whole=whole, due={"e-1": [filed]})
        said = "Overdue unless it was done: by 2026-02-24, Report of the annual inspection, e-1."
        assert said in " ".join(text.split())
        assert "Next due" not in text


def test_what_holds_an_engine_back_and_is_cut_is_shown_whole_by_a_command_that_is_named() -> None:
    held = [
        Restriction("e-1", "restriction", "e-1", f"{number}: {'word ' * 40}end", "2026-01-10", "", "lead", "d-1")
        for number in range(12)
    ]  # fmt: skip
    text = render_condition(report(), [ENGINE], Look(), whole=False, held=held)
    assert "in full: axlebook status e-1 --all\n" in text
    assert len(text.split("\n\n")[1].splitlines()) <= SCREEN


DUE = Due(
    Kind.INSPECTION, "annual", "e-1", "e-1", "", Verdict.WITHIN, Severity.CONDEMNING, "", "", "", Place("ledger.yaml")
)


def test_a_long_name_gives_way_in_the_plan_and_never_the_figure() -> None:
    long = replace(WITHIN, title="thicknesses of shim under a tire of a driver", margin="2 pieces", position="")
    engine = replace(ENGINE, axles=(Axle("driver-2", "d-2", (replace(long, place="driver-2 left"),)),))
    text = render_condition(report(), [engine], Look(), whole=False)
    assert "… +2 pieces" in text


def cells(*rows: Row, others: tuple[Finding, ...] = ()) -> str:
    """The line of driver-2 in the plan."""
    engine = replace(ENGINE, axles=(Axle("driver-2", "d-2", rows, others),))
    lines = render_condition(report(), [engine], Look(), whole=False).splitlines()
    return next(line for line in lines if line.startswith("  driver-2"))


def test_a_wheel_has_no_check_mark_while_a_limit_waits_for_what_is_not_on_record() -> None:
    waits = replace(OPEN, place="driver-2 right", finding=NARROW[1], waits=True)
    assert "○ not assessed: tire width" in cells(WITHIN, waits)
    long = replace(waits, title="shim layers under a tire")
    assert cells(WITHIN, long).endswith("○ not assessed: shim layers…")  # no word is cut
    assert "✓ flange thickness" in cells(WITHIN, replace(OPEN, place="driver-2 right"))  # no limit is for it at all
    assert "✗ flange thickness" in cells(OUT, waits)


def test_what_may_be_out_stands_in_the_plan_before_doubt_of_a_record() -> None:
    undecided = replace(OUT, finding=replace(THIN, verdict=Verdict.UNDECIDED), reading="under 1 in")
    doubt = replace(MOVED, check="author-not-reader", severity=Severity.DATA, subject="e-1 driver-2 right")
    assert "≈ flange thickness under 1 in" in cells(undecided, others=(doubt,))
    loose = replace(doubt, check="loose-tire-signs", severity=Severity.WATCH)
    assert "? suspect: loose tire signs" in cells(undecided, others=(loose,))


def test_the_same_words_of_several_records_are_told_once_with_their_number() -> None:
    once, later = (replace(MOVED, place=Place(f"a/{year}-01-10-e-1-annual.yaml")) for year in (2026, 2027))
    engine = replace(ENGINE, axles=(Axle("tender-2", "tw-2", (WITHIN,), (once, later)),))
    short, full = (" ".join(render_condition(report(), [engine], Look(), whole=one).split()) for one in (False, True))
    assert short.count("Back-to-back grew by 1/16 in") == full.count("Back-to-back grew by 1/16 in") == 1
    assert "So in 2 records, the last 2027-01-10-e-1-annual." in full


def test_a_wheel_of_which_the_same_is_asked_about_is_not_the_tightest_within() -> None:
    tighter = replace(WITHIN, place="driver-2 left", share_left=Fraction(1, 50))
    wider = replace(WITHIN, place="driver-3 left", share_left=Fraction(1, 4))
    undecided = replace(tighter, finding=replace(THIN, verdict=Verdict.UNDECIDED))
    jump = replace(THIN, check="metal-added", verdict=Verdict.SUSPECT, subject="e-1 driver-2 left")
    for rows, others in (((tighter,), ()), ((tighter, undecided), ()), ((tighter,), (jump,))):
        axles = (Axle("driver-2", "d-2", rows, others), Axle("driver-3", "d-3", (wider,)))
        text = render_condition(report(), [EngineCondition("e-1", axles, (), "a")], Look(), whole=False)
        tightest = "driver-3" if len(rows) > 1 or others else "driver-2"
        assert f"tightest within: {tightest} left" in text
