"""The pure parts of a comparison: trees, limits, findings."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.limits import Limit
from axlebook.records.comparison.differences import Difference, differences
from axlebook.records.comparison.found import findings_changed
from axlebook.records.comparison.limits import way_of
from axlebook.records.limit_set import build_limit_set


def limit(**changed: Any) -> Limit:
    """A limit, out under 1 in; with some keys otherwise."""
    entry = {"id": "x", "quantity": "tire_thickness", "stage": "shop", "clause": "1", "out_when": {"under": "1 in"}}
    entry = {key: value for key, value in {**entry, **changed}.items() if value is not None}
    tree = {"kind": "limit-set", "source": {"title": "T"}, "decision": "as written", "limits": [entry]}
    [built] = build_limit_set("own", "limits/own.yaml", tree).limits
    return built


TABLE = {"columns": ["track_gauge", "limit"], "between_rows": "next row"}


def table(*figures: str) -> dict[str, Any]:
    """A table of some limits by rising gauge."""
    return {**TABLE, "rows": [[f"{number} ft", figure] for number, figure in enumerate(figures, 1)]}


@pytest.mark.parametrize(
    ("was", "now", "way"),
    [
        ({}, {}, None),
        ({}, {"title": "another word", "note": "n", "clause": "2"}, None),
        ({}, {"out_when": {"under": "25.4 mm"}}, None),
        ({}, {"out_when": {"under": "63/64 in"}}, "loosened"),
        ({}, {"out_when": {"under": "1 1/64 in"}}, "tightened"),
        ({}, {"out_when": {"at_most": "1 in"}}, "tightened"),
        ({"out_when": {"at_most": "1 in"}}, {"out_when": {"under": "1 in"}}, "loosened"),
        ({"out_when": {"over": "1 in"}}, {"out_when": {"over": "2 in"}}, "loosened"),
        ({"out_when": {"over": "1 in"}}, {"out_when": {"at_least": "1 in"}}, "tightened"),
        ({"out_when": {"under": "1 in", "over": "2 in"}}, {}, "loosened"),
        ({}, {"out_when": {"under": "1 in", "over": "2 in"}}, "tightened"),
        ({"out_when": {"under": "1 in", "over": "3 in"}}, {"out_when": {"under": "2 in", "over": "4 in"}}, "loosened"),
        ({}, {"applies_to": {"role": "driver"}}, "loosened"),
        ({"applies_to": {"role": "driver"}}, {}, "tightened"),
        ({"applies_to": {"role": "driver"}}, {"applies_to": {"role": ["driver", "tender"]}}, "tightened"),
        ({"applies_to": {"role": "driver"}}, {"applies_to": {"role": "tender"}}, "changed"),
        ({"stage": "condemning"}, {}, "loosened"),
        ({}, {"stage": "condemning"}, "tightened"),
        ({}, {"expires_on": "2027-01-01"}, "loosened"),
        ({"docket": "D", "expires_on": "2027-01-01"}, {"docket": "D", "expires_on": "2028-01-01"}, "loosened"),
        ({}, {"quantity": "rim_thickness"}, "changed"),
        (
            {"out_when": {"under": "table"}, "table": table("1 in", "2 in")},
            {"out_when": {"under": "table"}, "table": table("1 in", "1 1/2 in")},
            "loosened",
        ),
        (
            {"out_when": {"under": "table"}, "table": table("1 in", "2 in")},
            {"out_when": {"under": "table"}, "table": table("1 in", "2 in", "3 in")},
            "changed",
        ),
    ],
)
def test_a_limit_went_the_way_it_went(was: dict[str, Any], now: dict[str, Any], way: str | None) -> None:
    assert way_of(limit(**was), limit(**now)) == way


def test_what_moved_in_a_list_is_no_difference_and_what_came_in_is_one() -> None:
    a, b, c = ({"quantity": name, "values": {"worst": "1 in"}} for name in "abc")
    came = list(differences({"readings": [a, c]}, {"readings": [a, b, c]}))
    assert came == [Difference("/readings/1", None, "quantity: b, values: worst: 1 in")]
    altered = list(differences({"readings": [a, c]}, {"readings": [a, {**c, "values": {"worst": "2 in"}}]}))
    assert altered == [Difference("/readings/1/values/worst", "1 in", "2 in")]


def test_lists_too_long_to_align_are_held_against_each_other_in_order() -> None:
    long = [str(number) for number in range(2000)]
    found = list(differences(long, ["x", *long[1:-1], "y"]))
    assert [(one.pointer, one.now) for one in found] == [("/0", "x"), ("/1999", "y")]


TREES = st.recursive(
    st.text(max_size=3),
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.text("ab/~", min_size=1, max_size=2), inner, max_size=3)
    ),
    max_leaves=12,
)


@given(TREES, TREES)
def test_two_trees_differ_exactly_where_they_are_not_the_same(one: Any, other: Any) -> None:
    assert (list(differences(one, other)) == []) is (one == other)
    assert list(differences(one, one)) == []


def finding(verdict: Verdict, severity: Severity = Severity.SHOP, waived: str = "", record: str = "r") -> Finding:
    """A finding of one fingerprint a record."""
    return Finding("thin", verdict, severity, "e-1 driver-1", Place(f"inspections/{record}.yaml"), "m", waived=waived)


@pytest.mark.parametrize(
    ("was", "now", "category"),
    [
        ([], [finding(Verdict.OUTSIDE)], "new"),
        ([finding(Verdict.OUTSIDE)], [], "gone"),
        ([finding(Verdict.OUTSIDE)], [finding(Verdict.OUTSIDE)], "unchanged"),
        ([finding(Verdict.UNDECIDED)], [finding(Verdict.OUTSIDE)], "worse"),
        ([finding(Verdict.OUTSIDE, waived="w")], [finding(Verdict.OUTSIDE)], "worse"),
        ([finding(Verdict.OUTSIDE, Severity.NOTE)], [finding(Verdict.OUTSIDE)], "worse"),
        ([finding(Verdict.OUTSIDE)], [finding(Verdict.OUTSIDE, Severity.CONDEMNING)], "worse"),
        ([finding(Verdict.OUTSIDE)], [finding(Verdict.UNDECIDED)], "better"),
    ],
)
def test_findings_are_paired_by_fingerprint_and_by_weight(
    was: list[Finding], now: list[Finding], category: str
) -> None:
    found = findings_changed(was, now)
    told = {
        "new": len(found.new), "gone": len(found.gone), "worse": len(found.worse), "better": len(found.better),
        "unchanged": found.unchanged,
    }  # fmt: skip
    assert told == {**dict.fromkeys(told, 0), category: 1}
    assert found.fails(strict=False) is (category in ("new", "worse"))


def test_of_several_findings_with_one_fingerprint_each_is_paired_once() -> None:
    found = findings_changed([finding(Verdict.OUTSIDE)], [finding(Verdict.OUTSIDE), finding(Verdict.OUTSIDE)])
    assert (len(found.new), found.unchanged) == (1, 1)
