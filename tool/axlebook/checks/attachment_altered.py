"""A photo or certificate is not the one that the record cites.

What is judged: the SHA-256 of every attachment that is there, against the one in the record. One bit more or less is
another file: a picture saved again, even without a change to the eye, is not the one that was taken.

What to do: put back the file that was cited (`git log -- attachments/FILE` names the commits that changed it). Where
the hash was written wrong, write the right one into a correction, or into a record that is not signed yet.

Source: the SHA-256 in the record.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book

ID = "attachment-altered"


def check(book: Book) -> Iterator[Finding]:
    """Tell every attachment whose content is not what was cited."""
    for cited in book.cited:
        there = book.attached.get(cited.file) if book.attached is not None else None
        if there is None or not cited.sha256 or there.sha256 == cited.sha256:
            continue
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.DATA,
            cited.record,
            cited.place.below("sha256"),
            f"attachments/{cited.file} is not the file that {cited.record} cites: its SHA-256 begins "
            f"{there.sha256[:12]}, cited is {cited.sha256[:12]}.",
            figures=(Figure("sha256 cited", cited.sha256, "", cited.record),
                     Figure("sha256 there", there.sha256, "", "computed")),
            source=f"record {cited.record}",
            next=f"See who changed it: git log -- attachments/{cited.file}. Put back the file that was cited.",
            where=cited.file,
        )  # fmt: skip
