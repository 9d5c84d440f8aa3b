"""An axle, a crank pin or another part was not examined again in time.

What is judged: every wheelset now standing on an engine, by each interval in force for its axle or its crank pins,
from the last examination that says it `satisfies` the interval, is of that part, and whose result is known; and every
examination that names in `due_again` the day of the next. A part that was never examined on record is not assessed. An
examination that was tried and did not succeed is none. One of an axle that names one end alone, by its part, place or
area, counts with one of the other end, from the earlier of the two days. Where the title of an interval names methods
(ultrasonic, magnetic particle, dye), one made by another of these, or by eye, does not answer it.

What to do: have the part examined before it runs on; or, if it was, enter the examination with its method, standard,
person and result.

Source: the interval named in the finding, mostly the railway's own, or the examination itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book
from axlebook.records.due import Kind

from ._due import judged_due

ID = "examination-overdue"


def check(book: Book) -> Iterator[Finding]:
    """Judge every examination that falls due."""
    return judged_due(book, ID, Kind.EXAMINATION)
