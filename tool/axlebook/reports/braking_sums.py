"""The sums of one tire under the brake: for each thickness and power how long the model has grip."""

from __future__ import annotations

from dataclasses import dataclass

from axlebook.engineering.brake_wheel import Loosened, cold_center_rise, loosened_in_time, lumped_time, rise_of_stop
from axlebook.records.brake_case import Thickness, TireCase
from axlebook.records.brake_load import Load, Power


@dataclass(frozen=True)
class Drag:
    """One steady power on one thickness: tire alone with a cold center, and the model of heat in time."""

    thickness: Thickness
    power: Power
    seconds: float | None  # the lowest; None when there is no power to take up
    warm: Loosened | None  # None where the center is not on record


@dataclass(frozen=True)
class Stop:
    """One stop on one thickness: the rise, and how many in a row reach the loosening rise."""

    thickness: Thickness
    rise: float
    in_a_row: float


@dataclass(frozen=True)
class TireSums:
    """All sums of one tire."""

    case: TireCase
    rise: float  # over a cold center [K]
    temperature: float  # of the tire then [K]
    drags: tuple[Drag, ...]
    stops: tuple[Stop, ...]

    def drag(self, word: str, power: Power) -> Drag | None:
        """The drag of one thickness and power."""
        return next((d for d in self.drags if d.thickness.word == word and d.power is power), None)

    @property
    def faster(self) -> float | None:
        """How many times as fast the tire at its limit gets there as the new one."""
        first = self.drags[0].power if self.drags else None
        new, worn = (self.drag(word, first) if first else None for word in ("new", "at the limit"))
        return new.seconds / worn.seconds if new and worn and new.seconds and worn.seconds else None


def tire_sums(case: TireCase, load: Load) -> TireSums | None:
    """The sums of a tire; None where its estimate cannot be made."""
    wheel = case.wheel
    if wheel is None or not case.thicknesses:
        return None
    rise = cold_center_rise(wheel, case.counted, load.air)
    drags = [
        Drag(
            thickness,
            power,
            lumped_time(wheel, thickness.metres, power.into_wheel, rise),
            loosened_in_time(wheel, thickness.metres, power.into_wheel, case.counted, rise),
        )
        for power in load.powers
        for thickness in case.thicknesses
    ]
    stops = []
    if load.stop is not None:
        for thickness in case.thicknesses:
            one = rise_of_stop(wheel, thickness.metres, load.stop)
            stops.append(Stop(thickness, one, rise / one if one else float("inf")))
    return TireSums(case, rise, load.air + rise, tuple(drags), tuple(s for s in stops if s.rise > 0))
