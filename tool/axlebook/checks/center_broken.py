"""A wheel center is cracked or broken, or too many of its spokes are.

What is judged: cracks and breaks of hub, plate, bolt or spoke; broken spokes by whether one is enough (engine truck
and tender), or by how many stand side by side and what share of all they are (drivers and trailing trucks). One
broken spoke of a driver can be within every limit on file: it is told all the same, as a thing to watch, for the
railway to decide on.

What to do: ring the spokes with a hammer, clean the roots, and look with dye. Number the spokes clockwise from the
datum and write the numbers of the broken ones: three side by side are judged otherwise than three apart.

Source: the limit named in the finding. For the United States 49 CFR 230.114(b).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book

from ._findings import judged, judged_seen
from ._judging import every_stand, reader
from ._seen import nothing_condemns, seen_here

ID = "center-broken"
QUANTITIES = ("adjacent_broken_spokes", "broken_spoke_share")
OBSERVATIONS = ("center_crack", "broken_spoke")
NEXT = "Clean the spokes and look with dye; write the numbers of the broken ones."


def check(book: Book) -> Iterator[Finding]:
    """Judge the center of every wheel."""
    found = [*judged_seen(book, ID, OBSERVATIONS, NEXT), *judged(book, ID, QUANTITIES, NEXT)]
    yield from found
    told = {finding.subject for finding in found if finding.verdict is Verdict.OUTSIDE}
    yield from (finding for finding in _watched(book) if finding.subject not in told)


def _watched(book: Book) -> Iterator[Finding]:
    """A broken spoke that no limit condemns."""
    for stand in every_stand(book):
        for observation in seen_here(book, stand, "broken_spoke")[:1]:
            if nothing_condemns(book, stand, "broken_spoke", reader(book, stand)):
                finding = Finding(
                    ID,
                    Verdict.SUSPECT,
                    Severity.WATCH,
                    stand.name,
                    observation.at,
                    f"{stand.name}, broken spoke: seen. No limit on file is passed by what is on record.",
                    quantity="broken_spoke",
                    next="Watch it: write at every inspection whether it grew, and decide when it is enough.",
                )
                yield replace(finding, where=str(observation.tree.get("angle", "")))
