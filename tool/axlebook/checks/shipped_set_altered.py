"""The text of a limit set that was shipped has been changed.

What is judged: the hash of every shipped limit set in the ledger, whatever its line ends are and without its first
line. A published set is law or practice as printed; with one figure changed it is neither, and still bears the name.

What to do: put the shipped text back (from version control, or from a fresh ledger made by `axlebook init`). What the
railway wants otherwise belongs in a set of its own that `tightens` the published one.

Source: the limit sets shipped with axlebook.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book

ID = "shipped-set-altered"


def check(book: Book) -> Iterator[Finding]:
    """Tell every shipped limit set whose text is not as it was shipped."""
    for id in sorted(book.sets_altered & book.limit_sets.keys()):
        limit_set = book.limit_sets[id]
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.DATA,
            id,
            limit_set.place,
            f"The set {id} ({limit_set.title}) is not as it was shipped, and judges under the name of its source.",
            source="the hash of the shipped set",
            next="Put the shipped text back; write what differs into a set of your own that tightens it.",
        )
