"""Two readings compared: the sign of the answer, its uncertainty, and what an unread temperature does to it."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from tests.checks.cases import entries

from axlebook.records.book import Book, Thing
from axlebook.records.change import Change, at_20, changes, unlike, worst
from axlebook.records.fit import Missing
from axlebook.run import read_book

LEDGER = """kind: ledger
railway: "Test railway (invented)"
defaults: {track_gauge: 4 ft 8 1/2 in, display_units: inch}
shop_temperatures: {at_least: 48 degF, at_most: 88 degF}
materials:
  tire steel: {expansion: 6.5e-6 /degF, source: test}
closed_on: 2026-02-28
"""
PAIR = Thing("wheelset", "d-2")


AT_68 = "part_temperature: 68 degF, instrument_temperature: 68 degF,"


def _read(day: str, value: str, temperatures: str = AT_68) -> str:
    return f"""kind: inspection
measured_on: {day}
engine: e-1
purpose: periodic
by: [lead]
setup: {{hold: on blocks, clock: "3 o'clock"}}
readings:
  - {{quantity: back_to_back, place: driver-2, with: micrometer-1, {temperatures} values: {{0 deg: {value}}}}}
"""


def _course(*values: str) -> dict[str, str]:
    """Readings a month apart."""
    days = [f"2025-{month:02}-01" for month in range(1, len(values) + 1)]
    return {f"{day}-a": _read(day, value) for day, value in zip(days, values, strict=True)}


def _book(**readings: str) -> Book:
    files: dict[str, str | None] = {"ledger.yaml": LEDGER}
    files |= {f"inspections/{text[text.index('20') :][:4]}/{name}.yaml": text for name, text in readings.items()}
    return read_book(entries("one-engine", files), as_of=None, today=date(2026, 3, 1))


def _change(**readings: str) -> Change:
    found = worst(changes(_book(**readings), PAIR, "back_to_back")[0], 2.0)
    assert isinstance(found, Change)
    return found


def test_wider_is_positive_and_the_two_uncertainties_combine() -> None:
    found = _change(**_course("53.250 in", "53.260 in"))
    assert found.size / 0.0254 == pytest.approx(0.010, abs=1e-9)
    # U .001 at k 2 and .001 over the square root of 12: .000577; twice: .000816 in
    assert found.uncertainty / 0.0254 == pytest.approx(0.000816, abs=1e-6)
    assert found.doubt == 0.0
    assert found.beyond(2.0) is True


def test_an_unread_temperature_widens_by_what_the_shop_allows() -> None:
    unread = _read("2025-02-01", "53.260 in", "instrument_temperature: 68 degF,")
    found = _change(**{"2025-01-01-a": _read("2025-01-01", "53.250 in"), "2025-02-01-a": unread})
    # 53.26 in x 6.5e-6 x 20 degF each way
    assert found.doubt / 0.0254 == pytest.approx(53.26 * 6.5e-6 * 20.0, rel=1e-3)
    assert found.beyond(2.0) is True
    assert found.beyond(8.0) is None  # .0065 allowed: .010 less .0069 is inside, .010 itself is not


def test_a_drift_is_against_the_first_and_a_jump_against_the_one_before() -> None:
    found = _change(**_course("53.250 in", "53.251 in", "53.252 in"))
    assert found.drift
    assert found.before.day == date(2025, 1, 1)
    assert not _change(**_course("53.250 in", "53.251 in", "53.270 in")).drift


def test_one_reading_alone_is_no_change_and_is_unlike_nothing() -> None:
    book = _book(**{"2025-01-01-a": _read("2025-01-01", "53.250 in")})
    assert changes(book, PAIR, "back_to_back") == []
    assert unlike(book, PAIR, "back_to_back") is None


def test_a_reading_at_68_is_itself() -> None:
    book = _book(**{"2025-01-01-a": _read("2025-01-01", "53.250 in")})
    reading = book.series[PAIR, "back_to_back"][0]
    found = at_20(book, reading, Fraction("53.25") * Fraction("0.0254"))
    assert not isinstance(found, Missing)
    assert found[0] == pytest.approx(53.25 * 0.0254, rel=1e-12)
    assert found[1] == 0.0


def test_what_nobody_told_can_be_believed_only_so_far() -> None:
    # neither temperature: 53.25 in, true length or steel, at -40 to 122 degF, and the other taken at 68 degF
    no_shop = LEDGER.replace("shop_temperatures: {at_least: 48 degF, at_most: 88 degF}\n", "")
    by_size = {}
    for value in ("53.290 in", "53.370 in"):
        files: dict[str, str | None] = {"ledger.yaml": no_shop}
        files["inspections/2025/2025-01-01-a.yaml"] = _read("2025-01-01", "53.250 in")
        files["inspections/2025/2025-02-01-a.yaml"] = _read("2025-02-01", value, "")
        book = read_book(entries("one-engine", files), as_of=None, today=date(2026, 3, 1))
        (change,) = changes(book, PAIR, "back_to_back")[0]
        assert change.lack is not None
        assert change.beyond(2.0) is None
        by_size[value] = change.incredible(2.0), change.doubt / 0.0254
    # the most: part 108 degF colder, instrument of steel 54 degF warmer than 68; the least the other way about
    assert by_size["53.290 in"][1] == pytest.approx(53.29 * 6.5e-6 * (108 + 54), rel=1e-2)
    assert by_size["53.290 in"][0] is False
    assert by_size["53.370 in"][0] is True


def test_a_change_that_is_on_record_speaks_before_one_that_cannot_be_judged() -> None:
    found = _book(**_course("53.250 in", "53.270 in"))
    (sure,) = changes(found, PAIR, "back_to_back")[0]
    unsure = sure._replace(size=0.006, lack=Missing("no uncertainty of bar-1 is on record", ""))
    small = sure._replace(size=0.0)
    assert worst([sure, unsure], 2.0) is sure
    assert worst([small, unsure], 2.0) is unsure
    assert worst([small, unsure._replace(size=0.0)], 2.0) is small
    assert worst([unsure._replace(size=0.0)], 2.0) is None
