"""Print how many planted slips the checks catch and name rightly: python -m tests.demo.score_practice

Twenty fresh seeds are drawn by the operating system and printed; AXLEBOOK_PRACTICE_SEED adds one of your own.
Exit 1 where fewer than 95 of 100 are caught.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

from tests.demo.scoring import Score, demo_texts, read_names, run_texts, score, table

FRESH = 20  # enough that chance alone does not decide
ENOUGH = 0.95
OWN_SEED = "AXLEBOOK_PRACTICE_SEED"


def seeds() -> list[int]:
    """Fresh seeds, and the one of the environment."""
    fresh = [int.from_bytes(os.urandom(4), "big") for _ in range(FRESH)]
    own = os.environ.get(OWN_SEED, "")
    return [*fresh, int(own)] if own else fresh


def scored(drawn: Sequence[int]) -> list[Score]:
    """The score of each seed."""
    texts, names = demo_texts(), read_names()
    known = {one.fingerprint for one in run_texts(texts).findings}
    return [score(seed, texts, known, names) for seed in drawn]


def enough(scores: Sequence[Score]) -> bool:
    """Whether 95 of 100 that could be seen are caught and rightly named, over all seeds together."""
    marks = [mark for one in scores for mark in one.marked]
    return sum(mark.caught for mark in marks) >= ENOUGH * len(marks)


if __name__ == "__main__":
    found = scored(seeds())
    sys.stdout.write(table(found))
    sys.exit(0 if enough(found) else 1)
