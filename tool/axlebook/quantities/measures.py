"""What a measured text means: a quantity or an interval; and the refusal of what means neither."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

_LONGEST_SHOWN = 48


class NotAMeasure(ValueError):  # noqa: N818 - the name is what the caller says
    """A text that is no measure: what was read, why it is none, and what to write instead."""

    def __init__(self, text: str, reason: str, hint: str) -> None:
        super().__init__(text, reason, hint)
        self.text = text
        self.reason = reason
        self.hint = hint

    def __str__(self) -> str:
        # repr keeps line breaks and terminal escape codes from reaching a screen
        cut = self.text if len(self.text) <= _LONGEST_SHOWN else self.text[:_LONGEST_SHOWN] + "…"
        return f"read {cut!r}: {self.reason} {self.hint}"


@dataclass(frozen=True, slots=True, eq=False)
class Quantity:
    """One measured or written value, exact.

    Quantities compare by what they measure, not by how they are written: `53 3/8 in` equals `1355.725 mm`.
    Ordering two of different kinds is an error of the caller and raises TypeError.
    """

    text: str
    number: Fraction
    unit: str
    dimension: str
    exact: Fraction
    resolution: Fraction | None

    @property
    def kind(self) -> str:
        """What it may be compared with: its dimension, or for counts the thing counted."""
        return self.unit if self.dimension == "count" else self.dimension

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        return self.kind == other.kind and self.exact == other.exact

    def __hash__(self) -> int:
        return hash((self.kind, self.exact))

    def _order(self, other: object, holds: Callable[[Fraction, Fraction], bool]) -> bool:
        if not isinstance(other, Quantity):
            raise TypeError(f"{self.text} has no order beside {other!r}")
        if self.kind != other.kind:
            raise TypeError(f"{self.text} ({self.kind}) and {other.text} ({other.kind}) have no order")
        return holds(self.exact, other.exact)

    def __lt__(self, other: object) -> bool:
        return self._order(other, Fraction.__lt__)

    def __le__(self, other: object) -> bool:
        return self._order(other, Fraction.__le__)

    def __gt__(self, other: object) -> bool:
        return self._order(other, Fraction.__gt__)

    def __ge__(self, other: object) -> bool:
        return self._order(other, Fraction.__ge__)


class Interval(NamedTuple):
    """A value known only to lie under one bound, over one bound, or from one bound to another.

    `under` and `over` leave their bound out (`is_open`); `350 to 375 degF` includes both.
    """

    text: str
    low: Quantity | None
    high: Quantity | None

    @property
    def _bound(self) -> Quantity:
        bound = self.high if self.low is None else self.low
        if bound is None:
            raise ValueError(f"an interval without any bound: {self.text}")
        return bound

    @property
    def dimension(self) -> str:
        """The dimension of its bounds."""
        return self._bound.dimension

    @property
    def unit(self) -> str:
        """The unit of its first bound."""
        return self._bound.unit

    @property
    def kind(self) -> str:
        """What it may be compared with."""
        return self._bound.kind

    @property
    def is_open(self) -> bool:
        """Say whether its one bound is left out: `under` and `over` do not reach what they name."""
        return self.low is None or self.high is None

    @property
    def low_exact(self) -> Fraction | None:
        """The lower bound in SI base, None where there is none."""
        return None if self.low is None else self.low.exact

    @property
    def high_exact(self) -> Fraction | None:
        """The upper bound in SI base, None where there is none."""
        return None if self.high is None else self.high.exact


Measure = Quantity | Interval
