"""What is done to the wheels of a simulated railway in winter: turnings, and new tires on one axle."""

from __future__ import annotations

from datetime import date, timedelta

from tests.demo.hands import HANDS
from tests.demo.railway import GROWTH, POSITIONS, Wheel, Wheelset
from tests.demo.sessions import ENGINE, Sessions, Tree, signed

PLANES = tuple(f"{angle} deg {plane}" for angle in (0, 60, 120) for plane in ("inner", "middle", "outer"))
_WARMTH = ("air_temperature", "part_temperature", "instrument_temperature")
_BEFORE = {
    "bright_metal_center": "yes",
    "bright_metal_tire": "yes",
    "shims_and_burrs_removed": "yes",
    "lip_corner_clear": "yes",
    "blocks": "not applicable",
    "center_cracks": "not seen",
    "job_briefing": "yes",
    "held_by": ["overhead hoist", "steel stands under the axle"],
}


class Winters(Sessions):
    """The works of a winter, with the measurements that belong to them."""

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
        self._add(
            "turnings",
            day,
            f"{ENGINE}-{name}",
            {
                "kind": "turning",
                "turned_on": day.isoformat(),
                "engine": ENGINE,
                "tires": list(cut),
                "by": ["machinist"],
                "purpose": "hollow treads, to one size",
                "datum": "journals, checked with a dial gauge",
                "restores": ["tread", "flange"],
                "setup": setup,
                "readings": tree["readings"],
                "cut": cut,
                "signed": signed(day),
            },
        )

    def _taped(self, tree: Tree, wheel: Wheel, when: str, **more: str) -> None:
        truths = {"all round": wheel.diameter}
        self._read(tree, "", "tread_diameter", "pi-tape-1", truths, part=wheel.tire, when=when, **more)

    def _new_tires(self, year: int, one: Wheelset) -> None:
        out, back = date(year - 1, 11, 21), date(year, 2, 5)
        self._out_of_engine(one, out, back)
        for wheel in one.wheels:
            self._add(
                "tire-work",
                out,
                f"{wheel.tire}-removed",
                {
                    "kind": "tire-removed",
                    "removed_on": out.isoformat(),
                    "tire": wheel.tire,
                    "center": f"{one.id}-{wheel.side}",
                    "by": ["lead", "v2"],
                    "came_off": "tight",
                    "how": "heated",
                    "shims_found": "none",
                    "reason": "Worn; the pair is to be re-tired.",
                    "signed": signed(out),
                },
            )
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
            self._read(
                tree,
                "",
                "center_diameter",
                "micrometer-2",
                dict.fromkeys(PLANES, truth),
                part=f"{one.id}-{side}",
            )
            tree["observations"].append(
                {
                    "looked_for": "center_crack",
                    "part": f"{one.id}-{side}",
                    "answer": "not seen",
                    "method": "dye",
                }
            )
        one.register = one.register + self.rng.uniform(-0.05, 0.05)
        self._read(
            tree, "", "register_distance", "micrometer-3", dict.fromkeys(POSITIONS, one.register), part=one.id
        )
        del tree["engine"]
        self._close(tree, day, f"{one.id}-shop")
        return centers

    def _receive(self, day: date, one: Wheelset, wheel: Wheel, center: float) -> None:
        wheel.tire = f"t-{one.id[2:]}{'34'[wheel.side == 'right']}"
        wheel.thickness = 3.5  # thicker than any of the set: the new pair is turned down to it
        wheel.out_of_round = {position: self.rng.uniform(-0.004, 0.004) for position in POSITIONS}
        wheel.seat = center - self.railway.allowance  # its own bore, until it is on
        tree = self._session(
            day, "receiving", self.rng.choice(HANDS), "on blocks", self._temperatures(45, 65)
        )
        self._read(tree, "", "tire_bore", "micrometer-3", dict.fromkeys(PLANES, wheel.seat), part=wheel.tire)
        thickness = {position: wheel.thickness + wheel.out_of_round[position] for position in POSITIONS}
        self._read(tree, "", "tire_thickness", "rule-1", thickness, part=wheel.tire)
        backs = dict.fromkeys(POSITIONS, 5.5)
        self._read(tree, "", "flange_back_to_register", "micrometer-4", backs, part=wheel.tire)
        tree["observations"].append(
            {"looked_for": "crack", "part": wheel.tire, "answer": "not seen", "method": "dye"}
        )
        del tree["engine"], tree["setup"]["hold"], tree["setup"]["clock"]
        self._close(tree, day, f"{wheel.tire}-receiving")

    def _apply(self, on: date, one: Wheelset, wheel: Wheel, center: float) -> None:
        tree = self._session(on, "", self.rng.choice(HANDS), "on blocks", self._temperatures(45, 65))
        self._taped(tree, wheel, "cold before", measured_on=on.isoformat())
        wheel.seat += GROWTH * self.railway.allowance * self.rng.uniform(0.97, 1.03)
        self._taped(tree, wheel, "cold after", measured_on=(on + timedelta(1)).isoformat())
        gaps = dict.fromkeys(POSITIONS, "under 0.0015 in")
        tree["readings"].append(
            {
                "quantity": "register_gap",
                "part": wheel.tire,
                "with": "feelers-1",
                "measured_on": (on + timedelta(1)).isoformat(),
                "when": "cold after",
                "values": gaps,
            }
        )
        late = 90 * (wheel.side == "right")
        heat = [
            {
                "time": _clock(640 + late + n),
                "where": "inside face",
                "angle": f"{90 * n} deg",
                "read": f"{self.rng.randint(352, 366)} degF",
                "with": "pyrometer-1",
            }
            for n in range(4)
        ]
        self._add(
            "tire-work",
            on,
            f"{wheel.tire}-applied",
            {
                "kind": "tire-applied",
                "applied_on": on.isoformat(),
                "tire": wheel.tire,
                "center": f"{one.id}-{wheel.side}",
                "by": ["lead", *tree["by"][:1]],
                "fit_from": self._cited(one, wheel),
                "shims": "none",
                "before": _BEFORE,
                "heated_from": _clock(610 + late),
                "heated_until": _clock(644 + late),
                "fuel": "propane ring burner",
                "heat": heat,
                "seating": {
                    "seated": _clock(647 + late),
                    "gripped": _clock(649 + late),
                    "clamps_fitted": _clock(650 + late),
                    "clamps_removed": _clock(1020),
                    "witness_mark": "chisel line over rim and tire at 0 deg",
                    "quenched": "no",
                    "center_temperature": tree["setup"]["part_temperature"],
                },
                "readings": tree["readings"],
                "setup": {key: tree["setup"][key] for key in _WARMTH},
                "signed": signed(on + timedelta(1)),
            },
        )

    def _cited(self, one: Wheelset, wheel: Wheel) -> list[str]:
        ids = [path.rsplit("/", 1)[-1].removesuffix(".yaml") for path in self.trees]
        return [id for id in ids if id.endswith((f"-{one.id}-shop", f"-{wheel.tire}-receiving"))]

    def _gauged(self, day: date, one: Wheelset) -> None:
        one.back_to_back = one.register - 11.0 - 0.003 - one.load
        tree = self._session(
            day, "after-work", self.rng.choice(HANDS), "on blocks", self._temperatures(45, 65)
        )
        ids = [path.rsplit("/", 1)[-1].removesuffix(".yaml") for path in self.trees]
        tree["after"] = [
            id for id in ids if any(id.endswith(f"-{wheel.tire}-applied") for wheel in one.wheels)
        ]
        del tree["engine"]
        self._back_to_back(tree, one, "micrometer-1", loaded=False, part=one.id)
        self._close(tree, day, f"{one.id}-after-work")


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
