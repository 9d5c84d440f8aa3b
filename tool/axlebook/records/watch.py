"""The watch list: weak signs that a tire may be loose, joined on the tire now fitted.

Which signs count, and how they add up, is data: the `watch` of a limit set in force. Signs are closed by tire work,
or by a later look that does not see them; a sign that nobody looked for is no pass.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from axlebook.findings import Place
from axlebook.limits import Watch, WatchSign, applies

from .book import Book
from .condition import Stand, stands
from .dates import Day
from .facets import facet
from .watch_signs import UNKNOWN_SIGN, Shown, look

ALONE, WITH_ANOTHER, BESIDE = "alone", "with another", "beside a sign"
RANK = {ALONE: 0, WITH_ANOTHER: 1, BESIDE: 2}


class Sign(NamedTuple):
    """One sign that stands open on a tire."""

    word: WatchSign
    title: str
    text: str  # what, when, in which record, in shop words
    day: Day
    at: Place
    record: str


class WatchItem(NamedTuple):
    """One tire now fitted, with the signs that stand open on it and those that nobody looked for."""

    stand: Stand
    watches: tuple[Watch, ...]
    signs: tuple[Sign, ...]
    not_looked: tuple[str, ...]  # titles of signs that nobody looked for
    not_recorded: tuple[str, ...] = ()  # titles of what would weigh beside a sign, and is not on record

    @property
    def suspect(self) -> bool:
        """Whether the signs add up: one that speaks alone, two weak ones, or a weak one with its condition."""
        weak = counted(self.signs, WITH_ANOTHER)
        return bool(counted(self.signs, ALONE)) or weak > 1 or (weak == 1 and counted(self.signs, BESIDE) > 0)

    @property
    def hint(self) -> bool:
        """Whether one weak sign stands alone: nothing adds up, and the others are to be looked for."""
        return not self.suspect and counted(self.signs, WITH_ANOTHER) > 0

    @property
    def cited(self) -> str:
        """Where the practice comes from."""
        return "; ".join(dict.fromkeys(watch.cited for watch in self.watches))


def counted(signs: Iterable[Sign], weight: str) -> int:
    """How many signs of a weight there are; those that count as one, once."""
    return len({sign.word.counts_as or sign.word.sign for sign in signs if sign.word.weight == weight})


def watches_for(book: Book, stand: Stand) -> tuple[Watch, ...]:
    """The watches in force for a wheel."""
    return tuple(
        watch
        for limit_set in book.limits_for(stand.engine)
        for watch in limit_set.watch
        if applies(watch.applies_to, lambda name: facet(book, stand, name)).answer is True
    )


def watch_list(book: Book) -> tuple[WatchItem, ...]:
    """Every tire now fitted, in walking order; worked out once. Those with no watch in force have none to show."""
    found: tuple[WatchItem, ...] | None = book.__dict__.get("_watch_list")
    if found is None:
        found = tuple(_item(book, stand) for stand in stands(book) if stand.tire is not None)
        book.__dict__["_watch_list"] = found
    return found


def _item(book: Book, stand: Stand) -> WatchItem:
    watches = watches_for(book, stand)
    words = sorted((word for watch in watches for word in watch.signs), key=lambda word: RANK[word.weight])
    shown = [(word, look(book, stand, word)) for word in words]
    signs: dict[tuple[str, str], Sign] = {}
    for word, found in shown:
        if isinstance(found, Shown):
            sign = Sign(word, title_of(book, word), found.text, found.day, found.at, found.record)
            signs.setdefault((word.sign, word.by), sign)
    # A gap that an eye or a feeler looked for is answered, though nobody read it as a figure.
    answered = {w.counts_as for w, found in shown if w.counts_as and w.by == "seen" and found is not UNKNOWN_SIGN}
    unknown = [w for w, found in shown if found is UNKNOWN_SIGN and (w.by == "seen" or w.counts_as not in answered)]

    def titles(beside: bool) -> tuple[str, ...]:
        return tuple(dict.fromkeys(title_of(book, w) for w in unknown if (w.weight == BESIDE) is beside))

    return WatchItem(stand, watches, tuple(signs.values()), titles(beside=False), titles(beside=True))


def title_of(book: Book, word: WatchSign) -> str:
    """What a sign is called in the shop."""
    if word.by == "seen":
        return book.vocabulary.observations[word.sign].title
    found = book.vocabulary.find_quantity(word.sign)
    return found.title if found else word.sign


__all__ = ["ALONE", "BESIDE", "WITH_ANOTHER", "Sign", "WatchItem", "counted", "watch_list", "watches_for"]
