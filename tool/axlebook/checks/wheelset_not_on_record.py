"""An engine has more axles by its wheel arrangement than stand under it by record.

What is judged: the leading, driving and trailing axles that `wheel_arrangement` counts (2-8-0: one, four and none)
against the wheelsets that stand under the engine on the day the book is read at. Of an axle that is on no record
nothing can be asked: no reading is missing, no limit is passed, and an inspection counts as whole without it. More than
the arrangement counts is not asked about, nor is one that is written otherwise than in numbers of wheels.

What to do: write a record of each that is missing (`axlebook new driver ID`, `axlebook new wheelset ID`), and a line of
it under `wheelsets` in the engine's record.

Source: the engine's record, `wheel_arrangement` and `wheelsets`.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.engine import Engine

ID = "wheelset-not-on-record"
WHEELS = re.compile(r"[0-9]{1,2}(?:-[0-9]{1,2}){2,4}", re.ASCII)  # 2-8-0, 2-6-6-2; what follows tells of tanks
KINDS = {"engine-truck": "leading", "driver": "driving", "trailing-truck": "trailing"}
CAUSE = "no wheelset stands there by record"


def check(book: Book) -> Iterator[Finding]:
    """Count the axles of every engine against its wheel arrangement."""
    for engine in book.engines.values():
        written = fields.text(engine.tree, "wheel_arrangement")
        there: dict[str, list[str]] = defaultdict(list)
        for line in book.standing.standing_lines(engine, book.as_of):
            if line.wheelset in book.wheelsets:
                there[line.role].append(line.at)
        for role, axles in _axles(written).items():
            if len(set(there[role])) < axles:
                yield _finding(engine, written, role, axles, sorted(set(there[role])))


def _axles(written: str) -> dict[str, int]:
    """How many axles of each kind a wheel arrangement counts; none where it is written otherwise."""
    found = WHEELS.match(written)
    numbers = [int(number) for number in found[0].split("-")] if found else []
    if not numbers or any(number % 2 for number in numbers):
        return {}
    return dict(zip(KINDS, (numbers[0] // 2, sum(numbers[1:-1]) // 2, numbers[-1] // 2), strict=True))


def _finding(engine: Engine, written: str, role: str, axles: int, there: list[str]) -> Finding:
    many = f"{axles} {KINDS[role]} axle{'s' if axles > 1 else ''}"
    new = "driver" if role == "driver" else "wheelset"
    return Finding(
        ID, Verdict.NOT_ASSESSED, Severity.DATA, f"{engine.id} {role}", Place(engine.path, "/wheel_arrangement"),
        f"{engine.id} has {many} by its wheel arrangement ({written}), and by record "
        f"{', '.join(there) or 'none'} stand{'s' if len(there) < 2 else ''} under it: nothing of the rest is judged.",
        source=f"{engine.path}, `wheel_arrangement` and `wheelsets`",
        next=f"Write each that is missing: axlebook new {new} ID; and a line of it under `wheelsets` of {engine.path}.",
        cause=CAUSE,
    )  # fmt: skip
