"""One engine a case: the smallest records that carry one reading, and what the published row says of it.

A row of `rows/*.yaml`:

    {clause: 230.113(g), check: flange-thin, quantity: flange_thickness, out: at_most 15/16 in, given: {..}}

`out` is how the print says outside. From it come six cases: exactly on the figure, a thousandth of an inch inside
and outside, each in inches and in mm, the same exact value. `cases` gives texts and verdicts one by one, for counts,
shares and what is not judged. `given` is what is on record of the thing.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Any

import yaml

from axlebook.checks import find_check
from axlebook.findings import Finding, Verdict
from axlebook.quantities import Quantity, parse_measure
from axlebook.records.book import Book
from axlebook.run import read_book
from axlebook.sources.names import Entry
from axlebook.sources.vocabulary import read_vocabulary

HERE = Path(__file__).parent
LIMITS = HERE.parents[1] / "ledger" / "limits"
INCH, MM = Fraction("0.0254"), Fraction(1, 1000)
STEP = INCH / 1000
Row = dict[str, Any]
DAY = "2026-01-10"
OTHER_SIDE = {"left": "right", "right": "left"}


@dataclass(frozen=True)
class Case:
    """One case of a row: its engine's number, what is read, and the verdict that the print gives."""

    number: int
    row: Row
    text: str
    value: Fraction | None
    unit: str
    verdict: str

    @property
    def engine(self) -> str:
        """The engine that the case stands on."""
        return f"e-{self.number}"

    @property
    def name(self) -> str:
        """A name for the test."""
        return f"{self.row['clause']} {self.row['quantity']} {self.text} is {self.verdict}"

    def written(self, value: Fraction) -> str:
        """A length in the unit of the case, exact."""
        return written(value, self.unit)


def written(value: Fraction, unit: str) -> str:
    """A length exactly, as a decimal where it is one, else as a fraction.

    >>> written(Fraction("1.426"), "in"), written(Fraction("0.0254"), "mm")
    ('56 18/127 in', '25.4 mm')
    """
    number = value / (INCH if unit == "in" else MM)
    sign, number = ("-" if number < 0 else ""), abs(number)
    for places in range(9):
        if (number * 10**places).denominator == 1:
            digits = f"{int(number * 10**places):0{places + 1}d}"
            return f"{sign}{digits[:-places]}.{digits[-places:]} {unit}" if places else f"{sign}{digits} {unit}"
    whole, part = divmod(number, 1)
    return f"{sign}{whole} {part.numerator}/{part.denominator} {unit}"


def exact(text: str) -> Fraction:
    """The value of a text in SI."""
    measure = parse_measure(text)
    assert isinstance(measure, Quantity)
    return measure.exact


def cases_of(rows: list[Row]) -> Iterator[Case]:
    """Every case of some rows, numbered."""
    number = 0
    for row in rows:
        for text, value, unit, verdict in _texts(row):
            number += 1
            yield Case(number, row, text, value, unit, verdict)


def _texts(row: Row) -> Iterator[tuple[str, Fraction | None, str, str]]:
    for text, verdict in row.get("cases", []):
        unit = "mm" if text.endswith("mm") else "in"
        yield text, exact(text) if text.split(" ")[-1] in ("in", "mm") else None, unit, verdict
    if "out" not in row:
        return
    word, _, figure = row["out"].partition(" ")
    at = exact(figure)
    outward = STEP if word in ("over", "at_least") else -STEP
    on_figure = "outside" if word in ("at_least", "at_most") else "within"
    for value, verdict in ((at, on_figure), (at + outward, "outside"), (at - outward, "within")):
        for unit in ("in", "mm"):
            yield written(value, unit), value, unit, verdict


# -- the records of one case -----------------------------------------------------------------------------------------


def records(case: Case) -> dict[str, Any]:
    """The records of one case by path."""
    given = case.row.get("given", {})
    role = given.get("role", "driver")
    wheels = given.get("wheelsets", 1)
    found: dict[str, Any] = {}
    lines = [_line(case, role, n) for n in range(1, int(wheels) + 1)]
    for n in range(1, int(wheels) + 1):
        found |= _wheelset(case, role, n)
    found[f"engines/{case.engine}.yaml"] = _engine(case, lines)
    readings, seen = _read(case, f"{role}-1")
    session: dict[str, Any] = {"kind": "inspection", "measured_on": DAY, "engine": case.engine, "purpose": "periodic"}
    session |= {"by": ["lead"], "setup": {"hold": "under the engine"}}
    found[f"inspections/2026/{DAY}-{case.engine}.yaml"] = session | {"readings": readings, "observations": seen}
    if "renewed" in given:
        found |= _renewed(case, int(wheels), given["renewed"])
    return found


def _line(case: Case, role: str, n: int) -> Any:
    line = {"at": f"{role}-{n}", "wheelset": f"w-{case.number}-{n}", "from": "2020-01-01"}
    given = case.row.get("given", {})
    if role != "driver":
        line["a_end"] = "left"
    return line | {key: given[key] for key in ("intermediate", "position") if key in given}


def _engine(case: Case, lines: list[Any]) -> Any:
    given = case.row.get("given", {})
    facets = {key: given[key] for key in FACETS if key in given}
    found: dict[str, Any] = {"kind": "engine", "overrides": {"track_gauge": given.get("track_gauge", "4 ft 8 1/2 in")}}
    found |= {"facets": facets} if facets else {}
    if "axle_load" in given and given.get("role", "driver") == "driver":
        found["weight_on_drivers"] = {"value": given["axle_load"]}
    return found | {"wheelsets": lines}


FACETS = ("vehicle", "traffic", "retarders", "thinned_flange", "centering", "buffers", "brake_gear", "pin",
          "discolored", "track_class")  # fmt: skip


def _wheelset(case: Case, role: str, n: int) -> dict[str, Any]:
    given = case.row.get("given", {})
    id, made = f"w-{case.number}-{n}", given.get("made", "tired" if role == "driver" else "one-piece")
    sides = ("left", "right") if role == "driver" else ("A", "B")
    axle = {"main": given.get("main", "no")} if role == "driver" else {}
    axle |= {key: given[key] for key in ("original_journal_diameter",) if key in given}
    if "axle_load" in given and role != "driver":
        axle["axle_load"] = given["axle_load"]
    tree: dict[str, Any] = {"kind": "driver" if role == "driver" else "wheelset", "axle": axle}
    if role != "driver":
        tree |= {"made": made, "nominal_diameter": given.get("wheel_diameter", "30 in")}
        tree |= {"plate": given["plate"]} if "plate" in given else {}
    found: dict[str, Any] = {}
    if made == "tired":
        key = "first_side" if role == "driver" else "first_end"
        center = {"nominal_diameter": given.get("center_diameter", "44 in"), "spokes": given.get("spokes", "14")}
        tree["centers"] = {f"{id}-{side.lower()}": {key: side} | center for side in sides}
        for side in sides:
            found |= _tire(case, f"t-{case.number}-{n}-{side.lower()}", f"{id}-{side.lower()}")
    return {f"{'drivers' if role == 'driver' else 'wheelsets'}/{id}.yaml": tree, **found}


def _tire(case: Case, tire: str, center: str) -> dict[str, Any]:
    given = case.row.get("given", {})
    form = {"flange": given.get("flange", "flanged"), "fastened_by": given.get("fastened_by", "nothing")}
    form = {key: value for key, value in form.items() if value}
    shims: Any = "none"
    if case.row["quantity"] == "shim_thicknesses":
        count = int(case.text.split(" ")[0])
        shims = [{"thickness": "0.020 in", "full_round": "yes", "laps": "no"}] * count or "none"
    work = {"kind": "tire-found", "found_on": "2020-01-01", "tire": tire, "center": center, "shims": shims}
    return {f"tires/{tire}.yaml": {"kind": "tire", "form": form},
            f"tire-work/2020/2020-01-01-{tire}.yaml": work}  # fmt: skip


def _renewed(case: Case, wheels: int, what: str) -> dict[str, Any]:
    """A turning the day before, and no service day since."""
    tires = [f"t-{case.number}-{n}-{side}" for n in range(1, wheels + 1) for side in ("left", "right")]
    cut = {"all": tires, "single pair": tires[:2], "single tire": tires[:1]}[what]
    turning = {"kind": "turning", "turned_on": "2026-01-09", "engine": case.engine, "tires": cut}
    service = {"kind": "service", "engine": case.engine, "month": "2025-07", "days": [{"day": "2025-07-04"}]}
    return {f"turnings/2026/2026-01-09-{case.engine}.yaml": turning,
            f"service/{case.engine}-2025-07.yaml": service}  # fmt: skip


# -- what was read ---------------------------------------------------------------------------------------------------


def _read(case: Case, at: str) -> tuple[list[Any], list[Any]]:
    """The readings and observations that carry the value of a case."""
    quantity, given = case.row["quantity"], case.row.get("given", {})
    words = read_vocabulary()
    if quantity == "shim_thicknesses":
        return [], []
    build = WORKED_OUT.get(quantity)
    if build is not None:
        return build(case, at, case.value, given), []
    if quantity in ("adjacent_broken_spokes", "broken_spoke_share"):
        return [], [{"looked_for": "broken_spoke", "place": f"{at} left", "answer": "seen"} | _spokes(case)]
    if quantity.startswith("shorter_of_adjoining"):
        word = "flat" if "flat" in quantity else "shelled_spot"
        assert case.value is not None
        lengths = (case.value, case.value + INCH / 8)
        return [], [_spot(word, f"{at} left", {"length": case.written(length)}) for length in lengths]
    for seen in words.observations.values():
        if quantity in seen.sizes and quantity not in words.quantities:
            extra = case.row.get("with", {})
            return [], [_spot(seen.name, f"{at} left", {words.sizes[quantity].key: case.text} | extra)]
    if quantity in words.observations:
        of = words.observations[quantity].of
        side = "" if of == "wheelset" else " left"
        return [], [{"looked_for": quantity, "place": given.get("place", at + side), "answer": case.text}]
    of = words.quantities[quantity].of
    side = "" if of == "wheelset" else " left"
    return [_reading(quantity, given.get("place", at + side), {"worst": case.text}, given.get("where", ""))], []


def _spot(word: str, place: str, sizes: dict[str, str]) -> Any:
    return {"looked_for": word, "place": place, "answer": "seen"} | sizes


def _spokes(case: Case) -> Any:
    numbers = case.row.get("given", {}).get("numbers", {}).get(case.text)
    return {"spokes": numbers} if numbers else {"count": case.text.split(" ")[0]}


def _reading(quantity: str, place: str, values: dict[str, str], where: str = "") -> Any:
    key = "part" if place.startswith("t-") else "place"
    return {"quantity": quantity, key: place, "values": values} | ({"where": where} if where else {})


def _diameters(case: Case, at: str, value: Fraction, given: Any) -> list[Any]:
    """All wheels alike but the first, which differs by the value; for an average, so that both of a pair do."""
    base, found = 50 * INCH, []
    wheels = int(given.get("wheelsets", 1))
    role = at.rpartition("-")[0]
    for n in range(1, wheels + 1):
        for side in ("left", "right"):
            size = base
            if case.row["quantity"] == "diameter_less_base_average":
                size += value * wheels / (wheels - 1) if n == 1 else 0
            elif n == 1 and side == "left":
                size += value
            found.append(_reading("tread_diameter", f"{role}-{n} {side}", {"all round": case.written(size)}))
    return found


def _journal(case: Case, at: str, value: Fraction, given: Any) -> list[Any]:
    left = exact(given["original_journal_diameter"]) - value
    return [_reading("journal_diameter", f"{at} left", {"0 deg": case.written(left)})]


def _less_back(case: Case, at: str, value: Fraction, given: Any) -> list[Any]:
    return [_reading("back_to_back", at, {"0 deg": case.written(exact(given["track_gauge"]) - value)})]


def _varied(case: Case, at: str, value: Fraction, given: Any) -> list[Any]:
    base = Fraction(53) * INCH
    values = {"0 deg": case.written(base), "120 deg": case.written(base + value), "240 deg": case.written(base)}
    return [_reading("back_to_back", at, values)]


def _over(case: Case, at: str, value: Fraction, given: Any) -> list[Any]:
    plane, flange = "10 mm outside measuring circle", 30 * MM
    return [_reading("back_to_back", at, {"0 deg": case.written(value - 2 * flange)})] + [
        _reading("flange_thickness", f"{at} {side}", {"worst": case.written(flange)}, plane)
        for side in ("left", "right")
    ]


def _play(case: Case, at: str, value: Fraction, given: Any) -> list[Any]:
    return _over(case, at, exact(given["track_gauge"]) - value, given)


def _ring(case: Case, at: str, value: Fraction, given: Any) -> list[Any]:
    tire = f"t-{case.number}-1-left"
    return [
        _reading("thickness_from_ring", f"{at} left", {"0 deg": case.written(value - INCH / 4)}),
        _reading("ring_extension", tire, {"worst": "1/4 in"}),
    ]


def _check_gage(case: Case, at: str, value: Fraction, given: Any) -> list[Any]:
    return [_reading("back_to_back", at, {"0 deg": case.written(value - INCH)})] + [
        _reading("flange_thickness", f"{at} {side}", {"worst": "1 in"}) for side in ("left", "right")
    ]


WORKED_OUT: dict[str, Any] = {
    "diameter_difference_on_axle": _diameters,
    "diameter_difference_in_set": _diameters,
    "diameter_less_opposite": _diameters,
    "diameter_less_base_average": _diameters,
    "journal_wear": _journal,
    "track_gauge_less_back_to_back": _less_back,
    "back_to_back_variation": _varied,
    "over_flanges": _over,
    "track_gauge_less_over_flanges": _play,
    "thickness_from_ring_with_extension": _ring,
    "wheel_check": _check_gage,
}


# -- one book for all cases of a file --------------------------------------------------------------------------------


def book_of(limit_set: str, cases: list[Case]) -> Book:
    """One book that holds all cases, judged by one limit set; a historic one is put in force for once."""
    text = (LIMITS / f"{limit_set}.yaml").read_text(encoding="utf-8").replace("\nhistoric: yes\n", "\n")
    ledger: dict[str, Any] = {"kind": "ledger", "railway": "Test railway (invented)", "closed_on": "2026-02-28"}
    ledger["defaults"] = {"limit_sets": [{"set": "set-under-test", "adopted_on": "2019-01-01"}]}
    trees: dict[str, Any] = {"ledger.yaml": ledger}
    for case in cases:
        trees |= records(case)
    files = {path: json.dumps(tree).encode() for path, tree in trees.items()}
    files["limits/set-under-test.yaml"] = text.encode()
    entries = [Entry(path, content, None) for path, content in sorted(files.items())]
    return read_book(entries, as_of=None, today=date(2026, 3, 1))


def findings_of(book: Book, cases: list[Case]) -> dict[tuple[str, str, str], list[Finding]]:
    """What the checks named by the cases say, by engine, check and quantity."""
    found: dict[tuple[str, str, str], list[Finding]] = {}
    for id in sorted({case.row["check"] for case in cases}):
        module = find_check(id)
        assert module, id
        for finding in module.check(book):
            found.setdefault((finding.subject.split(" ")[0], id, finding.quantity), []).append(finding)
    return found


def verdict_of(findings: list[Finding]) -> Verdict | None:
    """The gravest verdict among findings."""
    order = (Verdict.OUTSIDE, Verdict.SUSPECT, Verdict.UNDECIDED, Verdict.NOT_ASSESSED, Verdict.WITHIN)
    return next((v for v in order if any(f.verdict is v for f in findings)), None)


def read_rows(path: Path) -> tuple[str, list[Row]]:
    """The limit set and the rows of a file, all scalars text."""
    tree = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CBaseLoader)
    return tree["set"], tree["rows"]
