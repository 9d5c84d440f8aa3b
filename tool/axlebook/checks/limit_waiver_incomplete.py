"""A limit stands in for a published one without what an authority's waiver needs.

What is judged: every limit that says `replaces`. What an authority has allowed has a number, its `docket`, and a last
day, `expires_on`; and it stands in for limits that are on file and judge the same thing. Without docket and last day it
silences nothing: both limits judge. A limit that it names and that is not there is silenced by nobody either.

What to do: copy docket and last day from the authority's letter, and the limit's name as SET/ID. A figure of the
railway's own that is looser than the law is no waiver, and is told as such.

Source: the limit set.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.limits import Limit
from axlebook.records.book import Book

from ._records import nearest

ID = "limit-waiver-incomplete"


def check(book: Book) -> Iterator[Finding]:
    """Tell every limit that replaces others and lacks something."""
    on_file = {limit.id: limit for limit_set in book.limit_sets.values() for limit in limit_set.limits}
    for limit in on_file.values():
        lacking = [key for key, value in (("docket", limit.docket), ("expires_on", limit.expires_on)) if not value]
        if limit.replaces and lacking:
            words = f"{limit.id} is to stand in for {', '.join(limit.replaces)} without {' and '.join(lacking)}."
            yield _finding(limit, "", f"{words} It silences nothing.", "Copy it from the authority's letter.")
        for id in limit.replaces:
            other = on_file.get(id)
            if other is None:
                near = nearest(id, on_file)
                words = f"{limit.id} is to stand in for {id}, and no limit on file has that name."
                yield _finding(limit, id, words, f"Write {near} if that is meant." if near else "Write it as SET/ID.")
            elif not set(other.quantities) & set(limit.quantities):
                words = f"{limit.id} is to stand in for {id}, and the two judge different things."
                yield _finding(limit, id, words, "Name the limit that the authority's letter names.")


def _finding(limit: Limit, where: str, words: str, next_step: str) -> Finding:
    at = limit.place.below("replaces")
    return Finding(ID, Verdict.SUSPECT, Severity.DATA, limit.id, at, words, (), limit.cited, next_step, where=where)
