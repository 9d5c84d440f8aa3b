"""A base ledger in which nothing is amiss is told of nothing that is; what is amiss in one is told, and no more."""

import pytest

from axlebook.findings import Verdict

from .cases import run_case

AMISS = (Verdict.OUTSIDE, Verdict.SUSPECT, Verdict.UNDECIDED)


@pytest.mark.parametrize(
    ("base", "amiss"),
    [
        ("one-engine", set()),
        ("due-day", set()),
        ("tire-day", set()),  # two tires bored, measured, heated, seated and gauged as they were ordered
        (
            "one-truck",  # a flange under its limit, no defect written for it, and a reader without a record
            {
                ("flange-thin", "e-1 engine-truck-1 left"),
                ("defect-not-recorded", "e-1 engine-truck-1 left"),
                ("unknown-reference", "2026-01-10-e-1 v9"),
            },
        ),
    ],
)
def test_a_base_ledger_is_told_of_what_is_amiss_in_it_and_of_nothing_else(
    base: str, amiss: set[tuple[str, str]]
) -> None:
    found = run_case({"base": base}).findings
    assert {(finding.check, finding.subject) for finding in found if finding.verdict in AMISS} == amiss


def test_after_a_whole_tire_day_only_what_was_not_read_is_left_open() -> None:
    open_ones = {f.check for f in run_case({"base": "tire-day"}).findings}
    assert open_ones == {
        # read once: nothing to hold it against
        "back-to-back-moved", "loose-tire-signs",
        # not read, or no limit adopted for it
        "required-reading-missing", "back-to-back-outside", "frog-passage", "run-out", "shims-wrong",
        "diameters-differ-on-axle",
    }  # fmt: skip
