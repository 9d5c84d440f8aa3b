"""What an event asks to be looked at again was not looked at in time.

What is judged: the `after` lists of the limit sets in force: after a turning, a tire put on or taken off, a wheel
pressed, a derailment, a collision, a slid wheel, a stuck brake, a blued tread, a hot box. It is done when every
quantity the list names was read after the event on all that the event touched and that still stands on the engine.
Readings in the record of the work itself are part of the work. A list that names no quantity is done by an inspection
that says it follows the event (`after:`), or an after-incident inspection of the engine; without one it is not
assessed.

What to do: measure what is missing and write it in an inspection. Of an incident: before the engine runs.

Source: the list named in the finding, with its set and clause.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book
from axlebook.records.due import Kind

from ._due import judged_due

ID = "recheck-overdue"


def check(book: Book) -> Iterator[Finding]:
    """Judge what every event asks for."""
    return judged_due(book, ID, Kind.RECHECK)
