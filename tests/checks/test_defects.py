"""Where the part of a defect stands, and in which reading a finding stands."""

from datetime import date
from types import SimpleNamespace
from typing import Any

from axlebook.checks import _defects
from axlebook.findings import Place


def test_a_finding_stands_in_the_reading_whose_place_it_names_and_takes_its_day() -> None:
    source = SimpleNamespace(path="a.yaml")

    def reading(number: int, day: date | None) -> Any:
        return SimpleNamespace(source=source, pointer=f"/readings/{number}", day=SimpleNamespace(first=day))

    first, second = reading(1, date(2020, 1, 2)), reading(11, date(2020, 1, 3))
    session = SimpleNamespace(readings=[first], observations=[second], day=SimpleNamespace(first=date(2020, 1, 1)))
    other = reading(1, date(2020, 1, 9))
    other.source = SimpleNamespace(path="b.yaml")
    book: Any = SimpleNamespace(
        session_by_id={"a": session}, series={1: [first, reading(2, None)], 2: [other]}, seen={3: [second]}
    )

    def finding(pointer: str, path: str = "a.yaml", record: str = "a") -> Any:
        return SimpleNamespace(record=record, place=Place(path, pointer))

    assert _defects.read_on(book, finding("/readings/1/values")) == date(2020, 1, 2)
    assert _defects.read_on(book, finding("/readings/11")) == date(2020, 1, 3)
    assert _defects.read_on(book, finding("/readings/5")) == date(2020, 1, 1)
    assert _defects.read_on(book, finding("/readings/1", "b.yaml")) == date(2020, 1, 1)
    assert _defects.read_on(book, finding("/readings/1", record="lost")) is None
    assert _defects.days_read(book, finding("/readings/1")) == {date(2020, 1, 2)}
    assert _defects.days_read(book, finding("/readings/11")) == {date(2020, 1, 3)}
    assert _defects.days_read(book, finding("/readings/1", "b.yaml")) == {date(2020, 1, 9)}
    assert _defects.days_read(book, finding("/readings/5")) == set()
