"""Facts that limits ask for and that are on no record: their names, and where they are written."""

from __future__ import annotations

from collections.abc import Iterable

from axlebook.limits import FacetReader, Limit, applies
from axlebook.records.book import Book

UNDER_FACETS = "under `facets` in the engine's record, or under `facets_at` where it holds at one place only"


def unknown_facets(book: Book, limits: Iterable[Limit], facets: FacetReader) -> str:
    """The facets that are not known and keep limits from being judged: `traffic, beam retarders must act`."""
    return ", ".join(book.vocabulary.facets[name].title for name in _not_known(limits, facets))


def where_facets_go(book: Book, limits: Iterable[Limit], facets: FacetReader) -> str:
    """The one next step of such facets."""
    return write_facets(book, _not_known(limits, facets))


def write_facets(book: Book, names: Iterable[str]) -> str:
    """Where facets are written, each place once: "Write `bearings` under `axle` in the record of the wheelset."."""
    places: list[str] = []
    under_facets: list[str] = []
    for name in names:
        write = book.vocabulary.facets[name].write
        if write and write not in places:
            places.append(write)
        elif not write:
            under_facets.append(f"`{name}`")
    if under_facets:
        places.append(f"{', '.join(under_facets)} {UNDER_FACETS}")
    return f"Write {'; and '.join(places)}."


def _not_known(limits: Iterable[Limit], facets: FacetReader) -> list[str]:
    names = (
        test.facet
        for limit in limits
        if applies(limit.applies_to, facets).answer is None
        for test in limit.applies_to
        if facets(test.facet) is None
    )
    return list(dict.fromkeys(names))
