"""What a change of back-to-back is told as: both readings, and what is known of them."""

from __future__ import annotations

from axlebook.findings import Figure
from axlebook.records.change import Change
from axlebook.records.condition import Stand
from axlebook.records.watch_signs import length_words
from axlebook.trends.series import Dated

QUANTITY = "back_to_back"


def figures_of(before: Dated, after: Dated, position: str = "") -> tuple[Figure, ...]:
    """Both readings, as written."""
    name = f"{QUANTITY} {position}".strip()
    return (
        Figure(name, before.text, "", before.origin.source.record),
        Figure(f"{name} now", after.text, "", after.origin.source.record),
    )


def words_of(stand: Stand, change: Change, times: float, mm: bool) -> str:
    """What happened, how good the two readings are together, and what could explain it."""
    after, size = change.after.origin, change.size
    good = f"The two readings together are good to {length_words(times * change.uncertainty, mm)}"
    end = "A pair does not change by itself."
    if change.lack is not None:
        size = float(change.after.value - change.before.value)  # as read: nothing takes it to 68 degF
        good = f"It is not proved, for {change.lack.cause}; but no gauge and no weather explains so much"
    elif change.beyond(times) is None:
        end = "A temperature that nobody wrote down could explain it."
    way = "wider" if size > 0 else "narrower"
    return (
        f"{stand.name}, back-to-back at {change.position}: {change.after.text}, {length_words(abs(size), mm)} {way} "
        f"than on {change.before.day} ({change.before.text}), both {after.hold} at {after.clock}. {good}, and "
        f"no tire work lies between. {end}"
    )
