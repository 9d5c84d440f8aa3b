"""Small rules that several checks share, each by the least that shows it."""

import math
from datetime import date
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from axlebook.checks import (
    _corrected,
    _governing,
    _history,
    _shape,
    _slips,
    correction_not_applied,
    pressing_not_told,
    unknown_reference,
)
from axlebook.checks._asked import is_covered, told_in
from axlebook.checks._form import _lost
from axlebook.checks._heat_asked import degrees
from axlebook.checks._instrument_values import told_apart
from axlebook.checks._pressed import _by
from axlebook.checks._records import counted, not_told, some
from axlebook.checks._tire_day import wheelset_of
from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.book import Thing
from axlebook.records.dates import UNKNOWN

INCH = 0.0254


@pytest.mark.parametrize(
    ("place", "left_out", "told"),
    [
        ("/setup/hold", None, ""),
        ("/setup/hold", "", "Nothing of this file is used until then."),
        ("/readings/0/values", "/readings/0", "Entry 1 of `readings` is not used until then."),
        ("/readings/4", "/readings/4", "Entry 5 of `readings` is not used until then."),
        ("/setup/hold", "/setup", "`setup` is not used until then."),
        ("/setup", "/setup", ""),
        ("/setup/hold", "/setup/hold", ""),
        ("/readings/0/values/0 deg", "/readings/0/values/0 deg", ""),
        ("/readings/0/values/0 deg", "/readings/0/values", "`readings/0/values` is not used until then."),
    ],
)
def test_what_a_fault_of_form_takes_with_it_is_said_and_the_value_itself_is_not(
    place: str, left_out: str | None, told: str
) -> None:
    problem: Any = SimpleNamespace(place=Place("a.yaml", place), left_out=left_out)
    assert _lost(problem) == told


def spell(wheelset: str, *, ended: bool) -> tuple[str, str, Any]:
    return wheelset, "left", SimpleNamespace(until="2020-01-01" if ended else None)


@pytest.mark.parametrize(
    ("spells", "carries"),
    [
        ([], "d-1"),  # where it was first
        ([spell("d-1", ended=True), spell("d-2", ended=False)], "d-2"),
        ([spell("d-2", ended=True)], "d-1"),
        ([spell("d-9", ended=False)], "d-1"),  # not on file
        ([spell("d-9", ended=False), spell("d-2", ended=False)], "d-2"),
    ],
)
def test_a_center_is_on_the_wheelset_that_carries_it_now(spells: list[Any], carries: str) -> None:
    standing = SimpleNamespace(sides_of={"c-1": spells})
    book: Any = SimpleNamespace(standing=standing, wheelsets={"d-1": None, "d-2": None})
    center: Any = SimpleNamespace(id="c-1", wheelset="d-1")
    assert wheelset_of(book, center) == carries


@pytest.mark.parametrize(
    ("day", "work", "told"),
    [
        (date(2020, 1, 1), date(2020, 1, 2), True), (date(2020, 1, 2), date(2020, 1, 2), True),
        (date(2020, 1, 3), date(2020, 1, 2), False), (None, date(2020, 1, 2), False), (date(2020, 1, 1), None, False),
    ],
)  # fmt: skip
def test_a_seat_read_by_the_day_of_the_pressing_counts_for_it(day: date | None, work: date | None, told: bool) -> None:
    session: Any = SimpleNamespace(day=SimpleNamespace(last=work))
    assert _by(day, session) is told


def size(*instruments: str, **parts: float) -> Any:
    readings = tuple(SimpleNamespace(instrument=one) for one in instruments)
    return SimpleNamespace(readings=readings, parts={name.replace("_", " "): u for name, u in parts.items()})


def test_a_difference_by_one_instrument_is_good_to_its_resolution_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    # 0.001 in read to the next division is 0.001 / sqrt 12; two readings sqrt 2 of that; times 1.645.
    book: Any = None
    monkeypatch.setattr(_shape, "resolution", lambda book, reading: Fraction(1, 1000))
    known = size("m-1", "m-1", bore_instrument=0.01)
    assert float(_shape.difference_band(book, known)) == pytest.approx(1.645 * 0.001 / math.sqrt(12) * math.sqrt(2))
    assert float(_shape.difference_band(book, known, 4)) == pytest.approx(1.645 * 0.001 / math.sqrt(12) * 2)
    monkeypatch.setattr(_shape, "resolution", lambda book, reading: None)
    assert _shape.difference_band(book, known) == 0


def test_a_difference_by_two_instruments_is_good_to_the_worse_of_them_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    book: Any = None
    monkeypatch.setattr(_shape, "resolution", lambda book, reading: Fraction(1, 1000))
    known = size("m-1", "m-2", bore_instrument=0.01, seat_instrument=0.02, temperature=0.5)
    assert float(_shape.difference_band(book, known, 1)) == pytest.approx(1.645 * 0.02)
    assert _shape.difference_band(book, size("m-1", "m-2", temperature=0.5)) == 0


@pytest.mark.parametrize(
    ("metres", "unit", "told"),
    [
        ((1 + 3 / 64) * INCH, "in", "1 3/64 in"),
        ((1 + 3 / 64) * INCH + 0.9e-6, "in", "1 3/64 in"),  # less than a thousandth of a millimetre off
        ((1 + 3 / 64) * INCH + 1.5e-6, "in", "1.047 in"),
        (1.040 * INCH, "in", "1.04 in"),
        (0.0265 + 2e-6, "mm", "26.50 mm"),
        ((1 + 3 / 64) * INCH, "mm", "26.59 mm"),
        (0.0, "in", "0 in"),
    ],
)
def test_what_was_expected_is_said_in_the_unit_of_the_reading_beside_it(metres: float, unit: str, told: str) -> None:
    assert _slips._rounded(metres, unit) == told


PLAIN = SimpleNamespace(kind="metal-added")


def off(expected: float, spread: float, grid: float = 0.0, apart: float = 0.0) -> Any:
    point = SimpleNamespace(text="1 mm")
    return SimpleNamespace(expected=expected, spread=spread, grid=grid, apart=apart, reach=0.0, point=point)


@pytest.mark.parametrize(
    ("offs", "told"),
    [
        ([off(0.010, 0.001)], "7 mm to 13 mm"),  # three spreads each way
        ([off(0.010, 0.001, grid=0.0005)], "6.5 mm to 13.5 mm"),
        ([off(0.010, 0.0, apart=0.001)], "8 mm to 12 mm"),  # twice what two instruments lie apart
        ([off(0.002, 0.001)], "0 mm to 5 mm"),  # a length is not less than nothing
        ([off(0.003, 0.001)], "0 mm to 6 mm"),
        ([off(-0.002, 0.001)], "-5 mm to 1 mm"),  # what may be less than nothing stays so
        ([off(0.001, 0.001), off(0.010, 0.001), off(0.030, 0.001)], "7 mm to 13 mm"),  # the middle one
    ],
)
def test_the_range_of_a_sound_reading_is_as_wide_as_its_spread_its_grid_and_its_instruments(
    monkeypatch: pytest.MonkeyPatch, offs: list[Any], told: str
) -> None:
    monkeypatch.setattr(_slips, "practice_of", lambda book: SimpleNamespace(plain=3, least=0))
    monkeypatch.setattr(_slips, "resolution", lambda book, reading: None)
    monkeypatch.setattr(_slips, "EXPANDED", 2)
    book: Any = None
    doubt: Any = SimpleNamespace(offs=offs, last=SimpleNamespace(text="10 mm", origin=None), slip=PLAIN)
    assert _slips.expected_span(book, doubt) == told


@pytest.mark.parametrize(
    ("spread", "told"),
    [
        (0.0011, "7 mm to 13 mm"),  # 6.7 to 13.3: what a rule of millimeters can show of it
        (0.001, "7 mm to 13 mm"),  # a division on the end is within
        (0.0001, "9.7 mm to 10.3 mm"),  # finer than a division: as it is
    ],
)
def test_the_range_of_a_sound_reading_ends_on_divisions_as_the_prompt_before_it_says(
    monkeypatch: pytest.MonkeyPatch, spread: float, told: str
) -> None:
    monkeypatch.setattr(_slips, "practice_of", lambda book: SimpleNamespace(plain=3, least=0))
    monkeypatch.setattr(_slips, "resolution", lambda book, reading: Fraction(1, 1000))
    book: Any = None
    doubt: Any = SimpleNamespace(offs=[off(0.010, spread)], last=SimpleNamespace(text="10 mm", origin=None), slip=PLAIN)
    assert _slips.expected_span(book, doubt) == told


def test_what_a_second_reader_was_expected_to_read_does_not_reach_to_what_is_doubted(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(_slips, "practice_of", lambda book: SimpleNamespace(plain=3, second=2, least=0))
    book: Any = None
    slip = SimpleNamespace(kind="second-reader-disagrees")
    doubt: Any = SimpleNamespace(offs=[off(0.010, 0.001)], last=None, slip=slip)
    doubt.offs[0].point.text = "12.5 mm"  # more than two spreads off, and less than three
    assert _slips.expected_span(book, doubt) == "8 mm to 12 mm"


def test_a_few_names_are_listed_and_the_others_counted() -> None:
    assert some(["a", "b", "c"]) == "a, b, c"
    assert some(["a", "b", "a", "c", "d", "e"]) == "a, b, c and 2 more"
    assert some(["a", "b", "c", "d"], 4) == "a, b, c, d"
    assert some([]) == ""
    assert [counted(n, "reading") for n in (0, 1, 2)] == ["0 readings", "1 reading", "2 readings"]


@pytest.mark.parametrize(("over", "more"), [(-1, ""), (0, ""), (1, "; and 1 more"), (3, "; and 3 more")])
def test_the_first_changes_of_a_record_are_told_and_the_others_counted(
    monkeypatch: pytest.MonkeyPatch, over: int, more: str
) -> None:
    monkeypatch.setattr(_history, "_change", str)
    changes: Any = tuple(range(_history.FEW + over))
    first = "; ".join(str(n) for n in range(min(_history.FEW, _history.FEW + over)))
    assert _history.changed_words(changes) == first + more


def test_what_a_record_holds_is_counted_by_its_positions_and_what_was_looked_for_once() -> None:
    def reading(place: str, part: str, *positions: str) -> Any:
        return SimpleNamespace(quantity="it", place=place, part=part, values=[(one, ()) for one in positions])

    seen = [SimpleNamespace(looked_for="crack", place="", part="t-1")] * 2
    again = reading("driver-1", "", "0 deg", "270 deg")
    session: Any = SimpleNamespace(
        readings=[reading("driver-1", "", "0 deg", "90 deg", "180 deg"), again, reading("", "t-1", "worst", "0 deg")],
        observations=seen,
        not_measured=(),
        engine="",
        day=UNKNOWN,
    )
    book: Any = SimpleNamespace(standing=SimpleNamespace(lines={}))
    assert told_in(book, session) == {("it", "driver-1"): 4, ("it", "t-1"): 2, ("crack", "t-1"): 1}


@pytest.mark.parametrize(
    ("there", "told"),
    [("driver-1 left", True), ("driver-1", True), ("engine", True), ("", True), ("driver-1 right", False)],
)
def test_the_pair_and_the_whole_engine_answer_for_a_wheel(there: str, told: bool) -> None:
    assert is_covered("it", "driver-1 left", [("it", there), ("other", "driver-1 left")]) is told


def test_two_readings_of_one_place_are_told_apart_by_where_when_hold_and_reader() -> None:
    def reading(**tree: str) -> Any:
        return SimpleNamespace(tree=tree, by=("v1", "v2"), where="tape line", when="cold after")

    assert told_apart(reading(by="x", hold="on blocks"), "0 deg") == "0 deg tape line cold after on blocks v1 v2"
    assert told_apart(reading(), "0 deg") == "0 deg tape line cold after"


def correction(id: str, pointer: str = "/a", *, record: str = "r-1", failed: str = "") -> Any:
    return SimpleNamespace(id=id, record=record, pointer=pointer, failed=failed)


@pytest.mark.parametrize(
    ("earlier", "told"),
    [
        ((), ""),
        ((correction("c-1"),), "c-1"),
        ((correction("c-1"), correction("c-2")), "c-2"),
        ((correction("c-1"), correction("c-2", failed="no such place")), "c-1"),
        ((correction("c-1", "/b"),), ""),
        ((correction("c-1", record="r-2"),), ""),
        ((correction("c-1", failed="no such place"),), ""),
    ],
)
def test_before_a_correction_that_failed_came_the_last_that_changed_the_same_place(
    earlier: tuple[Any, ...], told: str
) -> None:
    assert correction_not_applied._before(earlier, correction("c-9")) == told


@pytest.mark.parametrize(
    ("target", "near", "step"),
    [
        ("wheelset", "", "If it is not mistyped, write it: `axlebook new driver x-9`; `new wheelset` for one of truck "
                         "or tender."),
        ("wheelset", "d-1", "Write d-1 if that is meant; else write it: `axlebook new driver x-9`; `new wheelset` for "
                            "one of truck or tender."),
        ("tire", "", "If it is not mistyped, write it: `axlebook new tire x-9`."),
        ("purpose", "", "If it is not mistyped, add it."),
    ],
)  # fmt: skip
def test_what_is_not_on_file_is_written_by_its_own_command(target: str, near: str, step: str) -> None:
    book: Any = SimpleNamespace(paths={})
    named: Any = SimpleNamespace(target=target, id="x-9", place=Place("a.yaml"))
    assert unknown_reference._finding(book, "r-1", named, near).next == step


def governing(word: str, value: int | None, stage: str = "shop") -> _governing.Governing:
    exact = None if value is None else Fraction(value)
    return _governing.Governing(f"out {word} {value}", exact, word, stage, "Book", "page 1", "own/x")


def test_the_tightest_figure_each_way_is_kept_and_the_tightest_that_condemns() -> None:
    low, lower = governing("under", 5), governing("at_most", 3, "condemning")
    lowest = governing("under", 2, "condemning")
    high, higher = governing("over", 7), governing("at_least", 9, "condemning")
    assert _governing._tightest([lowest, lower, low, higher, high]) == [low, lower, high, higher]
    assert _governing._tightest([low, governing("under", 6, "condemning")]) == [governing("under", 6, "condemning")]
    seen = governing("seen", None)
    assert _governing._tightest([seen, seen, low]) == [low, seen]
    none, less = governing("under", 0), governing("under", -1)
    assert _governing._tightest([less, none]) == [none]
    more = governing("under", 0)._replace(value=Fraction(1, 2))
    assert _governing._tightest([none, more]) == [more]


def test_what_two_readings_of_a_record_lack_is_told_where_one_line_would_mend_it() -> None:
    vocabulary = SimpleNamespace(find_word=lambda name: None, quantities={}, find_quantity=lambda name: None)
    session = SimpleNamespace(id="r-1", draft=False, tree={}, day=SimpleNamespace(text="2026-01-10"))
    book: Any = SimpleNamespace(session_by_id={"r-1": session}, vocabulary=vocabulary)

    def reading(number: int) -> Any:
        at = Place("a.yaml", f"/readings/{number}")
        return SimpleNamespace(source=SimpleNamespace(record="r-1"), sure="yes", quantity="it", named="x", at=at)

    def place(count: int) -> Place:
        lacking = [reading(number) for number in range(count)]
        [found] = not_told(book, "check", lacking, "no clock", "Write it.", once=lambda one: Place("a.yaml", "/setup"))
        return found.place

    assert place(1) == Place("a.yaml", "/readings/0")
    assert place(2) == Place("a.yaml", "/setup")


def test_a_corrected_value_is_told_with_what_stood_there_before() -> None:
    one = SimpleNamespace(day="2020-01-02", id="c-1", was="1 in")
    nothing = SimpleNamespace(day="2020-01-03", id="c-2", was="")
    book: Any = SimpleNamespace(
        corrected={"a.yaml"}, corrections_at=lambda place: [one, nothing] if place.pointer == "/readings/0" else []
    )

    def said(pointer: str = "/readings/0", path: str = "a.yaml", verdict: str = "outside") -> str:
        found = Finding("check", Verdict(verdict), Severity.SHOP, "e-1", Place(path, pointer), "Out.")
        [told] = _corrected.say_corrected(book, [found])
        return told.message

    assert said() == (
        "Out. Corrected on 2020-01-02 by c-1: `1 in` stood there. Corrected on 2020-01-03 by c-2: nothing stood there."
    )
    assert [said("/readings/1"), said(""), said(path="b.yaml"), said(verdict="within")] == ["Out."] * 4


def pressing(after: bool = False, **tree: str) -> tuple[Any, Any]:
    """A mounting of 2020-05-10, and a book with a quarter read that many days after it."""
    on = date(2020, 5, 10)
    session = SimpleNamespace(tree=tree, day=SimpleNamespace(last=on))
    read = SimpleNamespace(day=SimpleNamespace(first=on if after else date(2020, 5, 9)))
    unknown = SimpleNamespace(day=SimpleNamespace(first=None))
    series = {(Thing("wheelset", "d-1"), "quarter_error"): [unknown, read]}
    return SimpleNamespace(series=series), SimpleNamespace(session=session)


def test_a_quarter_counts_for_a_pressing_where_the_record_or_a_later_reading_tells_it() -> None:
    for wanted, (book, mounting) in (
        (True, pressing(after=True)),
        (False, pressing()),
        (True, pressing(quarter_after="1/64 in")),
    ):
        assert pressing_not_told._quarter(book, mounting, "d-1") is wanted
    book, mounting = pressing(after=True)
    mounting.session.day.last = None
    assert not pressing_not_told._quarter(book, mounting, "d-1")
    assert not pressing_not_told._quarter(book, mounting, "d-2")


def test_a_temperature_is_said_to_the_degree() -> None:
    assert degrees(Fraction("450.15"), celsius=False) == "351 degF"  # 350.6
    assert degrees(Fraction("450.15"), celsius=True) == "177 degC"
