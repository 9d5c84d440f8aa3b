"""What a fit's sheet is made of, from records or from flags, and how values with bounds are said."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from axlebook.engineering.fitting import FitSums, Triple
from axlebook.engineering.fitting_heat import FittingHeat
from axlebook.findings import Figure

from .amounts import Amounts
from .sheet import Gap, Line, Section, Table, computed
from .view import Day

Render = Callable[[float], str]


@dataclass(frozen=True)
class Practised:
    """The interference held against the adopted practice: in words, with its figures."""

    text: str
    figures: tuple[Figure, ...] = ()
    source: str = ""
    outside: bool = False


@dataclass(frozen=True)
class FitStory:
    """All that a fit's sheet is made of."""

    subject: str
    sums: FitSums
    heat: FittingHeat | None
    amounts: Amounts
    yield_strength: float | None
    origins: dict[str, str]
    parts: dict[str, float]  # standard uncertainties by cause [m]
    practice: Practised
    readings: tuple[Table, ...] = ()
    warnings: tuple[Line, ...] = ()  # what must be seen first
    sizes: tuple[Line, ...] = ()  # the two diameters and what they were read as
    gauge: Section | None = None
    measured_growth: tuple[Line, ...] = ()
    missing: tuple[Gap, ...] = ()
    assumed: tuple[str, ...] = ()
    day: Day | None = None
    title: str = "Shrink fit"


def triple(name: str, found: Triple, unit: str, ends: tuple[str, str, str]) -> tuple[Figure, ...]:
    """The figures of a value with bounds, one a known end."""
    values = zip(ends, (found.low, found.likely, found.high), strict=True)
    return tuple(f for end, value in values for f in computed(f"{name}_{end}", value, unit))


CENTER_ENDS = ("rim_only", "spoked", "solid")
HOLD_ENDS = ("low", "likely", "high")


def bounded(found: Triple, shown: list[str]) -> str:
    """A value with its bounds in words; `shown` are the three texts, '' where not known."""
    low, likely, high = shown
    if low and low == high:
        return f"{high} (solid center)"
    bounds = f"{low} (rim alone) to {high} (solid disc)" if low else f"at most {high} (solid disc); no lower bound"
    return f"about {likely}; {bounds}" if likely else bounds


def texts(found: Triple, render: Render) -> list[str]:
    """The three ends as text, '' where not known."""
    return ["" if value is None else render(value) for value in (found.low, found.likely, found.high)]


def low_to_high(found: Triple, render: Render) -> str:
    """A hold on low, likely and high friction."""
    low, likely, high = texts(found, render)
    middle = f", likely {likely}" if likely else ""
    return f"low {low}{middle}, high {high}" if low else f"at most {high}{middle}"
