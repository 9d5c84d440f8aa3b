"""What was seen: the observations that tell the condition now, and what is worked out from them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from datetime import date
from fractions import Fraction

from axlebook.findings import Place
from axlebook.limits import Span, point

from . import fields
from .book import Book
from .condition import Lack, Site, Stale, Stand, Value, last_work, left_by, span_of
from .defect import Defect, defects, limit_of
from .forms import parse_position
from .reading import Observation, Source
from .session import Session

ONE_SPOT = 30  # degrees by which a spot may stand elsewhere when it is noted by hand again: ours
SHIM_WORDS = ("no_shim_all_round", "shims_lap")


def last_looked(book: Book, site: Site, looked_for: str) -> list[Observation] | Stale:
    """The last observations of this on the part now fitted, since the last work on it.

    What was seen is told until a look on a later day answers otherwise: `unknown` is no look, of a look told to the
    month or year nobody knows whether it came later, and one at an angle is of that spot. Of what stays, such as a
    weld, it is told every time it was seen. So it is where an open defect is of it: work puts that right, or closing
    the defect, and no other look.
    """
    thing = site.thing(book.vocabulary.observations[looked_for].of)
    found = list(book.seen.get((thing, looked_for), ())) if thing else []
    if looked_for in SHIM_WORDS and isinstance(site, Stand):
        found += told_of_shims(book, site, looked_for)
        found.sort(key=lambda o: o.day)
    if not found:
        return []
    work = last_work(book, site, looked_for)
    fresh = left_by(work, found)
    if not fresh and work is not None:
        return Stale(work, found[-1])
    seen = [o for o in fresh if o.answer == "seen"]
    if book.vocabulary.observations[looked_for].stays:
        told = seen
    else:
        looks = [o for o in fresh if o.answer != "unknown"]
        told = [o for o in seen if not any(_answers(look, o) for look in looks) or held_open(book, site, o)]
    return told or [o for o in fresh if o.day == fresh[-1].day]


def _answers(look: Observation, seen: Observation) -> bool:
    """Whether a look is a later one of the spot at which something was seen: of all the wheel, or near its angle."""
    later = (look.day.first or date.min) > (seen.day.last or date.min)
    return later and (_angle(look) is None or _same_spot(seen, look))


def _same_spot(seen: Observation, look: Observation) -> bool:
    """Whether a look at an angle is of what was seen; of what was seen at none told, when it was seen again."""
    one, other = _angle(seen), _angle(look)
    if one is None or other is None:
        return look.answer == "seen"
    apart = abs(one - other)
    return min(apart, 360 - apart) <= ONE_SPOT


def _angle(observation: Observation) -> Fraction | None:
    position = parse_position(str(observation.tree.get("angle", "")))
    return position.angle if position else None


def held_open(book: Book, site: Site, seen: Observation) -> Defect | None:
    """The open defect of what was seen, if there is one: on the same thing, by the limit it names or the same look."""
    return next((defect for defect in written_of(book, site, seen) if defect.is_open(book.as_of)), None)


def written_of(book: Book, site: Site, seen: Observation) -> list[Defect]:
    """The defects of what was seen, open or closed: on the same thing, by the limit named or by the same look."""
    ids = site.ids if isinstance(site, Stand) else ()
    return [one for one in defects(book) if one.names(site.name, *ids) and _is_of(book, one, seen)]


def _is_of(book: Book, defect: Defect, seen: Observation) -> bool:
    limit, found_in = limit_of(book, defect), fields.text(defect.tree, "found_in")
    if limit is not None:
        earlier = seen.day.last is not None and not defect.found_by(seen.day.last)
        return not earlier and any(_tells_of(book, c.quantity, seen.looked_for) for c in limit.conditions)
    return found_in == seen.source.record if found_in else defect.found_on == seen.day


def _tells_of(book: Book, quantity: str, looked_for: str) -> bool:
    """Whether a quantity is what was looked for, a size of it, or worked out from it."""
    words = book.vocabulary
    derived = words.derived.get(quantity)
    worked_out = derived is not None and looked_for in derived.comes_from
    return worked_out or quantity in (looked_for, *words.observations[looked_for].sizes)


def gone(book: Book, site: Site, looked_for: str) -> tuple[Observation, Observation] | None:
    """What was last seen since the last work, and a later look of the same place that did not see it."""
    found = _since_work(book, site, looked_for)
    last = next((o for o in reversed(found) if o.answer == "seen"), None)
    looks = (o for o in found if o.answer == "not seen" and last is not None and _answers(o, last))
    look = next(looks, None)
    return (last, look) if last is not None and look is not None else None


def answered(book: Book, site: Site, looked_for: str) -> list[tuple[Observation, Observation]]:
    """What was seen since the last work and is told no more, each with the last look of the same place."""
    if not _ever_seen(book, site, looked_for):
        return []
    found = _since_work(book, site, looked_for)
    looks = [o for o in reversed(found) if o.answer != "unknown"]
    pairs = ((o, next((look for look in looks if _answers(look, o)), None)) for o in found if o.answer == "seen")
    return [(seen, look) for seen, look in pairs if look is not None]


def _ever_seen(book: Book, site: Site, looked_for: str) -> bool:
    """Whether it was seen at all on what is there: most is only looked for."""
    thing = site.thing(book.vocabulary.observations[looked_for].of)
    return "seen" in [one.answer for one in book.seen.get((thing, looked_for), ())] if thing else False


def _since_work(book: Book, site: Site, looked_for: str) -> list[Observation]:
    thing = site.thing(book.vocabulary.observations[looked_for].of)
    found = book.seen.get((thing, looked_for), ()) if thing else ()
    return left_by(last_work(book, site, looked_for), list(found))


def seen_now(book: Book, site: Site, looked_for: str) -> list[Observation]:
    """The same; empty where the part was worked on since."""
    found = last_looked(book, site, looked_for)
    return [] if isinstance(found, Stale) else found


def observed(quantity: str, span: Span, text: str, *sources: Observation) -> Value:
    """A value that stands in an observation."""
    last = sources[-1]
    angle, unsure = str(last.tree.get("angle", "")), any(source.doubtful for source in sources)
    return Value(quantity, angle, span, text, "", "", last.at, last.day, (), unsure)


# -- spokes ----------------------------------------------------------------------------------------------------------


def _spokes(book: Book, stand: Stand, quantity: str) -> tuple[list[int], int, list[Observation]] | Lack | None:
    """The numbers of the broken spokes where told, how many there are, and where that stands."""
    found = [o for o in seen_now(book, stand, "broken_spoke") if o.answer != "unknown"]
    broken = [o for o in found if o.answer == "seen"]
    if not broken:
        return ([], 0, found) if found else None
    numbers = sorted({int(n) for o in broken for n in fields.texts(o.tree, "spokes") if n.isdecimal()})
    counts: dict[str, int] = defaultdict(int)
    for o in broken:  # a spoke that was counted at two looks is one; of those counted some may be told by number
        named = len(numbers) if fields.texts(o.tree, "spokes") else 0
        counts[o.source.record] += max((fields.whole(o.tree, "count") or 0) - named, 0)
    counted = max(counts.values(), default=0)
    if not numbers and not counted:
        return Lack("which spokes are broken, or how many,", observed(quantity, Span(None, None), "seen", *broken))
    spokes = stand.center.spokes if stand.center else None
    if spokes and numbers and numbers[-1] > spokes:
        told = observed(quantity, Span(None, None), f"spoke {numbers[-1]} of {spokes}", *broken)
        return Lack(f"a number of spokes of the center that goes with spoke {numbers[-1]}", told)
    return numbers, len(numbers) + counted, broken


def adjacent_broken_spokes(book: Book, stand: Stand) -> list[Value] | Lack:
    """The longest run of neighboring broken spokes, round the center; where only counted, at most so many."""
    name = "adjacent_broken_spokes"
    found = _spokes(book, stand, name)
    if found is None or isinstance(found, Lack):
        return found or []
    numbers, count, where = found
    spokes = stand.center.spokes if stand.center else None
    if not spokes and len(numbers) > 1:
        return Lack("the number of spokes of the center", observed(name, Span(None, None), f"{count} broken", *where))
    runs = max((_run(start, set(numbers), spokes or count) for start in numbers), default=min(count, 1))
    most = runs + count - len(numbers) if numbers else count
    return [observed(name, Span(Fraction(runs), Fraction(most)), f"{count} broken, {runs} adjacent", *where)]


def _run(start: int, broken: set[int], spokes: int) -> int:
    length = 0
    while length < spokes and (start - 1 + length) % spokes + 1 in broken:
        length += 1
    return length


def broken_spoke_share(book: Book, stand: Stand) -> list[Value] | Lack:
    """The share of a center's spokes that are broken."""
    name = "broken_spoke_share"
    found = _spokes(book, stand, name)
    if found is None or isinstance(found, Lack):
        return found or []
    _, count, where = found
    spokes = stand.center.spokes if stand.center else None
    if not count:
        return [observed(name, point(Fraction(0)), "none broken", *where)]
    if not spokes:
        return Lack("the number of spokes of the center", observed(name, Span(None, None), f"{count} broken", *where))
    return [observed(name, point(Fraction(count, spokes)), f"{count} of {spokes} spokes", *where)]


# -- spots side by side ----------------------------------------------------------------------------------------------


def adjoining(looked_for: str, quantity: str) -> Callable[[Book, Stand], list[Value] | Lack]:
    """How the shorter of two adjoining spots is worked out."""

    def shorter(book: Book, stand: Stand) -> list[Value] | Lack:
        """The second longest of several on one wheel: taken as adjoining unless the record says that one is not."""
        found = [o for o in seen_now(book, stand, looked_for) if o.answer == "seen"]
        together: dict[str, list[tuple[tuple[Fraction, Fraction], str, Observation]]] = defaultdict(list)
        for o in found:  # the same spot at two looks is one
            length = _length(o) if fields.yes(o.tree, "adjoining") is not False else None
            if length is not None:
                together[o.source.record].append((length, o.pointer, o))
        pairs = [sorted(lengths)[-2:] for lengths in together.values() if len(lengths) > 1]
        if not pairs:
            return []
        shorter, longer = max(pairs)
        (low, high), _, where = shorter
        other = longer[2].tree
        at = f" at {other['angle']}" if "angle" in other else ""
        text = f"{where.tree['length']} beside {other['length']}{at}"
        told = all(fields.yes(o.tree, "adjoining") for _, _, o in (shorter, longer))
        return [observed(quantity, Span(low, high), text if told else f"{text}, taken as adjoining", where)]

    return shorter


def _length(observation: Observation) -> tuple[Fraction, Fraction] | None:
    length = fields.measure(observation.tree, "length")
    span = span_of(length) if length else Span(None, None)
    return None if span.low is None or span.high is None else (span.low, span.high)


# -- shims -----------------------------------------------------------------------------------------------------------


def fitting_of(book: Book, stand: Stand) -> Session | None:
    """The tire work that put the tire of a wheel where it is, or found it there."""
    if stand.tire is None or stand.center is None:
        return None
    done = [
        s
        for s in book.work_on.get(stand.tire.id, ())
        if s.kind in ("tire-applied", "tire-found") and s.center == stand.center.id
    ]
    return done[-1] if done else None


def shims_under(book: Book, stand: Stand) -> list[Value] | Lack:
    """How many thicknesses of shim lie under the tire, by the record of its fitting."""
    fitting = fitting_of(book, stand)
    if fitting is None:
        return []
    told = fitting.tree.get("shims")
    found = Value("shim_thicknesses", "", Span(None, None), "unknown", "piece", "", Place(fitting.path, "/shims"),
                  fitting.day, ())  # fmt: skip
    if told is None or told == "unknown":
        return Lack("which shims lie under the tire", found)
    count = 0 if told == "none" else len(fields.items(fitting.tree, "shims"))
    return [found._replace(span=point(Fraction(count)), text=f"{count} under the tire")]


def told_of_shims(book: Book, stand: Stand, looked_for: str) -> list[Observation]:
    """What the record of a tire's fitting says of its shims, as if it had been looked for."""
    fitting = fitting_of(book, stand)
    shims = [shim for shim in fields.items(fitting.tree, "shims") if shim] if fitting else []
    if fitting is None or not shims:
        return []
    if looked_for == "shims_lap":
        said = [fields.yes(shim, "laps") for shim in shims]
        answer = "seen" if True in said else "unknown" if None in said else "not seen"
    else:
        said = [fields.yes(shim, "full_round") for shim in shims]
        answer = "not seen" if True in said else "unknown" if None in said else "seen"
    source = Source(fitting.id, fitting.kind, fitting.path, fitting.engine, fitting.day, fitting.by, {}, "", False)
    return [Observation(source, "/shims", looked_for, "", fitting.tire, answer, fitting.day, fitting.by, {})]
