"""Examinations of axles, crank pins and other parts: by the intervals in force, and by what each says itself."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import timedelta
from functools import partial
from itertools import pairwise

from axlebook.findings import Severity, Verdict
from axlebook.limits import Interval, applies

from .. import fields, periods
from ..book import Book, Thing
from ..condition import Stand, stands
from ..engine import Engine
from ..facets import facet
from ..where_stands import where_stands
from .done import Examined, answers, examined, examined_of, intervals_for
from .ends import half_since, whole
from .item import Due, Kind, Late
from .methods import is_another
from .reckon import Term, reckoned
from .starts import adopted_from

PARTS = ("axle", "crank pin")
NEVER = "never examined on record"
DO = "Have it examined before it runs on; if it was, enter the examination."
ENTER = "Have it examined, or enter the last examination; an old card may be entered as transcribed."


def examinations(book: Book) -> Iterator[Due]:
    """Every part now standing on an engine that an interval asks to be examined, and what asks to be seen again."""
    for stand, interval in _asked(book):
        yield _one(book, stand, interval)
    yield from _again(book)


def _asked(book: Book) -> Iterator[tuple[Stand, Interval]]:
    """Parts and the intervals for them: an axle is a wheelset's, a crank pin that of one side of a driver."""
    for stand in stands(book):
        for interval in intervals_for(book, stand.engine):
            here = interval.of == "crank pin" and stand.wheelset.driver if stand.side else interval.of == "axle"
            if here and applies(interval.applies_to, partial(facet, book, stand)).answer is not False:
                yield stand, interval


def _times(stand: Stand, found: list[Examined]) -> list[Examined]:
    """Each time a part was examined, the whole of it: a wheelset by one end counts with the other's."""
    return [one for one in found if one.side in ("", stand.end)] if stand.side else whole(found, stand.wheelset.ends)


def _answering(book: Book, stand: Stand, interval: Interval) -> list[Examined]:
    return [one for one in _claiming(book, stand, interval) if answers(one.examination, interval)]


def _claiming(book: Book, stand: Stand, interval: Interval) -> list[Examined]:
    """The examinations of a wheelset that say that they satisfy an interval."""
    found = examined_of(book).get(stand.wheelset.id, ())
    return [one for one in found if fields.text(one.examination.tree, "satisfies") == interval.id]


def part_of(stand: Stand) -> str:
    """The part as a shop names it: d-4, d-4 left."""
    return f"{stand.wheelset.id} {stand.end}".strip()


def _one(book: Book, stand: Stand, interval: Interval) -> Due:
    found = _answering(book, stand, interval)
    times = _times(stand, found)
    last = times[-1] if times else None
    half = "" if stand.side else half_since(found, last)
    answer = applies(interval.applies_to, partial(facet, book, stand))
    if answer.answer is None:
        cause = f"{book.vocabulary.facets[answer.facet].title} is not on record, which {interval.cited} asks for"
        term = Term(Verdict.NOT_ASSESSED, "", cause=cause)
    elif last is None:
        cause = f"examined {half}" if half else _by_another_method(book, stand, interval) or NEVER
        term = Term(Verdict.NOT_ASSESSED, "", cause=cause)
    else:
        told = f"last examined {last.done.text}{f', and {half}' if half else ''}"
        term = _term(book, stand.engine, interval, last, told)
    step = {Verdict.OUTSIDE: DO, Verdict.NOT_ASSESSED: ENTER}.get(term.verdict, "")
    return Due(
        Kind.EXAMINATION,
        interval.name,
        stand.engine.id,
        f"{stand.engine.id} {part_of(stand)}",
        interval.title,
        term.verdict,
        interval.severity,
        term.told,
        step,
        interval.cited,
        last.done.at if last else book.place(stand.wheelset.id),
        term.due_on,
        term.left,
        term.estimate,
        term.since,
        last.done.text if last else "",
        last.done.session.id if last else "",
        term.cause,
        "",
    )


def _by_another_method(book: Book, stand: Stand, interval: Interval) -> str:
    """What is said of the last examination that claims to satisfy an interval, where its method is another."""
    for one in reversed(_claiming(book, stand, interval)):
        if is_another(one.method, interval.title):
            return f"examined on {one.done.text}, but by `{fields.text(one.examination.tree, 'method')}`"
    return ""


def _term(book: Book, engine: Engine, interval: Interval, last: Examined, told: str) -> Term:
    asked = (interval.every, interval.alternative)
    day = last.done.day
    calendar = book.service_calendar(engine.id)
    term = reckoned(day, day, asked, calendar, book.as_of, interval.of_two)
    return term._replace(told=f"{told}; {term.told}")


def last_examined(book: Book) -> list[Examined]:
    """Every examination that no later one of the same takes the place of, in order of date; worked out once."""
    found: list[Examined] | None = book.__dict__.get("_last_examined")
    if found is None:
        alike: dict[tuple[str, str], list[Examined]] = defaultdict(list)
        for one in examined(book):
            alike[one.wheelset, one.of.casefold()].append(one)
        found = [
            one
            for one in examined(book)
            if not any(_same(one, later) for later in alike[one.wheelset, one.of.casefold()])
        ]
        book.__dict__["_last_examined"] = found
    return found


def stands_at(book: Book, one: Examined) -> str:
    """Where what was examined stands now, in shop words; '' where that is in store."""
    kinds = (("tire", book.tires), ("center", book.centers), ("wheelset", book.wheelsets))
    kind = next((kind for kind, known in kinds if one.wheelset in known), "")
    if not kind:  # a place of the engine that is no wheelset, or of which nobody knows which stood there
        return f"{one.wheelset} {one.side}".strip()
    thing = Thing("end", one.wheelset, one.side) if kind == "wheelset" and one.side else Thing(kind, one.wheelset)
    here = where_stands(book, thing)
    return here.name if here else ""


def _again(book: Book) -> Iterator[Due]:
    """Examinations that name the day of the next, until the same of the same part is examined again."""
    where = {stand.wheelset.id: stand.engine.id for stand in stands(book)}
    for one in last_examined(book):
        day = fields.day(one.examination.tree, "due_again").exact
        if day is None:
            continue
        over = book.as_of > day
        engine = where.get(one.wheelset, one.done.session.engine)
        part = f"{one.wheelset} {one.side}".strip()
        yield Due(
            Kind.EXAMINATION,
            "due-again",
            engine,
            f"{engine} {part}".strip(),
            f"{one.of[0].upper()}{one.of[1:]}, {fields.text(one.examination.tree, 'method')}, again",
            Verdict.OUTSIDE if over else Verdict.WITHIN,
            Severity.SHOP,
            f"examined {one.done.text}{_found(one)}, and to be examined again by {day}",
            DO if over else "",
            f"the examination itself, {one.done.session.id}",
            one.examination.at.below("due_again"),
            day,
            since=day + timedelta(1) if over else None,
            done_on=one.done.text,
            record=one.done.session.id,
            where=f"{one.of} {fields.text(one.examination.tree, 'area')}".strip(),
        )


def _same(one: Examined, later: Examined) -> bool:
    """Whether a later examination is of the same thing by the same method: part, side, what and area.

    An eye finds nothing of what ultrasound is asked for.
    """
    area = fields.text(one.examination.tree, "area")
    return (
        later.counts
        and later.done.day > one.done.day
        and (later.wheelset, later.of.casefold()) == (one.wheelset, one.of.casefold())
        and later.method == one.method
        and later.side in ("", one.side)
        and fields.text(later.examination.tree, "area") in ("", area)
    )


def _found(one: Examined) -> str:
    result = fields.text(one.examination.tree, "result")
    return "" if result in ("nothing found", "") else f" with the result `{result}`"


def late_examinations(book: Book) -> Iterator[Late]:
    """Every examination of a part now fitted that came after its time, by the sets now in force."""
    for stand, interval in _asked(book):
        since = adopted_from(book, stand.engine, interval.set_id)
        times = [one for one in _times(stand, _answering(book, stand, interval)) if one.done.day >= since]
        for before, after in pairwise(times):
            asked = [p for p in (interval.every, interval.alternative) if p and periods.is_of_calendar(p)]
            lasts = [periods.last_within(before.done.day, period) for period in asked]
            if lasts and after.done.day > min(lasts):
                days = (after.done.day - min(lasts)).days
                yield Late(
                    Kind.EXAMINATION, interval.name, stand.engine.id, f"{stand.engine.id} {part_of(stand)}",
                    interval.title, interval.severity, after.done.day, periods.words((days, "day")),
                    f"examined before on {before.done.text}; due by {min(lasts)}", interval.cited, after.done.at,
                    after.done.session.id,
                )  # fmt: skip


__all__ = ["examinations", "last_examined", "late_examinations", "part_of", "stands_at"]
