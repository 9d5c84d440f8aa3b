"""Would the tests notice? `python -m tests.house.mutation`: a command, not a test; it takes about half an hour.

One sign, bound, factor, word of comparison or joint at a time is flipped in `engineering/`, `limits/` and `checks/`,
on a copy of the last commit in a temporary folder. One run with nothing flipped tells which tests come past which line
(pytest-cov); for each flip those are run until one fails. Printed: the seed, the share that was noticed, and what was
not, with its line. `--again FILE` tries the lines of such a list once more.
"""

from __future__ import annotations

import argparse
import io
import multiprocessing
import os
import random
import re
import signal
import subprocess
import sys
import tarfile
import tempfile
import time
from collections import defaultdict
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from tests.house.flips import Flip, flips_of

TOP = Path(__file__).resolve().parents[2]
PACKAGE = "tool/axlebook"
ROOMS = ("engineering", "limits", "checks")
# What is run, in the order in which it is asked: quick and near first.
ASKED = [
    *(f"{PACKAGE}/{room}" for room in ROOMS), "tests/engineering", "tests/published", "tests/trends", "tests/records",
    "tests/checks", *(f"tests/cli/test_{name}.py" for name in (
        "explain", "fit", "fit_what_if", "bore", "braking", "turning", "wear", "due", "history", "at")),
]  # fmt: skip
MOST_TESTS = 160  # of those that come past a line; drawn by lot where there are more
LONGEST_RUN = 120  # seconds; a flip that makes a loop endless is noticed too
Met = Mapping[str, Mapping[int, frozenset[str]]]  # by module and line, the tests that come past


def all_flips(copy: Path, only: str) -> dict[str, list[Flip]]:
    """Every flip of every module of the rooms."""
    package = copy / PACKAGE
    paths = [path for room in ROOMS for path in sorted((package / room).glob("*.py"))]
    found = {
        (name := path.relative_to(package).as_posix()): flips_of(name, path.read_text(encoding="utf-8"))
        for path in paths
    }
    return {name: flips for name, flips in found.items() if re.search(only, name)}


def chosen(found: dict[str, list[Flip]], count: int, chance: random.Random) -> list[Flip]:
    """So many flips, at least one of every module that has any, the others by lot."""
    first = [chance.choice(flips) for flips in found.values() if flips]
    others = [flip for flips in found.values() for flip in flips if flip not in first]
    picked = first + chance.sample(others, max(0, min(count - len(first), len(others))))
    chance.shuffle(picked)
    return picked


def copy_of_the_last_commit(into: Path) -> Path:
    """The last commit, written into a folder: nobody's half-finished edit is in it."""
    packed = subprocess.run(["git", "archive", "HEAD"], cwd=TOP, check=True, capture_output=True).stdout
    with tarfile.open(fileobj=io.BytesIO(packed)) as archive:
        archive.extractall(into, filter="data")
    return into


def run_unflipped(copy: Path) -> tuple[Met, set[str]]:
    """Which tests come past which line, and which fail with nothing flipped: what those say is no answer."""
    from coverage import CoverageData

    arguments = ["-p", "no:cacheprovider", "--tb=no", "-rfE", *ASKED, "--cov-report=", "--cov-context=test",
                 *(f"--cov={PACKAGE}/{room}" for room in ROOMS)]  # fmt: skip
    told = copy.parent / "told"
    run = multiprocessing.get_context("fork").Process(target=_run_all, args=(copy, arguments, told))
    run.start()
    run.join()
    failing = set(re.findall(r"^(?:FAILED|ERROR) (.+?)(?: - .*)?$", told.read_text("utf-8"), re.MULTILINE))
    read = CoverageData(str(copy / ".coverage"))
    read.read()
    met = {
        Path(path).relative_to(copy / PACKAGE).as_posix(): {
            line: frozenset(context.partition("|")[0] for context in contexts if context)
            for line, contexts in read.contexts_by_lineno(path).items()
        }
        for path in read.measured_files()
    }
    return met, failing


def _run_all(copy: Path, arguments: list[str], told: Path) -> None:
    stand_in(copy)
    stream = os.open(told, os.O_WRONLY | os.O_CREAT)
    os.dup2(stream, 1)
    os.dup2(stream, 2)
    import pytest

    pytest.main(arguments)
    sys.stdout.flush()


def stand_in(copy: Path) -> None:
    """Make a copy the place that this process and its children read the tool and the tests from."""
    os.chdir(copy)
    os.environ.update({"PYTHONPATH": str(copy / "tool"), "PYTHONDONTWRITEBYTECODE": "1"})
    sys.dont_write_bytecode = True
    sys.path[:] = [str(copy), str(copy / "tool"), *(p for p in sys.path if p not in ("", str(TOP), str(TOP / "tool")))]
    for name in [name for name in sys.modules if name.split(".")[0] in ("tests", "axlebook")]:
        del sys.modules[name]


def tests_for(flip: Flip, met: Met, failing: set[str], chance: random.Random) -> list[str]:
    """The tests that come past a flip, quick ones first; where it runs at import, those that come past its module."""
    lines = met.get(flip.module, {})
    found = {test for line in flip.lines for test in lines.get(line, ())} - failing
    if not found and any(line in lines for line in flip.lines):
        found = {test for tests in lines.values() for test in tests} - failing
    by_place = defaultdict(list)
    for test in sorted(found):
        by_place[next((n for n, start in enumerate(ASKED) if test.startswith(start)), len(ASKED))].append(test)
    drawn: list[str] = []
    for place in sorted(by_place):
        drawn += chance.sample(by_place[place], min(len(by_place[place]), MOST_TESTS if place < 8 else 6))
    return drawn[:MOST_TESTS]


def is_noticed(flip: Flip, tests: list[str], copy: Path) -> bool:
    """Whether a test fails once the flip is made; run in a child, so that each starts with nothing of ours loaded."""
    if not tests:
        return False
    place = copy / PACKAGE / flip.module
    was = place.read_bytes()
    place.write_text(flip.text, encoding="utf-8")
    try:
        child = os.fork()
        if child == 0:
            _run(tests)
        _, status = os.waitpid(child, 0)
        return status != 0
    finally:
        place.write_bytes(was)


def _run(tests: list[str]) -> None:
    """Run tests in this process and leave; an alarm ends what never ends."""
    signal.alarm(LONGEST_RUN)
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nowhere, stream)
    code = 1
    try:
        import pytest

        code = int(pytest.main(["-x", "-p", "no:cacheprovider", "-p", "no:cov", "--tb=no", *tests]))
    finally:
        os._exit(code)


def work(copy: Path, todo: Any, done: Any) -> None:
    """Take flips and try them, in a process that stands in a copy and has loaded what is not ours."""
    import hypothesis
    import jsonschema
    import numpy
    import pytest
    import scipy.optimize
    import scipy.stats
    import yaml

    assert all((hypothesis, jsonschema, numpy, pytest, scipy))  # loaded, so that no child has to
    yaml.BaseLoader = yaml.CBaseLoader  # type: ignore[misc,assignment]  # the cases, read five times as fast
    stand_in(copy)
    while (asked := todo.get()) is not None:
        number, flip, tests = asked
        done.put((number, is_noticed(flip, tests, copy)))


def try_all(flips: list[Flip], tests: list[list[str]], copies: list[Path]) -> Iterator[Flip]:
    """Those that no test noticed, as they come; each copy has its own process."""
    todo: Any = multiprocessing.Queue()
    done: Any = multiprocessing.Queue()
    for number, flip in enumerate(flips):
        todo.put((number, flip, tests[number]))
    workers = [multiprocessing.Process(target=work, args=(copy, todo, done)) for copy in copies]
    for worker in workers:
        todo.put(None)
        worker.start()
    started = time.monotonic()
    for count in range(1, len(flips) + 1):
        number, noticed = done.get()
        if not noticed:
            yield flips[number]
        if count % 25 == 0:
            print(f"  {count} of {len(flips)} after {time.monotonic() - started:.0f} s", file=sys.stderr, flush=True)
    for worker in workers:
        worker.join()


def main() -> None:
    """Flip, run, count, print."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=520)
    asked.add_argument("--seed", type=int, default=16)
    asked.add_argument("--only", default="", help="a pattern for the modules, such as engineering/wear")
    asked.add_argument("--again", type=Path, help="a file with lines `not noticed: ...` to try once more")
    given = asked.parse_args()
    chance = random.Random(given.seed)
    with tempfile.TemporaryDirectory() as room:
        copies = [copy_of_the_last_commit(Path(room, name)) for name in ("one", "two")]
        found = all_flips(copies[0], given.only)
        flips = chosen(found, given.count, chance)
        if given.again:
            named = set(re.findall(r"^not noticed: (.*?)(?: \(.*\))?$", given.again.read_text("utf-8"), re.MULTILINE))
            flips = [flip for flips in found.values() for flip in flips if str(flip) in named]
        met, failing = run_unflipped(copies[0])
        tests = [tests_for(flip, met, failing, chance) for flip in flips]
        missed = 0
        for flip in try_all(flips, tests, copies):
            missed += 1
            print(f"not noticed: {flip} ({len(tests[flips.index(flip)])} tests came past)", flush=True)
    share = 100 * (len(flips) - missed) / max(len(flips), 1)
    modules = len({flip.module for flip in flips})
    print(f"seed {given.seed}: {len(flips)} flips in {modules} modules, {missed} not noticed: {share:.1f} % noticed")
    none = sum(not flips for flips in found.values())
    print(f"{sum(map(len, found.values()))} flips are possible; {none} modules have nothing to flip")
    for one in sorted(failing):
        print(f"failed before anything was flipped, and not asked: {one}")


if __name__ == "__main__":
    main()
