"""Would the tests notice? `python -m tests.house.mutation`: a command, not a test; it takes about half an hour.

One sign, bound, factor, word of comparison or joint at a time is flipped in `engineering/`, `limits/` and `checks/`,
on a copy of the last commit in a temporary folder, and the tests that know the module are run until one fails.
Printed: the seed, the share that was noticed, and what was not, with its line. `--again FILE` tries the lines of such
a list once more.
"""

from __future__ import annotations

import argparse
import ast
import io
import os
import random
import re
import signal
import subprocess
import sys
import tarfile
import tempfile
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from queue import SimpleQueue

from tests.house.mutated_tests import BASELINE, tests_of

TOP = Path(__file__).resolve().parents[2]
PACKAGE = "tool/axlebook"
ROOMS = ("engineering", "limits", "checks")
LONGEST_RUN = 240.0  # seconds; a flip that makes a loop endless is noticed too

TURNED: dict[type[ast.AST], tuple[type[ast.AST], ...]] = {
    ast.Add: (ast.Sub,),
    ast.Sub: (ast.Add,),
    ast.Mult: (ast.Div,),
    ast.Div: (ast.Mult,),
    ast.FloorDiv: (ast.Mult,),
    ast.Lt: (ast.LtE, ast.Gt),
    ast.LtE: (ast.Lt, ast.GtE),
    ast.Gt: (ast.GtE, ast.Lt),
    ast.GtE: (ast.Gt, ast.LtE),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.And: (ast.Or,),
    ast.Or: (ast.And,),
}


@dataclass(frozen=True)
class Mutant:
    """One flip: where it is, and what it makes of the module."""

    module: str  # such as engineering/wear.py
    line: int
    column: int
    flip: str
    text: str

    def __str__(self) -> str:
        return f"{self.module}:{self.line}:{self.column} {self.flip}"


def mutants_of(module: str, source: str) -> list[Mutant]:
    """Every flip of a module, in the order of its text."""
    tree = ast.parse(source)
    return [
        Mutant(module, node.lineno, node.col_offset + 1, flip, text)
        for node in list(_judging_nodes(tree))
        for flip, text in _flips(node, tree)
    ]


def _judging_nodes(tree: ast.AST) -> Iterator[ast.expr]:
    """The expressions of a module that reckon or compare; annotations and words are none."""
    for name, value in ast.iter_fields(tree):
        if name in ("annotation", "returns", "type_params"):
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.BinOp | ast.Compare | ast.BoolOp | ast.UnaryOp | ast.Constant):
                yield child
            if isinstance(child, ast.AST):
                yield from _judging_nodes(child)


def _flips(node: ast.expr, tree: ast.Module) -> Iterator[tuple[str, str]]:
    if isinstance(node, ast.BoolOp) or (isinstance(node, ast.BinOp) and not _joins_words(node)):
        for other in TURNED.get(type(node.op), ()):
            yield f"{type(node.op).__name__} -> {other.__name__}", _with(node, "op", other(), tree)
    elif isinstance(node, ast.Compare):
        for number, sign in enumerate(node.ops):
            for other in TURNED.get(type(sign), ()):
                signs = [*node.ops[:number], other(), *node.ops[number + 1 :]]
                yield f"{type(sign).__name__} -> {other.__name__}", _with(node, "ops", signs, tree)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield "- -> +", _with(node, "op", ast.UAdd(), tree)
    elif isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
        yield f"{node.value} -> {node.value * 2 or 1}", _with(node, "value", node.value * 2 or 1, tree)


def _with(node: ast.expr, name: str, other: object, tree: ast.Module) -> str:
    """The text of a module where one thing of one node is another."""
    was = getattr(node, name)
    setattr(node, name, other)
    try:
        return ast.unparse(tree)
    finally:
        setattr(node, name, was)


def _joins_words(node: ast.BinOp) -> bool:
    """Whether a `+` joins texts or lists: turned round it only crashes, which any test would see."""
    return any(isinstance(side, ast.JoinedStr | ast.List | ast.Tuple | ast.Dict | ast.Set)
               or (isinstance(side, ast.Constant) and isinstance(side.value, str))
               or (isinstance(side, ast.BinOp) and _joins_words(side))
               for side in (node.left, node.right))  # fmt: skip


def all_mutants(copy: Path, only: str) -> dict[str, list[Mutant]]:
    """Every flip of every module of the rooms."""
    package = copy / PACKAGE
    paths = [path for room in ROOMS for path in sorted((package / room).glob("*.py"))]
    found = {
        (name := path.relative_to(package).as_posix()): mutants_of(name, path.read_text(encoding="utf-8"))
        for path in paths
    }
    return {name: flips for name, flips in found.items() if re.search(only, name)}


def chosen(found: dict[str, list[Mutant]], count: int, chance: random.Random) -> list[Mutant]:
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


def run_tests(copy: Path, arguments: list[str]) -> tuple[int, str]:
    """Run pytest in a copy; its exit code and its words. One that never ends counts as failed."""
    surroundings = {**os.environ, "PYTHONPATH": str(copy / "tool"), "PYTHONDONTWRITEBYTECODE": "1"}
    command = [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "--tb=no", "-rfE", *arguments]
    with subprocess.Popen(
        command, cwd=copy, env=surroundings, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, start_new_session=True
    ) as run:
        try:
            out, _ = run.communicate(timeout=LONGEST_RUN)
        except subprocess.TimeoutExpired:
            os.killpg(run.pid, signal.SIGKILL)
            return 1, "endless"
        return run.returncode, out.decode("utf-8", "replace")


def failing_before(copy: Path) -> list[str]:
    """The tests that fail with nothing flipped: what they say is no answer."""
    _, told = run_tests(copy, [*BASELINE, "--continue-on-collection-errors"])
    return re.findall(r"^(?:FAILED|ERROR) (\S+?)(?: - .*)?$", told, re.MULTILINE)


@cache
def _source(copy: Path, module: str) -> str:
    return (copy / PACKAGE / module).read_text(encoding="utf-8")


def is_noticed(mutant: Mutant, copy: Path, left_out: list[str]) -> bool:
    """Whether a test fails once the flip is made."""
    place = copy / PACKAGE / mutant.module
    was = _source(copy, mutant.module)
    place.write_text(mutant.text, encoding="utf-8")
    try:
        for arguments in tests_of(mutant.module, copy):
            code, _ = run_tests(copy, ["-x", *arguments, *(f"--deselect={one}" for one in left_out)])
            if code not in (0, 5):  # 5: nothing to run
                return True
        return False
    finally:
        place.write_text(was, encoding="utf-8")


def try_all(mutants: list[Mutant], copies: list[Path], left_out: list[str]) -> list[Mutant]:
    """Those that no test noticed; two at a time, each in a copy of its own."""
    free: SimpleQueue[Path] = SimpleQueue()
    for copy in copies:
        free.put(copy)
    started, done = time.monotonic(), 0

    def tried(mutant: Mutant) -> bool:
        copy = free.get()
        try:
            return is_noticed(mutant, copy, left_out)
        finally:
            free.put(copy)

    missed: list[Mutant] = []
    with ThreadPoolExecutor(len(copies)) as pool:
        for mutant, noticed in zip(mutants, pool.map(tried, mutants), strict=True):
            done += 1
            if not noticed:
                missed.append(mutant)
                print(f"not noticed: {mutant}", flush=True)
            if done % 25 == 0:
                print(
                    f"  {done} of {len(mutants)} after {time.monotonic() - started:.0f} s", file=sys.stderr, flush=True
                )
    return missed


def main() -> None:
    """Flip, run, count, print."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=520)
    asked.add_argument("--seed", type=int, default=16)
    asked.add_argument("--only", default="", help="a pattern for the modules, such as engineering/wear")
    asked.add_argument("--again", type=Path, help="a file with lines `not noticed: ...` to try once more")
    given = asked.parse_args()
    with tempfile.TemporaryDirectory() as room:
        copies = [copy_of_the_last_commit(Path(room, name)) for name in ("one", "two")]
        found = all_mutants(copies[0], given.only)
        if given.again:
            named = set(re.findall(r"^not noticed: (.*)$", given.again.read_text(encoding="utf-8"), re.MULTILINE))
            mutants = [flip for flips in found.values() for flip in flips if str(flip) in named]
        else:
            mutants = chosen(found, given.count, random.Random(given.seed))
        left_out = failing_before(copies[0])
        missed = try_all(mutants, copies, left_out)
    touched = {mutant.module for mutant in mutants}
    empty = sorted(name for name, flips in found.items() if not flips)
    share = 100 * (len(mutants) - len(missed)) / max(len(mutants), 1)
    print(
        f"seed {given.seed}: {len(mutants)} flips in {len(touched)} modules, {len(missed)} not noticed: {share:.1f} %"
    )
    print(f"{sum(map(len, found.values()))} flips are possible; modules with none: {len(empty)}")
    for one in left_out:
        print(f"failed before anything was flipped, and not asked: {one}")


if __name__ == "__main__":
    main()
