"""A tag that keeps an inspection does not stand where it was set, as far as that can be seen here.

What is judged: tags whose name holds `annual`, `inspection` or the id of an engine on record. Four signs: this very
repository saw the tag move (it does so only with `core.logAllRefUpdates=always`); an annotated tag bears a day before
the commit it names was made; it was made under another name; it names a commit that is not in the history the
ledger stands at. The last is a note, for the tag of an open branch shows it too. What cannot be seen: a lightweight tag
says neither who set it nor when; a clone made after the move knows nothing of it; a tag that was deleted and set anew
leaves no log. What helps: print the commit with the annual summary, as `annual` does; let others fetch the tags, for
git refuses to overwrite theirs; sign tags, if the railway wants to. Signatures of git are not verified here.

What to do: compare with the commit on the printed summary, and with the tag in another clone (`git ls-remote --tags`).

Source: the tags of this ledger in git.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.entered import SHORT, Tag

from ._history import history_of

ID = "tag-rewritten"
_WORDS = ("annual", "inspection")


def check(book: Book) -> Iterator[Finding]:
    """Tell every tag of an inspection that seems to have been moved."""
    history = history_of(book)
    for tag in history.tags if history else ():
        if not _keeps_inspection(book, tag):
            continue
        for where, severity, words in _signs(tag):
            yield Finding(
                ID,
                Verdict.SUSPECT,
                severity,
                tag.name,
                book.place("ledger"),
                f"The tag {tag.name} names commit {tag.commit[:SHORT]}: {words}.",
                source="the tags of this ledger in git",
                next="Compare with the commit on the printed summary, and with this tag in another clone.",
                where=where,
            )


def _keeps_inspection(book: Book, tag: Tag) -> bool:
    return any(word in tag.name for word in (*_WORDS, *book.engines))


def _signs(tag: Tag) -> Iterator[tuple[str, Severity, str]]:
    if tag.moved_here:
        yield (
            "moved",
            Severity.DATA,
            f"it was moved {tag.moved_here} time{'s' * (tag.moved_here > 1)} in this repository",
        )
    if tag.made_on and tag.commit_on and tag.made_on < tag.commit_on:
        words = f"it bears the day {tag.made_on}, and that commit was made only on {tag.commit_on}"
        yield "older than its commit", Severity.DATA, words
    if tag.inner_name and tag.inner_name != tag.name:
        yield "another name", Severity.DATA, f"it was made as {tag.inner_name}"
    if not tag.reachable:
        yield "not in the history", Severity.NOTE, "that commit is not in the history this ledger stands at"
