"""Corrections put a record right without touching it, and say so where they cannot."""

from datetime import date
from typing import Any

from axlebook.records.corrections import correct, replaced, steps

RECORD = {"kind": "inspection", "readings": [{"values": {"0 deg": ["3 in", "4 in"], "90/1": "5 in"}}]}


def _correction(**keys: str) -> tuple[str, str, dict[str, Any]]:
    return ("c-1", "corrections/c-1.yaml", {"record": "r-1", "corrected_on": "2020-01-02", **keys})


def test_a_correction_that_matches_takes_effect_in_a_copy() -> None:
    given = {"r-1": RECORD}
    made = _correction(at="/readings/0/values/0 deg/1", was="4 in", **{"is": "3 1/8 in"})
    trees, told = correct(given, [made], None)
    assert trees["r-1"]["readings"][0]["values"]["0 deg"] == ["3 in", "3 1/8 in"]
    assert RECORD["readings"][0]["values"]["0 deg"] == ["3 in", "4 in"]  # type: ignore[index]
    assert told[0].failed == ""


def test_a_correction_whose_was_does_not_match_changes_nothing_and_says_what_stands_there() -> None:
    made = _correction(at="/readings/0/values/0 deg/1", was="4.0 in", **{"is": "3 in"})
    trees, told = correct({"r-1": RECORD}, [made], None)
    assert trees["r-1"] == RECORD
    assert told[0].failed == "`4 in` stands there, not `4.0 in`"


def test_a_withdrawn_record_is_gone() -> None:
    trees, told = correct({"r-1": RECORD}, [_correction(withdraws="yes")], None)
    assert trees == {}
    assert told[0].withdraws


def test_a_correction_of_a_record_that_is_not_there_says_so() -> None:
    _, told = correct({}, [_correction(at="/a", was="b", **{"is": "c"})], None)
    assert told[0].failed == "there is no record r-1"


def test_a_later_correction_does_not_reach_an_earlier_state_of_the_book() -> None:
    made = _correction(at="/readings/0/values/0 deg/1", was="4 in", **{"is": "3 in"})
    trees, told = correct({"r-1": RECORD}, [made], date(2020, 1, 1))
    assert trees["r-1"] is RECORD
    assert told == ()


def test_a_pointer_with_escapes_reaches_its_key() -> None:
    assert steps("/readings/0/values/90~11") == ["readings", "0", "values", "90/1"]
    made = replaced(RECORD, steps("/readings/0/values/90~11"), "5 in", "6 in")
    assert isinstance(made, dict)
    assert made["readings"][0]["values"]["90/1"] == "6 in"


def test_a_pointer_into_nothing_is_refused() -> None:
    assert replaced(RECORD, ["readings", "7", "values"], "", "x") == "nothing stands at 7"
    assert replaced(RECORD, ["readings"], "", "x") == "no single value stands there"
    assert isinstance(replaced(RECORD, [], "", "x"), str)


def test_an_absent_key_may_be_added_where_nothing_stood() -> None:
    made = replaced(RECORD, ["purpose"], "", "annual")
    assert isinstance(made, dict)
    assert made["purpose"] == "annual"


def test_a_place_with_more_digits_than_any_list_has_entries_is_no_place() -> None:
    tree = {"readings": [{"values": {"worst": "1 in"}}]}
    many = "9" * 5000
    assert replaced(tree, ["readings", many, "values", "worst"], "1 in", "2 in") == f"nothing stands at {many}"
