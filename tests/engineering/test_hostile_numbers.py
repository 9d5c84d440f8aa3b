"""Any numbers at all: a formula answers with a number or refuses with a sentence, never crashes."""

from __future__ import annotations

import dataclasses
import inspect
import math
from collections.abc import Callable, Iterable
from types import ModuleType
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlebook.engineering import (
    axle_bending,
    circle,
    gauge,
    grip,
    metrology,
    ring_stress,
    rotation,
    shrink_fit,
    tire_mass,
    uncertainty,
)

MODULES = [
    axle_bending,
    circle,
    gauge,
    grip,
    metrology,
    ring_stress,
    rotation,
    shrink_fit,
    tire_mass,
    uncertainty,
]

plausible = st.floats(0.01, 2.0)
hostile = st.sampled_from(
    [0.0, -0.0, -1.0, math.nan, math.inf, -math.inf, 1e308, -1e308, 5e-324, 1e-200, 1e39]
)
number = st.one_of(plausible, plausible, plausible, hostile)
KINDS: dict[str, st.SearchStrategy[Any]] = {
    "float": number,
    "float | None": st.one_of(number, st.none()),
    "Sequence[float]": st.lists(number, max_size=5),
}


def formulas(module: ModuleType) -> Iterable[Callable[..., Any]]:
    """The public functions of a module whose arguments are all plain numbers or lists of them."""
    for name, thing in vars(module).items():
        own = inspect.isfunction(thing) and thing.__module__ == module.__name__ and not name.startswith("_")
        if own and all(p.annotation in KINDS for p in inspect.signature(thing).parameters.values()):
            yield thing


FORMULAS = [formula for module in MODULES for formula in formulas(module)]


def numbers(result: Any) -> Iterable[float]:
    """The numbers in a result, whether it is one, a tuple or a record of them."""
    if dataclasses.is_dataclass(result):
        result = tuple(vars(result).values())
    values = result if isinstance(result, tuple) else (result,)
    return [value for value in values if isinstance(value, float)]


def answer(formula: Callable[..., Any], arguments: dict[str, Any]) -> Any:
    """What the formula gives, or the sentence it refuses with."""
    try:
        return formula(**arguments)
    except ValueError as refusal:
        return str(refusal)


def test_most_formulas_are_tried() -> None:
    assert len(FORMULAS) > 40


@pytest.mark.parametrize("formula", FORMULAS, ids=lambda f: f.__name__)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_any_numbers_give_an_answer_or_a_sentence(formula: Callable[..., Any], data: st.DataObject) -> None:
    parameters = inspect.signature(formula).parameters.values()
    drawn = [p for p in parameters if p.kind is not inspect.Parameter.VAR_POSITIONAL]
    result = answer(formula, {p.name: data.draw(KINDS[p.annotation], label=p.name) for p in drawn})
    if isinstance(result, str):
        assert result.endswith(".") or result in {"within", "outside", "undecided"}
    assert not any(math.isnan(value) for value in numbers(result))
