"""Wheels of the driving wheel base differ in diameter by more than a limit on file allows when tires are turned or new.

What is judged: three cases, by what was turned or renewed and has not run since. All tires: the largest less the
smallest of the whole base. A single tire: its diameter less that of the wheel opposite. A single pair: each wheel
less the average of the driving wheel base. Once the engine has steamed, these limits are silent, and the difference
on each axle (diameters-differ-on-axle) is what counts. Where the service records do not tell whether it ran, it is
not assessed.

What to do: tape the wheels again before the engine leaves the shop; now is the time when a light cut costs least.

Source: the limit named in the finding. For the United States 49 CFR 230.113(k).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "diameters-differ-in-set"
QUANTITIES = ("diameter_difference_in_set", "diameter_less_opposite", "diameter_less_base_average")
NEXT = "Tape the driving wheels again before the engine runs."


def check(book: Book) -> Iterator[Finding]:
    """Judge the match of the driving wheel base after turning or re-tiring."""
    return judged(book, ID, QUANTITIES, NEXT)
