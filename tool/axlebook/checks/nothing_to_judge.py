"""The ledger lacks what is needed before anything can be judged.

What is judged: whether there is an engine, its wheelsets, tires on their centers, a limit set in force, a reading. In a
new ledger these come one after the other; the finding names the first that is missing, and how to begin. It goes away
by itself.

What to do: the one step the finding names. `axlebook new KIND ID` writes a template to fill in.

Source: the README of the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.to_write import UNFILLED

ID = "nothing-to-judge"


def check(book: Book) -> Iterator[Finding]:
    """Tell what to fill in first."""
    step = _first_missing(book)
    if step is not None:
        what, next = step
        yield Finding(
            ID,
            Verdict.NOT_ASSESSED,
            Severity.NOTE,
            book.ledger.railway or "the ledger",
            Place(book.ledger.path),
            f"Nothing can be judged yet: {what}.",
            source="the README of the ledger",
            next=next,
            cause=what,
        )


def _first_missing(book: Book) -> tuple[str, str] | None:
    """What is missing first, and the step that mends it; None where all that is needed is there."""
    if book.problems and not (book.engines and book.sessions):
        return None  # what could not be read may be just what is missing; that is told first
    standing = book.standing
    if not book.engines:
        return "no engine is on file", "Write the first engine, by a name such as e-1: `axlebook new engine e-1`."
    engine = next(iter(book.engines.values()))
    if not standing.lines:
        return "no engine says which wheelset stands where", f"Add the dated lines under `wheelsets:` of {engine.path}."
    lacking = (*(() if book.wheelsets else ("drivers/", "wheelsets/")), *(() if book.tires else ("tires/",)))
    if unread := _unread(book, lacking):
        return f"{unread} cannot be used as it is written", f"Put right what is told of {unread}."
    if not book.wheelsets:
        wheelset = next(iter(standing.lines_of))
        id, more = (wheelset, "") if not wheelset.startswith(UNFILLED) else (
            "d-1", f", and its id into the line of {engine.path}")  # fmt: skip
        return "no wheelset is on file", f"Write the first driver: `axlebook new driver {id}`{more}."
    if book.centers and not book.tires:
        return "no tire is on file", "Write a tire for each center: `axlebook new tire t-1`."
    if book.tires and not standing.tires:
        found = f"{book.as_of}-{next(iter(book.tires))}-found"
        return "no tire is on a center", f"Open the book of each tire: `axlebook new tire-found {found}`."
    if not book.ledger.adoptions and not any(engine.adoptions for engine in book.engines.values()):
        return "no limit set is adopted", "Name the set you work to under `defaults: limit_sets:` in `ledger.yaml`."
    if not any(session.readings for session in book.sessions):
        return _nothing_read(book)
    return None


def _unread(book: Book, folders: tuple[str, ...]) -> str:
    """The first file of some folders that is there, and of which nothing is used."""
    used = set(book.paths.values())
    paths = (problem.place.path for problem in book.problems)
    return next((path for path in paths if path.startswith(folders) and path not in used), "")


def _nothing_read(book: Book) -> tuple[str, str]:
    """What keeps the last inspection from telling anything; or that none is there."""
    begun = next((session for session in reversed(book.sessions) if session.kind == "inspection"), None)
    if begun is None:
        id = next(iter(book.engines))
        return "nothing was measured yet", (
            f"Enter the first readings, one question at a time: `axlebook enter {id}`; or write them: `axlebook new "
            f"inspection {book.as_of}-{id}-periodic`."
        )
    if any(problem.place.path == begun.path for problem in book.problems):
        what = f"the inspection {begun.id} is on file, and no reading in it can be used as it is written"
        return what, f"Put right what is told of {begun.path}: each reading needs `quantity`, `place` and `values`."
    what = f"the inspection {begun.id} is on file, and no reading stands in it"
    engine = begun.engine or "ENGINE"
    return what, (
        f"Write its readings under `readings:` of {begun.path}, each with `quantity`, `place`, `with` and `values`; "
        f"or enter them one by one: `axlebook enter {engine}`."
    )
