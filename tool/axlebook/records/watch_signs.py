"""Whether one sign of a watch list stands open on a tire: seen, read beyond a figure, small, or moved."""

from __future__ import annotations

from datetime import date
from enum import Enum
from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Place
from axlebook.limits import WatchSign
from axlebook.quantities import render_value

from . import fields
from .book import Book, Thing
from .change import changes, worst
from .condition import Stand, Value
from .dates import Day
from .derived import values
from .fit import Fit, find_fit
from .growth import growth_of
from .practice import adopted
from .reading import Observation
from .session import Session


class NotShown(Enum):
    """A sign that is not there, and one that nobody looked for."""

    ABSENT = "absent"
    UNKNOWN = "unknown"


ABSENT, UNKNOWN_SIGN = NotShown.ABSENT, NotShown.UNKNOWN


class Shown(NamedTuple):
    """A sign that stands open: what it says, when, and where that stands."""

    text: str
    day: Day
    at: Place
    record: str


Look = Shown | NotShown


def look(book: Book, stand: Stand, word: WatchSign) -> Look:
    """Whether a sign stands open on a wheel."""
    match word.by:
        case "seen":
            return _seen(book, stand, word)
        case "practice":
            return _small_fit(book, stand)
        case "share":
            return _small_growth(book, stand, word)
        case "moved":
            return _moved(book, stand, word)
    return _beyond(book, stand, word)


def application(book: Book, stand: Stand) -> Session | None:
    """The tire work by which the tire now fitted went on; None where only found."""
    if stand.tire is None or stand.center is None:
        return None
    for center, spell in book.standing.centers_of.get(stand.tire.id, ()):
        if center == stand.center.id and (spell.until is None or spell.until > book.as_of):
            session = book.session_by_id.get(spell.by)
            return session if session and session.kind == "tire-applied" else None
    return None


# -- what was seen ----------------------------------------------------------------------------------------------------


def _seen(book: Book, stand: Stand, word: WatchSign) -> Look:
    looks = _looks(book, stand, word.sign)
    if not looks:
        return UNKNOWN_SIGN
    applied = application(book, stand)
    since = applied.day.first if applied else None
    # A sign of the day the tire went on stays open until somebody looks again.
    looks = [o for o in looks if since is None or o.day.last is None or o.day.last >= since]
    if not looks:
        return UNKNOWN_SIGN
    seen = [o for o in looks if o.answer == "seen"]
    open_signs = [o for o in seen if word.stays or not any(_closes(other, o) for other in looks)]
    if word.stays:
        open_signs = [o for o in seen if not any(_closes(other, o) and _made_anew(other) for other in looks)]
    if not open_signs:
        return ABSENT
    last = open_signs[-1]
    return Shown(_seen_words(last), last.day, last.at, last.source.record)


def _looks(book: Book, stand: Stand, sign: str) -> list[Observation]:
    """The answered looks for a sign on this wheel's tire, in order of date; one of the engine counts for its wheels."""
    of = book.vocabulary.observations[sign].of
    things: list[Thing | None] = [stand.thing(of)]
    if of == "engine":
        at = stand.line.at
        things = [Thing("engine", stand.engine.id, place) for place in ("", "engine", at, f"{at} {stand.side}")]
    found = [o for thing in things if thing for o in book.seen.get((thing, sign), ()) if o.answer != "unknown"]
    return sorted(found, key=lambda o: o.day.first or date.min) if len(things) > 1 else found  # else in order already


def _closes(later: Observation, sign: Observation) -> bool:
    """Whether a look that did not see it is certainly later than the sign."""
    if later.answer != "not seen" or later.day.first is None:
        return False
    return sign.day.last is not None and later.day.first > sign.day.last


def _made_anew(observation: Observation) -> bool:
    return fields.yes(observation.tree, "mark_made_anew") is True


def _seen_words(observation: Observation) -> str:
    tree = observation.tree
    sizes = [fields.text(tree, key) for key in ("distance", "length") if key in tree]
    angle = f"at {tree['angle']}" if "angle" in tree else ""
    note = f"'{tree['note']}'" if "note" in tree else ""
    more = ", ".join(filter(None, (*sizes, angle, note)))
    return f"seen {observation.day.text}" + (f" ({more})" if more else "")


# -- what was read ----------------------------------------------------------------------------------------------------


def _beyond(book: Book, stand: Stand, word: WatchSign) -> Look:
    found = values(book, stand, word.sign)
    judged = [(v, [b.holds(v.span, b.value) for b in word.bounds if b.value is not None]) for v in found]
    out = [v for v, answers in judged if True in answers]
    if out:
        last: Value = out[-1]
        bounds = " or ".join(f"{b.word.replace('_', ' ')} {b.text}" for b in word.bounds)
        at = f" at {last.position}" if last.position else ""
        words = f"{last.text}{at}, read {last.day.text} ({bounds})"
        return Shown(words, last.day, last.at, last.readings[0].source.record)
    if not judged or any(None in answers for _, answers in judged):
        return UNKNOWN_SIGN
    return ABSENT


def fit_of(book: Book, stand: Stand) -> Fit | None:
    """The fit of the tire now fitted, where it was recorded with all it needs."""
    applied = application(book, stand)
    if applied is None or stand.tire is None or stand.center is None:
        return None
    fit = find_fit(book, stand.tire, stand.center, applied)
    return fit if isinstance(fit, Fit) and fit.shim is not None else None


def _small_fit(book: Book, stand: Stand) -> Look:
    fit = fit_of(book, stand)
    if fit is None or fit.session is None:
        return UNKNOWN_SIGN
    size = fit.center.nominal_diameter or Fraction(fit.center_size.mean)
    practice = next((p for p in adopted(book, fit.center, "interference", size) if p.least is not None), None)
    if practice is None or practice.least is None:
        return UNKNOWN_SIGN
    if Fraction(fit.interference) >= practice.least:
        return ABSENT
    mm = book.in_mm(stand.engine)
    read, asked = length_words(fit.interference, mm), length_words(float(practice.least), mm)
    words = f"{read}, applied {fit.session.day.text} (practice asks at least {asked})"
    return Shown(words, fit.session.day, fit.session.place, fit.session.id)


def _small_growth(book: Book, stand: Stand, word: WatchSign) -> Look:
    fit = fit_of(book, stand)
    growth = growth_of(book, fit) if fit else None
    if fit is None or fit.session is None or growth is None or word.figure is None:
        return UNKNOWN_SIGN
    if growth.taped + growth.doubt >= float(word.figure) * growth.least_expected:
        return ABSENT
    mm = book.in_mm(stand.engine)
    least = length_words(growth.least_expected, mm)
    words = f"{length_words(growth.taped, mm)}, taped {fit.session.day.text} (at least {least} is expected)"
    return Shown(words, fit.session.day, growth.at, fit.session.id)


def _moved(book: Book, stand: Stand, word: WatchSign) -> Look:
    """A change of the pair: which of its two tires moved, it does not tell."""
    times = float(word.figure or 0)
    groups = changes(book, Thing("wheelset", stand.wheelset.id), word.sign)
    if not groups:
        return UNKNOWN_SIGN
    found = [change for group in groups if (change := worst(group, times)) is not None]
    moved = [change for change in found if change.beyond(times)]
    if not moved:
        return ABSENT if found and all(c.beyond(times) is False for c in found) else UNKNOWN_SIGN
    last = max(moved, key=lambda c: (c.after.day, c.excess(times)))
    way = "wider" if last.size > 0 else "narrower"
    size, origin = length_words(abs(last.size), book.in_mm(stand.engine)), last.after.origin
    return Shown(
        f"{size} {way} on {last.after.day} than on {last.before.day}, {origin.hold}, "
        f"at {last.position}",
        origin.day, origin.at, origin.source.record,
    )  # fmt: skip


def length_words(metres: float, mm: bool) -> str:
    """A computed length in inches and millimetres, to a tenth of a thousandth; `mm` these first."""
    exact = Fraction(metres)
    in_inches, in_mm = render_value(exact, "length", "in", 4), render_value(exact, "length", "mm", 3)
    return f"{in_mm} ({in_inches})" if mm else f"{in_inches} ({in_mm})"


__all__ = ["ABSENT", "UNKNOWN_SIGN", "Look", "Shown", "application", "fit_of", "length_words", "look"]
