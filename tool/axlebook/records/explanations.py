"""The slips that could have made a doubtful reading: each says what would have been meant."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from axlebook.quantities import Quantity
from axlebook.trends import misread
from axlebook.trends.slips import Explanation

from .book import Book
from .fit import TIRE_STEEL, expansion_of, shop_temperatures
from .instruments import temperature
from .offs import Around, Off, are_opposite
from .reading import Reading

MM = 25.4
LARGE = 0.2  # metres: below this nothing gets hot enough to show
HOTTER = (25.0, 220.0)  # how much hotter than the shop a wheel may be that someone measures [K]
REFERENCE = 293.15
EXCHANGE_STRIKES = 0.1  # two readings that fit each other's place are hardly chance
SAME = 3.0  # the very same figures as another wheel strike more than figures near to them
FRACTION_GONE = 0.18  # whole inches to the dot are rare where fractions were expected
MISREAD_RARER = 6.0  # a misread denominator beside a part that was lost
AT_PLACE_RARER = 6.0  # under an engine wheels are seldom hot; loose tires often
METHOD_SPAN = 5.0  # times what two certificates leave open


def explanations(
    around: Around, reading: Reading, offs: Sequence[Off], partner: Reading | None
) -> Iterator[Explanation]:
    """Every explanation that could be thought of for some values of one reading."""
    if partner is not None:
        theirs = {off.position: off.value for off in around.offs(partner)}
        kind = "sides-swapped" if are_opposite(reading, partner) else "wrong-wheel"
        put_back = tuple(theirs[off.position] for off in offs)
        yield Explanation(kind, put_back, EXCHANGE_STRIKES, partner.named, exchanged=True)
    if len(offs) == len(reading.values):  # another wheel's figures are another wheel's at every place
        yield from _other_wheels(around, reading, offs)
    yield from _other_unit(offs)
    yield from _turns(around.book, reading, offs)
    yield from _hot(around.book, reading, offs)
    apart = min(off.apart for off in offs)
    if apart and _for_once(around, offs[0]) and min(abs(off.residual) for off in offs) < METHOD_SPAN * apart:
        expected = tuple(off.expected for off in offs)
        yield Explanation("method-changed", expected, 1, reading.instrument, METHOD_SPAN * apart)
    if len(offs) == 1:
        measure = _written(offs[0])
        if measure is not None:
            yield from _text(measure, offs[0])


def _for_once(around: Around, off: Off) -> bool:
    """Whether the instrument was used but once on this line: where two take turns, neither is a surprise."""
    points = around.history.lines[off.number].points
    return sum(point.way[0] == off.point.way[0] for point in points) == 1


def _written(off: Off) -> Quantity | None:
    for position, measures in off.point.origin.values:
        if position == off.position and len(measures) == 1 and isinstance(measures[0], Quantity):
            return measures[0]
    return None


def _text(measure: Quantity, off: Off) -> Iterator[Explanation]:
    digits = list(misread.transposed(measure.text))
    for text, value in digits:
        yield Explanation("digits-transposed", (float(value),), len(digits), text)
    expected = Fraction(off.expected)
    for text, value in misread.whole_lost(measure, expected):
        yield Explanation("fraction-lost", (float(value),), 1, text)
    for text, value in misread.space_lost(measure):
        yield Explanation("fraction-lost", (float(value),), 1, text)
    others = list(misread.other_fraction(measure))
    for text, value in others:
        yield Explanation("fraction-lost", (float(value),), MISREAD_RARER * len(others), text)
    if misread.fraction_gone(measure, expected):
        yield Explanation("fraction-lost", (off.expected,), FRACTION_GONE, "", float(misread.INCH))


def _other_unit(offs: Sequence[Off]) -> Iterator[Explanation]:
    """The number in the other unit, where every value is written in one. Nobody reads 7/64 mm."""
    written = [_written(off) for off in offs]
    units = {m.unit for m in written if m is not None}
    if units == {"in"} and not any(m is not None and "/" in m.text for m in written):
        yield Explanation("mm-for-inches", tuple(off.value / MM for off in offs), 1, "millimetres")
    elif units == {"mm"}:
        yield Explanation("mm-for-inches", tuple(off.value * MM for off in offs), 1, "inches")


def _turns(book: Book, reading: Reading, offs: Sequence[Off]) -> Iterator[Explanation]:
    instrument = book.instruments.get(reading.instrument)
    if instrument is None or instrument.one_turn is None:
        return
    turn = float(instrument.one_turn)
    for count in (1, -1, 2, -2):
        yield Explanation("one-turn-out", tuple(off.value + count * turn for off in offs), 2.0 * count * count)


def _hot(book: Book, reading: Reading, offs: Sequence[Off]) -> Iterator[Explanation]:
    word = book.vocabulary.quantities.get(reading.quantity)
    if word is None or word.of not in ("wheel", "tire", "center"):
        return
    alpha = expansion_of(book, TIRE_STEEL)
    size, excess = offs[0].expected, min(off.residual for off in offs)
    if alpha is None or size < LARGE or excess <= 0:
        return
    told, shop = temperature(reading.part_temperature), shop_temperatures(book)
    if told is not None and shop is not None and float(told) > shop[1]:
        grown = alpha * (float(told) - REFERENCE)
        yield Explanation("hot-reading", tuple(off.value / (1 + grown) for off in offs), 0.1, reading.part_temperature)
    low, high = (alpha * size * rise for rise in HOTTER)
    if low <= excess <= high:
        warmth = excess / (alpha * size)
        yield Explanation(
            "hot-reading",
            tuple(off.expected for off in offs),
            AT_PLACE_RARER if reading.place else 1.0,
            f"about {warmth * 9 / 5 + 68:.0f} degF",
            high - low,
        )


def _other_wheels(around: Around, reading: Reading, offs: Sequence[Off]) -> Iterator[Explanation]:
    """What other wheels of the same record were expected to give: is this one of them?"""
    others = around.others(reading)
    for other in others:
        theirs = {off.position: off for off in around.offs(other)}
        if all(off.position in theirs for off in offs):
            shifted = tuple(off.expected + off.value - theirs[off.position].expected for off in offs)
            among = max(len(others), 1) / (SAME if _same(reading, other, offs) else 1.0)
            yield Explanation("wrong-wheel", shifted, among, other.named)


def _same(reading: Reading, other: Reading, offs: Sequence[Off]) -> bool:
    """Whether another wheel of the record has the very same values."""
    mine, theirs = dict(reading.values), dict(other.values)
    return all(_first(mine.get(off.position)) == _first(theirs.get(off.position)) for off in offs)


def _first(measures: object) -> object:
    return measures[0] if isinstance(measures, tuple) and measures else None
