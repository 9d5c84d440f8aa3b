"""What a change means, as ONE comment on a pull request: worst first, the rest folded and counted, never too long."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from .comment_text import as_code, commented
from .compare_view import Compared, Section
from .compare_words import Item
from .view import WHO_DECIDES

MOST = 60_000  # characters; a host takes 65,536
OPEN = 15  # items of a section that stand open; the others are folded
LONG = 600  # characters of one text
KEPT = 1_000  # for the end: what was left out, and who decides


def render_comment(found: Compared, most: int = MOST) -> str:
    """The Markdown of a comparison."""
    parts = [*_head(found)]
    room = most - KEPT - _size(parts)
    left = 0
    for section in found.sections:
        taken, rest = _section(section, room)
        parts += taken
        room -= _size(taken)
        left += rest
    if left:
        parts += [f"**{left} more are not shown here**: there is no room. In full: `axlebook compare ... --all`", ""]
    return "\n".join([*parts, f"<sub>{commented(WHO_DECIDES)}</sub>"]) + "\n"


def _head(found: Compared) -> Iterator[str]:
    yield "### What this change means for the metal"
    yield ""
    only = (
        f" Shown is only what stands in {', '.join(map(as_code, found.report.only[:5]))}." if found.report.only else ""
    )
    states = f"{commented(found.before.words, 100)} to {commented(found.after.words, 100)}"
    yield f"From {states}, as of {found.report.day.as_of}.{only}"
    yield ""
    yield f"**{commented(found.summary)}**"
    yield ""
    for note in found.notes:
        yield f"> **In doubt:** {commented(note, LONG)}"
        yield ""
    if not found.sections:
        yield "Nothing differs: no record was added, altered or deleted, and no finding came or went."
        yield ""


class _Told(NamedTuple):
    """One line, and how many of what its section counts it tells together."""

    line: str
    many: int


def _section(section: Section, room: int) -> tuple[list[str], int]:
    """The lines of a section as far as there is room, and how much of what it counts that leaves out."""
    told = [_Told(_row(item) if section.head else _item(item), item.many) for item in section.items]
    head = _table_head(section) if section.head else []
    open_ = len(told) if section.folded else min(len(told), OPEN)
    title = f"#### {section.title} ({section.count})"
    if section.folded:
        return _folded(f"{section.title} ({section.count})", head, told, room)
    shown, left = _fitting([title, "", *head], told[:open_], room)
    parts = [*shown, ""] if shown else []
    rest, more = _folded(f"{_many(told[open_:])} more", head, told[open_:], room - _size(parts))
    return parts + rest, left + more


def _folded(title: str, head: list[str], told: list[_Told], room: int) -> tuple[list[str], int]:
    if not told:
        return [], 0
    frame = ["<details>", f"<summary>{commented(title)}</summary>", "", *head]
    shown, left = _fitting(frame, told, room - len("</details>") - 4)
    return ([*shown, "", "</details>", ""] if shown else []), left


def _fitting(frame: list[str], told: list[_Told], room: int) -> tuple[list[str], int]:
    """The frame and the lines that fit, and how much the others tell; nothing where not one does."""
    room -= _size(frame)
    count = 0
    for one in told:
        room -= len(one.line) + 1
        if room < 0:
            break
        count += 1
    return ([*frame, *(one.line for one in told[:count])] if count else []), _many(told[count:])


def _many(told: Iterable[_Told]) -> int:
    return sum(one.many for one in told)


def _size(lines: list[str]) -> int:
    return sum(len(line) + 1 for line in lines)


def _item(item: Item) -> str:
    more = "".join(f"<br>{commented(text, LONG)}" for text in item.more)
    place = f"<br>{as_code(item.place)}" if item.place else ""
    return f"- **{commented(item.label, LONG)}:** {commented(item.words, LONG)}{more}{place}"


def _table_head(section: Section) -> list[str]:
    return [f"| {' | '.join(section.head)} |", f"|{'---|' * len(section.head)}"]


def _row(item: Item) -> str:
    return f"| {' | '.join(commented(cell, LONG) for cell in item.cells)} |"
