"""What differs between two trees of a record, leaf by leaf, whatever moved up or down in its lists."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher
from typing import Any, NamedTuple

MOST_PAIRS = 250_000  # lists longer than that are held against each other item by item, in order


class Difference(NamedTuple):
    """One difference. `was` or `now` None: nothing stands there. The pointer leads into the tree that has it."""

    pointer: str
    was: str | None
    now: str | None

    @property
    def only_added(self) -> bool:
        """Whether something came in and nothing went."""
        return self.was is None


def differences(was: Any, now: Any, pointer: str = "") -> Iterator[Difference]:
    """Yield what differs between two trees.

    >>> list(differences({"a": ["1", "2"]}, {"a": ["0", "1", "3"]}))
    [Difference(pointer='/a/0', was=None, now='0'), Difference(pointer='/a/2', was='2', now='3')]
    """
    if isinstance(was, dict) and isinstance(now, dict):
        for key in dict.fromkeys([*was, *now]):
            below = f"{pointer}/{_escaped(key)}"
            if key not in now:
                yield Difference(below, written(was[key]), None)
            elif key not in was:
                yield Difference(below, None, written(now[key]))
            else:
                yield from differences(was[key], now[key], below)
    elif isinstance(was, list) and isinstance(now, list):
        yield from _lists(was, now, pointer)
    elif was != now:
        yield Difference(pointer, written(was), written(now))


def written(tree: Any) -> str:
    """Return a tree as one line: `quantity: run_out, values: worst: .012 in`."""
    if isinstance(tree, dict):
        return ", ".join(f"{key}: {written(value)}" for key, value in tree.items())
    if isinstance(tree, list):
        return ", ".join(written(item) for item in tree)
    return str(tree)


def _escaped(key: str) -> str:
    return key.replace("~", "~0").replace("/", "~1")


def _lists(was: list[Any], now: list[Any], pointer: str) -> Iterator[Difference]:
    first = 0
    while first < min(len(was), len(now)) and was[first] == now[first]:
        first += 1
    last = 0
    while last < min(len(was), len(now)) - first and was[-1 - last] == now[-1 - last]:
        last += 1
    olds, news = was[first : len(was) - last], now[first : len(now) - last]
    for old, new in _paired(olds, news):
        if new is None and old is not None:
            yield Difference(f"{pointer}/{first + old}", written(olds[old]), None)
        elif old is None and new is not None:
            yield Difference(f"{pointer}/{first + new}", None, written(news[new]))
        elif old is not None and new is not None:
            yield from differences(olds[old], news[new], f"{pointer}/{first + new}")


def _paired(olds: list[Any], news: list[Any]) -> Iterator[tuple[int | None, int | None]]:
    """Pairs of places that differ; None where one side has nothing for it."""
    if len(olds) * len(news) > MOST_PAIRS:
        opcodes = [("replace", 0, len(olds), 0, len(news))]
    else:
        texts = [repr(item) for item in olds], [repr(item) for item in news]
        opcodes = [tuple(code) for code in SequenceMatcher(None, *texts, autojunk=False).get_opcodes()]  # type: ignore[misc]
    for word, a, b, c, d in opcodes:
        if word == "equal":
            continue
        for step in range(max(b - a, d - c)):
            yield (a + step if a + step < b else None), (c + step if c + step < d else None)
