"""The printed answers of published worked examples, against our formulas.

One YAML file a source. Its head says `source`, `where` (repository and file, page or address),
`seen` (full, excerpt or memory) and `printed_by`; then `cases`, each with:

    id        unique over all the files
    formula   a name in the FORMULAS table of one of the formulas*.py files beside this one
    place     example and page
    given     name: "number unit" | number without unit | list of these
    expected  name: {printed: "number unit", tolerance: "number unit" or "number %"}

A tolerance that is left out is half a unit of the last digit printed. Where the print is wrong or
roughly rounded, `exact: "number unit"` is what must come out (within `tolerance`), `why` says why the
two differ, and the printed value must then NOT come out within that tolerance.

Temperatures are absolute ("80 degC"); a difference is written in K or delta_degF.
"""

from __future__ import annotations

import importlib.util
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

import pint
import pytest
import yaml

HERE = Path(__file__).parent
UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()
SEEN = {"full", "excerpt", "memory"}

Formula = Callable[[Mapping[str, Any]], Mapping[str, Any]]


@dataclass(frozen=True)
class Case:
    """One worked example of one source."""

    file: str
    source: Mapping[str, Any]
    body: Mapping[str, Any]


def number_and_unit(text: str | float) -> tuple[str, str]:
    """The number and the unit of a written value, both as text."""
    number, _, unit = str(text).strip().partition(" ")
    return number, unit.strip() or "dimensionless"


def in_si(written: Any) -> Any:
    """A written value as a float in SI base units; lists and plain words pass through."""
    if isinstance(written, list):
        return [in_si(item) for item in written]
    number, unit = number_and_unit(written)
    try:
        value = float(number)
    except ValueError:
        return written
    return float(UNITS.Quantity(value, unit).to_base_units().magnitude)


def difference_in_si(written: str) -> float:
    """A written difference as a float in SI base units."""
    number, unit = number_and_unit(written)
    unit = {"degC": "delta_degC", "degF": "delta_degF"}.get(unit, unit)
    return float(UNITS.Quantity(float(number), unit).to_base_units().magnitude)


def half_of_last_digit(printed: str | float) -> str:
    """Half a unit of the last digit printed, as a written difference."""
    number, unit = number_and_unit(printed)
    exponent = Decimal(number).as_tuple().exponent
    assert isinstance(exponent, int)
    return f"{Decimal(5).scaleb(exponent - 1)} {unit}"


def tolerance_in_si(expectation: Mapping[str, Any], aim: float) -> float:
    """How far the result may be from the aim, in SI base units."""
    written = str(expectation.get("tolerance", half_of_last_digit(expectation["printed"])))
    number, unit = number_and_unit(written)
    if unit == "%":
        return abs(aim) * float(number) / 100.0
    return difference_in_si(written)


def sources() -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Each YAML file's name and what it holds."""
    for path in sorted(HERE.glob("*.yaml")):
        yield path.name, yaml.safe_load(path.read_text(encoding="utf-8"))


def cases() -> list[Case]:
    """All cases of all sources, in the order of the files."""
    return [Case(file, source, body) for file, source in sources() for body in source["cases"]]


def formulas() -> dict[str, Formula]:
    """The FORMULAS tables of all formulas*.py files beside this one, as one."""
    table: dict[str, Formula] = {}
    for path in sorted(HERE.glob("formulas*.py")):
        spec = importlib.util.spec_from_file_location(f"published_{path.stem}", path)
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(module)
        twice = table.keys() & module.FORMULAS.keys()
        assert not twice, f"{path.name} names a formula again: {sorted(twice)}"
        table.update(module.FORMULAS)
    return table


CASES = cases()
FORMULAS = formulas()
EXPECTATIONS = [
    pytest.param(case, name, id=f"{case.body['id']}-{name}")
    for case in CASES
    for name in case.body["expected"]
]


@pytest.mark.parametrize(("case", "name"), EXPECTATIONS)
def test_the_printed_answer_comes_out(case: Case, name: str) -> None:
    given = {key: in_si(written) for key, written in case.body["given"].items()}
    result = FORMULAS[case.body["formula"]](given)[name]
    expectation = case.body["expected"][name]
    aim = in_si(expectation.get("exact", expectation["printed"]))
    if isinstance(aim, str):
        assert result == aim
        return
    tolerance = tolerance_in_si(expectation, aim)
    assert math.isclose(result, aim, rel_tol=1e-12, abs_tol=tolerance), f"{result}, not {aim} +- {tolerance}"
    if "exact" in expectation:
        assert abs(result - in_si(expectation["printed"])) > tolerance


@pytest.mark.parametrize(("file", "source"), list(sources()))
def test_a_source_says_where_it_is_and_whether_it_was_seen(file: str, source: Mapping[str, Any]) -> None:
    assert source["source"]
    assert source["where"]
    assert source["printed_by"]
    assert source["seen"] in SEEN
    assert source["cases"]
    for body in source["cases"]:
        for expectation in body["expected"].values():
            assert ("exact" in expectation) == ("why" in expectation)


def test_each_case_has_its_own_id() -> None:
    ids = [case.body["id"] for case in CASES]
    assert len(ids) == len(set(ids))


def test_each_formula_of_the_tables_is_used() -> None:
    assert FORMULAS.keys() - {case.body["formula"] for case in CASES} == set()


def test_the_tolerance_follows_the_digits_printed() -> None:
    assert half_of_last_digit("18.50 MPa") == "0.005 MPa"
    assert half_of_last_digit("600 N") == "0.5 N"


def test_a_difference_of_temperature_is_not_shifted_by_32() -> None:
    assert difference_in_si("9 degF") == pytest.approx(5.0)
