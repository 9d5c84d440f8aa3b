"""What an estimate of loosening under the brake takes for granted: each with its source, and how to say otherwise.

All of it lies on the low side: it makes the time shorter, never longer.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

DENSITY, SPECIFIC_HEAT, CONDUCTIVITY = 7850.0, 460.0, 45.0  # of steel [kg/m3], [J/(kg K)], [W/(m K)]
RIDGES = 0.8 * (25e-6 + 16e-6)  # on diameter [m]
ROTATING = 0.1  # of the mass that is stopped
COVERAGE = 2.0  # standard uncertainties that are taken off


@dataclass(frozen=True)
class Asked:
    """What a person said in place of what the records tell, in SI; None where nothing was said."""

    speed: float | None = None
    powers: tuple[float, ...] = ()  # at one wheel, shoe and wheel together
    gradient: float | None = None
    train: float | None = None
    resistance: float = 0.0
    wheels: int | None = None
    interference: float | None = None
    ridges: float | None = None
    growth: float | None = None
    share: float | None = None
    air: float | None = None
    new: float | None = None
    density: float | None = None
    specific_heat: float | None = None


@dataclass(frozen=True)
class Assumed:
    """One thing taken for granted: what, where it comes from, and the option that says otherwise."""

    text: str
    source: str
    flag: str = ""

    @property
    def words(self) -> str:
        """All of it in one line."""
        return f"{self.text} ({self.source}{f'; else say {self.flag}' if self.flag else ''})"


def assumed_of_the_load(asked: Asked, *, compared: bool) -> Iterator[Assumed]:
    """What is taken for granted of powers and stops."""
    if compared:
        source = "45 kW is asked of a freight wagon's wheel, Commission Regulation (EU) No 321/2013; half; a quarter"
        yield Assumed("the powers at one wheel are for comparison", source, "--power, --grade")
    if asked.gradient is not None and not asked.resistance:
        yield Assumed("the train's own resistance holds nothing", "lowest assumption", "--resistance")
    if asked.speed is not None:
        yield Assumed(f"what turns adds {ROTATING:.0%} to the mass that is stopped", "from memory")
        yield Assumed("the loss at speed is that of a solid center, the greatest there can be", "worked out")


def assumed_of_the_wheel(asked: Asked) -> Iterator[Assumed]:
    """What is taken for granted of fit, steel and heat."""
    if asked.ridges is None:
        text = f"the lathe's ridges flatten by {RIDGES * 1000:.3f} mm on diameter"
        yield Assumed(text, "0.8 of 25 and 16 micrometres, DIN 7190, from memory", "--ridges")
    if asked.growth is None:
        text = "nothing is taken off for permanent growth of the bore, which a tire on its center does not show"
        yield Assumed(text, "not measurable", "--growth")
    text = f"{COVERAGE:g} standard uncertainties of the readings are taken off, and what unread temperatures could do"
    yield Assumed(text, "JCGM 100, from memory")
    density, heat = asked.density or DENSITY, asked.specific_heat or SPECIFIC_HEAT
    yield Assumed(
        f"steel of {density:g} kg/m3, {heat:g} J/(kg K), {CONDUCTIVITY:g} W/(m K)",
        "low side of handbooks, from memory",
        "--density, --specific-heat",
    )
    yield Assumed("the tire keeps all its heat, has no flange, and its center stays cold", "lowest assumption")
    yield Assumed(
        "beside that, the model of heat in time lets a spoked center warm through a poor contact, 1500 W/(m2 K), "
        "and loses nothing to the air",
        "the lowest that is told, from memory",
    )
