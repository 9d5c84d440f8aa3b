"""The facts a limit may ask of a thing before it applies. What is stated nowhere is None: not known."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from axlebook.limits import FacetValue
from axlebook.quantities import NotAMeasure, Quantity, parse_measure

from . import fields
from .book import Book
from .condition import Stand, current, middle, other_wheels
from .renewal import set_case

Answer = FacetValue | None


def _yes_no(value: bool | None) -> Answer:
    return None if value is None else "yes" if value else "no"


def _word(text: str) -> Answer:
    return text if text and text != "unknown" else None


def track_gauge(book: Book, stand: Stand) -> Fraction | None:
    """The engine's track gauge, or the ledger's."""
    return stand.engine.track_gauge or book.ledger.track_gauge


def axle_load(book: Book, stand: Stand) -> Fraction | None:
    """Weight on drivers shared by the pairs of drivers; for others what their record says."""
    if not stand.wheelset.driver:
        return stand.wheelset.axle_load
    pairs = sum(line.role == "driver" for line in book.standing.standing_lines(stand.engine, book.as_of))
    return stand.engine.weight_on_drivers / pairs if stand.engine.weight_on_drivers and pairs else None


def wheel_diameter(book: Book, stand: Stand) -> Fraction | None:
    """The tread diameter last read on the wheel; the nominal one of a wheelset; for a pair the smaller wheel."""
    wheels = [stand] if stand.side else other_wheels(book, stand)
    found = [d for wheel in wheels if (d := middle(current(book, wheel, "tread_diameter"))) is not None]
    return min(found) if found else stand.wheelset.nominal_diameter


def center_diameter(book: Book, stand: Stand) -> Fraction | None:
    """The center's nominal diameter, or the mean of its last reading."""
    if stand.center is None:
        return None
    return stand.center.nominal_diameter or middle(current(book, stand, "center_diameter"))


def _flange(book: Book, stand: Stand) -> Answer:
    if stand.tire:
        return _word(stand.tire.flange)
    return "flanged" if stand.wheelset.made == "one-piece" else None


def _main(book: Book, stand: Stand) -> Answer:
    return _yes_no(stand.wheelset.main) if stand.wheelset.driver else "no"


def _of_axle(key: str) -> Callable[[Book, Stand], Answer]:
    return lambda book, stand: _word(fields.text(stand.wheelset.axle, key))


def _of_tire(key: str) -> Callable[[Book, Stand], Answer]:
    return lambda book, stand: _word(getattr(stand.tire, key)) if stand.tire else None


READERS: dict[str, Callable[[Book, Stand], Answer]] = {
    "role": lambda book, stand: stand.line.role,
    "main": _main,
    "track_gauge": track_gauge,
    "wheel_diameter": wheel_diameter,
    "center_diameter": center_diameter,
    "axle_load": axle_load,
    "original_journal_diameter": lambda book, stand: stand.wheelset.original_journal_diameter,
    "journals": _of_axle("journals"),
    "bearings": _of_axle("bearings"),
    "make": lambda book, stand: _word(stand.wheelset.made),
    "plate": lambda book, stand: _word(fields.text(stand.wheelset.tree, "plate")),
    "flange": _flange,
    "located_by": _of_tire("located_by"),
    "fastened_by": _of_tire("fastened_by"),
    "intermediate": lambda book, stand: _yes_no(stand.line.intermediate),
    "position": lambda book, stand: _word(stand.line.position),
    "turned_or_new": lambda book, stand: _yes_no(set_case(book, stand.engine) is not None),
    "set_case": lambda book, stand: set_case(book, stand.engine) or "none",
}


def facet(book: Book, stand: Stand, name: str) -> Answer:
    """One facet of a stand: derived, or told by the wheelset, the engine or the ledger, in that order."""
    reader = READERS.get(name)
    found = reader(book, stand) if reader else None
    if found is None:
        told = (fields.inner(stand.wheelset.tree, "facets"), stand.engine.facets, book.ledger.facets)
        found = next((_told(tree[name]) for tree in told if name in tree), None)
    return found


def _told(text: str) -> FacetValue:
    """A facet as written: a measure where it reads as one, else its words."""
    try:
        measure = parse_measure(text)
    except NotAMeasure:
        return text
    return measure.exact if isinstance(measure, Quantity) else text
