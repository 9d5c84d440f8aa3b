"""Slips round a tire going on: the wrong center, a reading taken hot, a diameter that does not add up."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from .answer import Answer
from .figures import exact, like
from .ground import SEEN_FROM, Ground, Slip, Slips, figures_changed, wheels
from .readings import Reading
from .written import Written

STEEL = 6.5e-6  # expansion of steel [1/degF]
REFERENCE = 68.0  # degF
_SPAN = (140.0, 330.0)  # how hot a tire is when someone tapes it too soon [degF]


def _mean(reading: Reading) -> float:
    return float(sum((spot.exact for spot in reading.spots), Fraction(0)) / len(reading.spots))


def _degrees(text: object) -> float | None:
    words = str(text).split()
    if len(words) != 2 or words[1] not in ("degF", "degC"):
        return None
    return float(words[0]) if words[1] == "degF" else float(words[0]) * 9 / 5 + 32


def wrong_tire_on_center(ground: Ground) -> Slips:
    """Two tires of a pair change centers, or their bores change places, against what was ordered for each."""
    ways = ground.shuffled([_centers_exchanged(ground), _bores_exchanged(ground)])
    for way in ways:
        yield from way


def _centers_exchanged(ground: Ground) -> Iterator[Slip]:
    works = ground.of_kind("tire-applied")
    for first in works:
        for second in works:
            one, other = str(first.tree["center"]), str(second.tree["center"])
            same_pair = one.rpartition("-")[0] == other.rpartition("-")[0] and one < other
            if not same_pair or first.tree["applied_on"] != second.tree["applied_on"]:
                continue
            ordered = ground.records.get(f"tires/{first.tree['tire']}.yaml")
            if ordered is None or ordered.at("/ordered/for_center") != one:
                continue
            edits = (first.instead("/center", other), second.instead("/center", one))
            answer = Answer(
                "wrong-tire-on-center",
                first.path,
                ("/center", "/tire"),
                one,
                other,
                str(first.tree["tire"]),
                f"{first.tree['tire']} was ordered and bored for {one}",
                (second.path,),
            )
            yield Slip(answer, edits, ((first.path, ""), (second.path, "")))


def _bores_exchanged(ground: Ground) -> Iterator[Slip]:
    bores = ground.drawn("tire_bore")
    for first in bores:
        for second in bores:
            if first.day != second.day or first.part >= second.part or len(first.spots) != len(second.spots):
                continue
            seen_from = ground.seen_from(first, second)
            size = abs(_mean(first) - _mean(second))
            ordered = ground.records.get(f"tires/{first.part}.yaml")
            if size < seen_from or ordered is None or not ordered.at("/ordered/bore"):
                continue
            pairs = list(zip(first.spots, second.spots, strict=True))
            changes = [(first, one, other.text) for one, other in pairs]
            changes += [(second, other, one.text) for one, other in pairs]
            changes = [change for change in changes if change[1].text != change[2]]
            why = "each bore is the one that was ordered for the other center"
            slip = figures_changed(
                ground, "wrong-tire-on-center", changes, why, (), size=size, seen_from=seen_from
            )
            yield replace(slip, takes=((first.path, ""), (second.path, "")))


def hot_reading(ground: Ground) -> Slips:
    """Read hot: alpha x D x (T - 68 degF) too large; the temperature written as cold, or told."""
    for reading in ground.drawn("tire_bore", "tread_diameter"):
        record = ground.records[reading.path]
        cold = _degrees(record.at(f"{reading.pointer}/part_temperature"))
        if cold is None or (reading.quantity == "tread_diameter" and reading.when != "cold after"):
            continue
        hot = float(round(ground.rng.uniform(*_SPAN)))
        told = ground.rng.random() < 0.4
        over = hot - (cold if told else REFERENCE)
        one = ground.instruments[reading.instrument]
        seen_from = ground.seen_from(reading, reading)
        size = STEEL * _mean(reading) * over
        if size < 3 * seen_from:  # leaves room for what the temperature of the instrument does
            continue
        changes = [
            (reading, spot, like(spot.text, float(spot.exact) * (1 + STEEL * over), one.resolution))
            for spot in reading.spots
        ]
        temperature = record.instead(f"{reading.pointer}/part_temperature", f"{hot:.0f} degF")
        said = f"and {hot:.0f} degF is written beside it" if told else f"as a part at {hot:.0f} degF reads"
        slip = figures_changed(
            ground,
            "hot-reading",
            changes,
            f"larger than the part can be, {said}",
            (),
            size=size,
            seen_from=seen_from,
            extra=(temperature,) if told else (),
        )
        if told:
            pointers = (*slip.answer.pointers, f"{reading.pointer}/part_temperature")
            slip = replace(slip, answer=replace(slip.answer, pointers=pointers))
        yield slip


def diameter_does_not_add_up(ground: Ground) -> Slips:
    """A new tire's thickness, or its taped tread, that does not make diameter = bore + 2 x thickness."""
    for reading in ground.drawn("tire_thickness"):
        fellows = [one for one in ground.readings if one.part == reading.part and one.side == reading.side]
        bores = [one for one in fellows if one.quantity == "tire_bore" and one.path == reading.path]
        treads = [one for one in fellows if one.quantity == "tread_diameter" and one.when == "cold before"]
        if not bores or not treads or reading.spots[0].text.count("mm"):
            continue
        tread = min(treads, key=lambda one: abs((one.day - reading.day).days))
        if abs((tread.day - reading.day).days) > 60:
            continue
        parts = [(1.0, tread), (1.0, bores[0]), (2.0, reading)]
        seen_from = SEEN_FROM * math.hypot(
            *(share * ground.instruments[r.instrument].uncertainty for share, r in parts)
        )
        toward = ground.rng.choice((-1, 1))
        shift = toward * ground.rng.uniform(1.0, 3.0) * seen_from / 2
        step = ground.instruments[reading.instrument].resolution
        changes = [(reading, s, like(s.text, float(s.exact) + shift, step, toward)) for s in reading.spots]
        news = [float(exact(text) or 0) for _, _, text in changes]
        size = abs(_mean(tread) - _mean(bores[0]) - 2 * sum(news) / len(news))
        if size < seen_from:
            continue
        why = "bore + 2 x thickness is not the taped tread of this tire"
        slip = figures_changed(
            ground, "diameter-does-not-add-up", changes, why, (), size=size, seen_from=seen_from
        )
        yield replace(
            slip,
            leans=((bores[0].path, bores[0].pointer), (tread.path, tread.pointer)),
            wheels=(*wheels([reading]), *wheels([tread])),
        )


def crank_pin_as_datum(ground: Ground) -> Slips:
    """Angles counted from the crank pin, which is not the wheelset's datum mark."""
    for reading in ground.drawn("tire_thickness", "back_to_back"):
        record = ground.records[reading.path]
        degrees = [spot for spot in reading.spots if "deg" in spot.position]
        driver = ground.records.get(f"drivers/{reading.part}.yaml")
        if len(degrees) < 3 or driver is None or "mark" not in str(driver.tree.get("datum", "")):
            continue
        yield (
            _datum_of_reading(record, reading)
            if ground.rng.random() < 0.75
            else _datum_of_driver(driver, reading)
        )


def _datum_of_reading(record: Written, reading: Reading) -> Slip:
    edit = record.before(f"{reading.pointer}/values", "    from_datum: crank pin\n")
    answer = Answer(
        "crank-pin-as-datum",
        reading.path,
        (f"{reading.pointer}/from_datum", reading.pointer),
        "",
        "crank pin",
        reading.words,
        "the angles are not those of the datum mark: no figure meets its like",
    )
    return Slip(answer, (edit,), ((reading.path, reading.pointer),))


def _datum_of_driver(driver: Written, reading: Reading) -> Slip:
    before = str(driver.tree["datum"])
    answer = Answer(
        "crank-pin-as-datum",
        driver.path,
        ("/datum",),
        before,
        "right crank pin",
        reading.part,
        "a crank pin is no fixed mark: it is renewed and trued",
    )
    return Slip(answer, (driver.instead("/datum", '"right crank pin"'),), ((driver.path, "/datum"),))
