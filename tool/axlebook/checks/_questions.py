"""What guided entry asks of an engine, a wheelset, a center or a tire: the plans for the occasion, and nothing else.

In walking order: wheelset by wheelset from the front, on each the left wheel, the pair, the right wheel, on each of
them what the plan asks for in its order; last the places of the engine that are no wheel. What stands on an engine is
named by its place, what lies loose by itself.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from fractions import Fraction
from typing import NamedTuple

from axlebook.limits import FacetReader, Limit, applies, judge, point
from axlebook.quantities import UNITS, NotAMeasure, parse_quantity, render_value
from axlebook.records import fields
from axlebook.records.book import Book, Thing
from axlebook.records.condition import BEFORE_WORK, EnginePlace, Stand, stands
from axlebook.records.engine import from_front
from axlebook.records.entry.question import Earlier, Question, Size
from axlebook.records.facets import wheel_diameter
from axlebook.records.plan import Ask, Plan
from axlebook.records.wheelset import Wheelset

from ._asked import OF_PARTS, Asking
from ._judging import reader, sort_limits
from ._not_known import without_figure
from ._words import out_words

ROUND = {"left": 0, "A": 0, "": 1, "right": 2, "B": 2}
ANYWHERE = "worst"  # a plan that names no position wants the worst place
MOST_LIMITS = 2


class Target(NamedTuple):
    """What the entry is about: an engine, a wheelset that stands on one, or a part by itself."""

    id: str
    engine: str  # '' for a part that is named by itself
    at: str = ""  # the one place of the engine, or '' for all


def target_of(book: Book, id: str, day: date) -> Target | None:
    """What an id is on a day; None where it is nothing that is measured."""
    if id in book.engines:
        return Target(id, id)
    if id in book.wheelsets:
        for line in book.standing.lines_of.get(id, ()):
            engine = book.engines.get(line.engine)
            if engine is not None and line in book.standing.standing_lines(engine, day):
                return Target(id, line.engine, line.at)
        return Target(id, "")
    return Target(id, "") if id in book.tires or id in book.centers else None


def purposes_for(book: Book) -> tuple[str, ...]:
    """The occasions that some plan is for."""
    return tuple(Asking(book).by_purpose)


def questions(book: Book, target: Target, purpose: str, day: date) -> tuple[Question, ...]:
    """What is asked, in walking order."""
    then = replace(book, as_of=day)
    asking = Asking(then)
    plans = asking.by_purpose.get(purpose, []) if target.engine or purpose in OF_PARTS else []
    found: dict[tuple[str, str], Question] = {}
    for question in _placed(asking, plans, target) if target.engine else _loose(asking, plans, target):
        found.setdefault((question.what, question.where), question)
    return tuple(found.values())


def _placed(asking: Asking, plans: list[Plan], target: Target) -> Iterator[Question]:
    there = [s for s in stands(asking.book) if s.engine.id == target.engine and target.at in ("", s.line.at)]
    for stand in sorted(there, key=_walk):
        for plan in plans:
            for ask in plan.asks:
                whole = _of(asking, ask) == "wheelset"
                if stand.line.role in ask.roles and whole is not bool(stand.side) and asking.is_for(ask, stand):
                    yield _question(asking, plan, ask, stand)
    if not target.at:
        yield from _of_engine(asking, plans, target.engine)


def _walk(stand: Stand) -> tuple[tuple[int, int, str], int]:
    return from_front(stand.line.at), ROUND.get(stand.side, 1)


def _of_engine(asking: Asking, plans: list[Plan], engine: str) -> Iterator[Question]:
    """Places that are no wheel: those at which it was read before, else the engine as a whole."""
    book = asking.book
    for plan in plans:
        for ask in plan.asks:
            if _of(asking, ask) == "engine" and engine in book.engines:
                known = [t.side for t, what in (*book.series, *book.seen) if what == ask.what and t.id == engine]
                for place in sorted(set(known) - {""}) or ["engine"]:
                    site = EnginePlace(book.engines[engine], place)
                    if applies(ask.applies_to, reader(book, site)).answer is not False:
                        yield _question(asking, plan, ask, site)


def _loose(asking: Asking, plans: list[Plan], target: Target) -> Iterator[Question]:
    book = asking.book
    wheelset = book.wheelsets.get(target.id)
    for part in _parts(book, wheelset) if wheelset else [target.id]:
        for plan in plans:
            for ask in plan.asks:
                if _fits(asking, ask, part, wheelset):
                    yield _question(asking, plan, ask, None, part)


def _parts(book: Book, wheelset: Wheelset) -> list[str]:
    """A wheelset out of the engine: one end with what is on it, the pair, the other end."""
    found = []
    for end in wheelset.ends:
        center = book.standing.center_on(wheelset.id, end, book.as_of)
        tire = book.standing.tire_on(center, book.as_of) if center else ""
        found.append([f"{wheelset.id} {end}", *([center] if center else []), *([tire] if tire else [])])
    return [*found[0], wheelset.id, *found[1]]


def _fits(asking: Asking, ask: Ask, part: str, wheelset: Wheelset | None) -> bool:
    """Whether an ask is for a part that is named by itself."""
    book, of = asking.book, _of(asking, ask)
    if wheelset is None or part in book.tires or part in book.centers:
        kinds = {"tire", "wheel"} if part in book.tires else {"center"}
        return of in kinds and asking.is_for_part(ask, part)
    roles = {line.role for line in book.standing.lines_of.get(wheelset.id, ())} or (
        {"driver"} if wheelset.driver else set()
    )
    if ask.roles and roles and roles.isdisjoint(ask.roles):
        return False
    if asking.things.always_wrong(ask.what, "", part, ""):
        return False
    of_here = {"wheelset"} if part == wheelset.id else {"end"} | ({"wheel"} if wheelset.made == "one-piece" else set())
    told = {"make": wheelset.made} | ({"role": next(iter(roles))} if len(roles) == 1 else {})
    return of in of_here and applies(ask.applies_to, lambda name: told.get(name) or None).answer is not False


def _of(asking: Asking, ask: Ask) -> str:
    return asking.things.of.get(ask.what, "")


def _question(asking: Asking, plan: Plan, ask: Ask, site: Stand | EnginePlace | None, part: str = "") -> Question:
    book, vocabulary = asking.book, asking.book.vocabulary
    word = vocabulary.find_word(ask.what)
    told = fields.items(book.plain[plan.id].tree, "asks")[ask.index]
    read = ask.what in vocabulary.quantities
    part = part or _unplaced(site)
    where = part or _place(site)
    return Question(
        ask.what,
        word.title if word else ask.what,
        word.dimension if word and read else "",
        where,
        by_part=bool(part),
        positions=(ask.positions or (ANYWHERE,)) if read else ("",),
        how=" ".join(fields.text(told, "how").split()),
        least_count=_least_count(book, site, fields.text(told, "least_count")),
        hold=fields.text(told, "hold"),
        needs_temperature=bool(word and word.needs_temperature) or fields.yes(told, "temperature") is True,
        wanted=ask.wanted,
        earlier=_earlier(book, ask.what, site, part) if read else (),
        limit=_limits(book, site, ask.what) if site is not None and read else "",
        sizes=() if read else _sizes(book, ask.what),
        across=wheel_diameter(book, site) if isinstance(site, Stand) and site.side and not read else None,
    )


def _least_count(book: Book, site: Stand | EnginePlace | None, text: str) -> str:
    """How fine a plan wants it, in the unit that figures are shown in first, to a digit or two: 1/64 in is 0.4 mm."""
    unit = "mm" if book.in_mm(site.engine if site is not None else None) else "in"
    try:
        asked = parse_quantity(text, "length")
    except NotAMeasure:
        return text
    if asked.unit == unit or asked.exact <= 0:
        return text
    size = math.log10(UNITS[unit].from_base(asked.exact))
    places = math.floor(math.log10(3) - size) + 1  # two digits below 3: one is too coarse there
    return render_value(asked.exact, "length", unit, max(places, 0))


def _unplaced(site: Stand | EnginePlace | None) -> str:
    """A wheel whose side of the engine is on no record is named by its end."""
    return f"{site.wheelset.id} {site.end}" if isinstance(site, Stand) and site.side in ("A", "B") else ""


def _place(site: Stand | EnginePlace | None) -> str:
    if isinstance(site, Stand):
        return f"{site.line.at} {site.side}".strip()
    return site.place if site is not None else ""


def _sizes(book: Book, what: str) -> tuple[Size, ...]:
    """What is asked of a thing that was seen: its angle where it is on a wheel, then what the vocabulary says."""
    word = book.vocabulary.observations.get(what)
    if word is None:
        return ()
    of_wheel = word.of in ("wheel", "center", "end")
    angle = (Size("angle", f"Angle from the datum of the {word.title}", "angle"),) if of_wheel else ()
    sizes = (book.vocabulary.sizes[name] for name in word.sizes)
    return (*angle, *(Size(size.key, size.title, size.dimension) for size in sizes))


def _earlier(book: Book, what: str, site: Stand | EnginePlace | None, part: str) -> tuple[Earlier, ...]:
    """What was read last at every position, on the part that is there now."""
    of = book.vocabulary.quantities[what].of
    thing = site.thing(of) if site is not None else _thing(book, of, part)
    found: dict[str, Earlier] = {}
    for reading in book.series.get((thing, what), ()) if thing else ():
        if reading.when not in BEFORE_WORK:
            for position, measures in reading.values:
                text = " and ".join(measure.text for measure in measures)
                found[position] = Earlier(position, text, reading.day.text)
    return tuple(found.values())


def _thing(book: Book, of: str, part: str) -> Thing | None:
    id, _, side = part.partition(" ")
    if id in book.tires:
        return Thing("tire", id)
    if id in book.centers:
        return Thing("center", id)
    return Thing("wheelset", id) if of == "wheelset" else Thing("end", id, side)


def _figureless(book: Book, limit: Limit, facets: FacetReader) -> str:
    lacking = without_figure(book, limit, facets)
    return f"figure not known ({lacking[0] if lacking else 'no row of its table'})"


def _limits(book: Book, site: Stand | EnginePlace, what: str) -> str:
    """The limits in force, in words; that there is none is said too."""
    facets = reader(book, site)
    found = []
    for limit in sort_limits(book.limits_on(site.engine, what), facets).sure:
        judged = judge(limit, {what: point(Fraction(0))}, facets)  # only for the figure that holds here
        if len(limit.conditions) == 1 and judged.bound is not None:
            figure = f"out {out_words(judged.bound, judged.text)}" if judged.text else _figureless(book, limit, facets)
            found.append(f"{figure}, {limit.cited}")
    if not found:
        return "No limit on file is for this figure alone."
    more = f"; and {len(found) - MOST_LIMITS} more" if len(found) > MOST_LIMITS else ""
    return f"Limits on file: {'; '.join(found[:MOST_LIMITS])}{more}."
