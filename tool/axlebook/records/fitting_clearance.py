"""The clearance that a hot tire must have over its center while it is put on: of a limit in force, else of practice."""

from __future__ import annotations

from fractions import Fraction

from axlebook.limits import applies

from .book import Book
from .facets import facet
from .fit import Fit
from .practice import adopted, stand_of

QUANTITY = "fitting_clearance"


def clearance_on_file(book: Book, fit: Fit) -> tuple[Fraction, str] | None:
    """The least clearance [m] that a limit in force asks, else that of the practice; and where it comes from."""
    bare = stand_of(book, fit.center)
    found: list[tuple[Fraction, str]] = []
    if bare is not None:
        stand = bare._replace(tire=fit.tire)
        for limit in book.limits_on(stand.engine, QUANTITY):
            if applies(limit.applies_to, lambda name: facet(book, stand, name)).answer is True:
                bounds = (b for b in limit.conditions[0].bounds if b.word in ("under", "at_most"))
                found += [(b.value, limit.cited) for b in bounds if b.value is not None]
    if found:
        return max(found)
    size = fit.center.nominal_diameter or Fraction(fit.center_size.mean)
    practice = next(adopted(book, fit.center, QUANTITY, size), None)
    return (practice.nominal, practice.cited) if practice else None
