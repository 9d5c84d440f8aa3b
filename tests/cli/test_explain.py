"""`explain`: manual pages without a network and without a ledger."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.commands import call, promised, small_ledger

from axlebook.checks import all_checks

IDS = [check.ID for check in all_checks()]


@pytest.mark.parametrize("id", IDS)
def test_every_check_has_a_page_that_names_it_and_begins_with_what_is_wrong(tmp_path: Path, id: str) -> None:
    called = call("explain", id, at=tmp_path)
    assert called.code == 0
    assert called.lines[0] == id
    assert called.lines[1][:1].isupper()
    assert max(map(len, called.lines)) <= 80
    result = promised(call("explain", id, "--format", "json", at=tmp_path).out)["result"]
    assert result["title"].endswith(".")
    assert "\n" not in "".join(result["paragraphs"])


def test_without_a_name_all_checks_are_listed_in_reading_order(tmp_path: Path) -> None:
    called = call("explain", at=tmp_path)
    assert called.lines[0].startswith(f"{len(IDS)} checks, in reading order.")
    rows = promised(call("explain", "--format", "json", at=tmp_path).out)["result"]["rows"]
    assert [row["id"] for row in rows] == IDS


def test_a_limit_of_the_ledger_at_hand_tells_when_it_is_outside_and_where_it_is_from(tmp_path: Path) -> None:
    own = (
        "kind: limit-set\nsource: {title: Our practice, edition: of 2020}\ndecision: guard band\nlimits:\n"
        "  - {id: our-flange, quantity: flange_thickness, stage: shop, out_when: {under: 1 in}, clause: page 3}\n"
    )
    root = small_ledger(tmp_path, {"limits/ours.yaml": own})
    called = call("explain", "ours/our-flange", at=root)
    assert called.code == 0
    assert "Outside when flange thickness is under 1 in." in called.out
    assert "Source: Our practice, of 2020, page 3." in called.out
    assert "ours/our-flange" in call("explain", "ours", at=root).out


def test_without_a_ledger_the_shipped_sets_are_explained(tmp_path: Path) -> None:
    called = call("explain", "us-49-cfr-230/flange-thin", at=tmp_path)
    assert "Outside when flange thickness is at or under 15/16 in." in called.out
    assert "230.113(g)" in called.out


def test_a_limit_with_a_table_says_where_it_stands(tmp_path: Path) -> None:
    called = call("explain", "us-49-cfr-230/tire-thin", at=tmp_path)
    assert "It stands in limits/us-49-cfr-230.yaml." in " ".join(called.out.split())


@pytest.mark.parametrize(
    ("name", "says"),
    [("flang", "These begin so: flange-height-falls, flange-thickness-rises, "), ("xyz", "The list of all checks"),
     ("flange-thn", "Did you mean flange-thin?"), ("us-49-cfr-230/flange-thn", "us-49-cfr-230/flange-thin"),
     ("zzz", "axlebook explain"), ("\x1b[31m", "\\x1b"), ("../../x", "axlebook explain"), ("", "axlebook explain")],
)  # fmt: skip
def test_what_there_is_no_page_for_is_answered_with_the_nearest(tmp_path: Path, name: str, says: str) -> None:
    called = call("explain", name, at=tmp_path)
    assert (called.code, called.out) == (2, "")
    assert says in called.err
    assert "\x1b" not in called.err


def test_a_set_lists_its_limits_and_practices_with_their_figures_as_written(tmp_path: Path) -> None:
    shipped = " ".join(call("explain", "us-49-cfr-230", at=tmp_path).out.split())
    assert "/flange-thin: outside when flange thickness is at or under 15/16 in, 230.113(g)" in shipped
    assert "/tire-thin: outside when tire thickness is under the figure of the table (1 1/4 in to 2 in)" in shipped
    assert "/service-days-31: 31 service day inspection, every 31 service days, 230.14" in shipped
    hub = " ".join(call("explain", "ahrons-hub-fit", at=tmp_path).out.split())
    assert "11 long tonf for each 1 in; at most 1 long tonf less; at most 1 long tonf more;" in hub
    rose = " ".join(call("explain", "rose-shrinkage/shrinkage-allowance", at=tmp_path).out.split())
    assert "Worked to: 0.075 percent of the diameter." in rose
