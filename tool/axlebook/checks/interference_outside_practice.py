"""The shrink fit of a tire on its center is outside the practice the railway has adopted.

What is judged: for every tire now on a center whose application is on record, and every tire ordered for a center
and not yet on, the interference at 68 degF (20 degC): center diameter, plus twice a shim that runs full round, less
bore, each reading taken to 68 degF by the temperatures of part and instrument. It is held against the practice in
force for the engine, from the center's nominal diameter. The uncertainty of the readings is a guard band: within
only when all of it is inside, outside only when all of it is outside, else undecided. A temperature that nobody
read is never taken for 68 degF: it widens the band by what the shop's temperatures allow.

What to do: too little grips badly, too much stretches the tire. Before heat goes on measure bore and center again,
at three diameters and in three planes, with both temperatures written down; then talk to the machine shop. A tire
that is on is watched, not pulled, for a figure alone: look at the loose-tire signs and tape the tread.

Source: the practice named in the finding, adopted by the railway. Such figures are practice, not law.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.limits import STAGE_SEVERITY
from axlebook.records.book import Book
from axlebook.records.fit import Fit, Missing, applied_fits, find_fit, not_sure
from axlebook.records.practice import Adopted, adopted, engine_of, lacking
from axlebook.records.session import Session
from axlebook.records.squeeze import band_of
from axlebook.records.tire import Tire
from axlebook.records.unsure import NOT_SURE
from axlebook.records.wheelset import Center

from ._by_limit import banded, by_own_limits, computed
from ._tire_day import wheel
from ._words import figured

ID = "interference-outside-practice"
QUANTITIES = ("interference",)
SHIM_STEP = "Say which shims, how thick and whether full round, or `none`."
COLD = "Measure again, and write down the temperature of part and instrument."
NEXT = "Before heat goes on: measure bore and center again in three planes, with both temperatures."


def check(book: Book) -> Iterator[Finding]:
    """Judge the fit of every tire that is on by record, or ordered for a center."""
    for tire, center, session in applied_fits(book):
        fit = find_fit(book, tire, center, session)
        if isinstance(fit, Missing):
            if session or fit.reading:
                yield _missing(book, tire, center, session, fit)
        elif fit.shim is None:
            yield _missing(book, tire, center, session, Missing(fit.shim_lack, SHIM_STEP))
        else:
            yield (said := _judged(book, fit))
            value, on, band = Fraction(fit.interference), wheel(book, tire, center), band_of(fit)
            text = f"interference at 68 degF {figured(value, 'length', book.in_mm(engine_of(book, center)))}"
            yield from by_own_limits(book, on, said, value, band, text, unsure=bool(fit.unsure))


def _missing(book: Book, tire: Tire, center: Center, session: Session | None, found: Missing) -> Finding:
    at = found.reading.at if found.reading else book.place(session.id if session else tire.id)
    words = f"{tire.id} on {center.id}: the interference is NOT worked out: {found.cause}."
    return Finding(
        ID, Verdict.NOT_ASSESSED, Severity.SHOP, f"{tire.id} on {center.id}", at, words, next=found.next,
        quantity="interference", cause=f"fit: {found.cause}",
    )  # fmt: skip


def _judged(book: Book, fit: Fit) -> Finding:
    size = fit.center.nominal_diameter or Fraction(fit.center_size.mean)
    practice = next(adopted(book, fit.center, "interference", size), None)
    if practice is None or practice.least is None or practice.most is None:
        cause = "the adopted practice has no tolerance" if practice else lacking(book, fit.center, size)
        step = "Adopt a practice with its tolerance, in a limit set of your own."
        return _missing(book, fit.tire, fit.center, fit.session, Missing(cause, step, fit.bore_size.readings[0]))
    band, value = Fraction(band_of(fit)), Fraction(fit.interference)
    verdict = banded(value, band, practice.least, practice.most)
    if verdict is Verdict.WITHIN and (fit.not_told or fit.unsure):
        return _missing(book, fit.tire, fit.center, fit.session, _untrusted(fit))
    verdict = Verdict.UNDECIDED if fit.unsure else verdict
    at = book.place(fit.session.id) if fit.session else fit.tire.ordered_at
    return Finding(
        ID, verdict, STAGE_SEVERITY[practice.practice.stage], f"{fit.tire.id} on {fit.center.id}", at,
        _words(book, fit, value, band, practice, verdict), _figures(fit, value, band, practice), practice.cited,
        COLD if verdict is Verdict.UNDECIDED and fit.doubt else NEXT, "interference", "68 degF",
    )  # fmt: skip


def _untrusted(fit: Fit) -> Missing:
    """Why a fit that seems within is no pass: nobody knows how far its readings can be trusted."""
    if (unsure := not_sure(fit)) is not None:
        return unsure
    step = "Enter resolution or uncertainty in the instrument's record."
    return Missing(f"the {fit.not_told[0]} is not on record", step, fit.bore_size.readings[0])


def _words(book: Book, fit: Fit, value: Fraction, band: Fraction, practice: Adopted, verdict: Verdict) -> str:
    if verdict is Verdict.WITHIN or practice.least is None or practice.most is None:
        return ""
    mm, figures = book.in_mm(engine_of(book, fit.center)), (value, band, practice.least, practice.most)
    found, good, least, most = (figured(figure, "length", mm) for figure in figures)
    read = f"{fit.tire.id} on {fit.center.id}: interference at 68 degF {found}, good to {good}."
    asked = f"The adopted practice asks {least} to {most}."
    if verdict is Verdict.UNDECIDED:
        told = "a temperature was not read" if fit.doubt else "the readings are too uncertain"
        told = f"{fit.unsure[0].named}, {NOT_SURE}" if fit.unsure else told
        return f"{read} {asked} Undecided: {told}."
    return f"{read} {asked} It is {'under' if value < practice.least else 'over'}."


def _figures(fit: Fit, value: Fraction, band: Fraction, practice: Adopted) -> tuple[Figure, ...]:
    return (
        computed("interference", float(value)),
        computed("guard band", float(band)),
        computed("center diameter at 68 degF", fit.center_size.mean, fit.center_size.readings[0].source.record),
        computed("bore at 68 degF", fit.bore_size.mean, fit.bore_size.readings[0].source.record),
        computed("shim", fit.shim or 0.0),
        computed("least", float(practice.least or 0), practice.practice.id),
        computed("most", float(practice.most or 0), practice.practice.id),
    )
