"""A value is a measure of another kind than it stands for: a weight for a thickness, a length for a temperature.

What is judged: every reading and every figure of a limit set against the vocabulary, which says of what kind each
quantity and each facet is; the range and division of an instrument against what it measures; and every other measured
value against the schema of its record. A reading of the wrong kind is not used, and no limit judges it.

What to do: look at the sheet and write the unit that was read. Often two values stand in each other's place.

Source: the vocabulary and the schemas, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from axlebook.findings import Figure, Finding, Place, Severity, Verdict
from axlebook.limits import Bound, Limit, LimitSet
from axlebook.quantities import NotAMeasure, parse_measure
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.instrument import Instrument

from ._form import form_findings

ID = "wrong-dimension"
SOURCE = "the vocabulary of the ledger"


def check(book: Book) -> Iterator[Finding]:
    """Tell every value that is a measure of another kind than is asked for."""
    yield from form_findings(book, ID, Verdict.UNREADABLE)
    for limit_set in book.limit_sets.values():
        yield from _in_set(book, limit_set)
    for instrument in book.instruments.values():
        yield from _in_instrument(book, instrument)


def _in_set(book: Book, limit_set: LimitSet) -> Iterator[Finding]:
    for limit in limit_set.limits:
        for key, bound, asked in _bounds(book, limit):
            found = _dimension(bound.text)
            if asked and found and found != asked:
                figure = Figure(f"limit {bound.word}", bound.text, "", limit.id)
                yield _finding(limit.id, limit.place.below(key), f"Limit {limit.id}", bound.text, asked, (figure,))


def _bounds(book: Book, limit: Limit) -> Iterator[tuple[str, Bound, str]]:
    """Every figure of a limit, the key it stands under and the kind of measure it must be; words are none."""
    for condition in limit.conditions:
        word = book.vocabulary.find_quantity(condition.quantity)
        key = "out_when" if len(limit.conditions) == 1 else "out_when_all"
        for bound in condition.bounds:
            yield key, bound, word.dimension if word else ""
        if limit.table and word:
            for text in limit.table.texts:
                yield "table", Bound("table", None, text), word.dimension
    for test in limit.applies_to:
        facet = book.vocabulary.facets.get(test.facet)
        for bound in test.bounds:
            yield "applies_to", bound, facet.dimension if facet else ""


def _in_instrument(book: Book, instrument: Instrument) -> Iterator[Finding]:
    words = (book.vocabulary.quantities.get(name) for name in instrument.measures)
    kinds = sorted({word.dimension for word in words if word is not None})
    bounds = fields.inner(instrument.tree, "range")
    told: Iterable[tuple[tuple[str, ...], str]] = (
        (("range", "at_least"), fields.text(bounds, "at_least")),
        (("range", "at_most"), fields.text(bounds, "at_most")),
        (("resolution",), fields.text(instrument.tree, "resolution")),
    )
    for steps, text in told:
        found = _dimension(text) if text else ""
        if kinds and found and found not in kinds:
            figure = Figure(" ".join(steps), text, "", instrument.id)
            name = f"{instrument.id}, {' '.join(steps).replace('_', ' ')}"
            yield _finding(instrument.id, Place(instrument.path).below(*steps), name, text, kinds[0], (figure,))


def _dimension(text: str) -> str:
    try:
        return parse_measure(text).dimension
    except NotAMeasure:
        return ""


def _finding(
    subject: str,
    at: Place,
    name: str,
    text: str,
    asked: str,
    figures: tuple[Figure, ...],
) -> Finding:
    found = _dimension(text).replace("_", " ")
    return Finding(
        ID,
        Verdict.UNREADABLE,
        Severity.DATA,
        subject,
        at,
        f"{name}: {text} is a {found}, and a {asked.replace('_', ' ')} is asked for. It is not judged.",
        figures,
        SOURCE,
        "Look at the sheet and write the unit that was read.",
        where=at.pointer,
    )
