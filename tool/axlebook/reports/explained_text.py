"""Manual pages as text."""

from __future__ import annotations

from collections.abc import Iterable

from .explained import Explained
from .page import BLANK, Look, Page, Paragraph, Piece, joined, paragraph


def render_page(page_of: Explained, look: Look) -> str:
    """One manual page."""
    found = [paragraph(page_of.id, "bold"), paragraph(page_of.title)]
    in_list = False
    for words in page_of.paragraphs:
        is_item = words.startswith(("- ", "* "))
        if not (is_item and in_list):
            found.append(BLANK)
        found.append(paragraph(words, indent=2, hang=2) if is_item else paragraph(words))
        in_list = is_item
    return joined(Page(look).lines(found))


def render_list(pages: Iterable[Explained], look: Look) -> str:
    """The list of all checks, each with its first line, in reading order."""
    page = Page(look)
    found = list(pages)
    wide = max((len(one.id) for one in found), default=0) + 2
    lines = [
        Paragraph((Piece(one.id.ljust(wide), "bold"), Piece(one.title)), hang=wide if wide < look.width // 2 else 4)
        for one in found
    ]
    head = paragraph(f"{len(found)} checks, in reading order. One in full: axlebook explain CHECK", "bold")
    return joined(page.lines([head, *lines]))
