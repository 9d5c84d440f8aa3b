"""What a sheet asks: one box a position, in walking order, with what was last read, what to expect, and the limits.

The boxes are those of guided entry and of `required-reading-missing`: the plans for the occasion, and nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from axlebook.records.book import Book, Thing
from axlebook.records.condition import EnginePlace, Site, Stand, stands
from axlebook.records.dates import parse_day
from axlebook.records.engine import Line, build_engine
from axlebook.records.entry.question import Earlier, Expected, Question
from axlebook.records.expectation import Expectation, Last, expectation, last_read
from axlebook.records.timeline import HELD
from axlebook.records.wheelset import Wheelset

from ._governing import NO_LIMIT, Governed, Governing, governed, sizes_governed
from ._questions import Target, questions

NO_STAND = Governed((), NO_LIMIT)
SIDES = {"left": 0, "A": 0, "right": 1, "B": 1}  # of a page


@dataclass(frozen=True)
class Ask:
    """One box: what, where, at which position, and all that is known beforehand."""

    question: Question
    position: str
    at: str  # the wheelset's place on the engine, or its id where it lies loose; '' for a place that is no wheelset
    side: str  # left, right, A, B; '' for the pair or a place of the engine
    site: Site | None
    last: Last | None = None
    expected: Expectation | None = None
    governed: Governed = NO_STAND
    sizes: tuple[Governing, ...] = ()  # of something to look for

    @property
    def what(self) -> str:
        """The quantity, or what is looked for."""
        return self.question.what

    @property
    def where(self) -> str:
        """The place, or the part that is named by itself."""
        return self.question.where

    @property
    def unit(self) -> str:
        """The unit to write in: that of the last reading, else of the least count asked for."""
        if self.last is not None:
            return next((m.unit for _, many in self.last.reading.values for m in many), "")
        return self.question.least_count.rpartition(" ")[2]

    @property
    def instrument(self) -> str:
        """The instrument used last."""
        return self.last.reading.instrument if self.last else ""

    @property
    def notes(self) -> tuple[str, ...]:
        """What has to be known of the last reading."""
        last = self.last
        found = ["IN DOUBT"] if last and last.in_doubt else []
        if last and last.since is not None:
            found.append(f"before the {last.since.kind.replace('-', ' ')} of {last.since.day.text}")
        elif last and self.question.hold and self.what in HELD and last.reading.hold != self.question.hold:
            found.append(f"held {last.reading.hold}" if last.reading.hold else "hold not told")
        return tuple(found)


def asks(book: Book, target: Target, purpose: str) -> tuple[Ask, ...]:
    """Every box for an occasion on the day the book is read at."""
    sites = _sites(book, target)
    found: list[Ask] = []
    for question in questions(book, target, purpose, book.as_of):
        at, side, site = sites.get(question.where) or _elsewhere(book, target, question.where)
        limits = _limits(book, site, question)
        for position in question.positions:
            found.append(_ask(book, question, position, at, side, site, limits))
    return tuple(found)


def asked_on(
    book: Book, target: Target, purpose: str, day: date, *, as_on_paper: bool = False
) -> tuple[Question, ...]:  # fmt: skip
    """The questions of guided entry on a day: each with what a sheet of that day tells beside its boxes.

    In walking order; else as a page has them: one wheel's figures, the other's, those of both, what is looked for.
    """
    then = book if day == book.as_of else replace(book, as_of=day)
    known: dict[tuple[str, str], list[Ask]] = {}
    for ask in asks(then, target, purpose):
        known.setdefault((ask.what, ask.where), []).append(ask)
    ordered = _in_order_of_pages(list(known.values())) if as_on_paper else known.values()
    return tuple(_told(book, many, day) for many in ordered)


def _in_order_of_pages(asked: list[list[Ask]]) -> list[list[Ask]]:
    pages = list(dict.fromkeys(many[0].at for many in asked if many[0].at))
    looks = list(dict.fromkeys(many[0].what for many in asked if not many[0].question.is_read))

    def place(many: list[Ask]) -> tuple[int, ...]:
        ask = many[0]
        page = pages.index(ask.at) if ask.at else len(pages)
        part = (0, SIDES.get(ask.side, 2)) if ask.question.is_read else (1, looks.index(ask.what))
        return page, *part

    return sorted(asked, key=place)


def _told(book: Book, many: list[Ask], day: date) -> Question:
    question = many[0].question
    here = {ask.position for ask in many if ask.last}
    return replace(
        question,
        earlier=(
            *(one for one in question.earlier if one.position not in here),
            *(Earlier(a.position, a.last.text, a.last.day, "; ".join(a.notes)) for a in many if a.last),
        ),
        expected=tuple(
            Expected(ask.position, ask.expected.text, ask.instrument)
            for ask in many
            if ask.expected and not _read_since(book, ask, day)
        ),
    )  # fmt: skip


def _read_since(book: Book, ask: Ask, day: date) -> bool:
    """Whether it was read after a day: a card typed in late is held against both sides, and no range says that."""
    thing = _thing(book, ask.question, ask.site)
    many = book.series.get((thing, ask.what), ()) if thing and day < book.as_of else ()
    return any(reading.day.first is not None and reading.day.first > day for reading in many)


def _ask(
    book: Book, question: Question, position: str, at: str, side: str, site: Site | None,
    limits: tuple[Governed, tuple[Governing, ...]],
) -> Ask:  # fmt: skip
    if not question.is_read:
        return Ask(question, position, at, side, site, governed=limits[0], sizes=limits[1])
    thing = _thing(book, question, site)
    last = last_read(book, thing, question.what, position, question.hold)
    expected = expectation(book, thing, question.what, position, question.hold)
    return Ask(question, position, at, side, site, last, expected, limits[0], limits[1])


def _limits(book: Book, site: Site | None, question: Question) -> tuple[Governed, tuple[Governing, ...]]:
    if site is None:
        return NO_STAND, ()
    if question.is_read:
        return governed(book, site, question.what), ()
    return Governed(()), sizes_governed(book, site, question.what)


def _thing(book: Book, question: Question, site: Site | None) -> Thing | None:
    of = book.vocabulary.quantities[question.what].of
    if site is not None:
        return site.thing(of)
    part = question.where
    return Thing("tire", part) if part in book.tires else Thing("center", part) if part in book.centers else None


Sited = tuple[str, str, Site | None]


def _sites(book: Book, target: Target) -> dict[str, Sited]:
    """Every wheel and pair the target has, by the place or the part it is named by."""
    found: dict[str, Sited] = {}
    for stand in stands(book):
        if stand.engine.id == target.engine and target.at in ("", stand.line.at):
            named = f"{stand.line.at} {stand.side}".strip()
            found[named] = found[f"{stand.wheelset.id} {stand.end}".strip()] = (stand.line.at, stand.side, stand)
    wheelset = book.wheelsets.get(target.id)
    if wheelset is not None and not target.engine:
        for stand in loose_stands(book, wheelset):
            for part in (f"{wheelset.id} {stand.end}".strip(), stand.center, stand.tire):
                if part is not None:
                    found[part if isinstance(part, str) else part.id] = (wheelset.id, stand.end, stand)
    return found


def _elsewhere(book: Book, target: Target, where: str) -> Sited:
    engine = book.engines.get(target.engine)
    return "", "", EnginePlace(engine, where) if engine is not None else None


def loose_stands(book: Book, wheelset: Wheelset) -> list[Stand]:
    """A wheelset that stands on no engine now, as at its last place; or with no engine, where it never had one."""
    line = next(reversed(book.standing.lines_of.get(wheelset.id, ())), None)
    engine = book.engines.get(line.engine) if line else None
    if line is None or engine is None:
        engine = build_engine("", "", {})
        role = "driver" if wheelset.driver else ""
        line = Line("", "", role, wheelset.id, parse_day("unknown"), None, "", None, "", book.place(wheelset.id))
    found = [Stand(engine, line, wheelset)]
    for end in wheelset.ends:
        center = book.standing.center_on(wheelset.id, end, book.as_of)
        tire = book.standing.tire_on(center, book.as_of) if center else ""
        found.append(Stand(engine, line, wheelset, end, end, book.centers.get(center), book.tires.get(tire)))
    return found


__all__ = ["Ask", "Governed", "Governing", "asked_on", "asks", "loose_stands"]
