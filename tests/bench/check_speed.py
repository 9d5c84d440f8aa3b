"""How long axlebook takes and what memory it has, as ratios in one run.

Yardsticks: PyYAML's C load of the same files in one process, and `python -c pass`; on request a general schema
validator's command line (check-jsonschema, installed into a place of its own), with the same schemas.

    python -m tests.bench.check_speed
    python -m tests.bench.check_speed --sizes 1000,10000,50000 --runs 3 --validator
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
import venv
from pathlib import Path

from axlebook.sources.two_hands import ONE_PROCESS
from tests.bench.generate import DEMO, TOP, write
from tests.bench.measured import axlebook, peak_bytes, seconds

C_LOAD = (
    "import sys, pathlib, yaml\n"
    "for p in sorted(pathlib.Path(sys.argv[1]).rglob('*.yaml')):\n"
    "    yaml.load(p.read_bytes(), Loader=yaml.CSafeLoader)\n"
)
COMPARED, CHANGED, VALIDATED = 10000, 20, 1000


def told(name: str, figure: str, goal: str = "") -> None:
    """Print one line of the table."""
    print(f"{name:<52} {figure:>22}   {goal}", flush=True)


def starts(runs: int) -> None:
    """What a start costs, against the bare interpreter."""
    bare = seconds([sys.executable, "-c", "pass"], 3 * runs)
    told("python -c pass", f"{bare * 1000:.1f} ms")
    for name, command, goal in (
        ("axlebook --help", axlebook("--help"), "<= 5 x python -c pass"),
        ("axlebook check demo-ledger", axlebook("check", str(DEMO)), "<= 40 x python -c pass"),
    ):
        told(name, f"{seconds(command, runs) / bare:.1f} x", goal)


def of_size(folder: Path, records: int, runs: int) -> float:
    """One ledger, checked cold; returns how long the C load of its files takes."""
    planted = write(folder, records)
    size = sum(path.stat().st_size for path in folder.rglob("*.yaml"))
    print(f"\n{records} records, {size / records:.0f} bytes each, {len(planted)} faults planted")
    load = seconds([sys.executable, "-c", C_LOAD, str(folder)], runs)
    told("PyYAML C load", f"{load:.2f} s")
    command = axlebook("check", str(folder))
    told("axlebook check", f"{seconds(command, runs) / load:.2f} x C load", "<= 0.5 x C load")
    alone = seconds(command, runs, {**os.environ, ONE_PROCESS: "1"})
    told("axlebook check, in one process", f"{alone / load:.2f} x C load")
    memory = peak_bytes(command) / records / 1024
    told("peak memory of check", f"{memory:.1f} KiB a record", "<= 25, the same at each size")
    one, two = (_answer(folder, {ONE_PROCESS: alone} if alone else {}) for alone in ("1", ""))
    named = {(finding["path"], finding["check"]) for finding in json.loads(two)["findings"]}
    told("planted faults named at their file", f"{len(planted.items() & named)} of {len(planted)}", "all")
    told("answer of one process and of two", "the same bytes" if one == two else "DIFFERENT", "the same bytes")
    return load


def _answer(folder: Path, environment: dict[str, str]) -> bytes:
    command = axlebook("check", str(folder), "--format", "json")
    return subprocess.run(command, capture_output=True, check=False, env={**os.environ, **environment}).stdout


def compared(folder: Path, runs: int) -> None:
    """Two revisions with a few records changed, against one cold check of the same."""
    _git(folder, "init", "--quiet")
    _git(folder, "add", "--all")
    _git(folder, "commit", "--quiet", "-m", "before")
    inspections = sorted(folder.glob("inspections/**/*.yaml"))
    changed = inspections[:: len(inspections) // CHANGED][:CHANGED]
    for path in changed:
        path.write_text(path.read_text(encoding="utf-8") + "# changed\n", encoding="utf-8")
    _git(folder, "commit", "--quiet", "--all", "-m", "after")
    cold = seconds(axlebook("check", str(folder), "--no-history"), runs)
    both = seconds(axlebook("compare", "HEAD~1", "HEAD", "--ledger", str(folder)), runs)
    print()
    told(f"axlebook compare, {len(changed)} of {COMPARED} changed", f"{both / cold:.2f} x check", "<= 1.3 x check")
    with_history = seconds(axlebook("check", str(folder)), runs)
    told("axlebook check with the history of two commits", f"{with_history / cold:.2f} x check")


def _git(folder: Path, *arguments: str) -> None:
    who = ("-c", "user.name=bench", "-c", "user.email=bench@example.org", "-c", "commit.gpgsign=false")
    subprocess.run(["git", "-C", str(folder), *who, *arguments], check=True, stdout=subprocess.DEVNULL)


def validated(folder: Path, load: float, place: Path) -> None:
    """The same files by the same schemas in a general validator, a call a kind of record."""
    venv.create(place, with_pip=True)
    tools = place / ("Scripts" if os.name == "nt" else "bin")
    subprocess.run([str(tools / "python"), "-m", "pip", "install", "--quiet", "check-jsonschema"], check=True)
    kinds: dict[str, list[str]] = {}
    for path in sorted(folder.rglob("*.yaml")):
        lines = path.read_text(encoding="utf-8").splitlines()
        kind = next((line.removeprefix("kind: ") for line in lines if line.startswith("kind: ")), "")
        if (TOP / "schema" / f"{kind}.schema.json").is_file():
            kinds.setdefault(kind, []).append(str(path))
    check = str(tools / "check-jsonschema")
    took = sum(
        seconds([check, "--schemafile", str(TOP / "schema" / f"{kind}.schema.json"), *paths], 1)
        for kind, paths in kinds.items()
    )
    told(f"check-jsonschema, {sum(map(len, kinds.values()))} records", f"{took / load:.1f} x C load")


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--sizes", default="1000,10000", help="records of each ledger, with commas between")
    parser.add_argument("--runs", type=int, default=3)
    parser.add_argument("--validator", action="store_true", help="measure check-jsonschema too; it is installed")
    chosen = parser.parse_args()
    starts(chosen.runs)
    for size in map(int, chosen.sizes.split(",")):
        with tempfile.TemporaryDirectory() as name:
            load = of_size(Path(name) / "book", size, chosen.runs)
            if chosen.validator and size == VALIDATED:
                validated(Path(name) / "book", load, Path(name) / "validator")
            if size == COMPARED:
                compared(Path(name) / "book", chosen.runs)


if __name__ == "__main__":
    main()
