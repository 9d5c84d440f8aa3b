"""The figures of a metal as the ledger adopts them, or in one wording for all sums what of them it lacks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from . import fields
from .book import Book
from .fit import Missing, no_figures
from .wheelset import Center

ELASTIC = ("modulus", "poisson")
ALL = (*ELASTIC, "expansion")


def metal_figures(
    book: Book, material: str, keys: Sequence[str] = ALL, center: Center | None = None
) -> Mapping[str, float] | Missing:
    """The adopted figures of a metal: modulus [Pa], Poisson ratio, expansion [1/K]; `center`: what is made of it."""
    tree = fields.inner(book.ledger.materials, material)
    found = {key: fields.number(tree, key) if key == "poisson" else fields.exact(tree, key) for key in keys}
    absent = [key for key, figure in found.items() if figure is None]
    if absent:
        return no_figures(book, material, absent, center=center)
    return {key: float(figure) for key, figure in found.items() if figure is not None}
