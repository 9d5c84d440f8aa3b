"""A tire went on a divided rim whose filling blocks were not tight.

What is judged: for every tire that is on by record on a center with a divided rim, what the record of that day says
of the filling blocks. A rim that is not divided has none. Where the center's record does not say whether its rim is
divided and the day's record says nothing, it is not assessed.

What to do: look at the blocks, and ring the tire over each of them.

Source: common practice; 49 CFR 230.114(a) asks for filling blocks in divided rims.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity
from axlebook.records import fields
from axlebook.records.book import Book

from ._tire_day import Application, Question, answered

ID = "filling-blocks-not-tight"


def _divided(app: Application) -> bool:
    return fields.yes(app.center.tree, "divided_rim") is True


def _not_known(app: Application) -> bool:
    """A rim of which nobody said that it is whole: there the day's record has to speak."""
    return fields.yes(app.center.tree, "divided_rim") is None and not app.told("before", "blocks")


QUESTIONS = (
    Question(
        "blocks", "filling blocks tight", "the filling blocks were not tight", lambda a: _divided(a) or _not_known(a)
    ),
)


def check(book: Book) -> Iterator[Finding]:
    """Look at what was written of the blocks."""
    return answered(book, ID, "before", QUESTIONS, Severity.WATCH, "Look at the blocks and ring the tire over each.")
