"""The story of a fit from the records: which readings, which practice, which limits, and what is missing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from axlebook.engineering.fitting import FitSums, fit_sums
from axlebook.engineering.fitting_heat import FittingHeat, fitting_heat
from axlebook.engineering.ring_stress import pressure_from_tread_growth
from axlebook.engineering.shrink_fit import seat_share
from axlebook.findings import Figure
from axlebook.limits import applies, judge, point
from axlebook.quantities import render_value
from axlebook.records.book import Book, Thing
from axlebook.records.bore_order import tire_on_since
from axlebook.records.facets import facet
from axlebook.records.fit import Fit, Missing, Size
from axlebook.records.fit_given import FitRecords, Told, gather_fit
from axlebook.records.fitting_clearance import clearance_on_file
from axlebook.records.practice import Adopted, adopted, engine_of, followed_astray, stand_of, waiting_practice
from axlebook.records.reading import Reading

from .amounts import Amounts
from .fit_gauge_view import gauge_section
from .fit_sizes_view import given_lines
from .fit_story import FitStory, Practised
from .sheet import Gap, Line, Table, computed
from .view import Day

HUGE = point(Fraction(10))  # metres: a tire that no limit condemns, to ask a limit for its figure


def story_of(
    book: Book, fit: Fit, day: Day, on_the_day: float | None = None, *, brief: bool = False
) -> FitStory | Missing:
    """The story of a fit, the center read `on_the_day` [K] where that is told; or what it cannot be told without."""
    found = gather_fit(book, fit, condemning_thickness(book, fit))
    if isinstance(found, Missing):
        return found
    sums, show = fit_sums(found.given), amounts_of(book, fit, brief=brief)
    heat, asked = None, clearance_on_file(book, fit)
    clearance = Told(float(asked[0]), asked[1]) if asked else None
    if on_the_day is not None:
        found = replace(found, center_temperature=Told(on_the_day, "--fitting-temperature"))
    if found.center_temperature:
        ceiling = found.heat_ceiling.value if found.heat_ceiling else None
        heat = fitting_heat(sums, found.center_temperature.value, ceiling, clearance.value if clearance else None)
    gauge, lacking = gauge_section(book, fit, sums, heat, show)
    return FitStory(
        subject=f"{fit.tire.id} on {fit.center.id}",
        sums=sums,
        heat=heat,
        amounts=show,
        yield_strength=found.yield_strength.value if found.yield_strength else None,
        origins=_origins(found, clearance),
        parts=fit.parts,
        practice=practised(book, fit, sums, show),
        readings=(_readings(fit, show),),
        warnings=tuple(_warnings(book, fit)),
        sizes=tuple(_sizes(book, fit, found, show)),
        gauge=gauge,
        measured_growth=tuple(_measured_growth(book, fit, sums, show)),
        missing=(*_to_measure(book, fit), *_gaps(fit, found, heat), *lacking),
        assumed=(*found.assumed, *_to_come(fit, found)),
        day=day,
        title="Shrink fit as applied" if fit.session else "Shrink fit, not yet applied",
    )


def _to_come(fit: Fit, found: FitRecords) -> Iterator[str]:
    """What is taken for granted while the tire is still to go on: no shim, and the center's temperature."""
    if fit.session is not None:
        return
    yield "no shim goes between tire and center"
    told = found.center_temperature
    if told is not None:
        yield f"the center is as warm when the tire goes on as told in {told.origin}; read it again on the day"


def _warnings(book: Book, fit: Fit) -> Iterator[Line]:
    """Readings that their card is not sure of; a tire that is meant for, or on, another center."""
    for reading in fit.unsure:
        text = f"{reading.named}, {reading.day.text}: marked {reading.sure} in {reading.source.record}; measure again"
        yield Line("Uncertain reading", text, main=True, alarm=True)
    if fit.session is not None:
        return
    meant = fit.tire.for_center
    if meant and meant != fit.center.id:
        text = f"{fit.tire.id} was ordered for {meant}, not for {fit.center.id}: they are not interchangeable"
        yield Line("Another center's tire", text, main=True, alarm=True)
    spells = book.standing.centers_of.get(fit.tire.id, ())
    on = next((center for center, spell in spells if spell.until is None or spell.until > book.as_of), "")
    if on and on != fit.center.id:
        yield Line("Not free", f"{fit.tire.id} is on {on} now", main=True, alarm=True)


def amounts_of(book: Book, fit: Fit, *, brief: bool = False) -> Amounts:
    """The engine's or ledger's own units first; alone where it must be brief."""
    return Amounts(book.in_mm(engine_of(book, fit.center)), brief)


def _origins(found: FitRecords, clearance: Told | None) -> dict[str, str]:
    told = {
        "heat_ceiling": found.heat_ceiling, "yield_strength": found.yield_strength, "clearance_on_file": clearance,
    }  # fmt: skip
    return {**found.origins, **{name: one.origin for name, one in told.items() if one}}


# -- practice and limits ----------------------------------------------------------------------------------------------


def practised(book: Book, fit: Fit, sums: FitSums, show: Amounts) -> Practised:
    """The interference against the practice in force."""
    size = fit.center.nominal_diameter or Fraction(fit.center_size.mean)
    practice = next(adopted(book, fit.center, "interference", size), None)
    if practice is None:
        if waiting_practice(book, fit.center)[0] == "in force" and followed_astray(book, fit.center) is None:
            told = f"the adopted one does not apply to this center of {show.length(float(size))}"
            return Practised(f"NOT JUDGED: {told}. Look at its `applies_to`, and from where to where its table goes")
        return Practised("NOT JUDGED: no practice on file for this center. Adopt one, with its source")
    nominal = show.length(float(practice.nominal))
    figures = practice_figures(practice)
    if practice.least is None or practice.most is None:
        text = f"aim {nominal}. NOT JUDGED: the adopted practice has no tolerance"
        return Practised(text, figures, practice.cited)
    asked = f"{show.length(float(practice.least))} to {show.length(float(practice.most))}"
    verdict = _verdict(Fraction(sums.interference), Fraction(sums.band), practice.least, practice.most)
    if fit.shim is None:
        verdict = "NOT JUDGED: the shims are not told"
    elif fit.unsure:
        verdict = "undecided, a reading is marked uncertain"
    return Practised(f"{verdict}: {asked}", figures, f"aim {nominal}; {practice.cited}", verdict.startswith("OUTSIDE"))


def _verdict(value: Fraction, band: Fraction, least: Fraction, most: Fraction) -> str:
    if value + band < least:
        return "OUTSIDE, UNDER"
    if value - band > most:
        return "OUTSIDE, OVER"
    return "within the practice on file" if least + band <= value <= most - band else "undecided, too uncertain"


def practice_figures(practice: Adopted) -> tuple[Figure, ...]:
    """Aim, least and most of a practice, exact."""
    told = (("practice_aim", practice.nominal), ("practice_least", practice.least), ("practice_most", practice.most))
    return tuple(
        Figure(name, render_value(value, "length", "mm", 12).partition(" ")[0], "mm", practice.practice.id)
        for name, value in told
        if value is not None
    )


def condemning_thickness(book: Book, fit: Fit) -> Told | None:
    """The thickest condemning limit in force for this tire on this center; None where none is on file."""
    stand = stand_of(book, fit.center)
    if stand is None:
        return None
    stand = stand._replace(tire=fit.tire)
    found: list[Told] = []
    for limit in book.limits_on(stand.engine, "tire_thickness"):
        if limit.stage != "condemning" or len(limit.conditions) > 1 or limit.conditions[0].seen:
            continue

        def read(name: str) -> Fraction | str | None:
            return facet(book, stand, name)

        if applies(limit.applies_to, read).answer is True:
            value = judge(limit, {"tire_thickness": HUGE}, read).value
            if value is not None:
                found.append(Told(float(value), limit.cited))
    return max(found, key=lambda told: told.value, default=None)


# -- readings ---------------------------------------------------------------------------------------------------------


def _sizes(book: Book, fit: Fit, found: FitRecords, show: Amounts) -> Iterator[Line]:
    for label, name, size in (
        ("Center outside diameter", "center_diameter", fit.center_size),
        ("Tire bore", "bore", fit.bore_size),
    ):
        figures = (*_as_written(name, size), *computed(name, size.mean, "m"))
        yield Line(label, show.length(size.mean), figures, _form(size, show))
    yield from given_lines(found.given, found.origins, show)


def _form(size: Size, show: Amounts) -> str:
    parts = [f"mean of {len(size.diameters)}"]
    round_ = size.out_of_round()
    if round_:
        parts.append(f"out of round {show.length(round_[0])}")
    taper = size.taper()
    if taper is not None:
        parts.append(f"taper, outer less inner, {show.length(taper)}")
    return "; ".join(parts)


def _as_written(name: str, size: Size) -> Iterator[Figure]:
    for diameter in size.diameters:
        unit = next((m.unit for p, many in diameter.reading.values if p == diameter.position for m in many), "")
        yield Figure(f"{name} {diameter.position}", diameter.text, unit, diameter.reading.source.record)


def _readings(fit: Fit, show: Amounts) -> Table:
    head = ("What", "Where and when", "By", "With", "Part", "Instrument", "As read", "Mean at 68 degF")
    rows = [
        _row(name, reading, size, show)
        for name, size in (("center", fit.center_size), ("bore", fit.bore_size))
        for reading in size.readings
    ]
    return Table("Readings this rests on", head, tuple(rows))


def _row(name: str, reading: Reading, size: Size, show: Amounts) -> tuple[str, ...]:
    mine = [d for d in size.diameters if d.reading is reading]
    low, high = min(mine, key=lambda d: d.read), max(mine, key=lambda d: d.read)
    as_read = low.text if len(mine) == 1 else f"{len(mine)}: {low.text} to {high.text}"
    return (
        name,
        f"{reading.source.record}, {reading.day.text}",
        ", ".join(reading.by) or "not told",
        reading.instrument or "not told",
        reading.part_temperature or "NOT READ",
        reading.instrument_temperature or "not read",
        as_read,
        show.length(sum(d.at_20 for d in mine) / len(mine)),
    )


def _measured_growth(book: Book, fit: Fit, sums: FitSums, show: Amounts) -> Iterator[Line]:
    """The growth that was taped, and the pressure it speaks for."""
    if fit.session is None:
        return
    every = book.series.get((Thing("tire", fit.tire.id), "tread_diameter"), ())
    taped = [r for r in every if r.source.record == fit.session.id]
    before = next((r for r in taped if r.when == "cold before"), None)
    after = next((r for r in taped if r.when == "cold after"), None)
    values = [_mean_at_20(book, r, sums) for r in (before, after) if r is not None]
    if len(values) < 2 or None in values:
        return
    growth = (values[1] or 0.0) - (values[0] or 0.0)
    given = sums.given
    share = seat_share(given.seat_width, given.tire_width)
    pressure = pressure_from_tread_growth(
        growth, given.seat_radius, given.tread_diameter / 2.0, given.tire_metal.modulus, share
    )
    yield Line(
        "Growth as taped",
        f"{show.length(growth)} at 68 degF: it speaks for a pressure of {show.stress(pressure)}",
        (*computed("tread_growth_taped", growth, "m"), *computed("pressure_from_growth", pressure, "Pa")),
        fit.session.id, main=True,
    )  # fmt: skip


def _mean_at_20(book: Book, reading: Reading, sums: FitSums) -> float | None:
    from axlebook.records.fit import TIRE_STEEL, size

    found = size(book, "tread_diameter", [reading], TIRE_STEEL)
    return None if isinstance(found, Missing) or found.doubt else found.mean


def _to_measure(book: Book, fit: Fit) -> Iterator[Gap]:
    """What is to be measured again: a center that a tire has been on since, a temperature that nobody read."""
    since = tire_on_since(book, fit.center, fit.center_size.readings) if fit.session is None else None
    if since is not None:
        yield Gap(
            f"the center was last measured {since[1].text}, and {since[0]} has been on it since",
            "Measure it again when that tire is off, before any heat: every figure here rests on it.",
        )
    for reading in (*fit.center_size.readings, *fit.bore_size.readings):
        instrument = book.instruments.get(reading.instrument)
        grows = instrument is not None and instrument.expansion != 0
        read = (("part", reading.part_temperature), ("instrument", reading.instrument_temperature or not grows))
        untold = " and of the ".join(name for name, told in read if not told)
        if untold:
            yield Gap(
                f"the temperature of the {untold} was not read in {reading.source.record}: not taken for 68 degF",
                "Measure again, with the temperature of part and instrument.",
            )


def _gaps(fit: Fit, found: FitRecords, heat: FittingHeat | None) -> Iterator[Gap]:
    yield from (Gap(one.cause, one.next) for one in found.missing)
    for size in (fit.center_size, fit.bore_size):
        for told in size.not_told:
            what = size.quantity.replace("_", " ")
            yield Gap(f"{told} is not on record ({what})", "Enter it in the instrument's record.")
    if found.heat_ceiling is None:
        yield Gap("the tire's heat ceiling is not on record", "Ask the tire's maker; enter steel: heat_ceiling.")
    if found.yield_strength is None:
        yield Gap("the tire's yield strength is not on record", "Enter it from the certificate, steel: yield_strength.")
    if heat is None:
        yield Gap("the center's temperature is not on record", "Read it when the center is measured, and on the day.")
    if found.given.condemning_thickness is None:
        yield Gap("no condemning limit on file for this tire's thickness", "Adopt the limit set that gives it.")


__all__ = ["amounts_of", "condemning_thickness", "practice_figures", "practised", "story_of"]
