"""A fit of the ledger by the names of its parts, and the findings that are about them."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from axlebook.cli import CannotRun
from axlebook.engineering.fitting import Impossible
from axlebook.records.book import Book
from axlebook.records.fit import Fit, Missing, find_fit
from axlebook.records.session import Session
from axlebook.reports.view import Day, Report

from .opened import quoted

if TYPE_CHECKING:
    from axlebook.reports.fit_story import FitStory


def story(book: Book, tire_id: str, center_id: str, day: Day, *, brief: bool = False) -> FitStory:
    """The story of a fit; a sentence where it cannot be told."""
    from axlebook.reports.fit_from_records import story_of

    fit = find(book, tire_id, center_id)
    try:
        told = story_of(book, fit, day, brief=brief)
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


def about(parts: tuple[str, ...], report: Report) -> Report:
    """The same report with only what concerns some parts."""
    kept = tuple(f for f in report.findings if set(parts) & {*f.subject.split(), *_stem(f.place.path)})
    verdicts = Counter(str(f.verdict).replace(" ", "_") for f in kept)
    counts = {key: report.counts[key] if key == "read" else verdicts[key] for key in report.counts}
    counts["checked"] = counts["outside"] + counts["suspect"] + counts["undecided"]
    return replace(report, findings=kept, counts=counts, first_step="")


def _stem(path: str) -> set[str]:
    return {path.rpartition("/")[2].removesuffix(".yaml")}
