"""What checks of defects ask of the other checks: what is outside now."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from axlebook.findings import Finding, Verdict
from axlebook.limits import Limit
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.condition import Site, Stand
from axlebook.records.defect import Defect, defects, limit_of
from axlebook.records.reading import Observation, Reading

OF_DEFECTS = frozenset({"defect-open", "defect-not-recorded", "defect-closed-but-outside"})


def outside_now(book: Book) -> list[Finding]:
    """What the checks of metal find outside, by a quantity or a thing looked for; worked out once."""
    found: list[Finding] | None = book.__dict__.get("_outside_now")
    if found is None:
        from . import ALL_IDS, findings_of  # the list of checks names the checks that ask

        ids = (id for id in ALL_IDS if id not in OF_DEFECTS and not id.startswith("waiver-"))
        everything = (finding for id in ids for finding in findings_of(book, id))
        found = [f for f in everything if f.verdict is Verdict.OUTSIDE and book.vocabulary.find_word(f.quantity)]
        book.__dict__["_outside_now"] = found
    return found


def concerns(book: Book, defect: Defect, finding: Finding) -> bool:
    """Whether a finding is what a defect is of: the same thing, and the same limit where the defect names one."""
    if defect.limit and not (defect.by_its_limit(finding) or _seen_by(limit_of(book, defect), finding)):
        return False
    return defect.is_of(finding)


def _seen_by(limit: Limit | None, finding: Finding) -> bool:
    """Whether a limit that holds when a thing is seen, and so has no figure, is what the finding cites."""
    return limit is not None and finding.quantity in limit.quantities and finding.source == limit.cited


def read_on(book: Book, finding: Finding) -> date | None:
    """The day of the reading that a finding stands in; the record's, where the reading has none of its own."""
    session = book.session_by_id.get(finding.record)
    if session is None:
        return None
    written: list[Reading | Observation] = [*session.readings, *session.observations]
    own = next((one for one in written if _holds(one, finding)), None)
    return own.day.first if own else session.day.first


def written_of(book: Book, site: Site, reading: Reading, later: Reading) -> bool:
    """Whether a defect is of what was read and was not closed before; one of its limit, found by a later reading."""
    ids = site.ids if isinstance(site, Stand) else ()
    return any(one.names(site.name, *ids) and _tells_of(book, one, reading, later) for one in defects(book))


def _tells_of(book: Book, defect: Defect, reading: Reading, later: Reading) -> bool:
    limit, found_in = limit_of(book, defect), fields.text(defect.tree, "found_in")
    if limit is not None:
        over = defect.closed_on.last is not None and defect.closed_on.last < (reading.day.first or date.min)
        found = later.day.last is None or defect.found_by(later.day.last)
        return found and not over and reading.quantity in limit.quantities
    return found_in == reading.source.record if found_in else defect.found_on == reading.day


def days_read(book: Book, finding: Finding) -> set[date]:
    """The days on which the same was read or looked for on the same thing."""
    series: list[Sequence[Reading | Observation]] = [*book.series.values(), *book.seen.values()]
    mine = next((many for many in series if any(_holds(one, finding) for one in many)), [])
    return {one.day.first for one in mine if one.day.first is not None}


def _holds(one: Reading | Observation, finding: Finding) -> bool:
    """Whether a finding stands in this reading."""
    same = one.source.path == finding.place.path
    return same and f"{finding.place.pointer}/".startswith(f"{one.pointer}/")
