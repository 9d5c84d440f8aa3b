"""A fit of the ledger by the names of its parts, and the findings that are about them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from axlebook.cli import CannotRun
from axlebook.engineering.fitting import Impossible
from axlebook.findings import Finding
from axlebook.records.book import Book
from axlebook.records.fit import Fit, Missing, find_fit
from axlebook.records.session import Session
from axlebook.reports.view import Day
from axlebook.run import Outcome

from .opened import quoted

if TYPE_CHECKING:
    from axlebook.reports.bore_view import Order
    from axlebook.reports.fit_story import FitStory


def story(book: Book, tire_id: str, center_id: str, day: Day, *, brief: bool = False) -> FitStory:
    """The story of a fit; a sentence where it cannot be told."""
    from axlebook.reports.fit_from_records import story_of

    try:
        told = story_of(book, find(book, tire_id, center_id), day, brief=brief)
    except Impossible as impossible:
        names = {"bore": f"the bore of {tire_id}", "center_diameter": f"the center {center_id}"}
        raise CannotRun(impossible.named(names)) from None
    except ValueError as refused:
        raise CannotRun(f"{tire_id} on {center_id} cannot be worked out: {refused}") from None
    if isinstance(told, Missing):
        raise CannotRun(_sentence(tire_id, center_id, told))
    return told


def find(book: Book, tire_id: str, center_id: str) -> Fit:
    """The fit of a tire on a center."""
    if tire_id not in book.tires:
        raise CannotRun(_unknown("tire", tire_id, list(book.tires)))
    if center_id not in book.centers:
        raise CannotRun(_unknown("center", center_id, list(book.centers)))
    found = find_fit(book, book.tires[tire_id], book.centers[center_id], applied(book, tire_id, center_id))
    if isinstance(found, Missing):
        raise CannotRun(_sentence(tire_id, center_id, found))
    return found


def applied(book: Book, tire_id: str, center_id: str) -> Session | None:
    """The last application of a tire to a center; None where it is still to go on."""
    spells = [spell for center, spell in book.standing.centers_of.get(tire_id, ()) if center == center_id]
    sessions = [session for spell in spells if (session := book.session_by_id.get(spell.by))]
    return sessions[-1] if sessions and sessions[-1].kind == "tire-applied" else None


def _sentence(tire_id: str, center_id: str, missing: Missing) -> str:
    where = f" ({missing.reading.source.path})" if missing.reading else ""
    return f"{tire_id} on {center_id} cannot be worked out: {missing.cause}{where}. {missing.next}"


def _unknown(kind: str, id: str, known: list[str]) -> str:
    import difflib

    near = difflib.get_close_matches(id, known, n=1)
    hint = f" Did you mean {near[0]}?" if near else f" There are: {', '.join(known[:12])}." if known else ""
    return f"there is no {kind} {quoted(id[:60])} in the ledger.{hint}"


def order(book: Book, center_id: str) -> Order:
    """The bore order for a center; a sentence where there can be none."""
    from axlebook.reports.bore_view import order_of

    if center_id not in book.centers:
        raise CannotRun(_unknown("center", center_id, list(book.centers)))
    try:
        found = order_of(book, book.centers[center_id])
    except ValueError as refused:
        raise CannotRun(f"no bore can be ordered for {center_id}: {refused}") from None
    if isinstance(found, Missing):
        where = f" ({found.reading.source.path})" if found.reading else ""
        raise CannotRun(f"no bore can be ordered for {center_id}: {found.cause}{where}. {found.next}")
    return found


def about(parts: tuple[str, ...], outcome: Outcome) -> Outcome:
    """A run's outcome with only the judgements that concern some parts."""

    def concerns(finding: Finding) -> bool:
        return bool(set(parts) & {*finding.subject.replace(":", " ").split(), finding.record})

    kept = tuple(filter(concerns, outcome.findings)), tuple(filter(concerns, outcome.within))
    return replace(outcome, findings=kept[0], within=kept[1])
