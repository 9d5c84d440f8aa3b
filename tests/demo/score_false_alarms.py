"""Print what the checks cry over noisy ledgers without a slip: python -m tests.demo.score_false_alarms

Two hundred ledgers of twelve years each; a false alarm is a finding outside, suspect or unreadable that is
more than a note. Exit 1 where there is one. What cannot be decided or assessed is no alarm; it is counted
beside.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from axlebook.findings import Finding, counts_for_exit
from axlebook.run import run_entries
from axlebook.sources.names import Entry
from tests.demo.parameters import SEEDS, printed
from tests.demo.simulated import simulated

TODAY = date(2030, 1, 1)  # the ledgers are closed: the day of the run decides nothing


@dataclass
class Alarms:
    """What was cried over some ledgers."""

    ledgers: int = 0
    read: int = 0
    found: list[tuple[int, Finding]] = field(default_factory=list)
    others: Counter[str] = field(default_factory=Counter)


def alarms(seeds: Iterable[int]) -> Alarms:
    """Run every check over the ledgers of some seeds."""
    result = Alarms()
    for seed in seeds:
        entries = [Entry(path, content, None) for path, content in sorted(simulated(seed).items())]
        outcome = run_entries(entries, as_of=None, today=TODAY)
        result.ledgers += 1
        result.read += outcome.counts["read"]
        for one in outcome.findings:
            if counts_for_exit(one, strict=False):
                result.found.append((seed, one))
            else:
                result.others[f"{one.check} ({one.verdict})"] += 1
    return result


def told(result: Alarms, *, others: bool) -> str:
    """The alarms by check, each with its first case; and what is no alarm, where asked for."""
    lines = [
        printed(),
        f"{result.ledgers} ledgers, {result.read} records read: {len(result.found)} false alarms",
    ]
    by_check: dict[str, list[tuple[int, Finding]]] = {}
    for seed, one in result.found:
        by_check.setdefault(one.check, []).append((seed, one))
    for check, found in sorted(by_check.items(), key=lambda pair: -len(pair[1])):
        seed, first = found[0]
        lines.append(f"{len(found):6} {check}, first with seed {seed}: {first.place.path} {first.message}")
    if others:
        lines += [f"{count:6} no alarm: {name}" for name, count in result.others.most_common()]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--ledgers", type=int, default=len(SEEDS), help="how many, from seed 0")
    asked.add_argument("--others", action="store_true", help="list also what is no alarm")
    arguments = asked.parse_args()
    cried = alarms(range(arguments.ledgers))
    sys.stdout.write(told(cried, others=arguments.others))
    sys.exit(1 if cried.found else 0)
