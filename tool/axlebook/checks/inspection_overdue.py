"""An inspection of an engine is overdue by an interval in force.

What is judged: every interval of the limit sets in force for an engine that is not of an axle or pin, from the last
inspection whose purpose, or `also_satisfies`, is the interval or one that takes it in. Days and years are counted by
the calendar, service days from the dated lines of service/, each calendar day once. Where only a yearly total is
known the count is a range; when the limit lies in it, it is undecided. What was never done on record is not assessed.
An examination that `satisfies` an interval answers it for its own part, a drawbar; never for the whole engine.

Where a plan is for the purpose of an inspection and asks something of the wheels, a record that tells of some of them,
and nothing of more than half of the wheelsets asked about, is a piece and does not count by itself: several count
together, from the day of the first. Nothing read with the reason under `not_measured` is told. A record of no wheel at
all, and an old card, count as they stand.

How the days are counted, where the words of a law leave it open (ours): 368 days end with the 368th day after, and it
is overdue from the next; a period of years begins on its day and ends the day before that day comes round again; the
31st service day is still within, and the inspection is due before the engine is in steam once more.

What to do: inspect before the engine is used; or, if it was done, enter the record. `axlebook due` shows what comes.

Source: the interval named in the finding, with its set and clause.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book
from axlebook.records.due import Kind

from ._due import judged_due

ID = "inspection-overdue"


def check(book: Book) -> Iterator[Finding]:
    """Judge every interval of every engine."""
    return judged_due(book, ID, Kind.INSPECTION)
