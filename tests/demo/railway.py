"""The true state of an invented engine's wheels over the years: what the hands then read with noise."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from random import Random

from tests.demo.parameters import FIRST_YEAR, LOAD, YEARS

PART, INSTRUMENT = 6.5e-6, 6.4e-6  # expansion of steel and of the instruments [1/degF]
NEW_HEIGHT, NEW_FLANGE = 1.0625, 1.1875  # in, as turned
GROWTH = 0.75  # of the shrinkage allowance: what the taped tread grows by when the tire grips
ALLOWANCES = {38: 0.040, 44: 0.047, 50: 0.053, 56: 0.060}  # as printed in the shipped table
ARRANGEMENTS = {
    "0-4-0": (2, 0),
    "0-6-0": (3, 0),
    "2-6-0": (3, 1),
    "4-4-0": (2, 2),
    "0-8-0": (4, 0),
    "2-8-0": (4, 1),
}
_SEASON = (121, 301)  # days of the year in which the engine runs


@dataclass
class Wheel:
    """One wheel: thickness is to the tread at the taping line; twice that on the seat makes the diameter."""

    side: str
    tire: str
    thickness: float
    seat: float
    rate: float
    flange_share: float
    height: float = NEW_HEIGHT + 0.06
    flange: float = NEW_FLANGE - 0.03
    hollow: float = 0.02
    out_of_round: dict[str, float] = field(default_factory=dict)

    @property
    def diameter(self) -> float:
        """The tread at the taping line."""
        return self.seat + 2 * self.thickness

    def wear(self, depth: float) -> None:
        """Take so much off the tread; flange height rises by it."""
        self.thickness -= depth
        self.height += depth
        self.hollow += 0.5 * depth
        self.flange -= self.flange_share * depth

    def turn(self, diameter: float) -> None:
        """Bring the tread to a diameter, the flange to its contour."""
        self.thickness = (diameter - self.seat) / 2
        self.height, self.flange, self.hollow = NEW_HEIGHT, NEW_FLANGE, 0.0


@dataclass
class Wheelset:
    """Two wheels on an axle. The back-to-back is as under the engine; on blocks the load is off it."""

    id: str
    place: str
    wheels: list[Wheel]
    back_to_back: float
    load: float
    wobble: dict[str, float]
    journals: dict[str, float]
    lateral: float
    register: float = 64.25


@dataclass
class Railway:
    """One engine and all that is drawn for it."""

    seed: int
    rng: Random
    arrangement: str
    center: int
    drivers: list[Wheelset]
    trucks: list[Wheelset]
    turned_in: list[int]
    renewed_in: int
    renewed: Wheelset
    yearly: dict[tuple[str, str, int], float] = field(default_factory=dict)
    worn_to: date = date(FIRST_YEAR, 1, 1)

    @property
    def allowance(self) -> float:
        """The shrinkage allowance for the centers."""
        return ALLOWANCES[self.center]

    def run_to(self, day: date) -> None:
        """Let every wheel wear up to a day."""
        for year in range(self.worn_to.year, day.year + 1):
            share = _season(day, year) - _season(self.worn_to, year)
            for one in [*self.drivers, *self.trucks]:
                one.lateral += 0.010 * share
                for side in one.journals:
                    one.journals[side] -= 0.002 * share
                for wheel in one.wheels:
                    wheel.wear(self._rate(one, wheel, year) * share)
        self.worn_to = day

    def _rate(self, one: Wheelset, wheel: Wheel, year: int) -> float:
        key = (one.id, wheel.side, year)
        if key not in self.yearly:
            self.yearly[key] = wheel.rate * self.rng.uniform(0.75, 1.25)
        return self.yearly[key]


def _season(day: date, year: int) -> float:
    """The share of a year's running that is done by a day.

    >>> _season(date(2014, 1, 1), 2014), _season(date(2015, 1, 1), 2014)
    (0.0, 1.0)
    """
    if day.year != year:
        return 0.0 if day.year < year else 1.0
    first, last = _SEASON
    return min(1.0, max(0.0, (day.timetuple().tm_yday - first) / (last - first)))


def draw_railway(seed: int) -> Railway:
    """Draw an engine and its years."""
    rng = Random(seed)
    arrangement = rng.choice(sorted(ARRANGEMENTS))
    axles, trucks = ARRANGEMENTS[arrangement]
    center = rng.choice(sorted(ALLOWANCES))
    first = center + 2 * rng.uniform(3.0, 3.3)
    drivers = [_wheelset(rng, f"d-{n}", f"driver-{n}", first, float(center), n) for n in range(1, axles + 1)]
    others = [_wheelset(rng, f"et-{n}", f"engine-truck-{n}", 30.0, 26.0, 0) for n in range(1, trucks + 1)]
    turned = [FIRST_YEAR + rng.choice((3, 4)), FIRST_YEAR + rng.choice((7, 8))]
    renewed_in = FIRST_YEAR + rng.choice((5, 6, 9, 10))
    return Railway(seed, rng, arrangement, center, drivers, others, turned, renewed_in, rng.choice(drivers))


def _wheelset(rng: Random, id: str, place: str, diameter: float, seat: float, number: int) -> Wheelset:
    rate = rng.uniform(0.02, 0.04) if number else rng.uniform(0.008, 0.015)
    wheels = []
    for side in ("left", "right"):
        held = seat + rng.uniform(-0.02, 0.02)
        wheels.append(
            Wheel(
                side,
                f"t-{number}{'12'[side == 'right']}",
                (diameter + rng.uniform(-0.02, 0.02) - held) / 2,
                held,
                rate * rng.uniform(0.9, 1.1),
                rng.uniform(0.2, 0.6),
                out_of_round={position: rng.uniform(-0.006, 0.006) for position in POSITIONS},
            )
        )
    return Wheelset(
        id,
        place,
        wheels,
        rng.uniform(53.12, 53.28),
        rng.choice((-1, 1)) * rng.uniform(*LOAD),
        {position: rng.uniform(-0.003, 0.003) for position in POSITIONS},
        {side: rng.uniform(8.20, 8.30) for side in ("left", "right")},
        rng.uniform(0.20, 0.30),
    )


POSITIONS = ("0 deg", "120 deg", "240 deg")
LAST_YEAR = FIRST_YEAR + YEARS - 1
