"""Every regular expression of axlebook, and for each of them the texts that would blow it up if any can.

A text is made from the expression itself: up to one of its repeats it has what fits, then much of what the repeat
takes, then a sign that nothing takes, so that the engine has to try every other way to part the text.
"""

from __future__ import annotations

import ast
import gc
import importlib
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from math import inf
from pathlib import Path
from re import _constants, _parser  # type: ignore[attr-defined]
from time import process_time
from typing import Any

import axlebook
from axlebook.sources.shipped import shipped

PACKAGE = Path(axlebook.__file__).parent
MANY = 20  # a repeat of more than so many is pumped
LONG = 8192
WORTH_MEASURING = 0.001  # seconds
NOTHING = 0.00002  # of which no growth is reckoned that matters
ROUNDS = 6
WELL = 2.5  # times for a text twice as long
SIGNS = " \t\n-/.,0a_'\"½"
CALLED = re.compile(r"(\w+)\.(match|fullmatch|search|sub|split|findall|finditer)\(")
CALLS = {f"re.{way}" for way in ("match", "fullmatch", "search", "sub", "split", "findall", "finditer")}
IN_MIDDLE = {"search", "sub", "split", "findall", "finditer"}  # these begin anew at every sign


@dataclass(frozen=True)
class Expression:
    """An expression of text or bytes, where it stands, and the ways it is used: `match`, `fullmatch`, `search`."""

    module: str
    pattern: re.Pattern[Any]
    uses: frozenset[str]

    def run(self, use: str) -> Callable[[str], object]:
        """Return what uses it on a text; of bytes, on the bytes that its signs stand for."""
        called: Callable[[Any], object] = getattr(self.pattern, use)
        if isinstance(self.pattern.pattern, str):
            return called
        return lambda text: called(text.encode("latin-1"))


@cache
def expressions() -> tuple[Expression, ...]:
    """Every expression of axlebook: objects that its modules hold, and what is written in calls of `re`."""
    found: list[Expression] = []
    for path in sorted(PACKAGE.rglob("*.py")):
        name = ".".join(path.relative_to(PACKAGE).with_suffix("").parts).removesuffix("__init__").rstrip(".")
        if name == "__main__":
            continue
        inside = vars(importlib.import_module(f"axlebook.{name}".rstrip(".")))
        source = path.read_text(encoding="utf-8")
        for key, value in inside.items():
            found += [Expression(name, one, uses or _uses(key, source)) for one, uses in _held(value)]
        found += [Expression(name, *one) for one in _in_calls(source)]
    for path in sorted(shipped("schema").glob("*.schema.json")):
        written = re.findall(r'"pattern": "((?:[^"\\]|\\.)+)"', path.read_text(encoding="utf-8"))
        found += [Expression(path.name, re.compile(text), frozenset(["search"])) for text in written]
    return tuple(dict.fromkeys(found))


def _uses(name: str, source: str) -> frozenset[str]:
    """How a name is used; where nothing tells, in every way."""
    called = {way for one, way in CALLED.findall(source) if one == name}
    return frozenset("search" if way in IN_MIDDLE else way for way in called) or frozenset(["search", "fullmatch"])


def _held(inside: Any, depth: int = 0) -> Iterator[tuple[re.Pattern[Any], frozenset[str]]]:
    """The expressions that a name holds, in lists, mappings and classes too, and the use it is kept for, if for one."""
    if isinstance(inside, re.Pattern):
        yield inside, frozenset()
    elif isinstance(held := getattr(inside, "__self__", None), re.Pattern):  # `re.compile(...).fullmatch`
        yield held, frozenset(["search" if inside.__name__ in IN_MIDDLE else inside.__name__])
    elif depth < 4:
        if isinstance(inside, dict):
            inside = inside.values()
        elif isinstance(inside, type) and inside.__module__.startswith("axlebook"):
            inside = vars(inside).values()
        elif not isinstance(inside, list | tuple | set | frozenset):
            return
        for one in list(inside):
            yield from _held(one, depth + 1)


def _in_calls(source: str) -> Iterator[tuple[re.Pattern[str], frozenset[str]]]:
    """The expressions written in calls such as `re.fullmatch("...", text)`."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call) and ast.unparse(node.func) in CALLS and node.args:
            first, way = node.args[0], getattr(node.func, "attr", "")
            if isinstance(first, ast.Constant) and isinstance(first.value, str) and first.value:
                yield re.compile(first.value), frozenset(["search" if way in IN_MIDDLE else way])


def attacks(pattern: re.Pattern[Any]) -> list[Callable[[int], str]]:
    """For each repeat: a way to write a text that pumps it as often as one likes."""
    found: dict[tuple[str, str], None] = {}
    for before, bodies in _repeats(_parser.parse(pattern.pattern, pattern.flags & ~re.DEBUG), ""):
        for body in bodies:
            found.setdefault((before, body))
    for sign in SIGNS:
        found.setdefault(("", sign))
    return [lambda n, before=before, body=body: before + body * (n // len(body) + 1) + "\x00" for before, body in found]


def _repeats(parsed: Any, before: str) -> Iterator[tuple[str, list[str]]]:
    """(what fits before it, what it may take) of every repeat that may go on long."""
    for op, argument in parsed:
        if op in (_constants.MAX_REPEAT, _constants.MIN_REPEAT, _constants.POSSESSIVE_REPEAT):
            least, most, body = argument
            if most > MANY:
                yield before, _samples(body)
            yield from _repeats(body, before)
            before += _sample(body) * least
        elif op is _constants.SUBPATTERN:
            yield from _repeats(argument[3], before)
            before += _sample(argument[3])
        elif op is _constants.BRANCH:
            for branch in argument[1]:
                yield from _repeats(branch, before)
            before += _sample(argument[1][0])
        elif op in (_constants.ASSERT, _constants.ASSERT_NOT):
            yield from _repeats(argument[1], before)
        elif op is _constants.ATOMIC_GROUP:
            yield from _repeats(argument, before)
            before += _sample(argument)
        else:
            before += _sample([(op, argument)])


def _sample(parsed: Any) -> str:
    return (_samples(parsed) or [""])[0]


def _samples(parsed: Any) -> list[str]:
    """A few texts that an expression takes; the first is its shortest."""
    found = [""]
    for op, argument in parsed:
        found = [text + more for text in found[:4] for more in _of(op, argument)][:12]
    return [text for text in dict.fromkeys(found) if text]


def _of(op: Any, argument: Any) -> list[str]:
    if op is _constants.LITERAL:
        return [chr(argument)]
    if op is _constants.NOT_LITERAL:
        return [sign for sign in SIGNS if ord(sign) != argument][:4]
    if op is _constants.ANY:
        return ["a", " "]
    if op is _constants.IN:
        return _of_class(argument)
    if op is _constants.SUBPATTERN:
        return _samples(argument[3]) or [""]
    if op is _constants.BRANCH:
        return [text for branch in argument[1] for text in (_samples(branch) or [""])][:6]
    if op in (_constants.MAX_REPEAT, _constants.MIN_REPEAT, _constants.POSSESSIVE_REPEAT):
        least, _, body = argument
        inner = _samples(body) or [""]
        return [text * max(least, 1) for text in inner[:6]] if least else ["", *inner[:5]]
    return [""]


def _of_class(items: Any) -> list[str]:
    if items[0][0] is _constants.NEGATE:
        mine = re.compile("[" + "".join(re.escape(sign) for sign in _of_class(items[1:])) + "]")
        return [sign for sign in SIGNS if not mine.match(sign)][:5] or ["b"]
    found = []
    for op, argument in items:
        if op is _constants.LITERAL:
            found.append(chr(argument))
        elif op is _constants.RANGE:
            found += [chr(argument[0]), chr(argument[1])]
        elif op is _constants.CATEGORY:
            found += {"CATEGORY_SPACE": [" ", "\n"], "CATEGORY_DIGIT": ["0"], "CATEGORY_WORD": ["a", "0"]}.get(
                str(argument), ["a"]
            )
    return list(dict.fromkeys(found))[:8]


def growth(run: Callable[[str], object], text: Callable[[int], str], well: float = WELL) -> float:
    """How much longer it takes where the text is twice as long: about 2, 4 or 8, and beyond all measure for worse.

    What takes next to no time on a long text grows with it at most, and is not measured more closely: 2. Nor is what
    grows `well` at most.
    """
    first = before = _time(run, text(8))
    for n in (*range(12, 64, 4), 64, 96, 128, 192, 256, 512, 1024, 2048):
        now = _time(run, text(n))
        if now > WORTH_MEASURING and now > 20 * first and (n <= 64 or now > 12 * before):
            now = min(now, *(_time(run, text(n)) for _ in range(3)))  # the machine may have had other work
        if now > WORTH_MEASURING and now > 20 * first and (n <= 64 or now > 12 * before):
            return now / first
        if now > 0.02:
            return _each_time(run, text(n // 8), text(n), well)
        before = now
    if _time(run, text(LONG)) < WORTH_MEASURING:
        return 2.0
    n = next(n for n in (256, 512, 1024, 2048, 4096, LONG) if _time(run, text(n)) > WORTH_MEASURING or n == LONG)
    return _each_time(run, text(n), text(8 * n), well)


def _each_time(run: Callable[[str], object], short: str, long: str, well: float) -> float:
    """How much longer it takes each time that a text is doubled, of a text and one eight times as long.

    Over three doublings what other work adds is its cube root: a machine that lends its time out adds to a long run
    what a short one escapes.
    """

    def grown(once: float, eight_times: float) -> float:
        return float((eight_times / once) ** (1 / 3))

    return grown(*_quickest(run, (short, long), grown, well))


def doubled(run: Callable[[str], object], text: Callable[[int], str], n: int) -> float:
    """How much longer it takes each time that a text of n is doubled, twice, beside the time that an empty one takes.

    What is less than half of that time is lost in its own ups and downs on a machine with other work, and is not
    measured: the square of a long text is far above it.
    """

    def grown(nothing: float, once: float, four_times: float) -> float:
        least = max(nothing / 2, 0.002)
        return float((max(four_times - nothing, least) / max(once - nothing, least)) ** (1 / 2))

    return grown(*_quickest(run, (text(1), text(n), text(4 * n)), grown, WELL))


def _quickest(
    run: Callable[[str], object], texts: tuple[str, ...], grown: Callable[..., float], well: float
) -> list[float]:
    """The seconds of each text, the quickest of some rounds: of two, and of more while it seems to grow too much.

    Other work on the machine adds to any of them, so that each of them is measured more than once, in turns.
    """
    found = [inf] * len(texts)
    for number in range(ROUNDS):
        found = [min(before, _time(run, text)) for before, text in zip(found, texts, strict=True)]
        if number and grown(*found) <= well:
            break
    return found


def _time(run: Callable[[str], object], text: str) -> float:
    """The seconds of one call, of a quick one the quickest of three; nobody looks for garbage in all tests' heap."""
    found = []
    gc.disable()
    try:
        for _ in range(3):
            begun = process_time()
            run(text)
            found.append(process_time() - begun)
            if not NOTHING < found[0] < 0.004:
                break
    finally:
        gc.enable()
    return max(min(found), 1e-7)
