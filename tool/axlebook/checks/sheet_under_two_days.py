"""Two inspections of different days give the same fine figures throughout.

What is judged: inspections of one engine on different days, by the figures that seldom come out alike though nothing
wore. How seldom follows from how the readings of that quantity and instrument scatter in this book, and from how often
two in a row are the same to the last digit; what is alike in half of all, or was read too seldom to say, tells nothing,
for a rule may show the same mark year after year. Eight fine figures at least, nearly all that both have, and odds of
one in a million: then it is most likely one sheet, entered again under another day, or figures copied from last year.

What to do: look at the paper sheets. If the day was wrong, withdraw the one that was not read by a correction, or take
it out if it is not signed; if the figures were copied, measure again.

Source: the two records, and how often readings are alike in this ledger.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.lines import history_of
from axlebook.records.session import Session
from axlebook.records.timeline import all_series

ID = "sheet-under-two-days"
FEWEST, SELDOM = 10, 0.5  # pairs of readings that say how often they are alike; how seldom that must be
LEAST, SHARE, ODDS = 8, 0.9, 1e-6
NEXT = "Look at the paper sheets; withdraw the record that was not read, or measure again."
Where = tuple[object, ...]


class Fine(NamedTuple):
    """A figure that seldom comes out twice, and how seldom."""

    text: str
    chance: float


def check(book: Book) -> Iterator[Finding]:
    """Compare the inspections of each engine that share figures which are seldom alike."""
    found = _figures(book)
    seen: dict[tuple[Where, str], list[str]] = defaultdict(list)
    for session in book.past_sessions:
        mine = found.get(session.id, {})
        shared: Counter[str] = Counter()
        for where, fine in mine.items():
            shared.update(seen[where, fine.text])
            seen[where, fine.text].append(session.id)
        for earlier, same in shared.items():
            one = book.session_by_id[earlier]
            if same >= LEAST and one.day.exact != session.day.exact and one.engine == session.engine:
                yield from _told(one, session, found[earlier], mine)


def _figures(book: Book) -> dict[str, dict[Where, Fine]]:
    """The fine figures of each inspection by where they were read."""
    fine = _chances(book)
    found: dict[str, dict[Where, Fine]] = defaultdict(dict)
    for series in (one for one in all_series(book) if one.quantity in fine):
        chances, where = fine[series.quantity], (series.thing, series.quantity, series.position)
        for point in series.points:
            chance = chances.get(point.way[0])
            if chance is not None and point.origin.source.kind == "inspection":
                found[point.origin.source.record][where] = Fine(point.text, chance)
    return found


def _chances(book: Book) -> dict[str, dict[str, float]]:
    """How seldom two readings in a row are alike, by quantity and instrument: of those of which that is seldom."""
    noises = {
        quantity: fine
        for quantity, by in history_of(book).noises.items()
        if (fine := {name: noise.alike for name, noise in by.items() if noise.alike < SELDOM})
    }
    pairs: Counter[tuple[str, str]] = Counter()
    alike: Counter[tuple[str, str]] = Counter()
    for series in (one for one in all_series(book) if one.quantity in noises):
        fine = noises[series.quantity]
        for one, two in pairwise(series.points):
            if one.way[0] in fine and one.way == two.way and one.day != two.day:
                key = (series.quantity, one.way[0])
                pairs[key] += 1
                if one.text == two.text or one.value == two.value:  # the same text is the same value
                    alike[key] += 1
    found: dict[str, dict[str, float]] = defaultdict(dict)
    for (quantity, name), many in pairs.items():
        chance = max((alike[quantity, name] + 1) / (many + 2), noises[quantity][name])
        if many >= FEWEST and chance < SELDOM:
            found[quantity][name] = chance
    return found


def _told(one: Session, two: Session, earlier: dict[Where, Fine], later: dict[Where, Fine]) -> Iterator[Finding]:
    both = [where for where in later if where in earlier]
    same = [where for where in both if later[where].text == earlier[where].text]
    odds = 1.0
    for where in same:
        odds *= later[where].chance
    if len(same) >= max(LEAST, SHARE * len(both)) and odds <= ODDS:
        yield Finding(
            ID, Verdict.SUSPECT, Severity.DATA, two.id, two.place,
            f"{two.id}: {len(same)} of {len(both)} fine figures are those of {one.id}, to the last digit, at the same "
            f"places. In this book such figures are seldom alike. Most likely one sheet stands under two days.",
            (Figure("figures alike", str(len(same)), "", two.id), Figure("other record", one.id, "", one.path)),
            f"{one.id} and {two.id}", NEXT, "", one.id,
        )  # fmt: skip
