"""Kill every command that writes at points drawn by chance, and look at what is left: a command of its own.

    python -m tests.hostile.kill_writers                  # 200 tries of each command
    python -m tests.hostile.kill_writers --tries 50 --only pages --seed 7

Half of the tries fall on a step (a file opened, linked, renamed, brought to the disk ...), half on a moment. After
each, every file must be as it was or as it becomes, no file lost, no folder half, no answer gone; then the same call is
given again, and must come to the same files or say in a sentence why not. Exit 0: all was so. 1: something was not.
"""

from __future__ import annotations

import argparse
import random
import shutil
import sys
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

from tests.hostile.faults import Fault, files_of
from tests.hostile.stage import Stage
from tests.hostile.writers import WRITERS, Writer

HEADS = ("command", "steps", "tries", "killed", "as before", "complete", "between", "wrong")


@dataclass
class Tally:
    """What came of the tries of one command."""

    steps: int
    killed: int = 0
    before: int = 0  # nothing was written yet
    whole: int = 0  # everything was written already
    between: int = 0  # some files were written, each of them whole
    wrong: list[str] = field(default_factory=list)


def main() -> int:
    """Try, and print a table."""
    parser = argparse.ArgumentParser(prog="python -m tests.hostile.kill_writers")
    parser.add_argument("--tries", type=int, default=200, help="of each command (200)")
    parser.add_argument("--seed", type=int, default=16, help="of the points (16)")
    parser.add_argument("--only", default="", help="commands whose name begins so")
    asked = parser.parse_args()
    print(f"seed {asked.seed}\n{_line(HEADS)}")
    chosen = [writer for writer in WRITERS if writer.name.startswith(asked.only)]
    failed = [writer for writer in chosen if _tried(writer, asked.tries, asked.seed)]
    return int(bool(failed))


def _tried(writer: Writer, tries: int, seed: int) -> list[str]:
    chance = random.Random(f"{seed} {writer.name}")
    with tempfile.TemporaryDirectory() as folder:
        stage = Stage(writer, Path(folder))
        tally = Tally(stage.steps)
        for number in range(tries):
            in_steps = number % 2 == 0
            fault = (
                Fault("kill", chance.randint(1, stage.steps)) if in_steps
                else Fault(after=chance.uniform(0, stage.seconds))
            )  # fmt: skip
            _one(stage, fault, tally)
    print(_line((writer.name, tally.steps, tries, tally.killed, tally.before, tally.whole, tally.between,
                 len(tally.wrong))), flush=True)  # fmt: skip
    for words in dict.fromkeys(tally.wrong):
        print(f"    {words}")
    return tally.wrong


def _one(stage: Stage, fault: Fault, tally: Tally) -> None:
    room = stage.room()
    ended = stage.run(room, fault)
    tally.killed += ended.code == -9
    left = files_of(room)
    tally.before += left == stage.before
    tally.whole += left == stage.whole
    tally.between += left not in (stage.before, stage.whole)
    tally.wrong += [f"{words} ({fault})" for words in stage.wrong_after_kill(room, ended)]
    shutil.rmtree(room, ignore_errors=True)


def _line(cells: tuple[object, ...]) -> str:
    first, *rest = (str(cell) for cell in cells)
    return f"{first:26}" + "".join(f"{cell:>10}" for cell in rest)


if __name__ == "__main__":
    sys.exit(main())
