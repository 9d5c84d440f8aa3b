"""A record that was signed no longer says what was signed, or is gone.

What is judged: the first text of each record that bears a signature, as it was committed, against the text now, on the
disk and not only in the last commit. Inspections, tire work, turnings, mountings, defects, corrections and waivers are
judged. Values are compared, not bytes: a comment, a first line or the ends of lines may change. A defect may still be
closed after signing: its disposition, repair and approval are not held against it. A change is no finding where a
correction names the record, that place and what is right, nor where a correction withdraws the record; nor is a
record moved to another folder, or renamed with every value as it was. What was altered and signed in one commit
cannot be told apart from what was signed so. Outside git, with `--no-history`, and where `ledger.yaml` says that the
history is not of this book, nothing is judged. The signature here is the key `signed:`; a signature of git is neither
asked for nor verified.

What to do: put the signed text back (`git show COMMIT:./PATH` prints it) and write what is right into a record in
`corrections/`, with reason and approval.

Source: the history of this ledger in git.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.entered import Edit, Life, edit_after_signing

from ._history import SOURCE, changed_words, evidence, place_of, unexplained, withdrawn

ID = "signed-record-edited"


def check(book: Book) -> Iterator[Finding]:
    """Tell every signed record that no longer says what was signed."""
    for life in evidence(book):
        edit = edit_after_signing(life)
        if edit is None or withdrawn(book, life.id):
            continue
        found = unexplained(book, edit, life.id)
        if found or edit.edited_in is None:
            yield Finding(
                ID,
                Verdict.SUSPECT,
                Severity.DATA,
                life.id,
                place_of(life, found),
                f"{_signed(edit)} {_since(life, edit, changed_words(found))}",
                source=SOURCE,
                next=f"Put back what was signed (git show {_commit(edit)}:./{life.path}), and write a correction.",
            )


def _signed(edit: Edit) -> str:
    signed = fields.inner(edit.signed_in.tree or {}, "signed")
    return (
        f"Signed by {fields.text(signed, 'signed_by')} on {fields.text(signed, 'signed_on')}, {edit.signed_in.named}."
    )


def _since(life: Life, edit: Edit, words: str) -> str:
    if edit.edited_in is None:
        by = f"in commit {life.taken_by.named}" if life.taken_by else "by no commit of its own: a merge, or the disk"
        return f"The record has been deleted since, {by}."
    return f"Since {edit.edited_in.named} it says something else: {words}."


def _commit(edit: Edit) -> str:
    return edit.signed_in.commit.hash[:10] if edit.signed_in.commit else "HEAD"
