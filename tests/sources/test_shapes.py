"""A shape keeps all that the schemas can say, and no more."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.sources.reference import satisfies

from axlebook.quantities import Interval, NotAMeasure, parse_measure, parse_quantity
from axlebook.sources.formats import (
    CANDIDATES,
    DIMENSIONS,
    WRITTEN,
    known_formats,
    measured_formats,
    sort_of,
)
from axlebook.sources.schema_files import ONE, read_schemas, subschemas
from axlebook.sources.shapes import JUDGING, SILENT, Shapes

SHAPES = Shapes(read_schemas().values())


def _all_schemas(schema: dict[str, Any]) -> Iterator[dict[str, Any]]:
    yield schema
    for below in (*schema.get("properties", {}).values(), *subschemas(schema)):
        yield from _all_schemas(below)


@pytest.mark.parametrize("kind", read_schemas())
def test_a_schema_uses_only_keywords_that_a_shape_decides(kind: str) -> None:
    for schema in _all_schemas(read_schemas()[kind]):
        assert schema.keys() <= JUDGING | SILENT
        assert schema.get("format", "id") in known_formats()


def test_values_of_one_form_have_one_shape_and_of_another_form_another() -> None:
    def shape(value: str) -> Any:
        return SHAPES.of({"quantity": "tire_thickness", "values": {"0 deg": value}}, 0)

    assert shape("53 3/8 in") == shape("1355.725 mm")
    assert len({shape(value) for value in ("1 in", "1", "1 lb", "1 spoke")}) == 4


def test_a_list_and_a_group_are_not_confused() -> None:
    assert SHAPES.of({"note": []}, 0) != SHAPES.of({"note": {}}, 0)


def test_a_key_that_no_schema_names_counts_by_what_it_could_be() -> None:
    assert SHAPES.of({"0 deg": "1 in"}, 0) == SHAPES.of({"90 deg": "1 in"}, 0)
    assert SHAPES.of({"0 deg": "1 in"}, 0) != SHAPES.of({"3 o'clock": "1 in"}, 0)


TEXTS = st.text(max_size=70) | st.from_regex(
    r"(driver-[0-3]|t-1|D 2|2026-01-1[0-9]|2026|10:48|all|[0-9]{1,3}|[0-9]{1,3} ?(deg|°)|1/2|2-7/16|½)"
    r"( (left|right|A|B|rear|inner|round|in|mm|degF|spokes|service day|to 3 in))?",
    fullmatch=True,
)


@given(TEXTS)
def test_no_form_is_missed_by_the_short_way(text: str) -> None:
    for name, reads in WRITTEN.items():
        assert not reads(text) or name in CANDIDATES[sort_of(text)], (name, text)


@given(TEXTS | st.sampled_from(["1355-11/16 in", "under 3 in", "UNDER 3 in", " 3 in", "<3 in", "'3 in", ".5 in"]))
def test_no_measure_is_missed_by_the_short_way(text: str) -> None:
    try:
        measure = parse_measure(text)
    except NotAMeasure:
        assert measured_formats(text) <= {"count", ONE + "count"}
        return
    assert {"measure", measure.dimension} <= measured_formats(text)
    assert (ONE + measure.dimension in measured_formats(text)) is not isinstance(measure, Interval)


@given(TEXTS, st.sampled_from(sorted(DIMENSIONS)))
def test_a_text_that_satisfies_one_dimension_is_read_as_that_quantity(text: str, dimension: str) -> None:
    if satisfies(ONE + dimension, text) and dimension not in ("time", "count"):
        assert parse_quantity(text, dimension).text == text


@pytest.mark.parametrize(
    ("name", "text", "holds"),
    [("time", "31 service days", True), ("time", "15 years", True), ("time", "3 spokes", False), ("count", "3", True),
     ("measure", "3", False), ("temperature_difference", "50 degF", True),
     ("one temperature", "350 to 375 degF", False),
     ("temperature", "350 to 375 degF", True), ("length", "1 lb", False)],
)  # fmt: skip
def test_a_format_asks_for_its_dimension(name: str, text: str, holds: bool) -> None:
    assert satisfies(name, text) is holds
