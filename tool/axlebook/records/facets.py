"""The facts a limit may ask of a thing before it applies. What is stated nowhere is None: not known."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from axlebook.limits import FacetValue
from axlebook.quantities import NotAMeasure, Quantity, parse_measure

from . import fields
from .book import Book
from .condition import EnginePlace, Site, Stale, Stand, current, middle, other_wheels, values_now
from .engine import role_of
from .forms import parse_place
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
    """Weight on drivers shared by the pairs of drivers; for others what their record says.

    Counted are the places for drivers, not who stands there: a pair in the shop makes no other heavier for good.
    """
    if not stand.wheelset.driver:
        return stand.wheelset.axle_load
    pairs = len({line.at for line in stand.engine.lines if line.role == "driver"})
    return stand.engine.weight_on_drivers / pairs if stand.engine.weight_on_drivers and pairs else None


def wheel_diameter(book: Book, stand: Stand) -> Fraction | None:
    """The tread diameter last read on the wheel; the nominal one of a wheelset; for a pair the smaller wheel.

    The nominal one is of a wheel that was never read: turned since, or read as an interval, it is smaller.
    """
    wheels = [stand] if stand.side else other_wheels(book, stand)
    read = [values_now(book, wheel, "tread_diameter") for wheel in wheels]
    found = [None if isinstance(values, Stale) else middle(values) for values in read if values]
    known = [diameter for diameter in found if diameter is not None]
    if len(known) < len(found):
        return None
    return min(known) if known else stand.wheelset.nominal_diameter


def center_diameter(book: Book, stand: Stand) -> Fraction | None:
    """The center's nominal diameter, or the mean of its last reading."""
    if stand.center is None:
        return None
    return stand.center.nominal_diameter or middle(current(book, stand, "center_diameter"))


def _flange(book: Book, stand: Stand) -> Answer:
    if stand.tire is None and stand.wheelset.made == "one-piece":
        return _word(fields.text(stand.wheelset.tree, "flange"))
    return _word(stand.tire.flange) if stand.tire else None


def _main(book: Book, stand: Stand) -> Answer:
    return _yes_no(stand.wheelset.main) if stand.wheelset.driver else "no"


def _of_axle(key: str) -> Callable[[Book, Stand], Answer]:
    return lambda book, stand: _word(fields.text(stand.wheelset.axle, key))


def _of_tire(key: str) -> Callable[[Book, Stand], Answer]:
    return lambda book, stand: _word(getattr(stand.tire, key)) if stand.tire else None


def _contour(stand: Stand) -> Answer:
    return _word(fields.text(fields.inner(stand.tire.tree, "form"), "contour")) if stand.tire else None


def _turned_or_new(case: str | None) -> Answer:
    return None if case is None else _yes_no(case != "none")


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
    "contour": lambda book, stand: _contour(stand),
    "intermediate": lambda book, stand: _yes_no(stand.line.intermediate),
    "position": lambda book, stand: _word(stand.line.position),
    "turned_or_new": lambda book, stand: _turned_or_new(set_case(book, stand.engine)),
    "set_case": lambda book, stand: set_case(book, stand.engine),
}


def facet(book: Book, site: Site, name: str) -> Answer:
    """One facet of a thing: derived, or told by the wheelset, the engine or the ledger, in that order."""
    if isinstance(site, EnginePlace):
        return _of_place(book, site, name)
    reader = READERS.get(name)
    found = reader(book, site) if reader else None
    if found is None:
        here = (fields.inner(site.wheelset.tree, "facets"), *_told_at(site.engine.tree, site.line.at, site.side))
        found = _first_told((*here, site.engine.facets, book.ledger.facets), name)
    return found


def _of_place(book: Book, site: EnginePlace, name: str) -> Answer:
    """A facet of a place that is no wheelset: its words say the role and the position, the engine the rest."""
    spot = parse_place(site.place)
    stem, side = (site.place.rpartition(" ")[0], spot.side) if spot and spot.side else (site.place, "")
    found = _first_told((*_told_at(site.engine.tree, stem, side), site.engine.facets, book.ledger.facets), name)
    if found is not None:
        return found
    match name:
        case "track_gauge":
            return site.engine.track_gauge or book.ledger.track_gauge
        case "role":
            return role_of(site.place) or None
        case "position" if side in ("front", "rear"):
            return side
    return None


def _told_at(engine: fields.Tree, at: str, side: str) -> tuple[fields.Tree, ...]:
    """What the engine's record says of one place, the place with its side first."""
    told = fields.inner(engine, "facets_at")
    return tuple(fields.inner(told, place) for place in dict.fromkeys((f"{at} {side}".strip(), at)))


def _first_told(told: tuple[fields.Tree, ...], name: str) -> Answer:
    return next((_told(tree[name]) for tree in told if name in tree), None)


def _told(text: str) -> Answer:
    """A facet as written: a measure where it reads as one, else its words; `unknown` is not known."""
    try:
        measure = parse_measure(text)
    except NotAMeasure:
        return _word(text)
    return measure.exact if isinstance(measure, Quantity) else text
