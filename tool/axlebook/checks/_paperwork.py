"""What the sets in force ask of the tag and the repair of a defect, and what of it is missing."""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.limits import FacetValue, Paperwork, applies
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.condition import EnginePlace
from axlebook.records.defect import Defect
from axlebook.records.facets import facet

APPROVED = {"approved_by": "by", "approved_on": "approved_on"}
WORDS = {
    "engine": "the engine's number",
    "inspected_by": "who inspected",
    "where": "the place",
    "tagged_on": "the date",
    "defect": "the defect",
    "restrictions": "the restrictions",
    "destination": "the destination",
    "signed_by": "the signature",
    "words": "what was done",
    "standard": "the standard it was made to",
    "done_on": "the day it was done",
    "by": "who did it",
    "approved_by": "who approved it",
    "approved_on": "the day of approval",
}


def asked(book: Book, defect: Defect, of: str) -> Iterator[Paperwork]:
    """What the sets in force for the engine ask of a part of a defect's record."""
    engine = book.engines.get(defect.engine)
    site = EnginePlace(engine, "") if engine else None

    def read(name: str) -> FacetValue | None:
        return facet(book, site, name) if site else None

    for limit_set in book.limits_for(engine):
        for paper in limit_set.paperwork:
            if paper.of == of and (site is None or applies(paper.applies_to, read).answer is not False):
                yield paper


def missing(defect: Defect, paper: Paperwork) -> list[str]:
    """The keys that are asked for and not written."""
    part = defect.tag if paper.of == "tag" else defect.repair
    approved = fields.inner(defect.tree, "approved")
    return [
        key for key in paper.asks if not fields.texts(approved if key in APPROVED else part, APPROVED.get(key, key))
    ]


def in_words(keys: list[str]) -> str:
    """Keys as a reader calls them."""
    return ", ".join(WORDS.get(key, key) for key in keys)
