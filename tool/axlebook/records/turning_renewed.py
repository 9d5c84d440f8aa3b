"""A wheel as it would be with a new tire: the size asked for, or that of the tire ordered for its center."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from . import fields
from .book import Book
from .condition import Stand
from .facets import center_diameter
from .tire import Tire
from .turning_wheels import DIAMETER, HOLLOW, THICKNESSES, ZERO, Asked, Read, Wheel, needing


def tire_for(book: Book, stand: Stand) -> Tire | None:
    """The tire on record for the center of a wheel that is on no center yet, one received first."""
    center = stand.center.id if stand.center else ""
    waiting = [
        tire
        for tire in book.tires.values()
        if center
        and tire.for_center == center
        and not book.standing.centers_of.get(tire.id)
        and not _lies_ahead(book, tire, "ordered_on")
    ]
    return next(iter(sorted(waiting, key=lambda tire: not is_received(book, tire))), None)


def is_received(book: Book, tire: Tire) -> bool:
    """Whether the record says that it has come."""
    told = fields.text(fields.inner(tire.tree, "ordered"), "received_on")
    return bool(told) and not _lies_ahead(book, tire, "received_on")


def _lies_ahead(book: Book, tire: Tire, key: str) -> bool:
    """Whether a day of its order had not come by the day the book is read at."""
    first = fields.day(fields.inner(tire.tree, "ordered"), key).first
    return first is not None and first > book.as_of


def renewed(book: Book, wheel: Wheel, asked: Asked) -> Wheel | str:
    """The wheel with a new tire; what its size lacks, in words."""
    stand = wheel.stand
    tire, center = tire_for(book, stand), center_diameter(book, stand)
    told = fields.exact(fields.inner(tire.tree, "form"), "nominal_thickness") if tire else None
    thickness, diameter = asked.new_thickness, asked.new_diameter
    origin = "--new-thickness" if thickness is not None else "--new-diameter"
    if thickness is None and diameter is None:
        if told is None or tire is None:
            return f"size of a new tire for {wheel.name} (--new-diameter or --new-thickness; none on record is for it)"
        thickness, origin = told, tire.id
    if diameter is None and thickness is not None:
        if center is None:
            return f"diameter of the center of {wheel.name}, or --new-diameter"
        diameter = center + 2 * thickness
    elif thickness is None and diameter is not None:
        if center is None:
            return f"diameter of the center of {wheel.name}, or --new-thickness"
        thickness = (diameter - center) / 2
    if diameter is None or thickness is None or thickness <= 0:
        return f"a new tire for {wheel.name}: what was asked for leaves no thickness on a center of its size"
    read = {DIAMETER: Read(diameter, origin), HOLLOW: Read(ZERO, origin), THICKNESSES[0]: Read(thickness, origin)}
    if tire is not None:
        stand = stand._replace(tire=tire)
    bare = Wheel(stand, read, new=True, unnamed=tire is None)
    made = needing(book, bare, asked)
    if tire is not None and origin == tire.id and not is_received(book, tire):
        made = replace(made, missing=(*made.missing, f"receipt of {tire.id}: its size is the one ordered"))
    return made


def still_usable(margins: list[Fraction | None]) -> Fraction:
    """The depth that tires would still have had to their limits when they come off."""
    return sum((max(margin, ZERO) for margin in margins if margin is not None), ZERO)
