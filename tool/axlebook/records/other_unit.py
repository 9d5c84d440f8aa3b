"""Figures that bear the wrong unit so plainly that no line in time is asked: millimetres with the mark of inches.

An inch is 25.4 mm. Where all readings of a quantity lie within a few times their middle, one that lies 25.4 times off
can only bear the other unit, however the wheelset was held and whether or not anything was read there before. For a
back-to-back the track gauge says as much: it lies between the rails. In a new ledger, where little or nothing else was
read, the figures of the limits on file say about how large a thing is that wears away.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from statistics import median
from typing import NamedTuple

from axlebook.quantities import Quantity, parse_quantity

from .book import Book
from .offs import Around, Off, off_of
from .reading import Reading

MM = 25.4
ALIKE = 3.0  # times their middle that readings of one quantity may lie off, so that 25.4 times is no size of theirs
MOST = 0.75  # share of the readings that must be so alike
FEW = 4  # below so many, their middle tells nothing
BETWEEN_THE_RAILS = "back_to_back"
OWN_KNOWN, OTHERS_KNOWN = 400.0, 20.0  # so far from the middle of a thing's own readings, of all, one may well lie
MEANT = {"in": ("millimetres", 1 / MM), "mm": ("inches", MM)}


class Usual(NamedTuple):
    """About how large readings are, by quantity."""

    middles: dict[str, float]
    by_limits: dict[str, float]  # where the readings themselves say little, or all bear the wrong unit


Slips = dict[int, tuple[str, ...]]  # id of a reading -> the positions at which it bears the wrong unit


def unit_slips(book: Book) -> Slips:
    """Every reading that bears the wrong unit for certain, worked out once."""
    known: Slips | None = book.__dict__.get("_unit_slips")
    if known is None:
        known = book.__dict__["_unit_slips"] = _slips(book)
    return known


def other_units(around: Around) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """The same readings beside what the middle of all others lets expect: values, slip, what was meant."""
    slips = unit_slips(around.book)
    usual = _usual(around.book, _written(around.book)) if slips else Usual({}, {})
    for reading in around.book.readings if slips else ():
        positions = slips.get(id(reading))
        if not positions:
            continue
        own = _own(around.book, reading, slips)
        expected = median(own) if own else _expected(around.book, reading, positions, usual)
        spread = expected / (OWN_KNOWN if own else OTHERS_KNOWN)
        found = [off_of(around, reading, at, expected, spread) for at in positions]
        offs = tuple(off for off in found if off is not None)
        if offs:
            unit = next(m[0].unit for at, m in reading.values if at == offs[0].position)
            yield reading, offs, "mm-for-inches", MEANT[unit][0]


def _expected(book: Book, reading: Reading, positions: tuple[str, ...], usual: Usual) -> float:
    """What the middle of all others lets expect; a limit tells no size, so that the figure in the other unit does."""
    anchor = _anchor(book, reading, usual) or 0.0
    if anchor != usual.by_limits.get(reading.quantity):
        return anchor
    meant = [float(m.exact) * MEANT[m.unit][1] for at, m in _single(reading) if at in positions]
    return median(meant) if meant else anchor


def _own(book: Book, reading: Reading, slips: Slips) -> list[float]:
    """Sizes of the same thing from its other readings."""
    return [
        float(measure.exact)
        for other in book.readings
        if other.quantity == reading.quantity and other.named == reading.named and id(other) not in slips
        for _, measure in _single(other)
        if measure.unit in MEANT
    ]


def _slips(book: Book) -> Slips:
    written = _written(book)
    usual = _usual(book, written)
    tried = {name for name, texts in written.items() if _is_tried(name, texts, usual)}
    found: Slips = {}
    known: dict[tuple[float, str], bool] = {}  # the same few figures are written again and again
    for reading in book.readings:
        if reading.quantity not in tried:
            continue
        anchor = _anchor(book, reading, usual)
        if anchor is None:
            continue
        positions = []
        for at, many in reading.values:
            only = many[0]
            if len(many) > 1 or not isinstance(only, Quantity):
                continue
            key = (anchor, only.text)
            if key not in known:
                known[key] = _is_other(only, anchor)
            if known[key]:
                positions.append(at)
        if positions and "reason_kept" not in reading.tree and reading.day.exact is not None:
            found[id(reading)] = tuple(positions)
    return found


def _is_tried(quantity: str, texts: Iterable[str], usual: Usual) -> bool:
    """Whether some figure of a quantity may be in the other unit: of most quantities none is."""
    if quantity == BETWEEN_THE_RAILS:
        return True  # each engine has a gauge of its own
    anchor = _of_quantity(quantity, usual)
    return anchor is not None and any(_is_other(parse_quantity(text), anchor) for text in texts)


def _is_other(measure: Quantity, anchor: float) -> bool:
    """Whether a figure is far from the middle, and near it in the other unit. A fraction is read in inches only."""
    if measure.unit not in MEANT or (measure.unit == "in" and "/" in measure.text):
        return False
    size = float(measure.exact)
    return not _alike(size, anchor) and _alike(size * MEANT[measure.unit][1], anchor)


def _alike(size: float, anchor: float) -> bool:
    return anchor / ALIKE <= size <= anchor * ALIKE


def _anchor(book: Book, reading: Reading, usual: Usual) -> float | None:
    """What a reading of this kind is about as large as; None where readings of it are of every size."""
    if reading.quantity == BETWEEN_THE_RAILS and (gauge := _track_gauge(book, reading)):
        return float(gauge)
    return _of_quantity(reading.quantity, usual)


def _of_quantity(quantity: str, usual: Usual) -> float | None:
    return usual.by_limits.get(quantity) or usual.middles.get(quantity)


def _track_gauge(book: Book, reading: Reading) -> Fraction | None:
    engine = book.engines.get(reading.source.engine)
    return (engine.track_gauge if engine else None) or book.ledger.track_gauge


def _single(reading: Reading) -> list[tuple[str, Quantity]]:
    return [(at, many[0]) for at, many in reading.values if len(many) == 1 and isinstance(many[0], Quantity)]


def _written(book: Book) -> dict[str, Counter[str]]:
    """How often each length is written, by quantity."""
    texts: dict[str, list[str]] = defaultdict(list)
    for reading in book.readings:
        read = texts[reading.quantity]
        for _, many in reading.values:
            only = many[0]
            if len(many) == 1 and isinstance(only, Quantity) and only.unit in MEANT:
                read.append(only.text)
    return {quantity: Counter(found) for quantity, found in texts.items()}


def _usual(book: Book, written: Mapping[str, Counter[str]]) -> Usual:
    """The middle of every length that is nearly always of about one size; the limits' own where that says little."""
    found: dict[str, float] = {}
    limits: dict[str, float] = {}
    for quantity, texts in written.items():
        sizes = {text: float(parse_quantity(text).exact) for text in texts}
        many = texts.total()
        middle = median(sizes[text] for text in texts.elements()) if many >= FEW else 0.0
        if middle > 0 and sum(often for text, often in texts.items() if _alike(sizes[text], middle)) >= MOST * many:
            found[quantity] = middle
        limit = _by_limits(book, quantity) if many < FEW or quantity in found else None
        if limit and (many < FEW or (not _alike(middle, limit) and _in_other_unit(middle, limit))):
            limits[quantity] = limit
    return Usual(found, limits)


def _in_other_unit(size: float, anchor: float) -> bool:
    return any(_alike(size * factor, anchor) for _, factor in MEANT.values())


def _by_limits(book: Book, quantity: str) -> float | None:
    """The middle of the limits on file for the size of something that wears away; a gap may be of any size."""
    word = book.vocabulary.quantities.get(quantity)
    if word is None or word.wear != "lowers":
        return None
    figures = [
        float(figure)
        for engine in (None, *book.engines.values())
        for limit in book.limits_on(engine, quantity)
        if len(limit.conditions) == 1
        for figure in (
            *(bound.value for bound in limit.conditions[0].bounds),
            *(row[-1] for row in (limit.table.rows if limit.table else ())),
        )
        if figure
    ]
    return median(figures) if figures else None
