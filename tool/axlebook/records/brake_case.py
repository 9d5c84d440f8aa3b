"""The tires of an engine under its brake: what the records tell of each, what is taken for granted, what is missing.

A fit that nobody recorded is not assessed; a what-if interference stands in for it only where it is asked for, and is
said to be one. Whatever is taken for granted lies on the low side, has its source, and can be replaced.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from axlebook.engineering.brake_wheel import (
    BrakeWheel,
    CenterForm,
    Steel,
    counted_interference,
    heat_wheel,
    tire_capacity,
)
from axlebook.limits import applies, judge, point
from axlebook.quantities import NotAMeasure

from . import fields
from .book import Book
from .brake_assumed import CONDUCTIVITY, COVERAGE, DENSITY, RIDGES, SPECIFIC_HEAT, Asked
from .condition import Stand, current, stands
from .engine import Engine
from .facets import facet
from .fit import TIRE_STEEL, Fit, Missing, find_fit, not_sure
from .fit_given import Told, parse_section
from .growth import shown_of
from .metal import metal_figures
from .unsure import unsure_of
from .watch import WatchItem, watch_list
from .watch_signs import application
from .wheelset import Center

TAPE_AGAIN = "Tape it again, cold, with the same tape."
_HUGE = point(Fraction(10))  # a tire that no limit condemns, to ask a limit for its figure


@dataclass(frozen=True)
class Thickness:
    """A thickness of the tire: new, today, or at the condemning limit [m]."""

    word: str  # new, today, at the limit
    metres: float
    origin: str


@dataclass(frozen=True)
class TireCase:
    """One tire, with all that its estimate rests on; `wheel` is None where it cannot be made."""

    stand: Stand
    wheel: BrakeWheel | None
    thicknesses: tuple[Thickness, ...] = ()
    counted: float = 0.0  # the interference counted on [m]
    what_if: bool = False
    fit: Fit | None = None
    missing: tuple[Missing, ...] = ()
    watch: WatchItem | None = None

    @property
    def tire(self) -> str:
        """The tire's id."""
        return self.stand.tire.id if self.stand.tire else ""


@dataclass
class _Gathered:
    missing: list[Missing] = field(default_factory=list)


def brake_tires(book: Book, engine: Engine) -> list[Stand]:
    """Every wheel of an engine that has a tire, in walking order."""
    return [s for s in stands(book) if s.engine.id == engine.id and s.tire is not None]


def tire_cases(book: Book, engine: Engine, asked: Asked) -> list[TireCase]:
    """The case of every tire of an engine."""
    watched = {item.stand.tire.id: item for item in watch_list(book) if item.stand.tire}
    tires = [(stand, stand.tire.id) for stand in brake_tires(book, engine) if stand.tire is not None]
    return [_case(book, stand, asked, watched.get(tire)) for stand, tire in tires]


def _case(book: Book, stand: Stand, asked: Asked, watch: WatchItem | None) -> TireCase:
    fit = _fit(book, stand)
    steels = _steel(book, TIRE_STEEL, asked), _steel(book, _material(stand), asked, stand.center)
    width = stand.tire.nominal_width if stand.tire else None
    what_if = isinstance(fit, Missing) and asked.interference is not None
    if isinstance(fit, Missing) and not what_if:
        return TireCase(stand, None, missing=(fit,), watch=watch)
    for steel in steels:
        if isinstance(steel, Missing):
            return TireCase(stand, None, missing=(steel,), watch=watch)
    seat = _seat(stand, fit)
    if seat is None:
        step = "Measure the center, or enter its nominal_diameter."
        return TireCase(stand, None, missing=(Missing("no size of the center is on record", step),), watch=watch)
    if width is None:
        step = "Measure it, or enter nominal_width of the tire."
        return TireCase(stand, None, missing=(Missing("the width of the tire is not on record", step),), watch=watch)
    got = _Gathered()
    known = fit if isinstance(fit, Fit) else None
    if known is not None and known.not_told:
        step = "Enter it in the instrument's record."
        got.missing.append(Missing(f"nothing is taken off for {' and '.join(known.not_told)}, not on record", step))
    shown = shown_of(book, known) if known is not None else None
    if shown is not None and not shown.proved:
        cause = "its tread may have grown less than its fit asks: all of the fit is counted, and is not proved"
        got.missing.append(Missing(cause, TAPE_AGAIN))
    wheel = BrakeWheel(
        seat_diameter=seat, tire_width=float(width), tire=_sure(steels[0]), center=_sure(steels[1]),
        interference=known.interference if known else float(asked.interference or 0.0),
        ridges=RIDGES if asked.ridges is None else asked.ridges, growth=asked.growth or 0.0,
        uncertainty=COVERAGE * known.uncertainty + known.doubt if known else 0.0, form=_form(stand, seat, got),
    )  # fmt: skip
    lacking = not_sure(known) if known is not None else None
    if lacking is not None:
        got.missing.append(lacking)
    found = tuple(_thicknesses(book, stand, asked, got))
    try:
        counted = _counted(wheel, found, asked.speed)
    except ValueError as refused:
        cause = f"its measures on record cannot be worked with: {refused}"
        return TireCase(stand, None, missing=(Missing(cause, "Correct them where they are wrong."),), watch=watch)
    return TireCase(stand, wheel, found, counted, what_if, known, tuple(got.missing), watch)


def _counted(wheel: BrakeWheel, found: tuple[Thickness, ...], speed: float | None) -> float:
    """The interference counted on; every measure is tried here, so that an impossible one is met before the sums."""
    for thickness in found:
        tire_capacity(wheel, thickness.metres)
        heat_wheel(wheel, thickness.metres)
    thickest = max((t.metres for t in found), default=None)
    return 0.0 if thickest is None else counted_interference(wheel, thickest, speed)


def _sure(steel: Steel | Missing) -> Steel:
    assert isinstance(steel, Steel)
    return steel


def _material(stand: Stand) -> str:
    return fields.text(stand.center.tree, "material") if stand.center else ""


def _fit(book: Book, stand: Stand) -> Fit | Missing:
    """The fit by which the tire now on went on."""
    applied = application(book, stand)
    if applied is None or stand.tire is None or stand.center is None:
        return Missing(
            "nobody recorded the fit: the tire was only found on its center",
            "For a what-if say --interference, such as --interference '0.040 in'.",
        )
    fit = find_fit(book, stand.tire, stand.center, applied)
    if isinstance(fit, Missing):
        return replace(fit, cause=f"its fit cannot be worked out: {fit.cause}")
    if fit.shim is None:
        return Missing("the shims under it are not told", "Say which shims, or `none`, in the record of the tire work.")
    shown = shown_of(book, fit)
    if shown is not None and (shown.short or shown.large):
        how = "too little" if shown.short else "too much"
        return Missing(
            f"its tread grew {how} when it went on, so its grip is not the one that was measured (axlebook check)",
            f"{TAPE_AGAIN} For a what-if say --interference, such as '0.030 in'.",
        )
    return fit


def _seat(stand: Stand, fit: Fit | Missing) -> float | None:
    if isinstance(fit, Fit):
        return fit.center_size.mean + 2.0 * (fit.shim or 0.0)
    nominal = stand.center.nominal_diameter if stand.center else None
    return None if nominal is None else float(nominal)


def _steel(book: Book, material: str, asked: Asked, center: Center | None = None) -> Steel | Missing:
    found = metal_figures(book, material, center=center)
    if isinstance(found, Missing):
        return found
    density, heat = asked.density or DENSITY, asked.specific_heat or SPECIFIC_HEAT
    return Steel(found["modulus"], found["poisson"], found["expansion"], density, heat, CONDUCTIVITY)


def _form(stand: Stand, seat: float, got: _Gathered) -> CenterForm | None:
    """The spoked center's measures; None where they are not on record, do not go together, or it is no spoked one."""
    center = stand.center
    tree = center.tree if center else fields.EMPTY
    rim, hub, width = (fields.exact(tree, key) for key in ("rim_inside_diameter", "hub_diameter", "rim_width"))
    try:
        section = parse_section(fields.text(tree, "spoke_section")) if "spoke_section" in tree else None
    except NotAMeasure:
        section = None
    spokes = center.spokes if center else None
    if fields.yes(tree, "solid") is True or not (rim and hub and width and section and spokes):
        solid = fields.yes(tree, "solid") is True
        cause = "the center is solid, for which there is no model of heat in time" if solid else (
            "rim, spokes or hub of the center are not on record: no model of heat in time"
        )  # fmt: skip
        step = "The lowest figures stand; they take the center as cold." if solid else (
            "Measure rim_inside_diameter, rim_width, spokes, spoke_section and hub_diameter once; they never change."
        )  # fmt: skip
        got.missing.append(Missing(cause, step))
        return None
    if not hub < rim < seat or spokes < 3:
        got.missing.append(Missing("the measures of rim, hub and spokes do not go together", "Measure them again."))
        return None
    return CenterForm(
        float(rim) / 2, float(width), float(hub) / 2, float(width), spokes, float(section[0].exact),
        float(section[1].exact),
    )  # fmt: skip


# -- thicknesses ------------------------------------------------------------------------------------------------------


def _thicknesses(book: Book, stand: Stand, asked: Asked, got: _Gathered) -> Iterator[Thickness]:
    new, today, limit = _new(stand, asked), _today(book, stand, got), condemning(book, stand)
    yield from _found(new, "new", got, "the thickness when new", "Enter nominal_thickness, or say --new.")
    yield from _found(today, "today", got, "the thickness today", "Measure the tire all round.")
    yield from _found(limit, "at the limit", got, "a condemning thickness", "Adopt the limit set that gives one.")


def _found(told: Told | None, word: str, got: _Gathered, what: str, step: str) -> Iterator[Thickness]:
    if told is None or told.value <= 0.0:
        got.missing.append(Missing(f"{what} is not on record", step))
    else:
        yield Thickness(word, told.value, told.origin)


def _new(stand: Stand, asked: Asked) -> Told | None:
    if asked.new is not None:
        return Told(asked.new, "--new")
    nominal = fields.exact(fields.inner(stand.tire.tree, "form"), "nominal_thickness") if stand.tire else None
    return None if nominal is None else Told(float(nominal), f"{stand.tire.id if stand.tire else ''}, nominal")


def _today(book: Book, stand: Stand, got: _Gathered) -> Told | None:
    """The thinnest place read last, on the part now fitted."""
    lows = [(v.span.low, v) for v in current(book, stand, "tire_thickness") if v.span.low is not None]
    if not lows:
        return None
    least, value = min(lows, key=lambda pair: pair[0])
    unsure = unsure_of(book, value)
    if unsure:
        got.missing.append(Missing(f"the thickness today decides nothing, for {unsure}", "Measure the tire again."))
    return Told(float(least), f"{value.readings[0].source.record}, thinnest of {len(lows)}")


def condemning(book: Book, stand: Stand) -> Told | None:
    """The thickest condemning limit in force for this tire; None where none is on file, or a fact it asks is not."""
    found: list[Told] = []
    for limit in book.limits_on(stand.engine, "tire_thickness"):
        if limit.stage != "condemning" or len(limit.conditions) > 1 or limit.conditions[0].seen:
            continue
        if applies(limit.applies_to, lambda name: facet(book, stand, name)).answer is True:
            value = judge(limit, {"tire_thickness": _HUGE}, lambda name: facet(book, stand, name)).value
            if value is not None:
                found.append(Told(float(value), limit.cited))
    return max(found, key=lambda told: told.value, default=None)
