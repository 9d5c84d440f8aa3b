"""The methods of an examination by their names: an eye finds nothing of what an interval asks ultrasound for."""

from __future__ import annotations

import re

VISUAL = "visual"
NAMES = {
    "ultrasonic": "ultrasonic", "ultrasound": "ultrasonic", "ut": "ultrasonic",
    "magnetic": "magnetic", "mpi": "magnetic", "mt": "magnetic",
    "dye": "dye", "penetrant": "dye", "pt": "dye",
    "visual": VISUAL, "eye": VISUAL, "hammer": VISUAL,
}  # fmt: skip


def methods_in(text: str) -> set[str]:
    """The methods that a text names.

    >>> sorted(methods_in("Axles, ultrasonic or magnetic-particle")), methods_in("by eye"), methods_in("phased array")
    (['magnetic', 'ultrasonic'], {'visual'}, set())
    """
    return {NAMES[word] for word in re.findall(r"[a-z]+", text.casefold()) if word in NAMES}


def is_another(method: str, title: str) -> bool:
    """Whether an examination was made by a method that what the interval is called does not name, and it names some.

    >>> is_another("visual", "Axles, ultrasonic"), is_another("UT", "Axles, ultrasonic"), is_another("dye", "Axles")
    (True, False, False)
    """
    asked, done = methods_in(title), methods_in(method)
    return bool(asked and done) and VISUAL not in asked and asked.isdisjoint(done)
