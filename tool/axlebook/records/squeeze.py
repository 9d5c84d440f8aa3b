"""How hard a tire grips its center by the measured fit: pressure, hoop stress and tread growth, each with its bounds.

The spokes of a center are seldom on record, so a solid disc and the rim alone stand for the most and the least.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from axlebook.engineering.gauge import register_pull_off
from axlebook.engineering.heating import grip_temperature
from axlebook.engineering.ring_stress import tire_bore_hoop, tread_growth
from axlebook.engineering.shrink_fit import (
    contact_pressure,
    ring_center_compliance,
    seat_share,
    solid_center_compliance,
    tire_compliance,
)

from . import fields
from .book import Book, Thing
from .condition import middle, values_of
from .fit import TIRE_STEEL, Fit, Missing, expansion_of, impossible, not_sure
from .instruments import GUARD_FACTOR, temperature
from .metal import ELASTIC, metal_figures
from .wheelset import Center


class Bounds(NamedTuple):
    """The least and the most a figure can be."""

    low: float
    high: float


class Squeeze(NamedTuple):
    """What a fit does to its tire, the fit's own uncertainty counted in."""

    pressure: Bounds  # [Pa]
    hoop: Bounds  # at the bore [Pa]
    growth: Bounds  # of the tread on diameter [m]
    tire_width: float | None  # [m]
    tread_radius: float  # [m]
    seat_radius: float  # [m]
    poisson: float
    modulus: float
    share: float


def band_of(fit: Fit) -> float:
    """How far the interference can be off, each way: guard band and temperatures that were not read [m]."""
    return float(GUARD_FACTOR) * fit.uncertainty + fit.doubt


def elastic(book: Book, material: str, center: Center | None = None) -> tuple[float, float] | Missing:
    """Adopted modulus [Pa] and Poisson ratio of a material."""
    found = metal_figures(book, material, ELASTIC, center)
    return found if isinstance(found, Missing) else (found["modulus"], found["poisson"])


def _mean_read(book: Book, fit: Fit, quantity: str) -> float | None:
    """Mean of the last readings of a length of the tire up to the day it went on [m]."""
    until = fit.session.day.last if fit.session else None
    found = [
        r for r in book.series.get((Thing("tire", fit.tire.id), quantity), ())
        if r.day.first is not None and (until is None or r.day.first <= until) and r.when not in ("after", "cold after")
    ]  # fmt: skip
    last = max((r.day.first for r in found if r.day.first), default=None)
    mean = middle(values_of(book, [r for r in found if r.day.first == last]))
    return None if mean is None else float(mean)


def _tread_radius(book: Book, fit: Fit) -> float | None:
    """Radius of the tread as it went on: taped, or from the thickness [m]."""
    taped = _mean_read(book, fit, "tread_diameter")
    if taped is not None:
        return taped / 2
    told = fields.exact(fields.inner(fit.tire.tree, "form"), "nominal_thickness")
    thickness = _mean_read(book, fit, "tire_thickness") or (float(told) if told else None)
    return None if thickness is None else fit.bore_size.mean / 2 + thickness


def _rim_radius(fit: Fit) -> float | None:
    told = fields.exact(fit.center.tree, "rim_inside_diameter")
    return float(told) / 2 if told else None


def find_squeeze(book: Book, fit: Fit) -> Squeeze | Missing:
    """Pressure, hoop and growth of a fit with their bounds, or what is missing; worked out once for each fit."""
    known: dict[int, tuple[Fit, Squeeze | Missing]] = book.__dict__.setdefault("_squeezes", {})
    found = known.get(id(fit))
    if found is None:
        found = known[id(fit)] = (fit, _find_squeeze(book, fit))  # with the fit, so that no other gets its id
    return found[1]


def _find_squeeze(book: Book, fit: Fit) -> Squeeze | Missing:
    unsure = not_sure(fit)
    if unsure is not None:
        return unsure
    tire = elastic(book, TIRE_STEEL)
    center = elastic(book, fields.text(fit.center.tree, "material"), fit.center)
    for found in (tire, center):
        if isinstance(found, Missing):
            return found
    assert isinstance(tire, tuple)
    assert isinstance(center, tuple)
    try:
        return _squeezed(book, fit, tire, center)
    except ValueError as error:
        return impossible(error)


def _squeezed(book: Book, fit: Fit, tire: tuple[float, float], center: tuple[float, float]) -> Squeeze | Missing:
    seat = fit.center_size.mean / 2 + (fit.shim or 0.0)
    tread, rim = _tread_radius(book, fit), _rim_radius(fit)
    solid = fields.yes(fit.center.tree, "solid") is True
    if tread is None:
        return Missing("the thickness of the tire is not on record", "Measure it before the tire goes on.")
    if rim is None and not solid:
        return Missing(
            "the inside diameter of the rim is not on record", "Enter `rim_inside_diameter` of the center, or `solid`."
        )
    if tread <= seat or (rim is not None and rim >= seat):
        return Missing("the sizes of rim, seat and tread do not go together", "Measure them again.")
    width, seated = fit.tire.nominal_width, fit.tire.seat_width
    share = seat_share(float(seated), float(width)) if width and seated else 1.0
    stiff = solid_center_compliance(seat, *center)
    soft = stiff if solid or rim is None else ring_center_compliance(seat, rim, *center)
    yielding = tire_compliance(seat, tread, *tire, share)
    band = band_of(fit)
    pressure = Bounds(
        contact_pressure(fit.interference - band, yielding, soft),
        contact_pressure(fit.interference + band, yielding, stiff),
    )
    hoop = Bounds(*(tire_bore_hoop(p, seat, tread, share) for p in (pressure.low, pressure.high)))
    growth = Bounds(*(tread_growth(p, seat, tread, tire[0], share) for p in (pressure.low, pressure.high)))
    return Squeeze(
        pressure, hoop, growth, float(width) if width else None, tread, seat, tire[1], tire[0], share
    )  # fmt: skip


def center_temperature(book: Book, fit: Fit) -> float | None:
    """The center's temperature on the day the tire went on [K]; None where nobody wrote it down."""
    if fit.session is None:
        return None
    told = temperature(fields.text(fields.inner(fit.session.tree, "seating"), "center_temperature"))
    if told is None:
        for entry in fields.items(fit.session.tree, "heat"):
            if entry and fields.text(entry, "part") == "center":
                told = temperature(fields.text(entry, "read")) or told
    return float(told) if told else None  # nothing is as cold as nothing


def needed_temperature(book: Book, fit: Fit, clearance: float, cold: float, off: float = 0.0) -> float | None:
    """The tire's mean temperature at which it clears the center by so much [K]; `off` shifts the interference [m]."""
    tire = expansion_of(book, TIRE_STEEL)
    center = expansion_of(book, fields.text(fit.center.tree, "material"))
    if tire is None or center is None:
        return None
    return grip_temperature(max(fit.interference + off, 0.0) + clearance, fit.bore_size.mean, tire, cold, center)


def pull_off(book: Book, fit: Fit, squeeze: Squeeze) -> float | None:
    """How far cooling can draw the tire off its register, at most [m]; None where something is not on record."""
    cold = center_temperature(book, fit)
    expansion = expansion_of(book, TIRE_STEEL)
    if cold is None or expansion is None or squeeze.tire_width is None:
        return None
    grip = needed_temperature(book, fit, 0.0, cold)
    if grip is None or not math.isfinite(grip):
        return None
    return register_pull_off(
        squeeze.tire_width, max(grip - cold, 0.0), expansion, pressure=squeeze.pressure.high,
        seat_radius=squeeze.seat_radius, tread_radius=squeeze.tread_radius, modulus=squeeze.modulus,
        poisson=squeeze.poisson, share=squeeze.share,
    )  # fmt: skip
