"""A bar on standard error for work that takes more than a second, where a person looks on."""

from __future__ import annotations

import sys
import time
from collections.abc import Generator, Iterable, Sized
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from rich.progress import Progress

Item = TypeVar("Item")
PATIENCE = 1.0  # seconds


class Watch:
    """Passes on what is worked through, and shows how far it is once that has taken a while."""

    def __init__(self) -> None:
        self._begun = time.monotonic()

    def __call__(self, what: str, items: Iterable[Item]) -> Generator[Item, None, None]:
        """Pass on the items of one piece of work, of which nobody need know how many there will be."""
        if not (sys.stderr and sys.stderr.isatty()):
            yield from items
            return
        bar: Progress | None = None
        shown = 0.0
        try:
            for done, item in enumerate(items):
                now = time.monotonic()
                if now - self._begun > PATIENCE and now - shown > 0.1:
                    bar = bar or _bar(what, len(items) if isinstance(items, Sized) else None)
                    bar.update(bar.task_ids[0], completed=done)
                    bar.refresh()
                    shown = now
                yield item
        finally:
            if bar is not None:
                bar.stop()


def _bar(what: str, many: int | None) -> Progress:
    from rich.console import Console
    from rich.progress import Progress

    # No thread of its own: the work may go on in a second process, and a fork takes no threads along.
    bar = Progress(console=Console(stderr=True), transient=True, auto_refresh=False)
    bar.add_task(what, total=many)
    bar.start()
    return bar
