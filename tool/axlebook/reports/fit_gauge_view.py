"""The part of a fit's sheet that foretells the back-to-back: from the registers and both flange backs."""

from __future__ import annotations

from typing import NamedTuple

from axlebook.engineering.fitting import FitSums, register_pull_of
from axlebook.engineering.fitting_heat import FittingHeat
from axlebook.engineering.gauge import FlangeBack, Sense, back_to_back, stacked_tolerance
from axlebook.records import fields
from axlebook.records.book import Book, Thing
from axlebook.records.fit import TIRE_STEEL, Fit, Missing
from axlebook.records.pair import guard, length
from axlebook.records.tire import Tire
from axlebook.records.wheelset import Wheelset

from .amounts import Amounts
from .sheet import Gap, Line, Section, computed


class Stacked(NamedTuple):
    """A length of the stack, its tolerance where known, and where it comes from."""

    value: float
    tolerance: float | None
    origin: str


def gauge_section(
    book: Book, fit: Fit, sums: FitSums, heat: FittingHeat | None, show: Amounts
) -> tuple[Section | None, tuple[Gap, ...]]:
    """The predicted back-to-back, or what it lacks."""
    if fit.tire.located_by == "nothing":
        note = "This tire is located by nothing: it is set to gauge with bars and stops; the gauge readings carry all."
        return Section("Back-to-back", notes=(note,)), ()
    wheelset = book.wheelsets[_wheelset_of(book, fit)]
    sense = sense_of(wheelset)
    register, others = _register(book, wheelset), _other_tires(book, fit, wheelset)
    backs = [_flange_back(book, tire) for tire in (fit.tire, *others[:1])]
    gaps = tuple(_lacking(fit, wheelset, sense, register, backs, bool(others)))
    if gaps or sense is None or register is None:
        return None, gaps
    own, other = (back for back in backs if back is not None)
    found = back_to_back(register.value, FlangeBack(own.value, sense), FlangeBack(other.value, sense))
    return Section("Back-to-back", tuple(_lines(found, (register, own, other), sense, sums, heat, show))), ()


def _wheelset_of(book: Book, fit: Fit) -> str:
    spells = [spell for spell in book.standing.sides_of.get(fit.center.id, ()) if spell[2].until is None]
    return spells[-1][0] if spells and spells[-1][0] in book.wheelsets else fit.center.wheelset


def sense_of(wheelset: Wheelset) -> Sense | None:
    """Which way the flange backs stand from the registers; None where the record does not say."""
    told = fields.text(wheelset.register, "sense")
    if told.startswith("between the two outside"):
        return Sense.INWARD
    return Sense.OUTWARD if told.startswith("between the two inside") else None


def _register(book: Book, wheelset: Wheelset) -> Stacked | None:
    material = next((fields.text(c.tree, "material") for c in wheelset.centers), "")
    measured = _measured(book, Thing("wheelset", wheelset.id), "register_distance", material)
    nominal = fields.exact(wheelset.register, "nominal_distance")
    return measured or (None if nominal is None else Stacked(float(nominal), None, f"{wheelset.id}, nominal"))


def _other_tires(book: Book, fit: Fit, wheelset: Wheelset) -> list[Tire]:
    """The tire on the other center of the wheelset now, else the one ordered for it."""
    sides = [end for end in wheelset.ends if book.standing.center_on(wheelset.id, end, book.as_of) != fit.center.id]
    center = book.standing.center_on(wheelset.id, sides[0], book.as_of) if sides else ""
    on = book.standing.tire_on(center, book.as_of) if center else ""
    waiting = [t for t in book.tires.values() if t.for_center == center and not book.standing.centers_of.get(t.id)]
    return [*waiting, *([book.tires[on]] if on in book.tires else [])] if center else []


def _flange_back(book: Book, tire: Tire) -> Stacked | None:
    measured = _measured(book, Thing("tire", tire.id), "flange_back_to_register", TIRE_STEEL)
    nominal = tire.flange_back_to_register
    return measured or (None if nominal is None else Stacked(float(nominal), None, f"{tire.id}, nominal"))


def _measured(book: Book, thing: Thing, quantity: str, material: str) -> Stacked | None:
    """The readings of the last day as one length at 20 degC, as the checks take it; None where that cannot be."""
    every = book.series.get((thing, quantity), [])
    found = length(book, quantity, [r for r in every if r.day == every[-1].day], material) if every else None
    if found is None or isinstance(found, Missing):
        return None
    return Stacked(found.mean, guard(found) or None, found.readings[0].source.record)


def _lacking(
    fit: Fit, wheelset: Wheelset, sense: Sense | None, register: Stacked | None, backs: list[Stacked | None], pair: bool
) -> list[Gap]:
    gaps = []
    if register is None:
        gaps.append(Gap(f"the register distance of {wheelset.id} is not on record", "Measure it at three places."))
    if sense is None:
        gaps.append(Gap(f"{wheelset.id} does not say between which seats its register is", "Enter register: sense."))
    if not pair:
        gaps.append(Gap(f"no tire is known for the other center of {wheelset.id}", "Enter it, ordered or on."))
    if None in backs:
        gaps.append(Gap("flange back to register is not on record for both tires", "Measure it at three places."))
    return [Gap(f"back-to-back NOT foretold: {gap.cause}", gap.next) for gap in gaps[:1]]


def _lines(
    found: float, stack: tuple[Stacked, Stacked, Stacked], sense: Sense, sums: FitSums, heat: FittingHeat | None,
    show: Amounts,
) -> list[Line]:  # fmt: skip
    known = [one.tolerance for one in stack if one.tolerance is not None]
    figures = computed("back_to_back", found, "m")
    text = show.length(found, 3)
    if len(known) == len(stack):
        total = stacked_tolerance(known)
        figures += computed("back_to_back_worst_case", total.worst_case, "m")
        figures += computed("back_to_back_root_sum_square", total.root_sum_square, "m")
        worst, likely = show.length(total.worst_case, 3), show.length(total.root_sum_square, 3)
        text += f", {worst} each way at worst, {likely} likely"
    else:
        text += "; its tolerance is NOT known: part of the stack is nominal or its instrument's uncertainty not told"
    origin = "; ".join(one.origin for one in stack)
    lines = [Line("Back-to-back foretold", text, figures, f"both tires hard on their registers; {origin}", main=True)]
    if heat is not None:
        pull = register_pull_of(sums, max(0.0, heat.grip - heat.center_temperature))
        way = "narrower" if sense is Sense.INWARD else "wider"
        lines.append(
            Line(
                "Each tire may draw off its register by", f"up to {show.length(pull)} while it cools: {way}",
                computed("pull_off_register", pull, "m"), "a bound; clamp, and feel at three or more places, cold",
            )
        )  # fmt: skip
    return lines
