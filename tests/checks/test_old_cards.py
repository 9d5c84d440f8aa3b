"""An old card gets in without a lie: what it does not tell is a note or not assessed, never a refusal."""

import pytest

from axlebook.findings import COUNTED_FOR_EXIT, Finding, Verdict, counts_for_exit

from .cases import run_case

CARD = """kind: inspection
measured_on: {day}
engine: e-1
purpose: periodic
by: unknown
transcribed:
  source: "card file, drawer 2"
  by: lead
  transcribed_on: 2026-01-10
readings:
  - quantity: flange_thickness
    place: engine-truck-1 right
    with: unknown
    where: 3/8 in above tread
    sure: uncertain
    values: {{worst: 7/8 in}}
  - quantity: tread_hollow
    place: engine-truck-1 right
    sure: unknown
    values: {{worst: unknown}}
  - quantity: back_to_back
    place: engine-truck-1
    sure: uncertain
    values: {{0 deg: 53.5 in, 120 deg: unknown}}
observations:
  - looked_for: crack
    place: engine-truck-1 right
    answer: unknown
    sure: uncertain
"""
OTHERS = {"inspections/2026/2026-01-10-e-1.yaml": None}


def of_the_card(day: str, start: str) -> list[Finding]:
    """What is said of the card in a book that holds no other inspection."""
    case = {
        "base": "one-truck",
        "ledger": {"inspections/1987/1987-card.yaml": CARD.format(day=day)} | OTHERS,
        "change": {"engines/e-1.yaml": [["from: 2020-01-01", f"from: {start}"]]},
    }
    return [finding for finding in run_case(case).findings if finding.record == "1987-card"]


@pytest.mark.parametrize("day", ["unknown", "1987", "1987-05", "1987-05-14"])
@pytest.mark.parametrize("start", ["unknown", "2020-01-01"])
def test_a_card_that_knows_neither_day_nor_reader_nor_figure_is_never_refused(day: str, start: str) -> None:
    found = of_the_card(day, start)
    assert found
    assert not [f"{f.check}: {f.message}" for f in found if f.verdict in COUNTED_FOR_EXIT]
    assert not any(counts_for_exit(finding, strict=False) for finding in found)


def test_a_figure_it_is_not_sure_of_is_undecided_where_it_would_condemn() -> None:
    found = {finding.check: finding for finding in of_the_card("1987-05-14", "unknown")}
    assert found["flange-thin"].verdict is Verdict.UNDECIDED
    assert found["back-to-back-outside"].verdict is Verdict.UNDECIDED
    assert found["value-unknown"].verdict is Verdict.NOT_ASSESSED
    assert "2 values" in found["value-unknown"].message
