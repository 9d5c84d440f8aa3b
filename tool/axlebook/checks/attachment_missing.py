"""A record cites a photo or certificate that is not there.

What is judged: every entry of `attachments:` in every record, by its file below `attachments/`. A link, a pipe or a
file that cannot be opened counts as not there. At a revision (`--at`) the files
of that commit are looked at.

What to do: put the file where the record says, or mend the name in the record; where it is lost, say so in a
correction.

Source: the record that cites it.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book

ID = "attachment-missing"


def check(book: Book) -> Iterator[Finding]:
    """Tell every attachment that is cited and not there."""
    for cited in book.cited if book.attached is not None else ():
        if book.attached is not None and cited.file not in book.attached:
            yield Finding(
                ID,
                Verdict.SUSPECT,
                Severity.DATA,
                cited.record,
                cited.place.below("file"),
                f"{cited.record} cites attachments/{cited.file}, and there is no such file that can be read.",
                source=f"record {cited.record}",
                next="Put the file there, or write the name it has.",
                where=cited.file,
            )
