"""Noisy, clean ledgers: twelve years of one invented engine each, with no slip in it. `simulated(seed)` gives its files.

What is drawn and how is told in `parameters.py`; nothing here comes from the demo ledger.
"""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache
from typing import Any

from axlebook.sources.shipped import shipped
from tests.demo.fixed_records import fixed_records
from tests.demo.hands import HANDS, Hands
from tests.demo.parameters import FIRST_YEAR, TEMPERATURE_APART, TEMPERATURES, YEARS
from tests.demo.railway import GROWTH, LAST_YEAR, POSITIONS, Railway, Wheel, Wheelset, draw_railway
from tests.demo.yaml_lines import record

ENGINE = "e-7"
CLOSED_ON = date(LAST_YEAR, 12, 31)
PLANES = tuple(f"{angle} deg {plane}" for angle in (0, 60, 120) for plane in ("inner", "middle", "outer"))
MICROMETERS = frozenset({"micrometer-1", "micrometer-2", "micrometer-3", "micrometer-4", "pi-tape-1"})
Tree = dict[str, Any]


def simulated(seed: int) -> dict[str, bytes]:
    """The files of one clean ledger."""
    return _Book(draw_railway(seed)).files()


class _Book:
    """The records of one railway, written year by year."""

    def __init__(self, railway: Railway) -> None:
        self.railway, self.rng = railway, railway.rng
        self.hands = Hands(railway.rng)
        self.trees: dict[str, Tree] = {}
        self.lines: list[Tree] = []

    def files(self) -> dict[str, bytes]:
        """Write the years, then what frames them."""
        since = date(FIRST_YEAR, 1, 20)
        for one in [*self.railway.drivers, *self.railway.trucks]:
            self._open_line(one, since)
        self._found()
        quiet = FIRST_YEAR + self.rng.randrange(1, YEARS - 1)
        for year in range(FIRST_YEAR, LAST_YEAR + 1):
            self._winter(year)
            self._annual(date(year, 2, self.rng.randint(12, 22)))
            if year != quiet:
                self._summer(year)
            self._service(year)
        self.trees.update(fixed_records(self.railway, self.lines, CLOSED_ON))
        files = {path: record(path, tree) for path, tree in self.trees.items()}
        files["limits/arm-mm-shrinkage.yaml"] = _shipped_practice()
        return files

    # --- what stands where ----------------------------------------------------------------------------------

    def _open_line(self, one: Wheelset, day: date) -> None:
        line: Tree = {"at": one.place, "wheelset": one.id, "from": day.isoformat()}
        if not one.place.startswith("driver"):
            line["a_end"] = "left"
        self.lines.append(line)

    def _out_of_engine(self, one: Wheelset, out: date, back: date) -> None:
        line = next(line for line in reversed(self.lines) if line["wheelset"] == one.id)
        line["until"] = out.isoformat()
        self._open_line(one, back)

    def _found(self) -> None:
        day = date(FIRST_YEAR, 1, 14)
        for one in self.railway.drivers:
            for wheel in one.wheels:
                self._add("tire-work", day, f"{wheel.tire}-found", {
                    "kind": "tire-found", "found_on": day.isoformat(), "tire": wheel.tire,
                    "center": f"{one.id}-{wheel.side}", "since": "unknown", "by": ["lead", "v1"],
                    "shims": "unknown", "source": "as it stood on blocks; no card", "signed": _signed(day)})  # fmt: skip

    # --- sessions -------------------------------------------------------------------------------------------

    def _add(self, folder: str, day: date, name: str, tree: Tree) -> None:
        self.trees[f"{folder}/{day.year}/{day.isoformat()}-{name}.yaml"] = tree

    def _temperatures(self, low: int, high: int) -> tuple[int, int]:
        first, last = TEMPERATURES
        part = self.rng.randint(max(low, first), min(high, last))
        apart = self.rng.choice((0, 0, self.rng.randint(-TEMPERATURE_APART, TEMPERATURE_APART)))
        return part, min(last, max(first, part + apart))

    def _session(self, day: date, purpose: str, hand: str, hold: str, temperatures: tuple[int, int]) -> Tree:
        tree: Tree = {"kind": "inspection", "measured_on": day.isoformat(), "engine": ENGINE, "purpose": purpose,
                      "by": [hand, "lead"]}  # fmt: skip
        tree["setup"] = {"hold": hold, "clock": "6 o'clock", "air_temperature": f"{temperatures[0]} degF",
                         "part_temperature": f"{temperatures[0]} degF",
                         "instrument_temperature": f"{temperatures[1]} degF"}  # fmt: skip
        return tree | {"readings": [], "observations": [], "not_measured": []}

    def _close(self, tree: Tree, day: date, name: str) -> None:
        for key in ("readings", "observations", "not_measured"):
            if not tree[key]:
                del tree[key]
        tree["signed"] = _signed(day)
        self._add("inspections", day, name, tree)

    def _read(self, tree: Tree, place: str, quantity: str, tool: str, truths: dict[str, float], **more: str) -> None:
        """Add a reading; now and then nobody gets to it, or a second hand reads it too."""
        if "place" not in more and "part" not in more and self.rng.random() < 0.03:
            tree["not_measured"].append({"quantity": quantity, "places": [place], "because": "no time"})
            return
        hand = tree["by"][0]
        tree["readings"].append(self._reading(tree, place, quantity, tool, truths, hand, more))
        if self.rng.random() < 0.02:
            other = self.rng.choice([one for one in HANDS if one != hand])
            second = self._reading(tree, place, quantity, tool, truths, other, more)
            values = second.pop("values")
            tree["readings"].append(second | {"by": [other], "values": values})

    def _reading(self, tree: Tree, place: str, quantity: str, tool: str, truths: dict[str, float], hand: str,
                 more: dict[str, str]) -> Tree:  # fmt: skip
        setup = tree["setup"] if tool in MICROMETERS else {}
        part, instrument = (int(setup.get(key, "68").split()[0]) for key in ("part_temperature", "instrument_temperature"))
        values = {
            position: self.hands.read(hand, tool, truth, part=part, instrument=instrument)
            for position, truth in truths.items()
        }
        named = {} if "part" in more else {"place": place}
        where = {"where": "3/8 in above tread"} if quantity == "flange_thickness" else {}
        return {"quantity": quantity, **named, "with": tool, **where, **more, "values": values}

    def _wheel_readings(self, tree: Tree, one: Wheelset, wheel: Wheel) -> None:
        place = f"{one.place} {wheel.side}"
        self._read(tree, place, "flange_thickness", "gauge-1", {"worst": wheel.flange})
        self._read(tree, place, "flange_height", "gauge-1", {"worst": wheel.height})
        self._read(tree, place, "tread_hollow", "gauge-1", {"worst": wheel.hollow})

    def _back_to_back(self, tree: Tree, one: Wheelset, tool: str, *, loaded: bool, **more: str) -> None:
        truths = {
            position: one.back_to_back + one.wobble[position] + (0 if loaded else one.load) for position in POSITIONS
        }
        self._read(tree, one.place, "back_to_back", tool, truths, **more)

    def _annual(self, day: date) -> None:
        self.railway.run_to(day)
        tree = self._session(day, "annual", self.rng.choice(HANDS), "under the engine", self._temperatures(35, 60))
        for one in self.railway.drivers:
            for wheel in one.wheels:
                place = f"{one.place} {wheel.side}"
                thickness = {position: wheel.thickness + wheel.out_of_round[position] for position in POSITIONS}
                self._read(tree, place, "tire_thickness", "rule-1", thickness)
                self._wheel_readings(tree, one, wheel)
                self._read(tree, place, "tread_diameter", "wheel-caliper-1", {"all round": wheel.diameter})
            self._back_to_back(tree, one, "micrometer-1", loaded=True)
            self._read(tree, one.place, "lateral", "rule-2", {"worst": one.lateral})
        for one in self.railway.trucks:
            for wheel in one.wheels:
                self._read(tree, f"{one.place} {wheel.side}", "rim_thickness", "rule-1", {"worst": wheel.thickness})
                self._wheel_readings(tree, one, wheel)
            self._back_to_back(tree, one, "bar-1", loaded=True)
        self._looked_over(tree)
        self._close(tree, day, f"{ENGINE}-annual")

    def _looked_over(self, tree: Tree) -> None:
        for one in self.railway.drivers:
            for wheel in one.wheels:
                for what in ("crack", "flat", "witness_mark_moved"):
                    place = f"{one.place} {wheel.side}"
                    tree["observations"].append({"looked_for": what, "place": place, "answer": "not seen"})

    def _summer(self, year: int) -> None:
        for month in (5, 7, 9, 10):
            if self.rng.random() < 0.2:
                continue  # a gap
            day = date(year, month, self.rng.randint(3, 28))
            self.railway.run_to(day)
            hold = "under the engine" if self.rng.random() < 0.9 else "on blocks"
            tree = self._session(day, "periodic", self.rng.choice(HANDS), hold, self._temperatures(55, 95))
            count = self.rng.randint(1, len(self.railway.drivers))
            for one in sorted(self.rng.sample(self.railway.drivers, count), key=lambda one: one.place):
                for wheel in one.wheels:
                    self._wheel_readings(tree, one, wheel)
                self._back_to_back(tree, one, "micrometer-1", loaded=hold == "under the engine")
            self._looked_over(tree)
            self._close(tree, day, f"{ENGINE}-periodic")

    # --- winters --------------------------------------------------------------------------------------------

    def _winter(self, year: int) -> None:
        self.railway.run_to(date(year, 1, 1))
        if year in self.railway.turned_in:
            self._journals(date(year - 1, 12, 5), self.railway.drivers)
            for one in self.railway.drivers:
                self._out_of_engine(one, date(year - 1, 11, 20), date(year, 2, 5))
            smallest = min(wheel.diameter for one in self.railway.drivers for wheel in one.wheels)
            size = smallest - self.rng.uniform(0.15, 0.3)
            self._turning(date(year, 1, self.rng.randint(8, 22)), self.railway.drivers, size, "set")
        if year == self.railway.renewed_in:
            self._new_tires(year, self.railway.renewed)

    def _journals(self, day: date, drivers: list[Wheelset]) -> None:
        tree = self._session(day, "shop", self.rng.choice(HANDS), "on blocks", self._temperatures(45, 70))
        for one in drivers:
            for side, truth in one.journals.items():
                planes = dict.fromkeys(("inner", "middle", "outer"), truth)
                self._read(tree, "", "journal_diameter", "micrometer-4", planes, part=f"{one.id} {side}")
            self._back_to_back(tree, one, "micrometer-1", loaded=False, part=one.id)
        self._close(tree, day, f"{ENGINE}-shop")

    def _turning(self, day: date, drivers: list[Wheelset], size: float, name: str) -> None:
        temperatures = self._temperatures(55, 70)
        tree = self._session(day, "", "machinist", "in the lathe", temperatures)
        cut = {}
        for one in drivers:
            for wheel in one.wheels:
                before = wheel.diameter
                self._taped(tree, wheel, "before")
                wheel.turn(size + self.rng.uniform(-0.003, 0.003))
                self._taped(tree, wheel, "after")
                for quantity, truth in (("flange_thickness", wheel.flange), ("flange_height", wheel.height)):
                    self._read(tree, "", quantity, "gauge-1", {"worst": truth}, part=wheel.tire, when="after")
                cut[wheel.tire] = f"{before - wheel.diameter:.2f} in"
        setup = {key: value for key, value in tree["setup"].items() if key != "clock"}
        self._add("turnings", day, f"{ENGINE}-{name}", {
            "kind": "turning", "turned_on": day.isoformat(), "engine": ENGINE, "tires": list(cut), "by": ["machinist"],
            "purpose": "hollow treads, to one size", "datum": "journals, checked with a dial gauge",
            "restores": ["tread", "flange"], "setup": setup, "readings": tree["readings"], "cut": cut,
            "signed": _signed(day)})  # fmt: skip

    def _taped(self, tree: Tree, wheel: Wheel, when: str, **more: str) -> None:
        truths = {"all round": wheel.diameter}
        self._read(tree, "", "tread_diameter", "pi-tape-1", truths, part=wheel.tire, when=when, **more)

    def _new_tires(self, year: int, one: Wheelset) -> None:
        out, back = date(year - 1, 11, 21), date(year, 2, 5)
        self._out_of_engine(one, out, back)
        for wheel in one.wheels:
            self._add("tire-work", out, f"{wheel.tire}-removed", {
                "kind": "tire-removed", "removed_on": out.isoformat(), "tire": wheel.tire,
                "center": f"{one.id}-{wheel.side}", "by": ["lead", "v2"], "came_off": "tight", "how": "heated",
                "shims_found": "none", "reason": "Worn; the pair is to be re-tired.", "signed": _signed(out)})  # fmt: skip
        centers = self._centers(out + timedelta(1), one)
        size = sum(w.diameter for d in self.railway.drivers if d is not one for w in d.wheels)
        size /= 2 * (len(self.railway.drivers) - 1)
        for wheel in one.wheels:
            self._receive(date(year, 1, 8), one, wheel, centers[wheel.side])
        on = date(year, 1, self.rng.randint(12, 16))
        for wheel in one.wheels:
            self._apply(on, one, wheel, centers[wheel.side])
        self._gauged(on + timedelta(1), one)
        self._turning(on + timedelta(9), [one], size, one.id)

    def _centers(self, day: date, one: Wheelset) -> dict[str, float]:
        centers = {wheel.side: self.railway.center + self.rng.uniform(-0.006, 0.006) for wheel in one.wheels}
        tree = self._session(day, "shop", self.rng.choice(HANDS), "on blocks", self._temperatures(45, 65))
        for side, truth in centers.items():
            self._read(tree, "", "center_diameter", "micrometer-2", dict.fromkeys(PLANES, truth), part=f"{one.id}-{side}")
            tree["observations"].append({"looked_for": "center_crack", "part": f"{one.id}-{side}", "answer": "not seen",
                                         "method": "dye"})  # fmt: skip
        one.register = one.register + self.rng.uniform(-0.05, 0.05)
        self._read(tree, "", "register_distance", "micrometer-3", dict.fromkeys(POSITIONS, one.register), part=one.id)
        del tree["engine"]
        self._close(tree, day, f"{one.id}-shop")
        return centers

    def _receive(self, day: date, one: Wheelset, wheel: Wheel, center: float) -> None:
        wheel.tire = f"t-{one.id[2:]}{'34'[wheel.side == 'right']}"
        wheel.thickness = 3.5  # thicker than any of the set: the new pair is turned down to it
        wheel.out_of_round = {position: self.rng.uniform(-0.004, 0.004) for position in POSITIONS}
        wheel.seat = center - self.railway.allowance  # its own bore, until it is on
        tree = self._session(day, "receiving", self.rng.choice(HANDS), "on blocks", self._temperatures(45, 65))
        self._read(tree, "", "tire_bore", "micrometer-3", dict.fromkeys(PLANES, wheel.seat), part=wheel.tire)
        thickness = {position: wheel.thickness + wheel.out_of_round[position] for position in POSITIONS}
        self._read(tree, "", "tire_thickness", "rule-1", thickness, part=wheel.tire)
        backs = dict.fromkeys(POSITIONS, 5.5)
        self._read(tree, "", "flange_back_to_register", "micrometer-4", backs, part=wheel.tire)
        tree["observations"].append({"looked_for": "crack", "part": wheel.tire, "answer": "not seen", "method": "dye"})
        del tree["engine"], tree["setup"]["hold"], tree["setup"]["clock"]
        self._close(tree, day, f"{wheel.tire}-receiving")

    def _apply(self, on: date, one: Wheelset, wheel: Wheel, center: float) -> None:
        tree = self._session(on, "", self.rng.choice(HANDS), "on blocks", self._temperatures(45, 65))
        self._taped(tree, wheel, "cold before", measured_on=on.isoformat())
        wheel.seat += GROWTH * self.railway.allowance * self.rng.uniform(0.97, 1.03)
        self._taped(tree, wheel, "cold after", measured_on=(on + timedelta(1)).isoformat())
        gaps = dict.fromkeys(POSITIONS, "under 0.0015 in")
        tree["readings"].append({"quantity": "register_gap", "part": wheel.tire, "with": "feelers-1",
                                 "measured_on": (on + timedelta(1)).isoformat(), "when": "cold after",
                                 "values": gaps})  # fmt: skip
        late = 90 * (wheel.side == "right")
        heat = [{"time": _clock(640 + late + n), "where": "inside face", "angle": f"{90 * n} deg",
                 "read": f"{self.rng.randint(352, 366)} degF", "with": "pyrometer-1"} for n in range(4)]  # fmt: skip
        self._add("tire-work", on, f"{wheel.tire}-applied", {
            "kind": "tire-applied", "applied_on": on.isoformat(), "tire": wheel.tire,
            "center": f"{one.id}-{wheel.side}", "by": ["lead", *tree["by"][:1]],
            "fit_from": self._cited(one, wheel), "shims": "none", "before": _BEFORE,
            "heated_from": _clock(610 + late), "heated_until": _clock(644 + late), "fuel": "propane ring burner",
            "heat": heat, "seating": {
                "seated": _clock(647 + late), "gripped": _clock(649 + late), "clamps_fitted": _clock(650 + late),
                "clamps_removed": _clock(1020), "witness_mark": "chisel line over rim and tire at 0 deg",
                "quenched": "no", "center_temperature": tree["setup"]["part_temperature"]},
            "readings": tree["readings"], "setup": {key: tree["setup"][key] for key in _WARMTH},
            "signed": _signed(on + timedelta(1))})  # fmt: skip

    def _cited(self, one: Wheelset, wheel: Wheel) -> list[str]:
        ids = [path.rsplit("/", 1)[-1].removesuffix(".yaml") for path in self.trees]
        return [id for id in ids if id.endswith((f"-{one.id}-shop", f"-{wheel.tire}-receiving"))]

    def _gauged(self, day: date, one: Wheelset) -> None:
        one.back_to_back = one.register - 11.0 - 0.003 - one.load
        tree = self._session(day, "after-work", self.rng.choice(HANDS), "on blocks", self._temperatures(45, 65))
        ids = [path.rsplit("/", 1)[-1].removesuffix(".yaml") for path in self.trees]
        tree["after"] = [id for id in ids if any(id.endswith(f"-{wheel.tire}-applied") for wheel in one.wheels)]
        del tree["engine"]
        self._back_to_back(tree, one, "micrometer-1", loaded=False, part=one.id)
        self._close(tree, day, f"{one.id}-after-work")

    def _service(self, year: int) -> None:
        if year < LAST_YEAR - 1:
            total = {"service_days": str(self.rng.randint(30, 50)), "source": "cards in the office, added up"}
            self.trees[f"service/{ENGINE}-{year}.yaml"] = {"kind": "service", "engine": ENGINE, "year": str(year),
                                                          "total": total}  # fmt: skip
            return
        for month in range(5, 11):
            days = [date(year, month, day) for day in range(1, 29) if date(year, month, day).weekday() >= 5]
            listed = [{"day": day.isoformat(), "miles": f"{self.rng.randint(12, 30)} mile"} for day in days]
            tree = {"kind": "service", "engine": ENGINE, "month": f"{year}-{month:02d}", "days": listed}
            self.trees[f"service/{ENGINE}-{year}-{month:02d}.yaml"] = tree


_WARMTH = ("air_temperature", "part_temperature", "instrument_temperature")
_BEFORE = {
    "bright_metal_center": "yes", "bright_metal_tire": "yes", "shims_and_burrs_removed": "yes",
    "lip_corner_clear": "yes", "blocks": "not applicable", "center_cracks": "not seen", "job_briefing": "yes",
    "held_by": ["overhead hoist", "steel stands under the axle"],
}  # fmt: skip


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _signed(day: date) -> Tree:
    return {"signed_by": "lead", "signed_on": (day + timedelta(1)).isoformat()}


@cache
def _shipped_practice() -> bytes:
    content = (shipped("ledger") / "limits" / "arm-mm-shrinkage.yaml").read_bytes()
    return b"# yaml-language-server: $schema=../schema/limit-set.schema.json\n" + content.partition(b"\n")[2]
