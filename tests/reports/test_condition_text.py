"""The condition of an engine as text, byte for byte."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.reports.made import MOVED, NARROW, THIN, report

from axlebook.findings import Verdict
from axlebook.reports.condition_text import SCREEN, render_condition
from axlebook.reports.condition_view import Axle, EngineCondition, NotMeasuredNow, Row
from axlebook.reports.page import Look

OUT = Row(
    "driver-2 right", "t-4", "flange thickness, worst", "15/16 in (23.8125 mm)", "at or under 15/16 in, 230.113(g)",
    "0 in", "2026-01-10", ("lead", "v1"), True, Fraction(0), THIN,
)  # fmt: skip
WITHIN = replace(
    OUT, reading="1 1/4 in (31.75 mm)", margin="5/16 in", share_left=Fraction(1, 3),
    finding=replace(THIN, verdict=Verdict.WITHIN),
)  # fmt: skip
WIDE = replace(WITHIN, title="back-to-back, 0 deg", wears=False, share_left=Fraction(1, 400))
NARROWER = replace(WITHIN, place="driver-2 left", reading="1 1/8 in (28.575 mm)", share_left=Fraction(1, 5))
OPEN = replace(WITHIN, title="tire width", limit="", margin="", share_left=None, finding=NARROW[0], by=())
ENGINE = EngineCondition(
    "e-1",
    (
        Axle("driver-1", "d-1", ()),
        Axle("driver-2", "d-2", (OUT, WITHIN, OPEN)),
        Axle("driver-3", "d-3", (WIDE, WITHIN, replace(NARROWER, place="driver-3 left"))),
        Axle("tender-1", "tw-1", (OPEN,)),
        Axle("tender-2", "tw-2", (WITHIN,), (MOVED,)),
    ),
    (NotMeasuredNow("flange height", "driver-1 left", "no access", "2026-01-10-e-1-annual"),),
    "2026-01-10-e-1-annual",
)
EIGHTY = """\
As of 2026-02-28 (closed): condition of the wheels of 1 engine.

e-1 (last inspected: 2026-01-10-e-1-annual)
  ○ driver-1 (d-1): nothing was read.
  ✗ driver-2 (d-2): outside: right flange thickness, worst 15/16 in (23.8125
      mm); out at or under 15/16 in, 230.113(g); margin 0 in; 2026-01-10 by
      lead, v1. (1 within, 1 not assessed.)
  ✓ driver-3 (d-3): tightest left flange thickness, worst 1 1/8 in (28.575 mm);
      out at or under 15/16 in, 230.113(g); margin 5/16 in; 2026-01-10 by lead,
      v1. (3 within.)
  ○ tender-1 (tw-1): 1 not assessed: no limit on file for tire width.
  ? tender-2 (tw-2): suspect: Back-to-back grew by 1/16 in, and nothing was done
      to the pair.
      (1 within.)
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


def test_where_not_all_fits_what_is_out_is_shown_and_the_rest_is_named() -> None:
    axles = tuple(Axle(f"tender-{n}", f"tw-{n}", (WITHIN if n < 39 else OUT,)) for n in range(1, 41))
    text = render_condition(report(), [replace(ENGINE, axles=axles, not_measured=())], Look(), whole=False)
    of_engine = text.split("\n\n")[1].splitlines()
    shown = [line for line in of_engine if "Not shown" not in line]
    assert "✗ tender-39" in text
    assert "✗ tender-40" in text
    words = " ".join(text.split())
    assert "tender-38 (tw-38)" in words.partition("nothing outside, suspect or undecided on them:")[2]
    assert len([line for line in shown if line.startswith(("  ✓", "  ✗"))]) * 3 <= SCREEN
