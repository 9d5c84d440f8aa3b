"""An engine under the brake, as a sheet: each tire's loosening temperature, minutes and stops, and their ground."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import Any

from axlebook.findings import Figure
from axlebook.records.brake_case import TireCase
from axlebook.records.brake_load import Load
from axlebook.records.engine import Engine
from axlebook.records.to_write import Lines

from .amounts import Amounts
from .as_json import figure_json
from .braking_sums import TireSums
from .braking_words import (
    NO_GRIP,
    NOTICE,
    WEAR,
    crew_sentence,
    power_words,
    short_sentence,
    time_words,
    warm_words,
)
from .sheet import Gap, Line, Section, Sheet, Table, computed
from .view import Day

HEAD = ("Power at one wheel", "Tire", "Thickness", "Lowest: tire alone", "Center warming", "Rise then")


def braking_sheet(
    engine: Engine, cases: list[TireCase], sums: list[TireSums], load: Load, show: Amounts, day: Day
) -> Sheet:
    """The sheet of an engine."""
    return Sheet(
        command="braking",
        title=f"Engine {engine.number or engine.id} under the brake: when the model has no grip left",
        subject=engine.id,
        lead=(f"{NOTICE}.",),
        sections=(_what(), *(_tire(one, show) for one in sums)),
        missing=(*_gaps(cases), *(Gap(m.cause, m.next) for m in load.missing)),
        assumed=tuple(one.words for one in load.assumed),
        day=day,
    )


def _what() -> Section:
    return Section("What this is", (Line("Read this first", f"{NOTICE}. {WEAR}", main=True),))


def _place(case: TireCase) -> str:
    return f"{case.stand.name}, {case.tire}{' (what-if)' if case.what_if else ''}"


def _tire(sums: TireSums, show: Amounts) -> Section:
    case = sums.case
    lines = [
        Line(_place(case), short_sentence(sums, show), fit_figures(sums), main=True, alarm=sums.rise <= 0),
        *_watched(case),
        Line("In plain words", crew_sentence(sums, show)),
        Line("Interference counted on", _counted(case, show), note=_origin(case)),
        *_stops(sums, show),
    ]
    if sums.faster:
        lines.append(Line("Worn to its limit", f"{sums.faster:.1f} times as fast as new, by the mass of the tire"))
    return Section(_place(case), tuple(lines), (_drags(sums, show),))


def _watched(case: TireCase) -> Iterator[Line]:
    if case.watch is not None and case.watch.suspect:
        told = ", ".join(sign.title for sign in case.watch.signs)
        text = f"this tire may be loose already ({told}); what follows counts on a fit that may be gone"
        yield Line("On the watch list", text, main=True, alarm=True)


def _counted(case: TireCase, show: Amounts) -> str:
    wheel = case.wheel
    assert wheel is not None
    if case.counted <= 0:
        return NO_GRIP
    lost = wheel.interference - wheel.uncertainty - wheel.ridges - wheel.growth - case.counted
    parts = [f"readings {show.length(wheel.uncertainty)}", f"ridges {show.length(wheel.ridges)}"]
    parts.append(f"speed {show.length(lost)}" if lost > 1e-12 else "speed NOT counted")
    parts.append(f"growth {show.length(wheel.growth)}" if wheel.growth else "growth NOT counted")
    what = "asked for" if case.what_if else "measured"
    return f"{show.length(case.counted)}, of {show.length(wheel.interference)} {what}; less {', '.join(parts)}"


def _origin(case: TireCase) -> str:
    if case.fit is None:
        return "--interference: a what-if, no record"
    records = {r.source.record: None for size in (case.fit.center_size, case.fit.bore_size) for r in size.readings}
    return ", ".join(records)


def _stops(sums: TireSums, show: Amounts) -> Iterator[Line]:
    for stop in sums.stops:
        row = stop.in_a_row
        count = f"{math.floor(row * 10) / 10:g}" if row < 10 else f"{math.floor(row)}"
        yield Line(
            f"One stop, {stop.thickness.word} ({show.length(stop.thickness.metres, 3)})",
            f"{show.rise(stop.rise)} hotter; {count} in a row, no heat lost between, reach the loosening rise",
        )


def _drags(sums: TireSums, show: Amounts) -> Table:
    rows = [
        (
            f"{power_words(drag.power.at_wheel)}, {drag.power.words}",
            drag.thickness.word,
            show.length(drag.thickness.metres, 3),
            time_words(drag.seconds),
            *warm_words(drag, show),
        )
        for drag in sums.drags
    ]
    return Table("Until the model has no grip left, brake held steady", HEAD, tuple(rows))


def _gaps(cases: Iterable[TireCase]) -> Iterator[Gap]:
    """What is missing, one gap a cause, with the tires it is about."""
    groups: dict[tuple[str, str, bool], list[tuple[str, Lines | None]]] = defaultdict(list)
    for case in cases:
        for missing in case.missing:
            groups[missing.cause, missing.next, case.wheel is None].append((case.tire, missing.write))
    for (cause, step, whole), told in groups.items():
        tires = ", ".join(tire for tire, _ in told)
        writes = tuple(dict.fromkeys(write for _, write in told if write))
        yield Gap(f"{tires}{' not assessed' if whole else ''}: {cause}", step, writes)


# -- figures for other programs ---------------------------------------------------------------------------------------


def fit_figures(sums: TireSums) -> tuple[Figure, ...]:
    """What depends on the fit alone."""
    wheel = sums.case.wheel
    assert wheel is not None
    return (
        *computed("interference", wheel.interference, "m"),
        *computed("uncertainty_taken_off", wheel.uncertainty, "m"),
        *computed("ridges_taken_off", wheel.ridges, "m"),
        *computed("growth_taken_off", wheel.growth, "m"),
        *computed("interference_counted", sums.case.counted, "m"),
        *computed("loosening_rise", sums.rise, "K difference"),
        *computed("loosening_temperature", sums.temperature, "K"),
    )


def braking_result(sheet: Sheet, sums: list[TireSums]) -> dict[str, Any]:
    """What the JSON report holds: the sheet, its figures in rows so that they can be told apart."""
    return {**sheet.result(), "figures": [], "rows": [row for one in sums for row in _rows(one)]}


def _rows(sums: TireSums) -> Iterator[dict[str, Any]]:
    case = sums.case

    def row(what: str, thickness: str, figures: tuple[Figure, ...]) -> dict[str, Any]:
        return {
            "case": what, "place": case.stand.name, "tire": case.tire, "what_if": case.what_if,
            "thickness": thickness, "figures": [figure_json(figure) for figure in figures],
        }  # fmt: skip

    yield row("fit", "", fit_figures(sums))
    for stop in sums.stops:
        figures = (
            *computed("thickness", stop.thickness.metres, "m"),
            *computed("rise_of_a_stop", stop.rise, "K difference"),
            *computed("stops_in_a_row", stop.in_a_row, "1"),
        )
        yield row("stop", stop.thickness.word, figures)
    for drag in sums.drags:
        warm = drag.warm
        figures = (
            *computed("thickness", drag.thickness.metres, "m"),
            *computed("power_at_wheel", drag.power.at_wheel, "W"),
            *computed("power_into_wheel", drag.power.into_wheel, "W"),
            *computed("seconds_tire_alone", drag.seconds, "s"),
            *computed("seconds_center_warming", warm.seconds if warm else None, "s"),
            *computed("rise_center_warming", warm.rise if warm else None, "K difference"),
        )
        yield row("drag", drag.thickness.word, figures)
