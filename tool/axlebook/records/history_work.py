"""The sessions of a part's life, each in few words: the work that was done on it, what was read and seen."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure
from axlebook.quantities import parse_measure, render_value

from . import fields
from .book import Book, Thing
from .condition import span_of
from .fit import Fit, find_fit
from .practice import engine_of
from .reading import Examination, Observation, Reading
from .session import Session

Told = tuple[Session, str, tuple[Figure, ...]]
_BARE = ("center", "end", "wheelset", "engine")
_WHOLE = ("wheel", "tire", *_BARE)


def done_on(book: Book, id: str) -> list[Told]:
    """Every session that touched a part or read something of it, in order of date; a session's own id is itself."""
    known: dict[str, list[Told]] = book.__dict__.setdefault("_done_on", {})
    if id not in known:
        known[id] = list(_done_on(book, id))
    return known[id]


def _done_on(book: Book, id: str) -> Iterator[Told]:
    readings, seen = _read(book, id), _seen(book, id)
    worked = {session.id for session in book.work_on.get(id, ())} | _turned_with_axle(book, id)
    for session in book.past_sessions:
        examined = [one for one in session.examinations if id in _things(book, session, one)]
        own = session.id == id
        if not (own or session.id in worked or session.id in readings or session.id in seen or examined):
            continue
        every = readings.get(session.id, []) if not own else list(session.readings)
        watched = seen.get(session.id, []) if not own else list(session.observations)
        parts = [*_work_words(session), *_fit_words(book, session), *_reading_words(book, every)]
        parts += [*_seen_words(book, watched), *map(_examined_words, session.examinations if own else examined)]
        yield session, "; ".join(filter(None, parts)), _figures(book, session, every)


def _read(book: Book, id: str) -> dict[str, list[Reading]]:
    found: dict[str, list[Reading]] = defaultdict(list)
    for (thing, _), readings in book.series.items():
        if thing.id == id:
            for reading in readings:
                found[reading.source.record].append(reading)
    return found


def _seen(book: Book, id: str) -> dict[str, list[Observation]]:
    found: dict[str, list[Observation]] = defaultdict(list)
    for (thing, _), observations in book.seen.items():
        if thing.id == id:
            for observation in observations:
                found[observation.source.record].append(observation)
    return found


def _turned_with_axle(book: Book, id: str) -> set[str]:
    """Turnings of a wheelset while this tire was on it."""
    found = set()
    for session in book.past_sessions if id in book.tires else ():
        day = session.day.first
        wheel = book.standing.wheel_of_tire(id, day) if session.kind == "turning" and day else None
        if wheel and wheel[1] in fields.texts(session.tree, "wheelsets"):
            found.add(session.id)
    return found


def _things(book: Book, session: Session, one: Examination) -> set[str]:
    """The ids of what was examined: the wheelset, center and tire at its place that day."""
    stand_in = Observation(one.source, one.pointer, "", one.place, one.part, "", session.day, (), one.tree)
    of_tire = "tire" in fields.text(one.tree, "of").lower()  # else it was the axle, a pin, the center in that place
    found = (book.thing_of(of, stand_in) for of in (_WHOLE if of_tire else _BARE))
    return {thing.id for thing in found if isinstance(thing, Thing)} | {one.part.split(" ")[0]} - {""}


# --- words --------------------------------------------------------------------------------------------------


def _work_words(session: Session) -> list[str]:
    tree = session.tree
    match session.kind:
        case "tire-applied":
            return [f"tire {session.tire} put on center {session.center}"]
        case "tire-removed":
            how = fields.text(tree, "came_off")
            return [f"tire {session.tire} taken off center {session.center}{f', came off {how}' if how else ''}"]
        case "tire-found":
            since = fields.text(tree, "since")
            return [f"tire {session.tire} found on center {session.center}{f', since {since}' if since else ''}"]
        case "mounting":
            side = fields.text(tree, "side")
            return [f"center {session.center} {tree['work']}: {fields.text(tree, 'wheelset')} {side}".rstrip()]
        case "turning":
            what = [*fields.texts(tree, "wheelsets"), *fields.texts(tree, "tires")]
            return [f"turned: {', '.join(what)}" if what else "turned"]
    return []


def _fit(book: Book, session: Session) -> Fit | None:
    tire, center = book.tires.get(session.tire), book.centers.get(session.center)
    if session.kind != "tire-applied" or tire is None or center is None:
        return None
    found = find_fit(book, tire, center, session)
    return found if isinstance(found, Fit) and found.shim is not None else None


def _interference(book: Book, session: Session) -> float | None:
    """Interference of a tire as it was put on [m]; None where the records do not give it."""
    fit = _fit(book, session)
    try:
        return fit.interference if fit else None
    except ValueError:  # sizes that no metal can have
        return None


def _fit_words(book: Book, session: Session) -> list[str]:
    if session.kind != "tire-applied":
        return []
    grip = _interference(book, session)
    if grip is None:
        return ["its fit cannot be worked out from the records"]
    unit, places = ("mm", 3) if book.in_mm(engine_of(book, book.centers[session.center])) else ("in", 4)
    return [f"interference at 68 degF {render_value(Fraction(grip), 'length', unit, places)}"]


def _reading_words(book: Book, readings: list[Reading]) -> Iterator[str]:
    by_quantity: dict[str, list[str]] = defaultdict(list)
    for reading in readings:
        by_quantity[reading.quantity] += [m.text for _, measures in reading.values for m in measures]
    for quantity, texts in by_quantity.items():
        word = book.vocabulary.find_word(quantity)
        yield f"{word.title if word else quantity} {extremes(texts)}"


def extremes(texts: list[str]) -> str:
    """The smallest and the largest of some measures as written, and how many there are.

    >>> extremes(["3 in", "2 7/8 in", "74 mm"])
    '2 7/8 in to 3 in (3 values)'
    """
    ordered = sorted(texts, key=lambda text: span_of(parse_measure(text)).low or Fraction(0))
    if not ordered:
        return "nothing"
    if len(ordered) == 1:
        return ordered[0]
    same = ordered[0] == ordered[-1]
    return f"{ordered[0]}{'' if same else f' to {ordered[-1]}'} ({len(ordered)} values)"


def _seen_words(book: Book, observations: list[Observation]) -> Iterator[str]:
    """What was seen, each by itself; what was looked for and not seen, together."""
    by_answer: dict[str, list[str]] = defaultdict(list)
    for one in observations:
        word = book.vocabulary.observations.get(one.looked_for)
        by_answer[one.answer].append(word.title if word else one.looked_for)
    for answer, names in sorted(by_answer.items(), key=lambda pair: pair[0] == "not seen"):
        yield f"{answer}: {', '.join(dict.fromkeys(names))}"


def _examined_words(one: Examination) -> str:
    of, method, result = (fields.text(one.tree, key) for key in ("of", "method", "result"))
    return f"examined {of}, {method}: {result}"


def _figures(book: Book, session: Session, readings: list[Reading]) -> tuple[Figure, ...]:
    """Every value as written; of a tire put on, its interference in SI."""
    written = [
        Figure(f"{reading.quantity} {reading.named} {position}", m.text, m.unit, session.id)
        for reading in readings for position, measures in reading.values for m in measures
    ]  # fmt: skip
    grip = _interference(book, session)
    return (*written, *([Figure("interference", repr(grip), "m", "computed")] if grip is not None else []))
