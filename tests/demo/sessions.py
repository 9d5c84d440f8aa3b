"""Sessions of a simulated railway: who reads what, how warm, how held, and the record of it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from tests.demo.hands import HANDS, Hands
from tests.demo.parameters import TEMPERATURE_APART, TEMPERATURES
from tests.demo.railway import POSITIONS, Railway, Wheel, Wheelset

ENGINE = "e-7"
MICROMETERS = frozenset({"micrometer-1", "micrometer-2", "micrometer-3", "micrometer-4", "pi-tape-1"})
Tree = dict[str, Any]


class Sessions:
    """The records of one railway as they are written."""

    def __init__(self, railway: Railway) -> None:
        self.railway, self.rng = railway, railway.rng
        self.hands = Hands(railway.rng)
        self.trees: dict[str, Tree] = {}
        self.lines: list[Tree] = []

    def _open_line(self, one: Wheelset, day: date) -> None:
        line: Tree = {"at": one.place, "wheelset": one.id, "from": day.isoformat()}
        if not one.place.startswith("driver"):
            line["a_end"] = "left"
        self.lines.append(line)

    def _out_of_engine(self, one: Wheelset, out: date, back: date) -> None:
        line = next(line for line in reversed(self.lines) if line["wheelset"] == one.id)
        line["until"] = out.isoformat()
        self._open_line(one, back)

    def _add(self, folder: str, day: date, name: str, tree: Tree) -> None:
        self.trees[f"{folder}/{day.year}/{day.isoformat()}-{name}.yaml"] = tree

    def _temperatures(self, low: int, high: int) -> tuple[int, int]:
        first, last = TEMPERATURES
        part = self.rng.randint(max(low, first), min(high, last))
        apart = self.rng.choice((0, 0, self.rng.randint(-TEMPERATURE_APART, TEMPERATURE_APART)))
        return part, min(last, max(first, part + apart))

    def _session(self, day: date, purpose: str, hand: str, hold: str, temperatures: tuple[int, int]) -> Tree:
        tree: Tree = {
            "kind": "inspection",
            "measured_on": day.isoformat(),
            "engine": ENGINE,
            "purpose": purpose,
            "by": [hand, "lead"],
        }
        tree["setup"] = {
            "hold": hold,
            "clock": "6 o'clock",
            "air_temperature": f"{temperatures[0]} degF",
            "part_temperature": f"{temperatures[0]} degF",
            "instrument_temperature": f"{temperatures[1]} degF",
        }
        return tree | {"readings": [], "observations": [], "not_measured": []}

    def _close(self, tree: Tree, day: date, name: str) -> None:
        for key in ("readings", "observations", "not_measured"):
            if not tree[key]:
                del tree[key]
        tree["signed"] = signed(day)
        self._add("inspections", day, name, tree)

    def _read(
        self, tree: Tree, place: str, quantity: str, tool: str, truths: dict[str, float], **more: str
    ) -> None:
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

    def _reading(
        self,
        tree: Tree,
        place: str,
        quantity: str,
        tool: str,
        truths: dict[str, float],
        hand: str,
        more: dict[str, str],
    ) -> Tree:
        setup = tree["setup"] if tool in MICROMETERS else {}
        part, instrument = (
            int(setup.get(key, "68").split()[0]) for key in ("part_temperature", "instrument_temperature")
        )
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
            position: one.back_to_back + one.wobble[position] + (0 if loaded else one.load)
            for position in POSITIONS
        }
        self._read(tree, one.place, "back_to_back", tool, truths, **more)


def signed(day: date) -> Tree:
    return {"signed_by": "lead", "signed_on": (day + timedelta(1)).isoformat()}
