"""What a plan asks for was neither measured nor excused.

What is judged: every inspection whose purpose a plan is for. On each wheel of the roles that the plan names, as they
stood on that day, each thing that is `asked` must be there, at as many positions as the plan wants, or stand under
`not_measured` with the reason, as a whole or position by position. What is `wanted` is not missed. A blank is never
read as good. An inspection that a later one of the same purpose has followed, and an old card, get a note.

A plan may ask for a thing only where a fact holds: the flange of a flanged tire. Where the fact is on no record and the
thing was not read, that is told too, once a wheel: the tire's record says it under `form`, that of a one-piece
wheelset with `flange`.

What to do: measure it; or write under `not_measured` why not. If the plan asks for what this engine has not, strike it
from the plan. Where a fact is missing, write it.

Source: the plans in `plans/`.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.session import Session

from ._asked import Asked, Asking, excused, is_covered, told_in, where_to_write
from ._records import is_old_card, some, title

ID = "required-reading-missing"
CAUSE = "the plan asks for it, and it is neither read nor excused"


def check(book: Book) -> Iterator[Finding]:
    """Tell what inspections leave out of what their plans ask for."""
    asking = Asking(book)
    inspections = [s for s in book.past_sessions if s.kind == "inspection"]
    last = {(s.engine, s.purpose): s.id for s in inspections}
    not_known: dict[str, dict[str, Asked]] = {}
    for session in inspections:
        superseded = bool(session.engine) and last[session.engine, session.purpose] != session.id
        severity = Severity.NOTE if superseded or is_old_card(session) else Severity.DATA
        for (what, short), places in _missing(asking, session).items():
            sure = {place: asked for place, asked in places.items() if short or not asked.lacks}
            if sure:
                yield _finding(book, session, what, short, sure, severity)
            for place in () if superseded else places.keys() - sure.keys():
                subject = f"{session.engine} {place}".strip()
                not_known.setdefault(subject, {})[what] = places[place]
    for subject, asks in sorted(not_known.items()):
        yield _perhaps(book, subject, asks)


def _missing(asking: Asking, session: Session) -> dict[tuple[str, str], dict[str, Asked]]:
    """What is missing: by quantity, and by how short it is read, the places with what is asked there."""
    found: dict[tuple[str, str], dict[str, Asked]] = {}
    there: dict[tuple[str, str], int] | None = None
    for purpose in (session.purpose, *session.tree.get("also_satisfies", ())):
        required = asking.of(session, purpose)
        if not required:
            continue
        there = told_in(asking.book, session) if there is None else there
        reasons = excused(asking.book, session)
        for key, asked in required.items():
            many = there.get(key)
            if many is None:
                if not is_covered(*key, reasons) and not is_covered(*key, there):
                    found.setdefault((key[0], ""), {})[key[1]] = asked
            elif many < asked.positions and not is_covered(*key, reasons):
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
    subject = f"{session.engine} {session.purpose} {session.day.text}".strip()
    return Finding(
        ID,
        Verdict.NOT_ASSESSED,
        severity,
        subject,
        session.day_at,
        f"{subject}: {title(book, what)} {lack} at {some(names, 4)} ({plan}).",
        source=f"the plan {plan}",
        next="Measure it, or write under `not_measured` why not.",
        quantity=what,
        where=short,
        cause=CAUSE,
    )


def _perhaps(book: Book, subject: str, asks: dict[str, Asked]) -> Finding:
    """What a plan may ask for at a wheel: the fact that would tell is on no record."""
    whats = sorted(asks)
    names = list(dict.fromkeys(name for what in whats for name in asks[what].lacks))
    facts = ", ".join(book.vocabulary.facets[name].title for name in names)
    at, step = where_to_write(book, subject, asks[whats[0]].stand, names)
    what = some([title(book, what) for what in whats], 4)
    return Finding(
        ID,
        Verdict.NOT_ASSESSED,
        Severity.DATA,
        subject,
        at,
        f"{subject}: {what} was not read, and whether {asks[whats[0]].plan} asks for it is not known: not on record: "
        f"{facts}.",
        source=f"the plan {asks[whats[0]].plan}",
        next=step,
        quantity=whats[0],
        where="perhaps asked",
        cause=f"not on record: {facts}",
    )
