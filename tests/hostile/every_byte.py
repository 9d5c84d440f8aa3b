"""Change every byte of every record of the demo, and compare the two readers of YAML: a command of its own.

    python -m tests.hostile.every_byte                           # every line once in each of its surroundings
    python -m tests.hostile.every_byte --share 0.01 --seed 7     # one byte in a hundred of these
    python -m tests.hostile.every_byte --whole --share 0.001     # of every byte of the demo, each in its whole record

Each byte is deleted, doubled, replaced by telling ones, and one of these is put before it; the whole text is read. The
surroundings of a line are the groups it stands in, the line before and the line after, where one figure is as good as
another. Neither reader knows more of a line, but for the keys that its group has already. So a line that came before in
the same surroundings is left out, and a text is cut down to them; `--whole` does neither. Exit 0: what was read quickly
was read alike. 1: something was not.
"""

from __future__ import annotations

import argparse
import random
import re
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from time import monotonic

from tests.sources.two_readers import ALIKE, DECLINED, compared

DEMO = Path(__file__).parents[2] / "demo-ledger"
PUT = [bytes([sign]) for sign in b" \n:#-\"'[]{},&*!\\\t\ra0%|>?@`.\x00\x7f\xa0\xc2\xff"]
FIGURE = re.compile(rb"\d")
EVERY = 20.0  # seconds from one word of progress to the next


def main() -> int:
    """Change and compare; print what came of it."""
    parser = argparse.ArgumentParser(prog="python -m tests.hostile.every_byte")
    parser.add_argument("--share", type=float, default=1.0, help="of the bytes, drawn by chance (1: every one)")
    parser.add_argument("--seed", type=int, default=16, help="of the chance (16)")
    parser.add_argument("--whole", action="store_true", help="leave nothing out")
    asked = parser.parse_args()
    chance = random.Random(asked.seed)
    spots = [spot for spot in spots_of(demo(), whole=asked.whole) if chance.random() < asked.share]
    print(f"seed {asked.seed}: {len(spots)} bytes, {len(PUT) * 2 + 2} changes of each", flush=True)
    tally, different = Counter[str](), list[str]()
    told = monotonic()
    for number, (text, at) in enumerate(spots, 1):
        for content in changed(text, at):
            outcome = compared(content)
            if outcome not in (ALIKE, DECLINED):
                different.append(outcome)
                print(f"DIFFERENT {outcome}", flush=True)
            tally[outcome if outcome in (ALIKE, DECLINED) else "different"] += 1
        if number == len(spots) or monotonic() - told > EVERY:
            told = monotonic()
            print(f"{number} bytes, {tally.total()} texts: {tally[ALIKE]} read quickly and alike, "
                  f"{tally[DECLINED]} declined, {len(different)} different", flush=True)  # fmt: skip
    return int(bool(different))


def demo() -> list[bytes]:
    """Every record of the demo, short ones first: a line is then tried in the shortest text that has it."""
    return sorted((path.read_bytes() for path in sorted(DEMO.rglob("*.yaml"))), key=len)


def spots_of(texts: list[bytes], *, whole: bool = False) -> Iterator[tuple[bytes, int]]:
    """Yield a text and the place of a byte in it, for each byte that is to be changed."""
    seen: set[object] = set()
    for text in texts:
        lines = text.split(b"\n")
        for number, above in enumerate(_open_above(lines)):
            around = tuple(above), FIGURE.sub(b"0", b"\n".join([b"", *lines, b""][number : number + 3]))
            if whole or around not in seen:
                seen.add(around)
                kept = range(len(lines)) if whole else _kept(lines, number, above)
                shown = text if whole else b"\n".join(lines[at] for at in kept)
                start = sum(len(lines[at]) + 1 for at in kept if at < number)
                yield from ((shown, at) for at in range(start, min(start + len(lines[number]) + 1, len(shown))))


def _open_above(lines: list[bytes]) -> Iterator[dict[int, int]]:
    """For each line: the levels that are open above it, as `yaml_lines` counts them, each with its latest line."""
    above: dict[int, int] = {}
    for number, line in enumerate(lines):
        yield above
        column, dash = _column(line), line.lstrip().startswith(b"- ")
        if column is not None:
            last = column if dash else column - 1  # a list may begin right below the key whose value it is
            above = {level: at for level, at in above.items() if level <= last and ~level < column}
            above |= {~column: number, column + 2: number} if dash else {column: number}


def _column(line: bytes) -> int | None:
    bare = line.lstrip(b" ")
    return None if bare[:1] in (b"", b"#") else len(line) - len(bare)


def _kept(lines: list[bytes], number: int, above: dict[int, int]) -> list[int]:
    """The lines that are left of a text: those that open what a line stands in, its neighbors, the ways out again."""
    kept = {*above.values(), number, *range(max(number - 1, 0), min(number + 2, len(lines)))}
    least = max((max(level, ~level) for level in above), default=0) + 1
    for at in range(number + 1, len(lines)):
        column = _column(lines[at])
        if column is not None and column < least:
            kept.add(at)
            least = column
    return sorted(kept)


def changed(text: bytes, at: int) -> Iterator[bytes]:
    """Yield the text with the byte at a place changed in every way."""
    before, byte, after = text[:at], text[at : at + 1], text[at + 1 :]
    yield before + after
    yield before + byte + byte + after
    for other in PUT:
        yield before + other + after
        yield before + other + byte + after


if __name__ == "__main__":
    sys.exit(main())
