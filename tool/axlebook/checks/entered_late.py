"""A record came into the book long after its date.

What is judged: the day of an inspection, tire work, a turning or a mounting, against the day of the commit that
brought it, by `entered_late_after` in `ledger.yaml`: more days than it says is late, as many is not. A late record is
not a wrong one; but a reading written from memory after months is another kind of evidence than one written at the
wheel. The day of the commit is what its author's machine said, and can be set at will. Not judged: what came in the
commit that brought the ledger itself, old cards (`transcribed:`), records of which only the month is known, and, in a
shallow clone, what came before its edge.

What to do: ask who measured for the paper sheet, and say in the record's note where the figures come from.

Source: `entered_late_after` in ledger.yaml; the history of this ledger in git.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book

from ._history import SOURCE, sessions

ID = "entered-late"
_DAY = Fraction(86400)  # seconds
_NOT_SET = "ledger.yaml does not say after how long a record is late (entered_late_after)"


def check(book: Book) -> Iterator[Finding]:
    """Tell every record that was entered later than the ledger allows."""
    found = [(session, life.entered) for session, life in sessions(book) if "transcribed" not in session.tree]
    tree = book.ledger.tree
    most, asked = fields.exact(tree, "entered_late_after"), fields.text(tree, "entered_late_after")
    if most is None:
        if found:
            yield _not_set(book, len(found))
        return
    for session, entered in found:
        day = session.day.exact
        if day is None or entered is None or (entered.on - day).days * _DAY <= most:
            continue
        late = (entered.on - day).days
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.NOTE,
            session.id,
            session.day_at,
            f"It is dated {day} and was entered {late} days later, in commit {entered.named}; "
            f"the ledger calls more than {asked} late.",
            figures=(Figure("days until entered", str(late), "day", "computed"),
                     Figure("entered_late_after", asked, "", "ledger.yaml")),
            source=f"entered_late_after in ledger.yaml; {SOURCE}",
            next="Ask for the paper it was written on at the wheel, and say in its note where the figures come from.",
        )  # fmt: skip


def _not_set(book: Book, many: int) -> Finding:
    return Finding(
        ID,
        Verdict.NOT_ASSESSED,
        Severity.NOTE,
        "ledger",
        book.place("ledger"),
        f"{many} dated records were entered in git; whether late, nobody can say: {_NOT_SET}.",
        source=SOURCE,
        next="Write entered_late_after into ledger.yaml, for example 30 day.",
        cause=_NOT_SET,
    )
