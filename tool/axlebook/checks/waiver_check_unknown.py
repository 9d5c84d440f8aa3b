"""A waiver names a check that does not exist.

What is judged: the check that each waiver names, against the list of checks. A check that has another name waives
nothing. What is said of waivers themselves cannot be waived either.

What to do: write the name as it stands at the end of the finding; the finding here names the nearest. `axlebook
explain` lists them all.

Source: the list of checks.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.waiver import waivers

from ._records import nearest
from ._waiving import OF_WAIVERS

ID = "waiver-check-unknown"


def check(book: Book) -> Iterator[Finding]:
    """Tell every waiver of no check, or of one that judges waivers."""
    from . import NAMES  # the list of checks names this one

    known = [name.replace("_", "-") for name in NAMES]
    for waiver in waivers(book):
        if waiver.check in known and waiver.check not in OF_WAIVERS:
            continue
        near = nearest(waiver.check, known)
        of_waivers = waiver.check in OF_WAIVERS
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.DATA,
            waiver.id,
            waiver.place.below("finding", "check"),
            f"The waiver {waiver.id} waives nothing: "
            + (f"{waiver.check} judges waivers themselves." if of_waivers else f"no check is named {waiver.check}."),
            source="the list of checks (axlebook explain)",
            next="Close this waiver." if of_waivers else
            f"Write {near} if that is meant." if near else "Copy the name from the end of the finding.",
        )  # fmt: skip
