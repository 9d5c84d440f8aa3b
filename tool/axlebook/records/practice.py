"""The adopted practice for a fit: its nominal figure, its tolerance, and where it comes from."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from axlebook.limits import Practice, applies
from axlebook.limits.citation import source_and_clause

from . import to_write
from .book import Book, side_of
from .condition import Stand
from .engine import Engine
from .facets import facet
from .wheelset import Center


class Adopted(NamedTuple):
    """A practice in force for one center: nominal, least and most [m], exact."""

    practice: Practice
    nominal: Fraction
    least: Fraction | None
    most: Fraction | None
    cited: str


def stand_of(book: Book, center: Center) -> Stand | None:
    """The wheel a center is, where its wheelset last stood on an engine; None where it never did."""
    carried = [(id, end) for id, end, _ in book.standing.sides_of.get(center.id, ()) if id in book.wheelsets]
    id, end = carried[-1] if carried else (center.wheelset, center.first_side)
    wheelset = book.wheelsets[id]
    lines = book.standing.lines_of.get(wheelset.id, ())
    if not lines:
        return None
    line = book.standing.line_of(wheelset.id, book.as_of) or lines[-1]
    return Stand(book.engines[line.engine], line, wheelset, side_of(line.a_end, wheelset, end), end, center)


def engine_of(book: Book, center: Center) -> Engine | None:
    """The engine a center's wheelset last stood on."""
    stand = stand_of(book, center)
    return stand.engine if stand else None


def adopted(book: Book, center: Center, quantity: str, size: Fraction) -> Iterator[Adopted]:
    """The practices in force for a quantity of a center, those with a tolerance first."""
    found = []
    for practice, source in _for_center(book, center, quantity):
        nominal = source.nominal(size)
        if nominal is not None:
            found.append(_with_tolerance(practice, source, nominal))
    yield from sorted(found, key=lambda a: a.least is None)


def lacking(book: Book, center: Center, size: Fraction) -> str:
    """Why no practice gives a center its shrinkage: none is for it, or the table of one says nothing of its size."""
    many = _for_center(book, center, "interference")
    short = next((practice.id for practice, source in many if source.nominal(size) is None), "")
    return f"the table of {short} says nothing of a center of this size" if short else "no shrinkage practice on file"


def _for_center(book: Book, center: Center, quantity: str) -> Iterator[tuple[Practice, Practice]]:
    """The practices in force for a quantity of a center, each with the one whose table it uses."""
    stand = stand_of(book, center)
    for limit_set in book.limits_for(engine_of(book, center)):
        for practice in limit_set.practices:
            if practice.quantity != quantity:
                continue
            asked = practice.applies_to
            if asked and (stand is None or applies(asked, lambda name: facet(book, stand, name)).answer is not True):
                continue
            source = followed(book, practice)
            if source is not None:
                yield practice, source


def waiting_practice(book: Book, center: Center) -> tuple[str, to_write.Lines]:
    """A set that has a practice with a tolerance and is not adopted, and the lines that adopt it.

    'in force' where a practice is adopted, and does not apply to this center; '' where all is still to be written.
    """
    in_force = {limit_set.id for limit_set in book.limits_for(engine_of(book, center))}
    printed = ""
    for limit_set in book.limit_sets.values():
        for practice in (one for one in limit_set.practices if one.quantity == "interference"):
            if limit_set.id in in_force:
                return "in force", to_write.Lines("", ())
            if practice.minus is not None or practice.plus is not None:
                return limit_set.id, to_write.adoption(limit_set.id, below=bool(book.ledger.adoptions))
            printed = printed or practice.id
    return "", to_write.practice(printed)


def followed_astray(book: Book, center: Center) -> Practice | None:
    """A practice of a set in force that follows one which is not on file, and so gives no allowance."""
    sets = book.limits_for(engine_of(book, center))
    practices = (practice for limit_set in sets for practice in limit_set.practices)
    return next((one for one in practices if one.quantity == "interference" and followed(book, one) is None), None)


def followed(book: Book, practice: Practice) -> Practice | None:
    """The practice whose table is used: itself, or the one it follows; None where that is not on file."""
    if not practice.follows:
        return practice
    set_id = practice.follows.partition("/")[0]
    limit_set = book.limit_sets.get(set_id)
    return next((p for p in limit_set.practices if p.id == practice.follows), None) if limit_set else None


def _with_tolerance(practice: Practice, source: Practice, nominal: Fraction) -> Adopted:
    told = practice.minus is not None or practice.plus is not None
    nominal /= source.per or Fraction(1)  # tons an inch: the figures are for each of this length
    own = practice.per or source.per or Fraction(1)
    least = nominal - (practice.minus or 0) / own if told else None
    most = nominal + (practice.plus or 0) / own if told else None
    cited = source_and_clause(practice.source, practice.clause)
    if source is not practice:
        cited += f", after {source.source}"
    return Adopted(practice, nominal, least, most, cited)
