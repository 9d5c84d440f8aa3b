"""A fit of the ledger by the names of its parts, and the findings that are about them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from axlebook.cli import CannotRun
from axlebook.engineering.fitting import Impossible
from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book
from axlebook.records.dropped import Wanted, may_be
from axlebook.records.fit import Fit, Missing, find_fit
from axlebook.records.session import Session
from axlebook.reports.view import Day
from axlebook.run import Outcome
from axlebook.sources.names import LEDGER

from .opened import quoted

if TYPE_CHECKING:
    from axlebook.reports.bore_view import Order
    from axlebook.reports.fit_story import FitStory


def story(
    outcome: Outcome, tire_id: str, center_id: str, day: Day, on_the_day: float | None = None, *, brief: bool = False
) -> FitStory:
    """The story of a fit; a sentence where it cannot be told. `on_the_day`: the center's temperature then [K]."""
    from axlebook.reports.fit_from_records import story_of

    book = outcome.book
    try:
        fit = find(outcome, tire_id, center_id)
        if fit.session is not None and on_the_day is not None:
            raise CannotRun(
                f"{tire_id} is on {center_id} already: how warm the center was stands in {fit.session.id}, under "
                "`seating: center_temperature`. Leave out --fitting-temperature."
            )
        told = story_of(book, fit, day, on_the_day, brief=brief)
    except Impossible as impossible:
        names = {"bore": f"the bore of {tire_id}", "center_diameter": f"the center {center_id}"}
        raise CannotRun(impossible.named(names)) from None
    except ValueError as refused:
        raise CannotRun(f"{tire_id} on {center_id} cannot be worked out: {refused}") from None
    if isinstance(told, Missing):
        raise _refusal(f"{tire_id} on {center_id} cannot be worked out", told, outcome, center_id, tire_id)
    return told


def find(outcome: Outcome, tire_id: str, center_id: str) -> Fit:
    """The fit of a tire on a center."""
    book = outcome.book
    if tire_id not in book.tires:
        raise CannotRun(_unknown("tire", tire_id, list(book.tires), outcome))
    if center_id not in book.centers:
        raise CannotRun(_unknown("center", center_id, list(book.centers), outcome))
    found = find_fit(book, book.tires[tire_id], book.centers[center_id], applied(book, tire_id, center_id))
    if isinstance(found, Missing):
        raise _refusal(f"{tire_id} on {center_id} cannot be worked out", found, outcome, center_id, tire_id)
    return found


def applied(book: Book, tire_id: str, center_id: str) -> Session | None:
    """The last application of a tire to a center; None where it is still to go on."""
    spells = [spell for center, spell in book.standing.centers_of.get(tire_id, ()) if center == center_id]
    sessions = [session for spell in spells if (session := book.session_by_id.get(spell.by))]
    return sessions[-1] if sessions and sessions[-1].kind == "tire-applied" else None


def _refusal(why: str, missing: Missing, outcome: Outcome, center_id: str, tire_id: str = "") -> CannotRun:
    """What is lacking, what stands written and is not read, and the lines to write."""
    write = missing.write.in_metric() if missing.write and outcome.book.in_mm() else missing.write
    where = f" ({missing.reading.source.path})" if missing.reading and not write else ""
    lacking, words = f"{missing.cause}{where}.", [missing.next]
    for one in outcome.findings:
        if _keeps_out(one, missing, outcome, center_id, tire_id):
            words = [f"{_not_read(one)} Until then {lacking}"]
            break
    else:
        words.insert(0, lacking)
    if write:
        words.append(f"The lines for {write.into}:")
    return CannotRun(" ".join((f"{why}:", *words)), write.lines if write else ())


def _not_read(one: Finding) -> str:
    """Which line is not read as it is written, why, and what to do."""
    return f"line {one.line} of {one.place.path} is not read as it is written: {one.message.rstrip('.')}. {one.next}"


def _keeps_out(finding: Finding, missing: Missing, outcome: Outcome, center_id: str, tire_id: str) -> bool:
    """Whether a finding on the form of a record may be why something is lacking."""
    if finding.verdict is not Verdict.UNREADABLE and finding.check != "unknown-key":
        return False
    path, pointer = finding.place
    into = missing.write.into if missing.write else ""
    if missing.wanted:
        return _drops(finding, missing.wanted, outcome)
    if into.startswith(LEDGER):
        return path == LEDGER and pointer.startswith(("/materials", "/defaults") if pointer else "")
    if into.startswith("limits/"):
        return path.startswith("limits/") or (path == LEDGER and not pointer)
    book = outcome.book
    own = book.wheelsets[book.centers[center_id].wheelset].path, f"tires/{tire_id}.yaml"
    return into.startswith(path) or path in own


def _drops(finding: Finding, wanted: Wanted, outcome: Outcome) -> bool:
    """Whether the reading that is wanted may be among those that a fault of form keeps out."""
    path, book = finding.place.path, outcome.book
    problems = [one for one in book.problems if (one.check, one.place) == (finding.check, finding.place)]
    if any(may_be(dropped, wanted, book) for one in problems for dropped in one.dropped):
        return True
    if not any(one.left_out == "" and not one.dropped for one in problems):
        return False
    if path not in outcome.contents:
        return wanted.part in path  # nothing is known of it but its name
    text = outcome.contents[path].decode("utf-8", "replace")  # that could not be taken apart
    return any(quantity in text for quantity in wanted.quantities) and any(w in text for w in (wanted.part, "place:"))


def _unknown(kind: str, id: str, known: list[str], outcome: Outcome) -> str:
    import difflib

    for one in outcome.findings:
        stem = one.record
        if one.verdict is Verdict.UNREADABLE and (id == stem or (kind == "center" and id.startswith(f"{stem}-"))):
            return f"there is no {kind} {quoted(id[:60])} in the ledger: {_not_read(one)}"
    near = difflib.get_close_matches(id, known, n=1)
    hint = f" Did you mean {near[0]}?" if near else f" There are: {', '.join(known[:12])}." if known else ""
    return f"there is no {kind} {quoted(id[:60])} in the ledger.{hint}"


def order(outcome: Outcome, center_id: str) -> Order:
    """The bore order for a center; a sentence where there can be none."""
    from axlebook.reports.bore_view import order_of

    book = outcome.book
    if center_id not in book.centers:
        raise CannotRun(_unknown("center", center_id, list(book.centers), outcome))
    try:
        found = order_of(book, book.centers[center_id])
    except ValueError as refused:
        raise CannotRun(f"no bore can be ordered for {center_id}: {refused}") from None
    if isinstance(found, Missing):
        raise _refusal(f"no bore can be ordered for {center_id}", found, outcome, center_id)
    return found


def about(parts: tuple[str, ...], outcome: Outcome) -> Outcome:
    """A run's outcome with only the judgements that concern some parts."""

    def concerns(finding: Finding) -> bool:
        return bool(set(parts) & {*finding.subject.replace(":", " ").split(), finding.record})

    kept = tuple(filter(concerns, outcome.findings)), tuple(filter(concerns, outcome.within))
    return replace(outcome, findings=kept[0], within=kept[1])
