"""The plane a reading was taken in, in the words of the limit for it: 9.525 mm above tread is 3/8 in above tread."""

from __future__ import annotations

from collections.abc import Hashable

from axlebook.quantities import NotAMeasure, parse_measure

from .book import Book
from .reading import Reading

LONGEST = 3  # words of a measure: `1 3/8 in`


def plane_of(book: Book, reading: Reading) -> str:
    """The plane of a reading: as said, or the one its instrument measures in; '' where neither says."""
    instrument = None if reading.where else book.instruments.get(reading.instrument)
    told = reading.where or (instrument.where if instrument else "")
    return _as_limits_say(book, told) if told else ""


def _as_limits_say(book: Book, told: str) -> str:
    """The words of a limit on file for the same plane; else as told. Each text is looked at once."""
    known: dict[str, str] | None = book.__dict__.get("_planes")
    if known is None:
        known = book.__dict__["_planes"] = {
            limit.where: limit.where for one in book.limit_sets.values() for limit in one.limits if limit.where
        }
        book.__dict__["_planes_by_size"] = {_size(text): text for text in known}
    if told not in known:
        known[told] = book.__dict__["_planes_by_size"].get(_size(told), told)
    return known[told]


def _size(text: str) -> Hashable:
    """How far from where: the exact measure before the words, and these without what does not tell planes apart.

    >>> _size("3/8 in above tread") == _size("9.525 mm above the tread"), _size("At the throat")
    (True, (None, 'at throat'))
    """
    words = text.casefold().split()
    for count in range(min(LONGEST, len(words)), 0, -1):
        try:
            measure = parse_measure(" ".join(words[:count]))
        except NotAMeasure:
            continue
        return getattr(measure, "exact", measure), _plain(words[count:])
    return None, _plain(words)


def _plain(words: list[str]) -> str:
    return " ".join(word for word in words if word != "the")
