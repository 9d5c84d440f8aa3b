"""Time and memory of a command, as the system sees it."""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from pathlib import Path

EVERY = 0.02  # seconds between two looks at a process


def axlebook(*arguments: str) -> list[str]:
    """The command line of the tool in this interpreter."""
    return [sys.executable, "-m", "axlebook", *arguments]


def seconds(command: list[str], runs: int, environment: dict[str, str] | None = None) -> float:
    """Median wall time of a command; one that could not run, or broke off, is no time of anything."""
    found = []
    for _ in range(runs):
        start = time.perf_counter()
        done = subprocess.run(
            command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, check=False, env=environment
        )  # fmt: skip
        found.append(time.perf_counter() - start)
        if done.returncode not in (0, 1):
            raise SystemExit(f"{' '.join(command[:5])} ended with {done.returncode}: {done.stderr.decode()[-400:]}")
    return statistics.median(found)


def peak_bytes(command: list[str]) -> int:
    """The most memory a command has had at once, that of its second process with it, what both share counted once.

    Looked at every 20 ms where the system tells (Linux); 0 elsewhere.
    """
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    most = 0
    while process.poll() is None:
        most = max(most, sum(map(_proportional, _family(process.pid))))
        time.sleep(EVERY)
    return most


def _family(process: int) -> list[int]:
    try:
        children = Path(f"/proc/{process}/task/{process}/children").read_text(encoding="ascii").split()
    except OSError:
        return [process]
    return [process, *map(int, children)]


def _proportional(process: int) -> int:
    """Memory of one process, what it shares with others divided among them."""
    try:
        lines = Path(f"/proc/{process}/smaps_rollup").read_text(encoding="ascii").splitlines()
    except OSError:  # it has ended, or the system does not tell
        return 0
    return sum(int(line.split()[1]) * 1024 for line in lines if line.startswith("Pss:"))
