"""Which check judges what: every word of the vocabulary that can be judged is judged by exactly one check.

A check names what it judges in QUANTITIES and OBSERVATIONS. What no check names is left to the two that judge the
rest, so that a new line of the vocabulary and a limit record need no code.
"""

from __future__ import annotations

from axlebook.records.book import Book

REST = frozenset({"limit-passed", "seen-condemned"})


def claimed(attribute: str) -> set[str]:
    """The words that a check judges by name; `attribute` is QUANTITIES or OBSERVATIONS."""
    from . import all_checks  # the list of checks names the check that asks

    return {word for check in all_checks() if check.ID not in REST for word in getattr(check, attribute, ())}


def left_quantities(book: Book) -> list[str]:
    """Measured and derived quantities that no check judges by name."""
    taken = claimed("QUANTITIES")
    return [name for name in (*book.vocabulary.quantities, *book.vocabulary.derived) if name not in taken]


def left_observations(book: Book) -> list[str]:
    """Things looked for that no check judges by name."""
    taken = claimed("OBSERVATIONS")
    return [name for name in book.vocabulary.observations if name not in taken]
