"""Centers pressed on an axle: the mountings that are in force, and what their records tell."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book, Thing
from axlebook.records.condition import middle, values_of
from axlebook.records.practice import adopted, stand_of
from axlebook.records.session import Session
from axlebook.records.wheelset import Center

from ._by_limit import by_own_limits, computed


class Mounting(NamedTuple):
    """A center pressed on the axle that carries it now."""

    session: Session
    center: Center

    @property
    def subject(self) -> str:
        """Center and wheelset in shop words."""
        return f"{self.center.id} on {fields.text(self.session.tree, 'wheelset')}"


def mountings(book: Book) -> Iterator[Mounting]:
    """Every pressing-on whose center is still where it was pressed."""
    for session in book.past_sessions:
        center = book.centers.get(session.center) if session.kind == "mounting" else None
        if center is not None and fields.text(session.tree, "work") == "pressed on":
            later = [w for w in book.work_on.get(center.id, ()) if w.kind == "mounting"]
            if not later or later[-1].id == session.id:
                yield Mounting(session, center)


def seat_diameter(book: Book, mounting: Mounting) -> Fraction | None:
    """The axle's wheel seat: as the record says, or as last read on that end."""
    told = fields.exact(mounting.session.tree, "seat_diameter")
    if told is not None:
        return told
    end = Thing("end", fields.text(mounting.session.tree, "wheelset"), fields.text(mounting.session.tree, "side"))
    readings = [r for r in book.series.get((end, "wheel_seat_diameter"), ()) if _by(r.day.first, mounting.session)]
    return middle(values_of(book, readings[-1:]))


def _by(day: object, session: Session) -> bool:
    return day is not None and session.day.last is not None and day <= session.day.last  # type: ignore[operator]


def lacks(check: str, mounting: Mounting, key: str, quantity: str, words: str, next_step: str) -> Finding:
    """A figure of a pressing that is not judged, and why."""
    return Finding(
        check, Verdict.NOT_ASSESSED, Severity.SHOP, mounting.subject, mounting.session.place.below(key),
        f"{mounting.subject}: NOT judged: {words}.", next=next_step, quantity=quantity, cause=f"pressing: {words}",
    )  # fmt: skip


def against_practice(
    book: Book, check: str, mounting: Mounting, quantity: str, value: Fraction, size: Fraction, key: str,
    read: str, asks: tuple[str, Fraction], next_step: str,
) -> Iterator[Finding]:  # fmt: skip
    """A figure of a pressing held against the adopted practice, and against limits where there are any.

    `asks` is the unit it is said in, and its size.
    """
    said = _by_practice(book, check, mounting, quantity, value, size, key, read, asks, next_step)
    yield said
    yield from by_own_limits(book, stand_of(book, mounting.center), said, value, 0, read)


def _by_practice(
    book: Book, check: str, mounting: Mounting, quantity: str, value: Fraction, size: Fraction, key: str,
    read: str, asks: tuple[str, Fraction], next_step: str,
) -> Finding:  # fmt: skip
    """A figure of a pressing held against the adopted practice."""
    practice = next(adopted(book, mounting.center, quantity, size), None)
    if practice is None or practice.least is None or practice.most is None:
        title = book.vocabulary.derived[quantity].title
        lack = "for this size" if practice is None else "with a tolerance"
        step = "Adopt a practice with its tolerance, in a limit set of your own."
        return lacks(check, mounting, key, quantity, f"no practice on file {lack} for the {title}", step)
    verdict = Verdict.WITHIN if practice.least <= value <= practice.most else Verdict.OUTSIDE
    unit, one = asks
    least, most = (f"{float(x / one):.6g}" for x in (practice.least, practice.most))
    words = f"{mounting.subject}: {read}. The adopted practice asks {least} to {most} {unit}."
    return Finding(
        check, verdict, Severity.SHOP, mounting.subject, mounting.session.place.below(key),
        "" if verdict is Verdict.WITHIN else words,
        _figures({"fit": value, "least": practice.least, "most": practice.most}, unit, one), practice.cited, next_step,
        quantity,
    )  # fmt: skip


def _figures(amounts: dict[str, Fraction], unit: str, one: Fraction) -> tuple[Figure, ...]:
    """What was found and what is asked, as figures: lengths in millimetres, else in the unit they are said in."""
    if unit == "in":
        return tuple(computed(name, float(amount)) for name, amount in amounts.items() if name != "fit")
    return tuple(Figure(name.replace("fit", "force an inch"), repr(float(amount / one)), unit, "computed")
                 for name, amount in amounts.items())  # fmt: skip
