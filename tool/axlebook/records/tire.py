"""One tire: marks, steel, form, and what was ordered."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Place

from . import fields


class Tire(NamedTuple):
    """A tire by its identity; where it is now is told by tire work."""

    id: str
    path: str
    flange: str
    located_by: str
    fastened_by: str
    nominal_width: Fraction | None
    seat_width: Fraction | None
    flange_back_to_register: Fraction | None
    yield_strength: Fraction | None
    heat_ceiling: Fraction | None
    for_center: str
    tree: fields.Tree

    @property
    def ordered_at(self) -> Place:
        """Where the order names its center."""
        return Place(self.path, "/ordered/for_center")


def build_tire(id: str, path: str, tree: fields.Tree) -> Tire:
    """A tire from its tree."""
    form, steel = fields.inner(tree, "form"), fields.inner(tree, "steel")
    return Tire(
        id,
        path,
        fields.text(form, "flange"),
        fields.text(form, "located_by"),
        fields.text(form, "fastened_by"),
        fields.exact(form, "nominal_width"),
        fields.exact(form, "seat_width"),
        fields.exact(form, "flange_back_to_register"),
        fields.exact(steel, "yield_strength"),
        fields.exact(steel, "heat_ceiling"),
        fields.text(fields.inner(tree, "ordered"), "for_center"),
        tree,
    )
