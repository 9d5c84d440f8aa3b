"""Faults of form, as findings: what reading found under one id, with what is not used because of it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from axlebook.findings import Finding, Problem, Severity, Verdict
from axlebook.records.book import Book

_NAMED = re.compile(r"`([^`]*)`")
_NUMBER = re.compile(r"[0-9]{1,9}")  # of an entry of a list; a key may be any text
_KEY = "#key"


def clean(text: str) -> str:
    r"""Text fit for a screen: nothing in it moves a cursor, colors or reorders a line.

    >>> clean("wheel\x1b[31m")
    'wheel\\x1b[31m'
    """
    if text.isprintable():
        return text
    return "".join(
        c if c.isprintable() else c.encode("unicode_escape", "backslashreplace").decode("ascii") for c in text
    )


def form_findings(book: Book, check: str, verdict: Verdict) -> Iterator[Finding]:
    """The problems of one id as findings; they are about the data, never about metal."""
    for problem in _by_check(book).get(check, ()):
        place = problem.place
        yield Finding(
            check,
            verdict,
            Severity.DATA,
            clean(place.path),
            place,
            " ".join(filter(None, (clean(problem.message), _lost(problem)))),
            source="how records are written (schema of the kind)",
            next=clean(problem.next),
            where=_where(problem),
            known_at=(problem.line, problem.column),
        )


def _by_check(book: Book) -> dict[str, list[Problem]]:
    """The problems by id, sorted out once a run."""
    found: dict[str, list[Problem]] | None = book.__dict__.get("_problems_by_check")
    if found is None:
        found = book.__dict__["_problems_by_check"] = {}
        for problem in book.problems:
            found.setdefault(problem.check, []).append(problem)
    return found


def _where(problem: Problem) -> str:
    """What tells two faults of one record apart: the place in it, and a name where one is missing there."""
    named = _NAMED.search(problem.message) if problem.check == "missing-key" else None
    where = f"{problem.place.pointer} {named[1]}" if named else problem.place.pointer
    return clean(where or problem.kind)


def _lost(problem: Problem) -> str:
    """What is not used until the fault is mended; '' where that is only the value the message is about."""
    place, out = problem.place.pointer.removesuffix(_KEY), problem.left_out
    if out is None:
        return ""
    if out == "":
        return "Nothing of this file is used until then."
    section, _, entry = out[1:].partition("/")
    if _NUMBER.fullmatch(entry):
        return f"Entry {int(entry) + 1} of `{clean(section)}` is not used until then."
    return "" if out == place else f"`{clean(out[1:])}` is not used until then."
