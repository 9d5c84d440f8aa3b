"""How long `check` takes, as ratios in one run: against PyYAML's C load of the same files, and `python -c pass`.

python -m tests.bench.check_speed [--records 10000] [--runs 3]
"""

from __future__ import annotations

import argparse
import json
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from tests.bench.generate import DEMO, write

C_LOAD = (
    "import sys, pathlib, yaml\n"
    "for p in sorted(pathlib.Path(sys.argv[1]).rglob('*.yaml')):\n"
    "    yaml.load(p.read_bytes(), Loader=yaml.CSafeLoader)\n"
)


def seconds(command: list[str], runs: int) -> float:
    """Median wall time of a command."""
    found = []
    for _ in range(runs):
        start = time.perf_counter()
        subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
        found.append(time.perf_counter() - start)
    return statistics.median(found)


def axlebook(*arguments: str) -> list[str]:
    """The command line of the tool in this interpreter."""
    return [sys.executable, "-m", "axlebook", *arguments]


def planted_and_found(folder: Path, planted: dict[str, str]) -> tuple[int, int]:
    """How many planted faults the check names at their file."""
    out = subprocess.run(axlebook("check", str(folder), "--format", "json"), capture_output=True, check=False).stdout
    named = {(finding["path"], finding["check"]) for finding in json.loads(out)["findings"]}
    return len(planted), sum((path, check) in named for path, check in planted.items())


def row(name: str, measure: Callable[[], float], yardstick: float, unit: str) -> float:
    """Print one line of the table."""
    found = measure()
    print(f"{name:<44} {found:8.3f} s   {found / yardstick:6.2f} x {unit}", flush=True)
    return found


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--records", type=int, default=10000)
    parser.add_argument("--runs", type=int, default=3)
    chosen = parser.parse_args()
    bare = seconds([sys.executable, "-c", "pass"], 10)
    print(f"python -c pass {bare * 1000:.1f} ms")
    row("axlebook --help", lambda: seconds(axlebook("--help"), 5), bare, "python -c pass")
    row("axlebook check demo-ledger", lambda: seconds(axlebook("check", str(DEMO)), 5), bare, "python -c pass")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "book"
        planted = write(folder, chosen.records)
        size = sum(p.stat().st_size for p in folder.rglob("*.yaml"))
        print(f"{chosen.records} records, {size / chosen.records:.0f} bytes each, {len(planted)} planted")
        yardstick = row(
            "PyYAML C load", lambda: seconds([sys.executable, "-c", C_LOAD, str(folder)], chosen.runs), 1, ""
        )
        whole = axlebook("check", str(folder))
        row("axlebook check", lambda: seconds(whole, chosen.runs), yardstick, "C load")
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
        print(f"peak memory {peak / 1024:.0f} MiB, {peak / chosen.records:.1f} KiB a record")
        print("planted {}, found {}".format(*planted_and_found(folder, planted)))


if __name__ == "__main__":
    main()
