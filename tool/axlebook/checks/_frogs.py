"""A pair at a frog: back-to-back against guard face gage, wheel check against guard check gage, exact."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.limits import Bound
from axlebook.quantities import parse_measure
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.condition import Stand, Value, current
from axlebook.records.derived import values
from axlebook.records.facets import track_gauge
from axlebook.records.ledger import Frog
from axlebook.records.unsure import unsure_of

from ._judging import every_stand
from ._words import figured, shown, value_figures

NO_FROG = "no frog of the railway's own is on record for this track gauge"
WRITE_FROGS = "Measure guard check and guard face gage of your frogs, and write them in ledger.yaml under frogs."
MISSING = "not on record: {} of the frog {}"


class Pair(NamedTuple):
    """A pair with what was read of it: back-to-back, and the wheel check of each flange where flanges were read."""

    stand: Stand
    backs: list[Value]
    checks: list[Value]

    def runs_over(self, book: Book, frog: Frog) -> bool:
        """Whether the frog is of the pair's track gauge; 1435 mm and 4 ft 8 1/2 in are one gauge."""
        mine, its = track_gauge(book, self.stand), frog.track_gauge or book.ledger.track_gauge
        return mine is None or its is None or round(mine * 1000) == round(its * 1000)


def pairs(book: Book) -> Iterator[Pair]:
    """Every pair whose back-to-back was read."""
    for stand in every_stand(book):
        backs = [] if stand.side else current(book, stand, "back_to_back")
        if backs:
            yield Pair(stand, backs, values(book, stand, "wheel_check"))


class Part(NamedTuple):
    """One of the two things judged: its words, the frog's gage, and when it is outside."""

    quantity: str
    title: str
    key: str
    bound: str
    gage: Callable[[Frog], Fraction | None]


FACE = Part("back_to_back", "back-to-back", "guard_face_gage", "under", lambda frog: frog.guard_face_gage)
CHECK = Part("wheel_check", "wheel check", "guard_check_gage", "over", lambda frog: frog.guard_check_gage)


def passage(book: Book, check: str, pair: Pair, frogs: list[Frog], next_step: str) -> Iterator[Finding]:
    """The findings of one pair: guard face and guard check, each at the frog that is tightest."""
    yield _at(book, check, pair, FACE, pair.backs, frogs, next_step)
    if pair.checks:
        yield _at(book, check, pair, CHECK, pair.checks, frogs, next_step)
    else:
        yield _not_assessed(check, pair, CHECK, "the thickness of both flanges is not on record",
                            "Read both flanges.")  # fmt: skip


def _at(book: Book, check: str, pair: Pair, part: Part, found: list[Value], frogs: list[Frog], step: str) -> Finding:
    known = [(gage, frog) for frog in frogs if (gage := part.gage(frog)) is not None]
    if not known:
        cause = MISSING.format(part.key.replace("_", " "), frogs[0].track)
        return _not_assessed(check, pair, part, cause, WRITE_FROGS)
    pick = max if part is FACE else min
    gage, frog = pick(known, key=lambda pair: pair[0])
    written = fields.text(frog.tree, part.key)
    bound = Bound(part.bound, gage, written)
    value = _nearest([v for v in found if bound.holds(v.span, gage)] or found, part)
    holds = bound.holds(value.span, gage)
    verdict = {True: Verdict.OUTSIDE, False: Verdict.WITHIN, None: Verdict.UNDECIDED}[holds]
    unsure = unsure_of(book, value)
    if unsure and verdict is Verdict.WITHIN:
        return _not_assessed(check, pair, part, unsure, "Measure it again.")
    unsure = unsure if verdict is Verdict.OUTSIDE else ""
    verdict = Verdict.UNDECIDED if unsure else verdict
    words = f"{pair.stand.name}, {part.title}{', ' + value.position if value.position else ''}"
    tells = f" But {unsure}." if unsure else ""
    tells = tells if holds is not None else " The reading is known only as an interval and cannot tell."
    return Finding(
        check,
        verdict,
        Severity.SHOP,
        pair.stand.name,
        value.at,
        f"{words}: {_shown(value, part, book.in_mm(pair.stand.engine))}. Out {part.bound} {shown(written)}, the "
        f"{part.key.replace('_', ' ')} of {frog.track}.{tells}",
        figures=(*value_figures(value, "length", part is CHECK), _figure(part, written, frog)),
        source=f"{frog.track}, {'adopted' if frog.adopted else 'measured'} {frog.measured_on.text} "
        "(ledger.yaml); the rule is derived from the geometry",
        next=step,
        quantity=part.quantity,
        where=part.key,
    )


def _nearest(found: list[Value], part: Part) -> Value:
    """The value that is outside soonest."""
    if part is FACE:
        return min(found, key=lambda v: (v.span.low is not None, v.span.low or Fraction(0)))
    return max(found, key=lambda v: (v.span.high is None, v.span.high or Fraction(0)))


def _shown(value: Value, part: Part, mm: bool) -> str:
    if part is CHECK and value.span.low is not None:
        return f"{figured(value.span.low, 'length', mm)}, from {value.text}"
    return shown(value.text)


def _figure(part: Part, written: str, frog: Frog) -> Figure:
    return Figure(part.key, written, parse_measure(fields.text(frog.tree, part.key)).unit, frog.place.path)


def no_frog(check: str, pair: Pair) -> Finding:
    """What is said of a pair that runs over no frog on record."""
    finding = _not_assessed(check, pair, FACE, NO_FROG, WRITE_FROGS)
    return replace(finding, severity=Severity.NOTE)


def _not_assessed(check: str, pair: Pair, part: Part, cause: str, next_step: str) -> Finding:
    value = pair.backs[0]
    return Finding(
        check,
        Verdict.NOT_ASSESSED,
        Severity.SHOP,
        pair.stand.name,
        value.at,
        f"{pair.stand.name}, {part.title}: back-to-back {shown(value.text)}. It has NOT been judged: {cause}.",
        figures=value_figures(value, "length", False),
        next=next_step,
        quantity=part.quantity,
        where=part.key,
        cause=cause,
    )
