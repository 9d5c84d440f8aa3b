"""How much the tread grew when the tire gripped: taped cold before and after, beside the least to be expected."""

from __future__ import annotations

from dataclasses import dataclass

from axlebook.engineering.ring_stress import tread_growth
from axlebook.engineering.shrink_fit import contact_pressure, ring_center_compliance, tire_compliance
from axlebook.findings import Place

from . import fields
from .book import Book
from .fit import TIRE_STEEL, Fit, Size, size


@dataclass(frozen=True)
class Growth:
    """Growth of the taped tread on diameter at 20 degC, and the least that the measured fit lets expect [m]."""

    taped: float
    doubt: float
    least_expected: float
    at: Place


def growth_of(book: Book, fit: Fit) -> Growth | None:
    """The growth that was taped; None where it was not taped twice cold, or the fit has no geometry on record.

    The least expected is that of the center's rim alone, which yields the most, so the tire grows the least.
    """
    taped = [_taped(book, fit, when) for when in ("cold before", "cold after")]
    expected = least_expected(book, fit, taped[0].mean / 2) if taped[0] else None
    before, after = taped
    if before is None or after is None or expected is None:
        return None
    return Growth(after.mean - before.mean, before.doubt + after.doubt, expected, after.readings[0].at)


def _taped(book: Book, fit: Fit, when: str) -> Size | None:
    readings = [r for r in fit.session.readings if r.quantity == "tread_diameter"] if fit.session else []
    found = size(book, "tread_diameter", [r for r in readings if r.when == when], TIRE_STEEL)
    return found if isinstance(found, Size) else None


def elastic(book: Book, material: str) -> tuple[float, float] | None:
    """The adopted Young's modulus [Pa] and Poisson's ratio of a material; None where either is not adopted."""
    tree = fields.inner(book.ledger.materials, material)
    modulus, poisson = fields.exact(tree, "modulus"), fields.number(tree, "poisson")
    return None if modulus is None or poisson is None else (float(modulus), float(poisson))


def least_expected(book: Book, fit: Fit, tread_radius: float) -> float | None:
    """The growth with the rim alone holding against the tire [m]; None where measures or moduli are not on record."""
    tire, center = elastic(book, TIRE_STEEL), elastic(book, fields.text(fit.center.tree, "material"))
    rim = fields.exact(fit.center.tree, "rim_inside_diameter")
    seat = fit.center_size.mean / 2 + (fit.shim or 0.0)
    if tire is None or center is None or rim is None or not 0.0 < float(rim) / 2 < seat < tread_radius:
        return None
    pressure = contact_pressure(
        fit.interference,
        tire_compliance(seat, tread_radius, *tire),
        ring_center_compliance(seat, float(rim) / 2, *center),
    )
    return tread_growth(pressure, seat, tread_radius, tire[0])
