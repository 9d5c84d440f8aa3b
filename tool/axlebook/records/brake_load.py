"""What the brake has to take up: power on a grade, energy of a stop, and the share of one wheel."""

from __future__ import annotations

from dataclasses import dataclass

from axlebook.engineering.braking import grade_power, heat_into_wheel, stop_energy

from . import fields
from .book import Book
from .brake_assumed import ROTATING, Asked, Assumed, assumed_of_the_load, assumed_of_the_wheel
from .brake_case import brake_tires
from .engine import Engine
from .fit import Missing

COMPARED = (45e3, 22.5e3, 11.25e3)
STANDARD_TEMPERATURE = 293.15  # ISO 1 [K]


@dataclass(frozen=True)
class Power:
    """A steady power at one wheel: of shoe and wheel together, and what goes into the wheel [W]."""

    at_wheel: float
    into_wheel: float
    words: str


@dataclass(frozen=True)
class Load:
    """What one braked wheel takes up."""

    wheels: int
    share: float
    air: float  # temperature of the center when the brake goes on [K]
    powers: tuple[Power, ...]
    stop: float | None  # energy of one stop into one wheel [J]
    speed: float | None
    assumed: tuple[Assumed, ...]
    missing: tuple[Missing, ...]


@dataclass(frozen=True)
class _Given:
    """A figure, and what is taken for granted with it."""

    value: float
    told: Assumed


def brake_load(book: Book, engine: Engine, asked: Asked) -> Load:
    """The load of an engine's braked wheels; all of it on the driving tires where nothing else is said."""
    wheels, share, air = _wheels(book, engine, asked), _share(engine, asked), _air(book, asked)
    mass = _mass(engine, asked)
    powers = _powers(asked, mass.value if mass else None, wheels.value)
    compared = not powers
    if compared:
        powers = [(power, "for comparison") for power in COMPARED]
    stop = None
    if mass is not None and asked.speed is not None:
        energy = stop_energy(mass.value, asked.speed, rotating_mass=ROTATING * mass.value)
        stop = heat_into_wheel(energy, int(wheels.value), share.value)
    rests_on_mass = mass is not None and asked.speed is not None
    told = [wheels.told, *([mass.told] if mass and rests_on_mass else []), share.told, air.told]
    made = tuple(Power(power, heat_into_wheel(power, 1, share.value), words) for power, words in powers)
    return Load(
        int(wheels.value), share.value, air.value, made, stop, asked.speed,
        (*told, *assumed_of_the_load(asked, compared=compared), *assumed_of_the_wheel(asked)),
        tuple(_missing(asked, mass)),
    )  # fmt: skip


def _powers(asked: Asked, mass: float | None, wheels: float) -> list[tuple[float, str]]:
    found = [(power, "as asked") for power in asked.powers]
    if asked.gradient is None or asked.speed is None or mass is None:
        return found
    return [(grade_power(mass, asked.gradient, asked.speed, asked.resistance) / wheels, "on the grade"), *found]


def _missing(asked: Asked, mass: _Given | None) -> list[Missing]:
    found = []
    if asked.speed is None:
        found.append(Missing("no speed is told: no stop is reckoned, and no loss at speed taken off", "Say --speed."))
    if mass is None:
        cause = "no mass of the engine is on record: neither grade nor stop is reckoned"
        found.append(Missing(cause, "Enter it in the engine's record, or say --train, engine included."))
    return found


def _wheels(book: Book, engine: Engine, asked: Asked) -> _Given:
    if asked.wheels is not None:
        return _Given(asked.wheels, Assumed(f"{asked.wheels} wheels share all of it evenly", "as asked", "--wheels"))
    count = sum(stand.line.role == "driver" for stand in brake_tires(book, engine)) or 1
    text = f"the {count} driving tires share all of it evenly; no other brake of the train helps"
    return _Given(count, Assumed(text, "lowest assumption", "--wheels"))


def _share(engine: Engine, asked: Asked) -> _Given:
    if asked.share is not None:
        return _Given(asked.share, Assumed(f"{asked.share:.0%} of the heat goes into the wheel", "as asked", "--share"))
    brake = fields.inner(engine.tree, "brake")
    told = fields.number(brake, "share_into_wheel")
    if told is not None and 0 < told <= 1:
        source = fields.text(brake, "source") or f"{engine.id}, brake"
        return _Given(float(told), Assumed(f"{float(told):.0%} of the heat goes into the wheel", source, "--share"))
    return _Given(1.0, Assumed("all the heat goes into the wheel, none into the shoe", "lowest assumption", "--share"))


def _air(book: Book, asked: Asked) -> _Given:
    words = "the center starts at {}, and stays there for the lowest figures"
    if asked.air is not None:
        return _Given(asked.air, Assumed(words.format("the temperature asked"), "as asked", "--air"))
    told = book.ledger.reference_temperature
    value, source = (float(told), "ledger.yaml") if told is not None else (STANDARD_TEMPERATURE, "ISO 1")
    return _Given(value, Assumed(words.format("the reference temperature"), source, "--air"))


def _mass(engine: Engine, asked: Asked) -> _Given | None:
    """The mass that these brakes hold: as asked, else engine and tender alone [kg]."""
    if asked.train is not None:
        return _Given(asked.train, Assumed("these brakes hold the mass asked, engine included", "as asked", "--train"))
    tree = fields.inner(engine.tree, "mass")
    own, tender = fields.exact(tree, "engine"), fields.exact(tree, "tender")
    if own is None:
        return None
    what = "engine and tender alone, no train" if tender else "the engine alone, no tender and no train"
    source = fields.text(tree, "source") or f"{engine.id}, mass"
    return _Given(float(own + (tender or 0)), Assumed(f"these brakes hold {what}", source, "--train"))
