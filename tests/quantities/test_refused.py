"""Every kind of text that is refused, with the words that tell the writer what to do."""

import pickle

import pytest

from axlebook.quantities import NotAMeasure, parse_measure, parse_quantity

REFUSED = [
    # text, a part of the reason, a part of the hint
    ("", "nothing here", "such as 53 3/8 in"),
    ("   ", "nothing here", "such as 53 3/8 in"),
    ("unknown", "no number", "such as"),
    ("in", "no number", "such as"),
    ("53", "has no unit", "53 in or 53 mm"),
    ("53 3/8", "has no unit", "53 3/8 in or 53 3/8 mm"),
    ("53.375", "has no unit", "53.375 in or 53.375 mm"),
    ("1/16", "has no unit", "1/16 in"),
    ("16-Jan", "date", "apostrophe"),
    ("Jan-16", "date", "apostrophe"),
    ("16 January", "date", "apostrophe"),
    ("3-mar-16", "date", "apostrophe"),
    ("2026-01-16", "date", "apostrophe"),
    ("2026-01-16 00:00:00", "date", "apostrophe"),
    ("1/16/2026", "date", "apostrophe"),
    ("16.1.2026", "date", "apostrophe"),
    ("1/0 in", "0 below the line", "again"),
    ("1 1/0 in", "0 below the line", "again"),
    ("1 1/2/3 in", "one slash", "1 1/2 in"),
    ("1 1/2/3", "one slash", "1 1/2 in"),
    ("2 3\\16 in", "slash leans the other way", "Write 2 3/16 in."),
    ("3\\16", "slash leans the other way", "Write 3/16 in."),
    ("2 3 \\ 16", "slash leans the other way", "Write 2 3 / 16 in."),
    ("2 3\\0 in", "slash leans the other way", "such as 53 3/8 in"),
    ("1,5 in", "decimal mark", "1.5 in"),
    ("53,3750 in", "decimal mark", "53.3750 in"),
    ("143,000 lb", "a thousandfold", "143000 lb or 143.000 lb"),
    ("53,375 mm", "a thousandfold", "53375 mm or 53.375 mm"),
    ("1,435,000 mm", "thousands", "1435000 mm"),
    ("1.353,5 mm", "decimal mark", "Write 1353.5 mm."),
    ("1,353.5 mm", "thousands", "Write 1353.5 mm."),
    ("53,3/8 in", "before the fraction", "Write 53 3/8 in."),
    ("53, 3/8 in", "before the fraction", "Write 53 3/8 in."),
    ("2.6.1 in", "one decimal point", "such as 2.61 in"),
    ("2..5 in", "one decimal point", "such as 2.61 in"),
    ("2 7/16 7/16 in", "more than one number", "5 1/2 in"),
    ("2 7/16 im", "'im' is not known", "53 3/8 in"),
    ("nan", "no number", "say why"),
    ("NaN in", "no number", "say why"),
    ("inf in", "no number", "say why"),
    ("-infinity mm", "no number", "say why"),
    ("1e999999 in", "power of ten", "such as"),
    ("1e99 in", "power of ten", "out"),
    ("1e-99 in", "power of ten", "out"),
    ("9" * 16 + " in", "digits", "that were read"),
    ("0." + "1" * 16 + " in", "digits", "that were read"),
    ("1/" + "9" * 16 + " in", "digits", "that were read"),
    ("9" * 10_000 + " in", "longer than 60", "alone"),
    ("53 in" + " " * 10_000, "longer than 60", "alone"),
    ("99999999 m", "of that size", "Check"),
    ("-99999999 m", "of that size", "Check"),
    ("99999999999 lb", "of that size", "Check"),
    ("-460 degF", "of that size", "Check"),
    ("-274 degC", "of that size", "Check"),
    ("-1 K", "of that size", "Check"),
    ("2 /K", "of that size", "Check"),
    ("2 9/8 in", "not less than 1", "2 7/16 in"),
    ("2 8/8 in", "not less than 1", "2 7/16 in"),
    ("4 ft 9/8 ft", "more after", "such as"),
    ("4 ft 12 in", "fewer than 12", "4 ft 8 1/2 in"),
    ("4 ft 8 1/2", "no unit", "4 ft 8 1/2 in"),
    ("4' 8", "no unit", "4' 8 in"),
    ("8 in 4 ft", "before inches", "4 ft 8 1/2 in"),
    ("4 ft -8 in", "more after", "such as"),
    ("4.5 ft 8 in", "more after", "such as"),
    ("5 lb 3 oz", "more after", "such as"),
    ("53 inc", "'inc' is not known", "53 in if"),
    ("53 milimeters", "not known", "53 mm if"),
    ("53 furlong", "not known", "such as"),
    ("350 F", "more than one meaning", "350 degF"),
    ("180 C", "more than one meaning", "180 degC"),
    ("22 tons", "more than one meaning", "22 short tons, 22 long tons or 22 t"),
    ("2 mil", "more than one meaning", "2 thou, or 2 mm"),
    ("5 mPa", "more than one meaning", "5 MPa"),
    ("7-8 in", "range or a fraction", "7 to 8 in for a range, 7/8 in for a fraction"),
    ("350-375 degF", "range or a fraction", "350 to 375 degF"),
    ("7-16", "range or a fraction", "7/16 in"),
    ("5 3 in", "more than one number", "5.5 in"),
    ("2.5 1/2 in", "more than one number", "5.5 in"),
    ("2.5/8 in", "more than one number", "5.5 in"),
    ("1/2.5 in", "more than one number", "5.5 in"),
    ("- 5 in", "sign directly before", "number first"),
    ("--5 in", "sign directly before", "number first"),
    ("about 5 in", "starts with its number", "under and over"),
    ("~5 in", "starts with its number", "under and over"),
    ("in 5", "starts with its number", "under and over"),
    ("53. in", "not known", "53 in if"),
    ("53\tin", "not known", "53 in if"),
    ("53\nin", "not known", "53 in if"),
    ("0x10 in", "more after", "such as"),
    ("1_000 in", "more after", "such as"),
    ("٥ in", "no number", "such as"),
    ("１２ in", "no number", "such as"),
    ("1²/3 in", "more after", "such as"),
    ("53 3/8 in, left", "not known", "such as"),
]


@pytest.mark.parametrize(("text", "reason", "hint"), REFUSED)
def test_what_is_no_measure_is_refused_with_what_to_write(text: str, reason: str, hint: str) -> None:
    with pytest.raises(NotAMeasure) as caught:
        parse_measure(text)
    assert caught.value.text == text
    assert reason in caught.value.reason
    assert hint in caught.value.hint


@pytest.mark.parametrize(("text", "_reason", "_hint"), REFUSED)
def test_a_refusal_is_two_short_sentences_on_one_line(text: str, _reason: str, _hint: str) -> None:
    with pytest.raises(NotAMeasure) as caught:
        parse_measure(text)
    assert caught.value.reason.endswith(".")
    assert caught.value.hint.endswith(".")
    assert str(caught.value).isprintable()
    assert len(str(caught.value)) < 250


def test_another_dimension_is_refused_by_name() -> None:
    with pytest.raises(NotAMeasure) as caught:
        parse_quantity("350 degF", "length")
    assert caught.value.reason == "a length is asked for, and this is a temperature."
    assert caught.value.hint == "Write it such as 53 3/8 in."


def test_an_interval_is_refused_where_one_value_is_asked_for() -> None:
    with pytest.raises(NotAMeasure, match="not an interval"):
        parse_quantity("under 0.0015 in", "length")
    with pytest.raises(NotAMeasure, match="not an interval"):
        parse_quantity("350 to 375 degF", "temperature_difference")


def test_escape_codes_do_not_reach_the_screen() -> None:
    with pytest.raises(NotAMeasure) as caught:
        parse_measure("\x1b[31m5 in\x07")
    assert "\x1b" not in str(caught.value)


def test_a_refusal_survives_a_trip_to_another_process() -> None:
    with pytest.raises(NotAMeasure) as caught:
        parse_measure("1,5 in")
    again = pickle.loads(pickle.dumps(caught.value))
    assert (again.text, again.reason, again.hint) == caught.value.args


def test_a_size_at_the_bound_is_still_read() -> None:
    assert parse_quantity("1000000 m").exact == 10**6
    assert parse_quantity("200000 miles").number == 200000
