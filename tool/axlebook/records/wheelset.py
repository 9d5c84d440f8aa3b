"""An axle and what it first carried: a driver, or a truck or tender wheelset."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Place

from . import fields


class Center(NamedTuple):
    """A wheel center, told in the record of the wheelset that first carried it."""

    id: str
    wheelset: str  # that first carried it
    first_side: str  # left, right, A or B
    nominal_diameter: Fraction | None
    spokes: int | None
    place: Place
    tree: fields.Tree


class Wheelset(NamedTuple):
    """A wheelset; `driver` tells a driving wheelset from the others."""

    id: str
    path: str
    driver: bool
    made: str  # tired or one-piece
    main: bool | None
    original_journal_diameter: Fraction | None
    axle_load: Fraction | None
    nominal_diameter: Fraction | None
    datum: str
    centers: tuple[Center, ...]
    tree: fields.Tree

    @property
    def axle(self) -> fields.Tree:
        """What the record says of the axle."""
        return fields.inner(self.tree, "axle")

    @property
    def register(self) -> fields.Tree:
        """What sets the place of the tires."""
        return fields.inner(self.tree, "register")

    @property
    def ends(self) -> tuple[str, str]:
        """The names of its two ends: drivers keep their sides, others are turned end for end."""
        return ("left", "right") if self.driver else ("A", "B")


def build_wheelset(id: str, path: str, tree: fields.Tree) -> Wheelset:
    """A driver or wheelset from its tree."""
    axle = fields.inner(tree, "axle")
    driver = tree["kind"] == "driver"
    centers = tuple(
        Center(
            center_id,
            id,
            fields.text(center, "first_side") or fields.text(center, "first_end"),
            fields.exact(center, "nominal_diameter"),
            fields.whole(center, "spokes"),
            Place(path, "/centers").below(center_id),
            center,
        )
        for center_id, center in fields.inner(tree, "centers").items()
    )
    return Wheelset(
        id,
        path,
        driver,
        "tired" if driver else fields.text(tree, "made"),
        fields.yes(axle, "main"),
        fields.exact(axle, "original_journal_diameter"),
        fields.exact(axle, "axle_load"),
        fields.exact(tree, "nominal_diameter"),
        fields.text(tree, "datum"),
        centers,
        tree,
    )
