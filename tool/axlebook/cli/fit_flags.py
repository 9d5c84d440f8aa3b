"""The flags of a what-if, and the fit they make. What a flag does not say is refused, or told as an assumption."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any, TypeVar

import click

from axlebook.cli import CannotRun

if TYPE_CHECKING:
    from axlebook.engineering.fitting import FitGiven, Metal, Spokes
    from axlebook.reports.fit_story import FitStory
    from axlebook.reports.sheet import Line

Command = TypeVar("Command", bound=Callable[..., Any])


@dataclass(frozen=True)
class Flag:
    """One flag: how it is written, what it takes, and what it means."""

    flag: str
    takes: str  # a dimension, number, whole, section, or '' for a switch
    help: str
    zero: bool = False  # whether zero is a value


FLAGS: dict[str, Flag] = {
    "center_od": Flag("--center-od", "length", "What-if: outside diameter of the center as read."),
    "bore": Flag("--bore", "length", "Bore of the tire as read."),
    "tire_od": Flag("--tire-od", "length", "Tread diameter of the tire, free."),
    "tire_width": Flag("--tire-width", "length", "Width of the tire."),
    "seat_width": Flag("--seat-width", "length", "Width of the seat it is pressed on."),
    "center_temperature": Flag("--center-temperature", "temperature", "Of the center when read."),
    "bore_temperature": Flag("--bore-temperature", "temperature", "Of the tire when read."),
    "at_68": Flag("--at-68", "", "Both sizes are told as at 68 degF already."),
    "instrument_expansion": Flag("--instrument-expansion", "expansion", "Of what both were read with."),
    "instrument_temperature": Flag("--instrument-temperature", "temperature", "Of what both were read with."),
    "fitting_temperature": Flag("--fitting-temperature", "temperature", "Of the center that day; with parts too."),
    "uncertainty": Flag("--uncertainty", "length", "Standard uncertainty of the interference.", zero=True),
    "shim": Flag("--shim", "length", "Thickness of a shim full round.", zero=True),
    "rim_inside": Flag("--rim-inside", "length", "Inside diameter of a spoked center's rim."),
    "spokes": Flag("--spokes", "whole", "How many spokes."),
    "spoke_section": Flag("--spoke-section", "section", "Section of one spoke, such as 3 x 2 in."),
    "hub": Flag("--hub", "length", "Diameter of the hub."),
    "hub_width": Flag("--hub-width", "length", "Width of the hub along the axle."),
    "solid": Flag("--solid", "", "The center is a solid disc."),
    "plain": Flag("--plain", "", "The tire has no flange."),
    "modulus": Flag("--modulus", "pressure", "Young's modulus of the tire."),
    "poisson": Flag("--poisson", "number", "Poisson ratio of the tire."),
    "expansion": Flag("--expansion", "expansion", "Expansion of the tire, such as 6.5e-6 /degF."),
    "center_modulus": Flag("--center-modulus", "pressure", "Young's modulus of the center."),
    "center_poisson": Flag("--center-poisson", "number", "Poisson ratio of the center."),
    "center_expansion": Flag("--center-expansion", "expansion", "Expansion of the center."),
    "friction": Flag("--friction", "number", "Friction of tire on center, one figure.", zero=True),
    "yield_strength": Flag("--yield-strength", "pressure", "Of the tire, from its certificate."),
    "heat_ceiling": Flag("--heat-ceiling", "temperature", "The hottest the tire may be."),
    "ridge_loss": Flag("--ridge-loss", "length", "Interference lost to the ridges.", zero=True),
    "speed": Flag("--speed", "speed", "Speed of the engine.", zero=True),
    "condemning_thickness": Flag("--condemning-thickness", "length", "Of the tire."),
}
# What the formulas call them.
NAMES = {
    "center_diameter": "center_od", "tread_diameter": "tire_od", "tire_modulus": "modulus", "tire_poisson": "poisson",
    "tire_expansion": "expansion",
}  # fmt: skip
ASSUMED = {"modulus": "205 GPa", "poisson": "0.29", "expansion": "11.7e-6 /K"}  # of plain steel; from memory


def flag_options(command: Command) -> Command:
    """Put the flags on a command."""
    for name, flag in reversed(FLAGS.items()):
        if flag.takes:
            command = click.option(flag.flag, name, metavar=flag.takes.upper(), help=flag.help)(command)
        else:
            command = click.option(flag.flag, name, is_flag=True, help=flag.help)(command)
    return command


class Given:
    """The flags as told: each read once, refused by its name."""

    def __init__(self, flags: dict[str, Any]) -> None:
        self.flags = flags
        self.assumed: list[str] = []

    def text(self, name: str) -> str | None:
        """A flag as written; None where it was left out."""
        found = self.flags.get(name)
        return None if found is None or found is False else str(found)

    def has(self, name: str) -> bool:
        """Whether a flag was given."""
        return self.text(name) is not None

    def find(self, name: str) -> float | None:
        """A flag's value in SI; None where it was left out."""
        text = self.text(name)
        if text is None:
            return None
        flag, exact = FLAGS[name], self._exact(name, text)
        if FLAGS[name].takes in ("length", "pressure", "expansion", "speed", "number", "whole"):
            ratio = name.endswith("poisson")
            if not ratio and (exact < 0 or (exact == 0 and not flag.zero)):
                least = "not be negative" if flag.zero else "be more than zero"
                raise CannotRun(f"{flag.flag} must {least}, not {text}.")
        return float(exact)

    def _exact(self, name: str, text: str) -> Fraction:
        from axlebook.quantities import NotAMeasure, parse_quantity

        flag = FLAGS[name]
        if flag.takes in ("number", "whole"):
            return _number(flag, text)
        try:
            return parse_quantity(text, flag.takes).exact
        except NotAMeasure as refused:
            raise CannotRun(f"{flag.flag}: {refused}") from None

    def require(self, name: str, why: str = "") -> float:
        """A flag's value in SI; refused where it was left out."""
        found = self.find(name)
        if found is None:
            raise CannotRun(f"{FLAGS[name].flag} is missing{why}.")
        return found

    def require_all(self, *names: str) -> None:
        """Refuse once for all flags that were left out, not one after the other."""
        missing = [FLAGS[name].flag for name in names if self.find(name) is None]
        if missing:
            last = f" and {missing[-1]}" if missing[1:] else missing[-1]
            raise CannotRun(f"{', '.join(missing[:-1])}{last} {'are' if missing[1:] else 'is'} missing.")

    def assume(self, name: str, other: str = "") -> float:
        """A flag's value, else another flag's, else that of plain steel; said as assumed."""
        found = self.find(name)
        if found is not None:
            return found
        if other and self.has(other):
            self.assumed.append(f"{FLAGS[name].flag}: assumed as {FLAGS[other].flag}, {self.text(other)}")
            return self.require(other)
        source = other or name
        self.assumed.append(f"{FLAGS[name].flag}: assumed {ASSUMED[source]}, plain steel, from memory")
        return float(self._exact(source, ASSUMED[source]))


def _number(flag: Flag, text: str) -> Fraction:
    whole = flag.takes == "whole"
    try:
        if len(text) > 12 or "/" in text or not text.isascii() or (whole and not text.strip().isdigit()):
            raise ValueError
        return Fraction(text)
    except ValueError:
        kind = "a whole number" if whole else "a plain number such as 0.29"
        raise CannotRun(f"{flag.flag} takes {kind}, not {text[:40]!r}.") from None


def what_if(flags: dict[str, Any], *, brief: bool = False) -> FitStory:
    """The story of a fit from flags alone; the first flag that cannot be is named."""
    from axlebook.engineering.fitting import Impossible, fit_sums
    from axlebook.engineering.fitting_heat import fitting_heat

    told = Given(flags)
    try:
        given = _given(told)
        sums = fit_sums(given)
        fitting = _fitting_temperature(told)
        ceiling, strength = told.find("heat_ceiling"), told.find("yield_strength")
        heat = None if fitting is None else fitting_heat(sums, fitting, ceiling)
    except Impossible as impossible:
        raise CannotRun(impossible.named(_flag_names())) from None
    except CannotRun:
        raise
    except (ValueError, OverflowError, ZeroDivisionError) as refused:
        raise CannotRun(f"these measures cannot be worked with: {refused}") from None
    return _story(told, given, sums, heat, strength, brief)


def _flag_names() -> dict[str, str]:
    return {**{name: flag.flag for name, flag in FLAGS.items()}, **{n: FLAGS[f].flag for n, f in NAMES.items()}}


def _given(told: Given) -> FitGiven:
    from axlebook.engineering.fitting import FitGiven, Metal
    from axlebook.engineering.grip import HIGH_FRICTION, LIKELY_FRICTION, LOW_FRICTION

    tire = Metal(told.assume("modulus"), told.assume("poisson"), told.assume("expansion"))
    center = Metal(
        told.assume("center_modulus", "modulus"), told.assume("center_poisson", "poisson"),
        told.assume("center_expansion", "expansion"),
    )  # fmt: skip
    _require_metals(tire, center)
    told.require_all("center_od", "bore", "tire_od", "tire_width", "seat_width")
    solid = told.has("solid")
    if solid == told.has("rim_inside"):
        raise CannotRun("say either --rim-inside, for a spoked center, or --solid.")
    friction = told.find("friction")
    usual = (LOW_FRICTION, LIKELY_FRICTION, HIGH_FRICTION)
    if not told.has("plain"):
        told.assumed.append("the tire is flanged (--plain: it is not); the flange counts for its mass only")
    seat = told.require("seat_width")
    return FitGiven(
        center_diameter=_at_20(told, "center_od", "center_temperature", center.expansion),
        bore=_at_20(told, "bore", "bore_temperature", tire.expansion),
        tread_diameter=told.require("tire_od"), tire_width=told.require("tire_width"), seat_width=seat,
        tire_metal=tire, center_metal=center, shim=told.find("shim") or 0.0, solid=solid,
        rim_inside=told.find("rim_inside"), spokes=_spokes(told, solid, seat),
        uncertainty=(told.find("uncertainty") or 0.0) * 1.645, ridge_loss=told.find("ridge_loss"),
        speed=told.find("speed"), condemning_thickness=told.find("condemning_thickness"),
        flanged=not told.has("plain"), friction=usual if friction is None else (friction, friction, friction),
    )  # fmt: skip


def _require_metals(tire: Metal, center: Metal) -> None:
    for name, metal in (("poisson", tire), ("center_poisson", center)):
        if not 0.0 <= metal.poisson < 0.5:
            raise CannotRun(f"{FLAGS[name].flag} is a Poisson ratio, from 0 to below 0.5, not {metal.poisson:g}.")


def _at_20(told: Given, size: str, temperature: str, expansion: float) -> float:
    """A size at 20 degC: as told, or taken there by the temperatures told. None is ever taken for 68 degF."""
    from axlebook.engineering.metrology import length_at_20

    read = told.require(size)
    if told.has("at_68"):
        given = next((n for n in ("center_temperature", "bore_temperature") if told.has(n)), None)
        if given:
            raise CannotRun(f"{FLAGS[given].flag} and --at-68 contradict each other: leave one out.")
        return read
    part = told.require(temperature, ": no temperature is taken for granted; give it, or say --at-68")
    own, tool = told.find("instrument_expansion"), told.find("instrument_temperature")
    if own is not None and tool is None:
        raise CannotRun("--instrument-temperature is missing: the instrument's expansion is of no use without it.")
    return length_at_20(
        read, part_temperature=part, part_expansion=expansion, instrument_temperature=tool,
        instrument_expansion=own or 0.0,
    )  # fmt: skip


def _spokes(told: Given, solid: bool, seat: float) -> Spokes | None:
    from axlebook.engineering.fitting import Spokes
    from axlebook.quantities import NotAMeasure
    from axlebook.records.fit_given import parse_section

    names = ("spokes", "spoke_section", "hub")
    given = [name for name in names if told.has(name)]
    if solid and given:
        raise CannotRun(f"{FLAGS[given[0]].flag} and --solid contradict each other: leave one out.")
    if not given:
        return None
    absent = [FLAGS[name].flag for name in names if name not in given]
    if absent:
        raise CannotRun(f"{absent[0]} is missing: the estimate for spokes needs --spokes, --spoke-section and --hub.")
    try:
        first, second = parse_section(told.text("spoke_section") or "")
    except NotAMeasure as refused:
        raise CannotRun(f"--spoke-section: {refused}") from None
    if first.exact <= 0 or second.exact <= 0:
        raise CannotRun("--spoke-section must be more than zero both ways.")
    width = told.find("hub_width")
    if width is None:
        told.assumed.append("--hub-width: assumed as --seat-width")
    return Spokes(int(told.require("spokes")), float(first.exact * second.exact), told.require("hub"), width or seat)


def _fitting_temperature(told: Given) -> float | None:
    found = told.find("fitting_temperature")
    if found is None and told.has("center_temperature"):
        told.assumed.append("--fitting-temperature: assumed as --center-temperature; read it again on the day")
        return told.find("center_temperature")
    return found


def _story(told: Given, given: FitGiven, sums: Any, heat: Any, strength: float | None, brief: bool) -> FitStory:
    from axlebook.quantities import parse_quantity
    from axlebook.reports.amounts import Amounts
    from axlebook.reports.fit_sizes_view import given_lines
    from axlebook.reports.fit_story import FitStory, Practised
    from axlebook.reports.sheet import Gap

    show = Amounts(parse_quantity(told.text("center_od") or "").unit in ("mm", "cm", "m"), brief)
    if not told.has("at_68") and not told.has("instrument_expansion"):
        told.assumed.append("--instrument-expansion: assumed that the instrument reads true length")
    standard = told.find("uncertainty")
    wanted = (
        ("uncertainty", "how far the interference is good is not told"), ("heat_ceiling", "no heat ceiling is told"),
        ("yield_strength", "no yield strength is told"), ("condemning_thickness", "no condemning thickness is told"),
        ("fitting_temperature", "the center's temperature when fitting is not told"),
    )  # fmt: skip
    missing = tuple(
        Gap(cause, f"Give {FLAGS[name].flag}.")
        for name, cause in wanted
        if not told.has(name) and (name != "fitting_temperature" or heat is None)
    )
    origins = {**{NAMES_BACK.get(n, n): FLAGS[n].flag for n in FLAGS if told.has(n)}}
    return FitStory(
        subject="what-if", sums=sums, heat=heat, amounts=show, yield_strength=strength, origins=origins,
        parts={} if standard is None else {"as told": standard},
        practice=Practised("NOT JUDGED: a what-if reads no ledger, and so no practice"),
        sizes=(*_two_sizes(told, given, show), *given_lines(given, origins, show)), missing=missing,
        assumed=tuple(told.assumed), title="Shrink fit",
    )  # fmt: skip


NAMES_BACK = {flag: name for name, flag in NAMES.items()}


def _two_sizes(told: Given, given: FitGiven, show: Any) -> tuple[Line, ...]:
    from axlebook.quantities import parse_quantity
    from axlebook.reports.sheet import Line, computed, written

    lines = []
    for label, flag, name, temperature in (
        ("Center outside diameter", "center_od", "center_diameter", "center_temperature"),
        ("Tire bore", "bore", "bore", "bore_temperature"),
    ):
        text = told.text(flag) or ""
        at = "as told, at 68 degF" if told.has("at_68") else f"read {text} at {told.text(temperature)}"
        value = getattr(given, name)
        figures = (*written(f"{name} as read", text, parse_quantity(text).unit, FLAGS[flag].flag),)
        lines.append(Line(label, show.length(value), (*figures, *computed(name, value, "m")), at))
    return tuple(lines)
