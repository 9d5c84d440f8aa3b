"""The published figures of `limits/*.csv`, row by row, and which shipped limits answer each.

A row's words for what it applies to are read by `READ`: facts for which it must hold, and facts just beyond for
which it must not.
"""

import csv
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from axlebook.findings import Verdict
from axlebook.limits import FacetValue, Limit, LimitSet, applies, judge, point
from axlebook.quantities import NotAMeasure, Quantity, parse_measure, parse_quantity
from axlebook.records.limit_set import build_limit_set

HERE = Path(__file__).parent
TOP = HERE.parents[1]
LEDGER = TOP / "ledger"
SETS = sorted((LEDGER / "limits").glob("*.yaml"))
PLANS = sorted((LEDGER / "plans").glob("*.yaml"))
TABLES = {
    "de-ebo-anlage-6": "mm",
    "at-eisbbbv-anlage-2": "mm",
    "de-bo-1904-historic": "mm",
    "ca-passenger-and-freight-cars": "in",
    "us-49-cfr-230": "",
}
Row = dict[str, str]
Facts = dict[str, str]

# Names of the published tables that are not ours.
CALLED = {
    "flange_play_in_gauge": ["track_gauge_less_over_flanges"],
    "wheel_fixed_on_axle": ["wheel_moved"],
    "wear_groove_monobloc": ["wear_groove_missing"],
    "heat_discoloration": ["discoloration_depth"],
    "flange_chip": ["chip_length", "chip_width"],
    "wheel_loose": ["wheel_moved", "loose_center"],
    "axle_overheat_weld": ["axle_overheated"],
}
STATES = {"axle_crack": ["axle_crack", "bent_axle"]}
PLAIN: Facts = {
    "track_gauge": "4 ft 8 1/2 in",
    "vehicle": "locomotive",
    "traffic": "inland",
    "role": "driver",
}
PLAIN |= {
    "intermediate": "no",
    "retarders": "no",
    "thinned_flange": "no",
    "make": "tired",
    "wheel_diameter": "900 mm",
}


def facts_of(text: str) -> Facts:
    return dict(part.strip().split("=") for part in text.split(";") if part.strip())


def both(*texts: str) -> list[Facts]:
    return [facts_of(text) for text in texts]


LARGE = both("wheel_diameter=840.1 mm"), both("wheel_diameter=840 mm")
SMALL = (
    both("wheel_diameter=330 mm", "wheel_diameter=840 mm"),
    both("wheel_diameter=329.9 mm", "wheel_diameter=840.1 mm"),
)
ANY = both("wheel_diameter=330 mm"), both("wheel_diameter=329.9 mm")
CAR, FREIGHT = "vehicle=passenger car", "vehicle=freight car"
COACH_ABROAD = "vehicle=coach; traffic=cross-border"


def only(
    given: tuple[list[Facts], list[Facts]], holds: str = "", beyond: str = ""
) -> tuple[list[Facts], list[Facts]]:
    """Facts for which a row holds with more asked of it, and those that fail either way."""
    more = facts_of(holds)
    failing = [{**fact, **more} for fact in given[1]]
    if beyond:
        failing += [{**fact, **facts_of(beyond)} for fact in given[0]]
    return [{**fact, **more} for fact in given[0]], failing


def diameters(inside: list[str], beyond: list[str]) -> tuple[list[Facts], list[Facts]]:
    return [{"wheel_diameter": size} for size in inside], [{"wheel_diameter": size} for size in beyond]


MIDDLE = "intermediate=yes"
EVERYWHERE = both(""), both("track_gauge=1000 mm")
THIN = "; not special thinned-flange gear (fn 7)"
OLD = "1435 mm gauge, locomotives, tenders and wagons, main and branch lines"
FREIGHT_CARS = "freight cars, cabooses, service cars"
PASSENGER = "passenger cars, trains up to 125 mph"
STRAIGHT = ", straight plate wheel"
WORSE = ", straight plate wheel with rim and plate discoloration, or any visible tread defect"
READ: dict[str, tuple[list[Facts], list[Facts]]] = {
    "all": EVERYWHERE,
    "one-piece wheels": (both("make=one-piece"), both("make=tired")),
    "intermediate wheelsets": (both(f"{MIDDLE}; wheel_diameter=500 mm", MIDDLE), both("intermediate=no")),
    "diameter > 840": LARGE,
    "diameter > 840, except intermediate wheelsets": only(LARGE, "", MIDDLE),
    "diameter 330 to 840 (both incl.)": SMALL,
    "diameter 330 to 840 (both incl.), except intermediate wheelsets": only(SMALL, "", MIDDLE),
    "diameter >= 330": ANY,
    "diameter >= 330, not cross-border": only(ANY, "traffic=inland", "traffic=cross-border"),
    "diameter >= 330, not cross-border, beam retarders not needed": only(ANY, "", "retarders=yes"),
    "diameter >= 330, where beam retarders must act": only(ANY, "retarders=yes", "retarders=no"),
    "diameter >= 330, cross-border traffic": only(ANY, "traffic=cross-border", "traffic=inland"),
    "diameter > 840, not cross-border": only(LARGE, "", "traffic=cross-border"),
    "diameter > 840, cross-border traffic": only(LARGE, "traffic=cross-border", "traffic=inland"),
    f"diameter > 840, not cross-border{THIN}": only(LARGE, "", "thinned_flange=yes"),
    f"diameter > 840, cross-border traffic{THIN}": only(LARGE, "traffic=cross-border", "thinned_flange=yes"),
    f"diameter 330 to 840 (both incl.){THIN}": only(SMALL, "", "thinned_flange=yes"),
    "diameter > 760": diameters(["760.1 mm"], ["760 mm"]),
    "diameter 330 to 760 (both incl.)": diameters(["330 mm", "760 mm"], ["329.9 mm", "760.1 mm"]),
    "diameter >= 760": diameters(["760 mm"], ["759.9 mm"]),
    "diameter >= 630 and < 760": diameters(["630 mm", "759.9 mm"], ["629.9 mm", "760 mm"]),
    "diameter >= 330 and < 630": diameters(["330 mm", "629.9 mm"], ["329.9 mm", "630 mm"]),
    "diameter >= 330, except coaches in cross-border traffic": only(ANY, "", COACH_ABROAD),
    "diameter >= 330, coaches in cross-border traffic": only(ANY, COACH_ABROAD, "vehicle=coach"),
    OLD: EVERYWHERE,
    f"{OLD}, except middle wheels": (both(""), both(MIDDLE)),
    f"{OLD}, middle wheels": (both(MIDDLE), both("")),
    f"{OLD}, middle wheels of three or more axles in one frame": (both(MIDDLE), both("")),
}
for words, car, other in ((PASSENGER, CAR, FREIGHT), (FREIGHT_CARS, FREIGHT, CAR)):
    READ[words] = both(f"{car}; plate=curved"), both(other, "vehicle=locomotive")
    READ[words + STRAIGHT] = both(f"{car}; plate=straight; discolored=no"), both(f"{car}; plate=curved")
    READ[words + WORSE] = (
        both(f"{car}; plate=straight; discolored=yes"),
        both(f"{car}; plate=straight; discolored=no"),
    )


def rows_of(name: str) -> list[Row]:
    with (HERE / "limits" / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@cache
def tree_of(path: Path) -> Any:
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CBaseLoader)


@cache
def shipped(name: str) -> LimitSet:
    return build_limit_set(name, f"limits/{name}.yaml", tree_of(LEDGER / "limits" / f"{name}.yaml"))


def reader(facts: Facts) -> Callable[[str], FacetValue | None]:
    known = {**PLAIN, **facts}

    def facet(name: str) -> FacetValue | None:
        try:
            measure = parse_measure(known[name])
        except (KeyError, NotAMeasure):
            return known.get(name)
        return measure.exact if isinstance(measure, Quantity) else None

    return facet


def holds(limit: Limit, facts: Facts) -> bool | None:
    return applies(limit.applies_to, reader(facts)).answer


def tidied(text: str) -> str:
    """The table's words without glosses in the other language and without the word they share."""
    for gloss in (" (Zwischenradsätze), any dia", " (Reisezugwagen)"):
        text = text.replace(gloss, "")
    return text.removeprefix("wheel ")


def read_row(name: str, row: Row) -> tuple[list[Facts], list[Facts]]:
    if name == "us-49-cfr-230":
        inside = facts_of(row["applies_to"])
        other_gauge = {"track_gauge": "600 mm"}
        return [inside], [{**inside, **other_gauge}]
    return READ[tidied(row["applies_to"])]


def quantities(row: Row) -> list[str]:
    if row["bound"] == "state":
        return STATES.get(row["quantity"]) or CALLED.get(row["quantity"], [row["quantity"]])
    if row["quantity"] == "shelled_spot":
        return ["shelled_width", "shelled_length"]
    if row["quantity"] == "flat_length" and "adjoining" in row.get("measured", ""):
        return ["shorter_of_adjoining_flats"]
    return CALLED.get(row["quantity"], [row["quantity"]])


def figures(row: Row, unit: str) -> list[Fraction]:
    """The figure, or two joined by AND, exact."""
    text = row["limit"].removesuffix(" in") if " AND " in row["limit"] else row["limit"]
    parts = [part.removesuffix(" long").removesuffix(" wide") for part in text.split(" AND ")]
    unit = unit or ("in" if len(parts) > 1 else "")
    return [parse_quantity(f"{part} {unit}".strip()).exact for part in parts]


def candidates(name: str, row: Row) -> list[Limit]:
    """Limits of the set that judge the row's quantity under the row's clause, for all that it holds for."""
    inside, beyond = read_row(name, row)
    wanted = quantities(row)
    state = row["bound"] == "state"

    def fits(limit: Limit) -> bool:
        names = [limit.conditions[0].seen] if state else list(limit.quantities)
        named = names[0] in wanted and bool(names[0]) if state else names == wanted
        return named and row["clause"].split(" or ")[0] in limit.clause

    found = [limit for limit in shipped(name).limits if fits(limit)]
    return [
        limit
        for limit in found
        if all(holds(limit, fact) for fact in inside) and not any(holds(limit, fact) for fact in beyond)
    ]


def judged_by(limit: Limit, values: list[Fraction], facts: Facts) -> Verdict:
    spans = {quantity: point(value) for quantity, value in zip(limit.quantities, values, strict=True)}
    return judge(limit, spans, reader(facts)).verdict


def answering(name: str, row: Row, unit: str) -> Iterator[Limit]:
    """The limits that turn over exactly at the row's figure, on the side the row says."""
    if row["bound"] == "state":
        yield from candidates(name, row)
        return
    at = figures(row, unit)
    outward = 1 if row["bound"] == "max" else -1
    step = Fraction(1, 1000) * outward
    facts = read_row(name, row)[0][0]
    on_limit = Verdict(row["reading_on_limit_is"])
    wanted = (on_limit, Verdict.OUTSIDE, Verdict.WITHIN)
    for limit in candidates(name, row):
        small = step * (1 if at[0] >= 1 else Fraction(254, 10000))
        got = (
            judged_by(limit, at, facts),
            judged_by(limit, [value + small for value in at], facts),
            judged_by(limit, [at[0] - small, *at[1:]], facts),
        )
        if got == wanted:
            yield limit
