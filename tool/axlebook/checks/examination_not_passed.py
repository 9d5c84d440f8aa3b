"""An examination rejected a part that stands on an engine, or found an indication in it.

What is judged: the last examination of each part, by dye, magnets, ultrasound or an eye. `rejected` is outside: the
person who examined it held it against the standard that the record names. An `indication` is for a qualified person
to judge, unless the examination itself names the day of the next (`due_again`): then that falls due. What a later
examination of the same part and area by the same method found takes its place, and so does a closed defect that was
found in it; no look by another method does. A part in store is told once it stands on an engine.

What to do: stop the engine. Have the indication judged to a named standard, and write a defect with its disposition;
after a repair have it examined again by the same method.

Source: the examination itself, and the standard it names.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.defect import defects
from axlebook.records.due.done import Examined
from axlebook.records.due.examinations import last_examined, stands_at

ID = "examination-not-passed"
STOP = "Stop the engine; write a defect, and have it examined again by the same method after the repair."
JUDGE = "A qualified person judges it to a named standard: write a defect with what follows, or `due_again:`."


def check(book: Book) -> Iterator[Finding]:
    """Tell every part on an engine whose last examination it did not pass; one that it passed is within."""
    for one in last_examined(book):
        subject = stands_at(book, one)
        result = fields.text(one.examination.tree, "result")
        if not subject or _put_right(book, one, subject):
            continue
        if result == "rejected":
            yield _finding(one, subject, Verdict.OUTSIDE, Severity.CONDEMNING, STOP)
        elif result == "indication" and "due_again" not in one.examination.tree:
            yield _finding(one, subject, Verdict.SUSPECT, Severity.WATCH, JUDGE)
        elif result == "nothing found":
            yield _finding(one, subject, Verdict.WITHIN, Severity.CONDEMNING, "")


def _put_right(book: Book, one: Examined, subject: str) -> bool:
    """Whether a closed defect is of this examination: of the same thing, and found in its record or on its day."""
    for defect in defects(book):
        if defect.is_open(book.as_of) or not defect.names(subject, one.wheelset):
            continue
        found_in = fields.text(defect.tree, "found_in")
        if found_in == one.done.session.id if found_in else not defect.limit and defect.found_on.exact == one.done.day:
            return True
    return False


def _finding(one: Examined, subject: str, verdict: Verdict, severity: Severity, step: str) -> Finding:
    tree, session = one.examination.tree, one.done.session.id
    what, method, area, standard, result = (
        fields.text(tree, key) for key in ("of", "method", "area", "standard", "result")
    )
    where = f", {area}" if area else ""
    told = "" if verdict is Verdict.WITHIN else (
        f"{subject}, {what}{where}: {method} examination of {one.done.text}: {result}. "
        "No later examination by that method, and no closed defect of it, is on record."
    )  # fmt: skip
    source = f"the examination itself, {session}{f', to {standard}' if standard else ''}"
    spot = " ".join(filter(None, (one.side, what, area, method)))
    return Finding(ID, verdict, severity, subject, one.examination.at.below("result"), told, (), source, step, "", spot)
