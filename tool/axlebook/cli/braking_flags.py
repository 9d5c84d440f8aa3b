"""The flags of `axlebook braking`: each read once, with its unit, and refused by its name."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

import click

from axlebook.cli import CannotRun

if TYPE_CHECKING:
    from axlebook.records.brake_assumed import Asked

Command = TypeVar("Command", bound=Callable[..., Any])

# name: (flag, what it takes, help, whether zero is a value)
FLAGS: dict[str, tuple[str, str, str, bool]] = {
    "speed": ("--speed", "speed", "Speed on the grade, and the one a stop begins at.", False),
    "gradient": ("--grade", "grade", "The grade: '2 percent', '1 in 50' or '20 per mille'. Needs --speed.", False),
    "train": ("--train", "mass", "All that these brakes hold, engine included.", False),
    "resistance": ("--resistance", "force", "What the train's own resistance holds of it.", True),
    "wheels": ("--wheels", "whole", "How many wheels share the brake's work.", False),
    "share": ("--share", "ratio", "Of the heat into the wheel and not into the shoe.", False),
    "air": ("--air", "temperature", "Of the center when the brake goes on.", True),
    "interference": ("--interference", "length", "What-if, for tires whose fit nobody recorded.", False),
    "ridges": ("--ridges", "length", "Interference lost to the lathe's ridges, on diameter.", True),
    "growth": ("--growth", "length", "Permanent growth of the bore, on diameter.", True),
    "new": ("--new", "length", "Thickness of the tire when new.", False),
    "density": ("--density", "kg/m3", "Density of steel.", False),
    "specific_heat": ("--specific-heat", "J/(kg K)", "Specific heat of steel.", False),
}
_PER_MILLE = re.compile(r"([0-9.]+)\s*per\s*mille")
_ONE_IN = re.compile(r"1\s*in\s*([0-9.]+)")


def flag_options(command: Command) -> Command:
    """Put the flags on a command."""
    for name, (flag, takes, help, _) in reversed(FLAGS.items()):
        command = click.option(flag, name, metavar=takes.upper() if takes.isalpha() else takes, help=help)(command)
    power = click.option(
        "--power", "powers", multiple=True, metavar="POWER", help="Steady power at one wheel; may be said often."
    )
    return power(command)


def asked(flags: dict[str, str | None], powers: tuple[str, ...]) -> Asked:
    """What was asked for, in SI."""
    from axlebook.records.brake_assumed import Asked

    told = {name: _value(name, text) for name, text in flags.items() if text is not None}
    if "gradient" in told and "speed" not in told:
        raise CannotRun("--speed is missing: a grade alone is no power.")
    if "resistance" in told and "gradient" not in told:
        raise CannotRun("--grade is missing: --resistance only counts on a grade.")
    if "wheels" in told:
        told["wheels"] = int(told["wheels"])
    steady = tuple(_positive("--power", text, _measure("--power", text, "power")) for text in powers)
    return Asked(powers=steady, **told)


def _value(name: str, text: str) -> Any:
    flag, takes, _, zero = FLAGS[name]
    if takes == "temperature":
        return _measure(flag, text, takes)
    found = _read(flag, takes, text)
    if not (found > 0 or (zero and found == 0)):
        raise CannotRun(f"{flag} must {'not be negative' if zero else 'be more than zero'}, not {text[:40]}.")
    if takes in ("ratio", "grade") and found > 1:
        raise CannotRun(f"{flag} is more than the whole: {text[:40]}.")
    return found


def _read(flag: str, takes: str, text: str) -> float:
    if takes == "whole":
        if not (text.isascii() and text.isdigit() and len(text) < 4):
            raise CannotRun(f"{flag} takes a whole number, not {text[:40]!r}.")
        return float(text)
    if takes in ("kg/m3", "J/(kg K)"):
        number = text.strip().removesuffix(takes).strip()
        if number == text.strip():
            raise CannotRun(f"{flag} takes a figure with its unit, such as '{takes}' after it, not {text[:40]!r}.")
        return _number(flag, number)
    if takes == "grade":
        return _grade(flag, text.strip())
    return _measure(flag, text, takes)


def _grade(flag: str, text: str) -> float:
    one_in, per_mille = _ONE_IN.fullmatch(text), _PER_MILLE.fullmatch(text)
    if one_in:
        below = _number(flag, one_in[1])
        return 1.0 / below if below > 0 else 2.0  # refused as more than the whole
    if per_mille:
        return _number(flag, per_mille[1]) / 1000.0
    return _measure(flag, text, "ratio")


def _number(flag: str, text: str) -> float:
    if not re.fullmatch(r"[0-9]{1,9}(\.[0-9]{1,9})?", text):
        raise CannotRun(f"{flag}: {text[:40]!r} is no number.")
    return float(text)


def _measure(flag: str, text: str, dimension: str) -> float:
    from axlebook.quantities import NotAMeasure, parse_quantity

    try:
        return float(parse_quantity(text, dimension).exact)
    except NotAMeasure as refused:
        raise CannotRun(f"{flag}: {refused}") from None


def _positive(flag: str, text: str, value: float) -> float:
    if value <= 0:
        raise CannotRun(f"{flag} must be more than zero, not {text[:40]}.")
    return value
