"""What a plan asks for was neither measured nor excused.

What is judged: every inspection whose purpose a plan is for. On each wheel of the roles that the plan names, as they
stood on that day, each thing that is `asked` must be there, at as many positions as the plan wants, or stand under
`not_measured` with the reason, as a whole or position by position. What is `wanted` is not missed. A blank is never
read as good. An inspection that a later one of the same purpose has followed, and an old card, get a note.

What to do: measure it; or write under `not_measured` why not. If the plan asks for what this engine has not, strike it
from the plan.

Source: the plans in `plans/`.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.session import Session

from ._asked import Asked, Asking, excused, is_covered, told_in
from ._records import is_old_card, some, title

ID = "required-reading-missing"
CAUSE = "the plan asks for it, and it is neither read nor excused"


def check(book: Book) -> Iterator[Finding]:
    """Tell what inspections leave out of what their plans ask for."""
    asking = Asking(book)
    inspections = [s for s in book.past_sessions if s.kind == "inspection"]
    last = {(s.engine, s.purpose): s.id for s in inspections}
    for session in inspections:
        superseded = bool(session.engine) and last[session.engine, session.purpose] != session.id
        severity = Severity.NOTE if superseded or is_old_card(session) else Severity.DATA
        for (what, short), places in _missing(asking, session).items():
            yield _finding(book, session, what, short, places, severity)


def _missing(asking: Asking, session: Session) -> dict[tuple[str, str], dict[str, Asked]]:
    """What is missing: by quantity, and by how short it is read, the places with what is asked there."""
    found: dict[tuple[str, str], dict[str, Asked]] = {}
    there: dict[tuple[str, str], int] | None = None
    for purpose in (session.purpose, *session.tree.get("also_satisfies", ())):
        required = asking.of(session, purpose)
        if not required:
            continue
        there = told_in(session) if there is None else there
        reasons = excused(session)
        for what, place in required.keys() - there.keys():
            if not is_covered(what, place, reasons) and not is_covered(what, place, there):
                found.setdefault((what, ""), {})[place] = required[what, place]
        for key, many in there.items():
            asked = required.get(key)
            if asked is not None and many < asked.positions and not is_covered(*key, reasons):
                short = f"{many} of {asked.positions} positions"
                found.setdefault((key[0], short), {})[key[1]] = asked
    return dict(sorted(found.items()))


def _finding(
    book: Book, session: Session, what: str, short: str, places: dict[str, Asked], severity: Severity
) -> Finding:
    names = sorted(places)
    plan = places[names[0]].plan
    lack = "was not read" if what in book.vocabulary.quantities else "is blank"
    lack = f"was read, or excused, at {short} only" if short else lack
    return Finding(
        ID,
        Verdict.NOT_ASSESSED,
        severity,
        f"{session.engine} {session.purpose} {session.day.text}".strip(),
        session.day_at,
        f"{title(book, what)} {lack} at {some(names, 4)}. {plan} asks for it, and no reason is given.",
        source=f"the plan {plan}",
        next="Measure it, or write under `not_measured` why not.",
        quantity=what,
        where=short,
        cause=CAUSE,
    )
