"""A large part was measured while it was hot.

What is judged: sizes over 200 mm. Where the temperature of the part is told and lies above all that the shop is known
to have (`shop_temperatures` in ledger.yaml), the reading was taken hot. Where it is not told, an excess that heat
alone explains is named: alpha x D x (T - 68 degF), with the adopted expansion of tire steel.

What to do: let the part cool in still air till its temperature is that of the shop, write down the temperature of part
and instrument, and measure again. A hot part does not have one temperature: no sum puts it right.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "hot-reading"
CAUSE = "It is larger than the part can be cold: most likely read hot ({meant})."
NEXT = "Let it cool to the air of the shop, and measure {named} again with the temperature of part and instrument."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
