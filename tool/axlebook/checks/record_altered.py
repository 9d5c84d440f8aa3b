"""A record that nobody signed says other than when it was entered.

What is judged: the first committed text of an inspection, tire work, a turning, a mounting, a defect, a correction or a
waiver that bears no signature yet, against its text now. Only what was said and is said otherwise, or no more, counts;
what was added is no alteration, nor what closes a defect: its disposition, repair and approval. Nobody is blamed: an
unsigned record is open, so this is a note, for whoever signs.

What to do: look at what was there before (`git log -p PATH` shows it). Where the first text was right, put it back;
then sign the record, which closes it.

Source: the history of this ledger in git.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.entered import altered_values

from ._history import SOURCE, changed_words, evidence, place_of, unexplained

ID = "record-altered"


def check(book: Book) -> Iterator[Finding]:
    """Tell every unsigned record whose values were changed after it was entered."""
    for life in evidence(book):
        edit = altered_values(life)
        found = unexplained(book, edit, life.id) if edit else ()
        if edit is None or edit.edited_in is None or not found:
            continue
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.NOTE,
            life.id,
            place_of(life, found),
            f"Entered in {edit.signed_in.named}. Since {edit.edited_in.named} it says something else: "
            f"{changed_words(found)}.",
            source=SOURCE,
            next=f"See what it said: git log -p -- {life.path}. Then sign what is right.",
        )
