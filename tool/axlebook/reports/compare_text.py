"""What a change means, as text for a terminal: at most a screen, worst first, unless all is asked for."""

from __future__ import annotations

from functools import partial

from .compare_view import Compared, Section
from .compare_words import Item
from .page import SHORT, Look, Page, Paragraph, Piece, joined, paragraph
from .text import SYMBOLS
from .view import WHO_DECIDES

ITEM = 2  # lines of an item on one screen


def render_compared(found: Compared, look: Look, *, whole: bool, beside: str = "") -> str:
    """The text of a comparison, at most 24 lines unless `whole`; `beside` stands before every path."""
    page = Page(look)
    head = page.lines(_head(found))
    foot = page.lines([paragraph(WHO_DECIDES)])
    titles = [partial(_titled, page, section) for section in found.sections]
    blocks = [
        [page.lines(_item(item, look, beside, whole=whole)) for item in section.items] for section in found.sections
    ]
    counts = [len(section.items) for section in found.sections]
    if not whole:
        open_ones = [not section.folded for section in found.sections]
        counts = _fitting([title(0) for title in titles], blocks, open_ones, SHORT - len(head) - len(foot) - 1)
    shown = [
        line
        for title, items, count in zip(titles, blocks, counts, strict=True)
        for block in ([title(count), *items[:count]] if count else [])
        for line in block
    ]
    total = sum(section.count for section in found.sections)
    left = total - sum(_many(section, count) for section, count in zip(found.sections, counts, strict=True))
    more = page.lines([paragraph(f"Not shown: {left} more. In full: --all", whole=True)]) if left else []
    return joined([*head, *shown, *more, *foot])


def _fitting(titles: list[list[str]], blocks: list[list[list[str]]], open_ones: list[bool], room: int) -> list[int]:
    """How many items of each section are shown: one of each open one first, then more of them, then the folded."""
    counts = [0] * len(blocks)
    everything = max(map(len, blocks), default=0)
    for most, folded in ((1, False), (everything, False), (everything, True)):
        for number, items in enumerate(blocks):
            while counts[number] < min(most, len(items)) and open_ones[number] is not folded:
                need = len(items[counts[number]]) + (0 if counts[number] else len(titles[number]))
                if need > room:
                    break
                room -= need
                counts[number] += 1
    return counts


def _head(found: Compared) -> list[Paragraph]:
    states = f"From {found.before.words} to {found.after.words}, as of {found.report.day.as_of}."
    told = [paragraph(states, "bold", hang=2), paragraph(found.summary, "bold", hang=2)]
    told += [paragraph(f"In doubt: {note}", hang=2) for note in found.notes]
    if found.report.only:
        told.append(paragraph(f"Shown is only what stands in {', '.join(found.report.only)}; everything was read."))
    if not found.sections:
        told.append(paragraph("Nothing differs: no record was added, altered or deleted, and no finding came or went."))
    return told


def _many(section: Section, count: int) -> int:
    """How many there are in the first items of a section."""
    return sum(item.many for item in section.items[:count])


def _titled(page: Page, section: Section, count: int) -> list[str]:
    """The title with how many there are; where not all are shown, how many of them are."""
    shown = _many(section, count)
    told = f"{shown}" if shown == section.count else f"{shown} of {section.count}"
    return page.lines([paragraph(f"{section.title} ({told})", "bold")])


def _item(item: Item, look: Look, beside: str, *, whole: bool) -> list[Paragraph]:
    sign, style = SYMBOLS[item.verdict] if item.verdict else ("", "bold" if item.label.isupper() else "")
    label = Piece(f"{look.symbol(sign)} {item.label}: ".lstrip(), style)
    found = [Paragraph((label, Piece(item.words)), hang=2, most=0 if whole else ITEM)]
    found += [paragraph(more, indent=2, hang=2) for more in (item.more if whole else ())]
    return [*found, Paragraph((Piece(f"{beside}{item.place}"),), indent=2, whole=True)] if item.place else found
