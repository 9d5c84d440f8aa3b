"""Would the tests notice? `python -m tests.house.mutation`: a command, not a test.

One sign, bound, factor, word of comparison or joint at a time is flipped in `engineering/`, `limits/` and `checks/`,
on a copy of the last commit in a temporary folder. A run with nothing flipped tells which tests come past which line;
that takes some minutes, and is kept in the temporary folder, so that the next time only what is new is run. For each
flip some of those tests are run, narrow and near ones first, until one fails. Printed: the seed, the share that was
noticed, and what was not, with its line. `--again FILE` tries the lines of such a list once more.

A flip that changes nothing that could be seen is named in `no_difference.yaml` with the reason, and is not counted.
"""

from __future__ import annotations

import argparse
import difflib
import gzip
import io
import json
import multiprocessing
import os
import random
import re
import subprocess
import sys
import tarfile
import tempfile
import time
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest
from pathlib import Path
from typing import Any

import yaml
from tests.house import warm
from tests.house.flips import Flip, flips_of
from tests.house.warm import PACKAGE, Met, Warm

TOP = Path(__file__).resolve().parents[2]
ROOMS = ("engineering", "limits", "checks")
# Tests of the command line that run it as a process of its own, or wait, tell nothing here.
LEFT_OUT = ("test_two_processes", "test_enter_terminal", "test_progress", "test_import_hostile", "test_init_ci",
            "test_pre_commit", "test_import_spreadsheets", "test_export_tables")  # fmt: skip
LONG_ONES = ("test_planter", "test_practice_score", "test_false_alarms")  # they take the tool's whole day
ASKED = [
    *(f"{PACKAGE}/{room}" for room in ROOMS), "tests/engineering", "tests/published", "tests/trends", "tests/records",
    "tests/checks", "tests/cli", "tests/reports", "tests/demo",
    *(f"--ignore=tests/cli/{name}.py" for name in LEFT_OUT), *(f"--ignore=tests/demo/{name}.py" for name in LONG_ONES),
]  # fmt: skip
MOST_TESTS, MOST_OWN, MOST_NARROW, MOST_SECONDS = (
    500,
    150,
    150,
    15.0,
)  # of those that come past a line; more are not asked
NARROW = 400  # lines that a test comes past in all, for it to be asked before those of the topic
SLOW = 2.0  # seconds; a slower test is asked only where no quick one comes past


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


def without_difference() -> list[dict[str, Any]]:
    """The flips that nobody could tell from what stands there, with the reason."""
    return yaml.safe_load((Path(__file__).parent / "no_difference.yaml").read_text(encoding="utf-8")) or []


def makes_no_difference(flip: Flip, named: Sequence[Mapping[str, Any]]) -> bool:
    """Whether a flip is one of those."""
    return any(
        one["module"] == flip.module
        and one["line"] == flip.text
        and (flip.words, flip.stands) in [tuple(pair) for pair in one["flips"]]
        for one in named
    )


def copy_of_a_commit(commit: str, into: Path) -> Path:
    """A commit, written into a folder: nobody's half-finished edit is in it."""
    packed = subprocess.run(["git", "archive", commit], cwd=TOP, check=True, capture_output=True).stdout
    with tarfile.open(fileobj=io.BytesIO(packed)) as archive:
        archive.extractall(into, filter="data")
    return into


class Kept:
    """What came past, kept from one time to the next.

    Of a module that was altered in between, each line is taken to be come past by the tests of the line that stood
    there: that only chooses whom to ask. Where a module is new, all is run again.
    """

    def __init__(self, place: Path, copy: Path) -> None:
        self.place = place
        package = copy / PACKAGE
        self.modules = {
            path.relative_to(package).as_posix(): path.read_text(encoding="utf-8")
            for room in ROOMS
            for path in sorted((package / room).glob("*.py"))
        }
        self.met = Met()
        if place.exists():
            self._read(json.loads(gzip.decompress(place.read_bytes())))

    def _read(self, told: dict[str, Any]) -> None:
        if not self.modules.keys() <= told["modules"].keys():
            return
        moved = {
            name: moved_lines(told["modules"][name], text)
            for name, text in self.modules.items()
            if told["modules"][name] != text
        }
        for name, (seconds, failing, bits) in told["tests"].items():
            if failing:
                continue
            self.met.seconds[name] = seconds
            self.met.lines[name] = {
                module: {new for line in _numbers(many) for new in moved[module].get(line, ())} if module in moved
                else _numbers(many)
                for module, many in bits.items()
                if module in self.modules
            }  # fmt: skip

    def write(self) -> None:
        """Keep it."""
        tests = {
            name: (round(self.met.seconds[name], 4), name in self.met.failing, {m: _bits(n) for m, n in lines.items()})
            for name, lines in self.met.lines.items()
        }
        packed = gzip.compress(json.dumps({"modules": self.modules, "tests": tests}).encode(), 3)
        beside = self.place.with_suffix(f".{os.getpid()}")
        beside.write_bytes(packed)
        beside.replace(self.place)


def moved_lines(old: str, new: str) -> dict[int, list[int]]:
    """For each line of an old text the lines of a new one that stand in its place."""
    found: dict[int, list[int]] = defaultdict(list)
    matched = difflib.SequenceMatcher(None, old.splitlines(), new.splitlines(), autojunk=False)
    for what, first, last, new_first, new_last in matched.get_opcodes():
        for step in range(new_last - new_first):
            near = range(first - 2, last + 3) if what != "equal" else (first + step,)
            for line in near:
                found[line + 1].append(new_first + step + 1)
    return found


def _bits(lines: set[int]) -> str:
    return f"{sum(1 << line for line in lines):x}"


def _numbers(bits: str) -> set[int]:
    return {number for number, bit in enumerate(reversed(f"{int(bits, 16):b}")) if bit == "1"}


def tests_for(flip: Flip, met: Met, asking: Mapping[str, frozenset[str]]) -> list[str]:
    """The tests that come past a flip: those that come past little else, those of its own topic, then others."""
    past = met.tests_past(flip.module, [flip.line]) or met.tests_past(flip.module, flip.lines)
    past.sort(key=met.seconds.__getitem__)
    own = [test for test in past if is_own(flip.module, test, asking)]
    narrow = sorted((test for test in past if met.breadth(test) < NARROW), key=met.breadth)[:MOST_NARROW]
    by_topic: dict[str, list[str]] = defaultdict(list)
    for test in past:
        by_topic[topic(test)].append(test)
    mixed = [test for row in zip_longest(*by_topic.values()) for test in row if test]
    ordered = list(dict.fromkeys([*narrow, *own[:MOST_OWN], *mixed]))
    quick = [test for test in ordered if met.seconds[test] < SLOW] or ordered[:3]
    picked: list[str] = []
    seconds = 0.0
    for test in quick[:MOST_TESTS]:
        seconds += met.seconds[test]
        if picked and seconds > MOST_SECONDS:
            break
        picked.append(test)
    return picked


def topic(test: str) -> str:
    """What a test is about: its file, or the check of its case."""
    file, _, rest = test.partition("::")
    case = re.search(r"\[([a-z-]+)/", rest)
    return case[1] if case else file


def is_own(module: str, test: str, asking: Mapping[str, frozenset[str]]) -> bool:
    """Whether a test is of a module: its examples, its file, or the cases of its check or of one that asks it."""
    name = Path(module).stem
    about = topic(test).split("/")[-1]
    return test.startswith(f"{PACKAGE}/{module}") or about in {f"test_{name.strip('_')}.py", *asking.get(module, ())}


def checks_asking(copy: Path) -> dict[str, frozenset[str]]:
    """By module of the checks, the ids of itself and of those that import it."""
    texts = {path.stem: path.read_text(encoding="utf-8") for path in (copy / PACKAGE / "checks").glob("*.py")}
    return {
        f"checks/{name}.py": frozenset(
            other.replace("_", "-") for other, text in texts.items() if other == name or f"from .{name} import" in text
        )
        for name in texts
    }


@dataclass(frozen=True)
class Job:
    """What is to be tried, and where."""

    flips: list[Flip]
    copy: Path
    kept: Path


def keep_warm(job: Job, told: Any) -> None:
    """Collect the tests, learn what they come past, and try every flip that a loaded tool can take."""

    def use(items: dict[str, Any]) -> None:
        kept = Kept(job.kept, job.copy)
        new = [item for name, item in items.items() if name not in kept.met.lines]
        if new:
            told.send(("say", f"{len(new)} tests of {len(items)} to be run with nothing flipped"))
            child = os.fork()
            if child == 0:
                try:
                    warm.come_past(new, job.copy, ROOMS, kept.met)
                    kept.write()
                finally:
                    os._exit(0)
            os.waitpid(child, 0)
            kept = Kept(job.kept, job.copy)
        for lost in kept.met.lines.keys() - items.keys():
            del kept.met.lines[lost]
        told.send(("failing", [name for name in items if name not in kept.met.lines]))
        loaded, asking = Warm(items, job.copy, ROOMS), checks_asking(job.copy)
        told.send(("say", "ready"))
        for number, flip in enumerate(job.flips):
            tests = tests_for(flip, kept.met, asking)
            if flip.at_import and not tests:
                tests = tests_for(_anywhere(flip, job.copy), kept.met, asking)
            came = warm.NOT_TO_BE_PUT_IN if flip.at_import else warm.NOT_NOTICED
            if tests and not flip.at_import:
                came = loaded.tries(flip, tests, kept.met.seconds)
            told.send(("tried", (number, came, tests)))

    warm.with_collected(ASKED, job.copy.parent / "pytest", use)
    told.send(("end", None))


def _anywhere(flip: Flip, copy: Path) -> Flip:
    """A flip at import as one on any line of its module: whoever comes past that has imported it."""
    length = len((copy / PACKAGE / flip.module).read_text(encoding="utf-8").splitlines())
    return replace(flip, line=0, lines=range(1, length + 1))


def try_all(job: Job) -> Iterator[tuple[Flip, bool, int]]:
    """Each flip as it was tried, whether it was noticed, and how many tests were there to notice."""
    warm.load_what_is_not_ours()
    warm.stand_in(job.copy)
    here, there = multiprocessing.get_context("fork").Pipe(duplex=False)
    warmed = multiprocessing.get_context("fork").Process(target=keep_warm, args=(job, there))
    warmed.start()
    there.close()
    started, anew = time.monotonic(), []
    while True:
        what, said = here.recv()
        if what == "end":
            break
        if what == "say":
            say(f"  {said} ({time.monotonic() - started:.0f} s)")
        elif what == "failing":
            for name in said:
                say(f"  failed with nothing flipped, and not asked: {name}")
        elif said[1] == warm.NOT_TO_BE_PUT_IN:
            anew.append((job.flips[said[0]], said[2]))
        else:
            yield job.flips[said[0]], said[1] == warm.NOTICED, len(said[2])
    warmed.join()
    for flip, tests in anew:
        fewer = tests[:60]
        yield flip, bool(fewer) and warm.tries_anew(flip, fewer, job.copy) == warm.NOTICED, len(fewer)


def say(words: str) -> None:
    print(words, file=sys.stderr, flush=True)


def given() -> argparse.Namespace:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--count", type=int, default=520)
    asked.add_argument("--seed", type=int, default=16)
    asked.add_argument("--only", default="", help="a pattern for the modules, such as engineering/wear")
    asked.add_argument("--again", type=Path, help="a file with lines `not noticed: ...` to try once more")
    asked.add_argument("--commit", default="HEAD")
    return asked.parse_args()


def main() -> None:
    """Flip, run, count, print."""
    wanted, started = given(), time.monotonic()
    kept = Path(tempfile.gettempdir(), f"axlebook-came-past-{os.getuid()}.gz")
    with tempfile.TemporaryDirectory() as room:
        copy = copy_of_a_commit(wanted.commit, Path(room, "copy"))
        found = all_flips(copy, wanted.only)
        named = without_difference()
        possible = {name: [f for f in flips if not makes_no_difference(f, named)] for name, flips in found.items()}
        flips = chosen(possible, wanted.count, random.Random(wanted.seed))
        if wanted.again:
            again = set(
                re.findall(r"^not noticed: (\S+?):\d+:\d+ (.*`)", wanted.again.read_text("utf-8"), re.MULTILINE)
            )
            flips = [f for many in possible.values() for f in many if (f.module, f"{f.words} in `{f.stands}`") in again]
        missed = count = 0
        for count, (flip, noticed, tests) in enumerate(try_all(Job(flips, copy, kept)), 1):
            missed += not noticed
            if not noticed:
                print(f"not noticed: {flip} ({tests} tests came past)\n    {flip.text}", flush=True)
            if count % 50 == 0:
                say(f"  {count} of {len(flips)} after {time.monotonic() - started:.0f} s, {missed} not noticed")
        assert count == len(flips), "the tests' process was lost on the way"
    share = 100 * (count - missed) / max(count, 1)
    modules = len({flip.module for flip in flips})
    print(f"seed {wanted.seed}: {count} flips in {modules} modules, {missed} not noticed: {share:.1f} % noticed")
    print(f"{sum(map(len, possible.values()))} flips are possible, {sum(map(len, found.values()))} with those that "
          f"make no difference; {sum(not flips for flips in found.values())} modules have nothing to flip; "
          f"{time.monotonic() - started:.0f} s")  # fmt: skip


if __name__ == "__main__":
    main()
