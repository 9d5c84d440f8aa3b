"""No job briefing is noted for the day a tire went on.

What is judged: for every tire that is on by record, whether the record of that day notes that a job briefing was
held: who lifts, who heats, who calls, where nobody stands. The ledger records that it was held; it authorizes no lift
and no fire.

What to do: hold it before the next tire. For one that is on, write down what is known.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity
from axlebook.records.book import Book

from ._tire_day import Question, answered

ID = "job-briefing-not-noted"
QUESTIONS = (Question("job_briefing", "a job briefing", "no job briefing was held"),)


def check(book: Book) -> Iterator[Finding]:
    """Look at whether a briefing is noted."""
    return answered(book, ID, "before", QUESTIONS, Severity.SHOP, "Hold it before the next lift, and note it.")
