"""What a book that is only begun needs first: one step, the next one a person can do."""

from __future__ import annotations

from axlebook.records.book import Book

UNNAMED = "Name of your railway"  # as the template of ledger.yaml has it


def first_step(book: Book) -> str:
    """The one thing to write next in a book that cannot judge a wheel yet; '' in one that can."""
    if book.readings:
        return ""
    if book.ledger.railway in ("", UNNAMED):
        return "write the name of your railway into ledger.yaml, and the limit sets you work to."
    if not book.ledger.adoptions and not any(engine.adoptions for engine in book.engines.values()):
        return "write into ledger.yaml which limit sets you work to (limit_sets, with who adopted them and when)."
    if not book.engines:
        return "write down an engine: axlebook new engine e-12"
    if not book.wheelsets:
        return "write down a driving wheelset: axlebook new driver d-1 (any other: axlebook new wheelset et-1)"
    if not book.tires and any(wheelset.made == "tired" for wheelset in book.wheelsets.values()):
        return "write down a tire: axlebook new tire t-1"
    if book.tires and not any(book.standing.tires.values()):
        return "say on which center the tire was found: axlebook new tire-found 2026-01-10-t-1-found"
    if not any(engine.lines for engine in book.engines.values()):
        return "write into the engine's record which wheelset stands where (wheelsets: at, wheelset, from)."
    return "write down what was measured: axlebook new inspection 2026-01-10-e-12-annual"
