"""A record does not say on which day it was measured.

What is judged: every record of readings or looks. Without the day nobody knows which tire stood there, which
certificate held, or what came first; none of its readings is placed or compared. A month or a year is told as what it
is: its readings stand in no trend, and what was seen stands until a look that was later for certain.

What to do: look at the sheet or the shop's diary, and write the day as YYYY-MM-DD. For an old card, typed in later,
this is only a note: write `transcribed:` with where it came from, and leave the date at what is known.

Source: the rules of the ledger: who, when, with what, at what temperature.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book

from ._records import counted, is_old_card

ID = "when-not-told"


def check(book: Book) -> Iterator[Finding]:
    """Tell every record of readings or looks whose day is not known."""
    for session in book.sessions:
        if session.day.exact is not None:
            continue
        found = [r for r in session.readings if r.day.exact is None]
        looks = [o for o in session.observations if o.day.exact is None]
        if not (found or looks) or session.draft:
            continue
        old = is_old_card(session) or (bool(found) and all(r.sure != "yes" for r in found))
        what = f"{counted(len(found), 'reading')}. They stand in no trend" if found else (
            f"{counted(len(looks), 'look')}. Which look came last is not known")  # fmt: skip
        known = "the day is not known" if session.day.first is None else f"no more is known than {session.day.text}"
        yield Finding(
            ID,
            Verdict.NOT_ASSESSED,
            Severity.NOTE if old else Severity.DATA,
            session.id,
            session.day_at,
            f"{session.id}: {known} for {what}.",
            source="what a reading must tell (records of this ledger)",
            next="Ask who kept the card; write it if it can still be known." if old else
            "Look at the sheet or the diary, and write the day.",
            cause="the day is not written",
        )  # fmt: skip
