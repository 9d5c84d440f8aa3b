"""The flags of `axlebook turning`: each read once, with its unit, and refused by its name."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TYPE_CHECKING, Any, TypeVar

import click

from axlebook.cli import CannotRun

if TYPE_CHECKING:
    from axlebook.records.turning_wheels import Asked

Command = TypeVar("Command", bound=Callable[..., Any])

# name: (flag, dimension, help, whether zero is a value)
FLAGS: dict[str, tuple[str, str, str, bool]] = {
    "flange": ("--flange", "length", "Flange thickness to bring back to.", False),
    "angle": ("--flange-angle", "angle", "Of the flange's face from the axle's direction.", False),
    "clean_up": ("--clean-up", "length", "Depth that the lathe needs beyond the deepest place.", True),
    "tolerance": ("--tolerance", "length", "Of the lathe, each way on diameter: kept free of the match limits.", True),
    "new_diameter": ("--new-diameter", "length", "Tread diameter of new tires.", False),
    "new_thickness": ("--new-thickness", "length", "Thickness of new tires.", False),
}


def flag_options(command: Command) -> Command:
    """Put the flags on a command."""
    for name, (flag, dimension, help, _) in reversed(FLAGS.items()):
        command = click.option(flag, name, metavar=dimension.upper(), help=help)(command)
    command = click.option("--re-tire", metavar="AXLE", help="New tires on this axle: driver-1.")(command)
    command = click.option(
        "--only", multiple=True, metavar="PLACE", help="Turn only this axle or wheel; may be said often."
    )(command)
    return click.option(
        "--cut", "cuts", multiple=True, metavar="PLACE=DEPTH",
        help="A template's own cut for a wheel or axle, as a depth: 'driver-1 right=0.2 in'. It wins over the angle.",
    )(command)  # fmt: skip


def asked(flags: dict[str, str | None], cuts: tuple[str, ...], only: tuple[str, ...], re_tire: str | None,
          axles: dict[str, str]) -> Asked:  # fmt: skip
    """What was asked for, exact; `axles` is the axle of each wheel there is."""
    from axlebook.records.turning_wheels import Asked

    told = {name: _measure(*FLAGS[name][:2], text, zero=FLAGS[name][3]) for name, text in flags.items() if text}
    if told.get("angle", Fraction(45)) >= 90:
        raise CannotRun(f"--flange-angle must be less than a right angle, not {(flags['angle'] or '')[:40]}.")
    if re_tire is not None and re_tire not in axles.values():
        raise CannotRun(_unknown("--re-tire", re_tire, list(dict.fromkeys(axles.values()))))
    if re_tire is None and ("new_diameter" in told or "new_thickness" in told):
        raise CannotRun("--re-tire is missing: say on which axle the new tires go.")
    chosen = [name for place in only for name in _wheels("--only", place, axles)]
    return Asked(
        **told,
        cuts=_cuts(cuts, axles),
        only=tuple(name for name in axles if name in chosen),
        re_tire=re_tire or "",
    )


def _cuts(cuts: tuple[str, ...], axles: dict[str, str]) -> dict[str, Fraction]:
    found: dict[str, Fraction] = {}
    for text in cuts:
        place, equals, depth = text.partition("=")
        if not equals:
            raise CannotRun(f"--cut takes PLACE=DEPTH, such as 'driver-1 right=0.2 in', not {text[:60]!r}.")
        value = _measure("--cut", "length", depth, zero=True)
        found |= dict.fromkeys(_wheels("--cut", place, axles), value)
    return found


def _wheels(flag: str, place: str, axles: dict[str, str]) -> list[str]:
    name = place.strip()
    found = [wheel for wheel, axle in axles.items() if name in (wheel, axle)]
    if not found:
        raise CannotRun(_unknown(flag, name, [*dict.fromkeys(axles.values()), *axles]))
    return found


def _unknown(flag: str, name: str, there: list[str]) -> str:
    return f"{flag}: there is no place {name[:60]!r} in the coupled set. There are: {', '.join(there) or 'none'}."


def _measure(flag: str, dimension: str, text: str, *, zero: bool) -> Fraction:
    from axlebook.quantities import NotAMeasure, parse_quantity

    try:
        found = parse_quantity(text.strip(), dimension).exact
    except NotAMeasure as refused:
        raise CannotRun(f"{flag}: {refused}") from None
    if not (found > 0 or (zero and found == 0)):
        raise CannotRun(f"{flag} must {'not be negative' if zero else 'be more than zero'}, not {text[:40]}.")
    return found
