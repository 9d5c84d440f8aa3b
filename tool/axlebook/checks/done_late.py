"""An inspection, an examination or a look after an event was done, and late.

What is judged: each time something that falls due was answered, against the time before it, by the intervals and
lists now in force and since they were adopted. It is a note: nothing can be done about it any more, but who reads the
book should not have to find it out.

What to do: nothing now. When the same thing is late again and again, `axlebook due` in time helps.

Source: the interval or list named in the finding, with its set and clause.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book
from axlebook.records.due import Kind

from ._due import judged_late

ID = "done-late"


def check(book: Book) -> Iterator[Finding]:
    """Tell what was done late."""
    return judged_late(book, ID, (Kind.INSPECTION, Kind.EXAMINATION, Kind.RECHECK))
