"""Noisy, clean ledgers: twelve years of one invented engine each, with no slip in it.

`simulated(seed)` gives the files. What is drawn and how is told in `parameters.py`; nothing comes from the
demo.
"""

from __future__ import annotations

from datetime import date
from functools import cache

from axlebook.sources.shipped import shipped
from tests.demo.fixed_records import fixed_records
from tests.demo.hands import HANDS
from tests.demo.parameters import FIRST_YEAR, YEARS
from tests.demo.railway import LAST_YEAR, POSITIONS, draw_railway
from tests.demo.sessions import ENGINE, Tree, signed
from tests.demo.winters import Winters
from tests.demo.yaml_lines import record

CLOSED_ON = date(LAST_YEAR, 12, 31)


def simulated(seed: int) -> dict[str, bytes]:
    """The files of one clean ledger."""
    return _Book(draw_railway(seed)).files()


class _Book(Winters):
    """The records of one railway, written year by year."""

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

    def _found(self) -> None:
        day = date(FIRST_YEAR, 1, 14)
        for one in self.railway.drivers:
            for wheel in one.wheels:
                self._add(
                    "tire-work",
                    day,
                    f"{wheel.tire}-found",
                    {
                        "kind": "tire-found",
                        "found_on": day.isoformat(),
                        "tire": wheel.tire,
                        "center": f"{one.id}-{wheel.side}",
                        "since": "unknown",
                        "by": ["lead", "v1"],
                        "shims": "unknown",
                        "source": "as it stood on blocks; no card",
                        "signed": signed(day),
                    },
                )

    def _annual(self, day: date) -> None:
        self.railway.run_to(day)
        tree = self._session(
            day, "annual", self.rng.choice(HANDS), "under the engine", self._temperatures(35, 60)
        )
        for one in self.railway.drivers:
            for wheel in one.wheels:
                place = f"{one.place} {wheel.side}"
                thickness = {
                    position: wheel.thickness + wheel.out_of_round[position] for position in POSITIONS
                }
                self._read(tree, place, "tire_thickness", "rule-1", thickness)
                self._wheel_readings(tree, one, wheel)
                self._read(tree, place, "tread_diameter", "wheel-caliper-1", {"all round": wheel.diameter})
            self._back_to_back(tree, one, "micrometer-1", loaded=True)
            self._read(tree, one.place, "lateral", "rule-2", {"worst": one.lateral})
        for one in self.railway.trucks:
            for wheel in one.wheels:
                self._read(
                    tree, f"{one.place} {wheel.side}", "rim_thickness", "rule-1", {"worst": wheel.thickness}
                )
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

    def _service(self, year: int) -> None:
        if year < LAST_YEAR - 1:
            total = {"service_days": str(self.rng.randint(30, 50)), "source": "cards in the office, added up"}
            self.trees[f"service/{ENGINE}-{year}.yaml"] = {
                "kind": "service",
                "engine": ENGINE,
                "year": str(year),
                "total": total,
            }
            return
        for month in range(5, 11):
            days = [date(year, month, day) for day in range(1, 29) if date(year, month, day).weekday() >= 5]
            listed = [{"day": day.isoformat(), "miles": f"{self.rng.randint(12, 30)} mile"} for day in days]
            tree = {"kind": "service", "engine": ENGINE, "month": f"{year}-{month:02d}", "days": listed}
            self.trees[f"service/{ENGINE}-{year}-{month:02d}.yaml"] = tree


@cache
def _shipped_practice() -> bytes:
    content = (shipped("ledger") / "limits" / "arm-mm-shrinkage.yaml").read_bytes()
    return b"# yaml-language-server: $schema=../schema/limit-set.schema.json\n" + content.partition(b"\n")[2]
