"""What `status` holds: every wheel that stands on an engine now, each quantity as it was last read and judged.

Nothing is judged here: the same judgements that the checks make are laid out by engine, wheelset and wheel.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import groupby
from typing import NamedTuple

from axlebook.checks import reading_not_placed
from axlebook.checks._bands import GUARD_BAND
from axlebook.checks._findings import finding
from axlebook.checks._forecast import forecast
from axlebook.checks._judging import Assessed, Uncovered, assess, every_place, every_stand
from axlebook.checks._seen import assess_seen
from axlebook.checks._words import OUT_WORDS, figured, shown
from axlebook.checks.reading_not_placed import NO_END
from axlebook.findings import Finding, Severity, Verdict, id_of
from axlebook.limits import Judgement
from axlebook.records.book import Book
from axlebook.records.condition import Site, Stand, Value
from axlebook.records.engine import Engine, from_front
from axlebook.records.standing import Empty
from axlebook.records.wear import FALLS, RISES

from .condition_tires import named_in, without_tire
from .wear_view import WearRow, bare_row

ENDS = ("A", "B")
NEEDS_SOMEBODY = (Verdict.OUTSIDE, Verdict.UNDECIDED, Verdict.SUSPECT)
LESS_BAND = " ({} after uncertainty)"
WORN_OUT = {"lowers": ("under", "at_most"), "raises": ("over", "at_least")}


@dataclass(frozen=True)
class Row:
    """One quantity of a wheelset or wheel: as read, the limit that weighs most, the margin, when and by whom."""

    place: str  # driver-2 left
    part: str  # the tire, or the wheelset
    title: str
    reading: str  # as written, and in the other system
    limit: str  # when it would be outside, as written; '' where no limit judges it
    margin: str
    read_on: str
    by: tuple[str, ...]
    wears: bool  # service alone brings it nearer to its limit
    share_left: Fraction | None  # the margin as a share of the limit
    finding: Finding
    out: str = ""  # when it would be outside, without the clause
    clause: str = ""
    instruments: tuple[str, ...] = ()
    position: str = ""
    waits: bool = False  # a limit would judge it, if what is missing were on record
    wear: WearRow | None = None  # how it wears at the position that governs; None where service does not change it

    @property
    def trend(self) -> str:
        """How it wears, in a few words; '' where service does not change it."""
        return self.wear.told(another=bool(self.out) and not self.wears) if self.wear else ""

    @property
    def verdict(self) -> Verdict:
        """What was decided."""
        return self.finding.verdict


@dataclass(frozen=True)
class Axle:
    """One wheelset with the rows of its two wheels and its own, in walking order; or what else the engine has."""

    at: str  # driver-2; '' for what is no wheelset
    wheelset: str
    rows: tuple[Row, ...]
    others: tuple[Finding, ...] = ()  # what the checks found on it beyond its rows: moved, loose, a fit
    without_tire: Mapping[str, str] = field(default_factory=dict)  # sides whose tire came off, each with the day
    unplaced: bool = False  # something was read on a wheel, and no line says on which side end A stands

    @property
    def name(self) -> str:
        """Where it stands, and which it is."""
        return f"{self.at} ({self.wheelset})" if self.at else "engine"

    @property
    def needs_somebody(self) -> bool:
        """Whether something on it is outside, undecided or suspect."""
        return bool(self.others) or any(row.verdict in NEEDS_SOMEBODY for row in self.rows)

    def count(self, verdict: Verdict) -> int:
        """How many rows have a verdict."""
        return sum(row.verdict is verdict for row in self.rows)


@dataclass(frozen=True)
class NotMeasuredNow:
    """What the last session of an engine says was not measured, and why."""

    what: str
    where: str
    because: str
    record: str


@dataclass(frozen=True)
class EngineCondition:
    """One engine: its wheelsets, what its last session left out, and where no wheelset stands."""

    engine: str
    axles: tuple[Axle, ...]
    not_measured: tuple[NotMeasuredNow, ...]
    last_session: str
    empty: tuple[Empty, ...] = ()  # places at which no wheelset stands now


def tightness(row: Row) -> tuple[bool, bool, Fraction]:
    """What wears comes first, by the share of its limit that is left; widths are not compared with thicknesses."""
    return not row.wears, row.share_left is None, row.share_left if row.share_left is not None else Fraction(0)


class _Told(NamedTuple):
    """A finding, with the words that it names."""

    finding: Finding
    names: frozenset[str]


def conditions(book: Book, findings: Iterable[Finding], only: Collection[str] = ()) -> list[EngineCondition]:
    """The condition of every engine, or of those asked for, in the order of their records; axles from front to rear.

    `findings` are those of the same run.
    """
    asked, findings = only or book.engines, list(findings)
    unplaced = [f"{f.subject} " for f in findings if f.check == reading_not_placed.ID and f.cause == NO_END]
    told = [
        _Told(f, frozenset(named_in(book, f)))
        for f in findings
        if f.verdict in NEEDS_SOMEBODY and f.severity is not Severity.NOTE and not f.waived
    ]
    axles: dict[str, list[Axle]] = {}
    stood = (stand for stand in every_stand(book) if stand.engine.id in asked)
    for (engine, at), stands in groupby(stood, key=lambda stand: (stand.engine.id, stand.line.at)):
        many = list(stands)
        rows, ids = _rows(book, many), {id for stand in many for id in stand.ids}
        others = _others(_not_of(told, book.tires, ids), rows, f"{engine} {at}", ids)
        lost = any(stand.side in ENDS for stand in many) and any(one.startswith(f"{engine} {at} ") for one in unplaced)
        axle = Axle(at, many[0].wheelset.id, rows, others, without_tire(book, many), lost)
        axles.setdefault(engine, []).append(axle)
    for of_engine in axles.values():
        of_engine.sort(key=lambda axle: from_front(axle.at))
    there = (place for place in every_place(book) if place.engine.id in asked)
    for engine, places in groupby(there, key=lambda place: place.engine.id):
        rows = _rows(book, list(places))
        if rows:
            axles.setdefault(engine, []).append(Axle("", "", rows))
    return [_engine(book, engine, axles.get(id, [])) for id, engine in book.engines.items() if id in asked]


def _not_of(told: Iterable[_Told], tires: Collection[str], ids: set[str]) -> list[_Told]:
    """The findings of no other tire: one that came off, or is to go on, says nothing of what is on the wheel."""
    return [one for one in told if not any(name in tires and name not in ids for name in one.names)]


def _others(told: Iterable[_Told], rows: Iterable[Row], place: str, ids: set[str]) -> tuple[Finding, ...]:
    """What was found on a wheelset, by its place or its parts, and stands in no row.

    A row tells one judgement. Doubt of the very reading that it has within or outside is another, and told beside it.
    """
    in_rows = {_judged(row.finding) for row in rows}
    return tuple(
        finding
        for finding, names in told
        if (f"{finding.subject} ".startswith(f"{place} ") or ids & names) and _judged(finding) not in in_rows
    )


def _judged(told: Finding) -> tuple[str, ...]:
    """What was judged, and to what end."""
    return told.subject, told.quantity, told.where, told.verdict, told.severity


def _engine(book: Book, engine: Engine, axles: list[Axle]) -> EngineCondition:
    inspections = (s for s in reversed(book.past_sessions) if s.kind == "inspection" and s.engine == engine.id)
    last = next((session for session in inspections if not session.blank), None)
    left_out = [] if last is None else [
        NotMeasuredNow(_title(book, item.what), item.where, item.because, last.id)
        for item in last.not_measured
    ]  # fmt: skip
    empty = tuple(book.standing.empty_places(engine, book.as_of))
    return EngineCondition(engine.id, tuple(axles), tuple(left_out), last.id if last else "", empty)


def _rows(book: Book, sites: Iterable[Site]) -> tuple[Row, ...]:
    words = book.vocabulary
    return tuple(
        _row(book, result)
        for site in sites
        for results in (
            *(assess(book, site, name) for name in (*words.quantities, *words.derived)),
            *(assess_seen(book, site, name) for name in words.observations),
        )
        for result in results
    )


def _row(book: Book, result: Assessed | Uncovered) -> Row:
    word = book.vocabulary.find_word(result.quantity)
    assert word is not None
    value, judgement = result.value, result.judgement if isinstance(result, Assessed) else None
    at = f", {value.position}" if value.position else ""
    place, part = _place(result.stand)
    mm = book.in_mm(result.stand.engine)
    return Row(
        place,
        part,
        f"{word.title}{at}",
        _reading(value, word.dimension, mm, computed=bool(word.comes_from)),
        _limit(judgement) if judgement else "",
        _margin(judgement, result.band, word.dimension, mm) if isinstance(result, Assessed) and judgement else "",
        value.day.text,
        _people(book, value),
        judgement is not None and judgement.bound is not None and judgement.bound.word in WORN_OUT.get(word.wear, ()),
        _share_left(judgement) if judgement else None,
        finding(book, "status", result, ""),
        _out(judgement) if judgement else "",
        judgement.limit.clause if judgement else "",
        tuple(dict.fromkeys(reading.instrument for reading in value.readings if reading.instrument)),
        value.position,
        result.verdict is Verdict.NOT_ASSESSED and not (isinstance(result, Uncovered) and result.no_limit),
        _wear(book, result),
    )


def _wear(book: Book, result: Assessed | Uncovered) -> WearRow | None:
    """The wear of what was judged; a quantity read at several places has the same wear in each of its rows."""
    word = book.vocabulary.quantities.get(result.quantity)
    if word is None or word.wear not in (FALLS, RISES):
        return None
    made = forecast(book, result.stand, word)
    return bare_row(book, made) if made else None


def _limit(judgement: Judgement) -> str:
    return f"{_out(judgement)}, {judgement.limit.clause}"


def _out(judgement: Judgement) -> str:
    if judgement.bound is None:
        return "when seen"
    figure = judgement.text or f"a figure that is not known: {judgement.missing.replace('_', ' ')}"
    return f"{OUT_WORDS[judgement.bound.word]} {figure}"


def _margin(judgement: Judgement, band: Fraction | None, dimension: str, mm: bool) -> str:
    """The margin as read, in the engine's own unit; where a guard band decides, what that leaves stands beside it."""
    if judgement.margin is None:
        return ""

    def words(exact: Fraction) -> str:
        if dimension == "count":
            return f"{exact} {judgement.text.partition(' ')[2]}".rstrip()  # pieces or leaves, as the limit has it
        return figured(exact, dimension, mm).partition(" (")[0]

    if judgement.limit.decision != GUARD_BAND or band is None:
        return words(judgement.margin)
    return f"{words(judgement.margin + band)}{LESS_BAND.format(words(judgement.margin))}"


def _share_left(judgement: Judgement) -> Fraction | None:
    if judgement.margin is None or not judgement.value:
        return None
    return judgement.margin / abs(judgement.value)


def _people(book: Book, value: Value) -> tuple[str, ...]:
    """Who read it; for what was looked for, who made the record it stands in."""
    if value.readings:
        return tuple(dict.fromkeys(person for reading in value.readings for person in reading.by))
    session = book.session_by_id.get(id_of(value.at.path))
    return session.by if session else ()


def _place(site: Site) -> tuple[str, str]:
    """Where it is on the engine, and the part that stands there."""
    if not isinstance(site, Stand):
        return site.place, ""
    part = site.tire.id if site.side and site.tire else site.wheelset.id
    return f"{site.line.at} {site.side}".strip(), part


def _reading(value: Value, dimension: str, mm: bool, *, computed: bool) -> str:
    if computed and value.span.low is not None and value.span.low == value.span.high:
        return figured(value.span.low, dimension, mm)
    return shown(value.text)


def _title(book: Book, name: str) -> str:
    word = book.vocabulary.find_word(name)
    return word.title if word else name
