"""Facts that limits ask for and that are on no record: their names, and where they are written."""

from __future__ import annotations

from collections.abc import Iterable

from axlebook.limits import FacetReader, Limit, applies
from axlebook.records.book import Book

UNDER_FACETS = "under `facets` in the engine's record, or under `facets_at` where it holds at one place only"


def not_on_record(book: Book, limits: Iterable[Limit], facets: FacetReader) -> tuple[str, str]:
    """What keeps limits from being judged, `not on record: traffic, beam retarders must act`; and where to write it."""
    names = list(
        dict.fromkeys(
            test.facet
            for limit in limits
            if applies(limit.applies_to, facets).answer is None
            for test in limit.applies_to
            if facets(test.facet) is None
        )
    )
    return _told(book, names)


def without_figure(book: Book, limit: Limit, facets: FacetReader) -> tuple[str, str] | None:
    """The same of a limit that is for a thing, of what its table is looked up by; None where that is all known."""
    names = [name for name in limit.table.facets if facets(name) is None] if limit.table else []
    return _told(book, names) if names else None


def _told(book: Book, names: list[str]) -> tuple[str, str]:
    titles = ", ".join(book.vocabulary.facets[name].title for name in names)
    return f"not on record: {titles}", write_facets(book, names)


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
