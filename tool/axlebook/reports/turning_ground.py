"""What the what-if of a turning lacks, and what it takes for granted."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from axlebook.checks._judging import reader, sort_limits
from axlebook.checks._not_known import not_on_record, without_figure
from axlebook.records.turning_case import Case
from axlebook.records.turning_wear import OF_SET
from axlebook.records.turning_wheels import DIAMETER, THICKNESSES, Wheel

from .amounts import Amounts
from .sheet import Gap
from .turning_words import as_gauged


def gaps(case: Case) -> Iterator[Gap]:
    """What is missing, one gap a cause, with the wheels it is about."""
    groups: dict[str, list[str]] = defaultdict(list)
    doubts: dict[str, list[str]] = defaultdict(list)
    for wheel in (*case.wheels, *(w for w in case.chosen.wheels if w.new)):
        for lacks in wheel.missing:
            groups[lacks].append(wheel.name)
        for doubt in dict.fromkeys(read.unsure for read in wheel.read.values() if read.unsure):
            doubts[doubt].append(wheel.name)
    for doubt, names in doubts.items():
        yield Gap(f"{', '.join(names)}, {doubt}", "Measure it again before anything is booked.")
    size = case.book.vocabulary.quantities[DIAMETER].title
    together: dict[tuple[str, str, str], list[str]] = defaultdict(list)  # what is to be read at a wheel is one job
    for lacks, names in groups.items():
        step = "Give" if "(--" in lacks else "Read"
        blocks = any(wheel.diameter is None and wheel.name in names for wheel in case.wheels) and lacks.startswith(size)
        then = "without it no way can be worked out" if blocks else "a cut may have to be deeper"
        together[_named(names, case), then, step].append(lacks)
    for (told, then, step), lacking in together.items():
        it = "it" if len(lacking) == 1 else "them"
        yield Gap(f"{told}: {', '.join(lacking)} not on record; {then}", f"{step} {it} before anything is booked.")
    thinnest: dict[tuple[str, str], list[str]] = defaultdict(list)
    for wheel in case.wheels:
        if unknown := limit_not_known(case, wheel):
            thinnest[unknown].append(wheel.name)
    for (lacks, step), names in thinnest.items():
        yield Gap(f"{_named(names, case)}: how thin the tire may become, {lacks}", step)
    for lacks in case.lacking:
        yield Gap(lacks, "Give the option, or enter it.")
    if case.setup.unsure:
        yield Gap(f"whether {', '.join(case.setup.unsure)} ran since turned or renewed", "Enter the service days.")


def _named(names: list[str], case: Case) -> str:
    return "every wheel" if len(names) == len(case.wheels) and len(names) > 2 else ", ".join(names)


def limit_not_known(case: Case, wheel: Wheel) -> tuple[str, str] | None:
    """What keeps limits on a tire's thickness from being applied, and where to write it; None where nothing does."""
    facets = reader(case.book, wheel.stand)
    for what in (one for one in THICKNESSES if one in wheel.read):
        found = sort_limits(case.book.limits_on(wheel.stand.engine, what), facets)
        lacking = [told for limit in found.sure if (told := without_figure(case.book, limit, facets))]
        if lacking or (found.perhaps and not found.sure):
            return lacking[0] if lacking else not_on_record(case.book, found.perhaps, facets)
    return None


def assumed(case: Case, show: Amounts) -> Iterator[str]:
    """What is worked to and taken for granted, each with where it comes from."""
    wheels = case.wheels
    for name, told in (("flange brought back to", {w.target for w in wheels if w.target and w.flanged}),
                       ("flange angle from the axle", {w.angle for w in wheels if w.angle and w.flanged})):  # fmt: skip
        for one in sorted(told):
            text = f"{float(one.value):g} deg" if "angle" in name else as_gauged(one.value, show)
            yield f"{name}: {text} ({one.origin})"
    if not any(wheel.clean_up for wheel in wheels):
        yield "nothing for clean-up: none is on file or asked for (--clean-up)"
    yield "a season is a year; rates are middle slopes of a tire's own readings, none across a turning"
    borrowed = [name for name, rates in case.setup.rates.items() if any(r.origin == OF_SET for r in rates.values())]
    if borrowed:
        yield f"too few readings of their own, so the rate of the set: {', '.join(borrowed)}"
    if case.setup.fresh:
        fresh = ", ".join(case.setup.fresh)
        yield f"turned or renewed before and not run since, so counted with what is turned: {fresh}"
    yield "a straight flange face: real throats are curved, so a template's own cut wins (--cut)"
    yield "the hollow's depth is taken from the diameter at the taping line"
    yield "metal lost counts, for tires that come off, what they still had to their limit"
    if case.chosen.life.unknown:
        yield f"life leaves out, for want of a rate: {', '.join(case.chosen.life.unknown)}"
