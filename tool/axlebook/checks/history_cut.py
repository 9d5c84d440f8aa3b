"""The history of the ledger is not seen whole, so what only the history tells is not looked at.

What is judged: whether all commits of the ledger, and the older texts of its records, are in this clone. A shallow
clone (`git clone --depth`, and what many workflows fetch) lacks the first commits, a partial one (`--filter`) the
older texts; where git is not installed, or does not answer, nothing of the history is seen. Then a signed record that
was edited, a record that was deleted and one that was entered late stay without a word. Not judged: a folder outside
git, a repository in which nothing is committed yet, a run with `--no-history`, and a ledger whose `ledger.yaml` says
that the history is not of this book.

What to do: the one step the finding names, mostly `git fetch --unshallow`; in a workflow `fetch-depth: 0`, as
`axlebook init --ci` writes it.

Source: the history of this ledger in git.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book

from ._history import SOURCE

ID = "history-cut"


def check(book: Book) -> Iterator[Finding]:
    """Tell why the history is not looked at as a whole."""
    cut = book.entered.cut if book.entered else None
    if cut is not None:
        yield Finding(
            ID,
            Verdict.NOT_ASSESSED,
            Severity.DATA,
            "ledger",
            book.place("ledger"),
            f"Not all of the history could be looked at: {cut.why}. Whether a signed record was edited, or a record "
            "was altered or deleted, is not known.",
            source=SOURCE,
            next=cut.next,
            cause=f"not all of the history could be looked at: {cut.why}",
        )
