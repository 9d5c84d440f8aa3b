"""The ledger's own record: whose book it is, its defaults, its frogs."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Place
from axlebook.limits import Adoption

from . import fields
from .dates import Day


class Frog(NamedTuple):
    """One frog of the railway: its own gages, measured or adopted."""

    track: str
    measured_on: Day
    guard_check_gage: Fraction | None
    guard_face_gage: Fraction | None
    adopted: bool
    place: Place
    track_gauge: Fraction | None  # where it is not the ledger's
    tree: fields.Tree


class Ledger(NamedTuple):
    """Defaults that hold for every engine that does not say otherwise."""

    path: str
    railway: str
    track_gauge: Fraction | None
    display_units: str
    adoptions: tuple[Adoption, ...]
    reference_temperature: Fraction | None
    frogs: tuple[Frog, ...]
    facets: fields.Tree
    materials: fields.Tree
    closed_on: date | None
    tree: fields.Tree


def build_adoptions(found: list[fields.Tree]) -> tuple[Adoption, ...]:
    """Limit sets with the days they are in force."""
    return tuple(
        Adoption(
            fields.text(use, "set"),
            (fields.day(use, "from").first or fields.day(use, "adopted_on").first),
            fields.day(use, "until").last,
        )
        for use in found
        if use
    )


def build_ledger(path: str, tree: fields.Tree) -> Ledger:
    """The ledger's record from its tree; an empty tree gives a ledger that says nothing."""
    defaults = fields.inner(tree, "defaults")
    frogs = tuple(
        Frog(
            fields.text(frog, "track"),
            fields.day(frog, "measured_on"),
            fields.exact(frog, "guard_check_gage"),
            fields.exact(frog, "guard_face_gage"),
            fields.yes(frog, "adopted") is True,
            Place(path, f"/frogs/{index}"),
            fields.exact(frog, "track_gauge"),
            frog,
        )
        for index, frog in enumerate(fields.items(tree, "frogs"))
        if frog
    )
    return Ledger(
        path,
        fields.text(tree, "railway"),
        fields.exact(defaults, "track_gauge"),
        fields.text(defaults, "display_units") or "inch",
        build_adoptions(fields.items(defaults, "limit_sets")),
        fields.exact(tree, "reference_temperature"),
        frogs,
        fields.inner(tree, "facets"),
        fields.inner(tree, "materials"),
        fields.day(tree, "closed_on").exact,
        tree,
    )
