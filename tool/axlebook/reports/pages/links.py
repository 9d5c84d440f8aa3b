"""Which page an id has, how its file is named, and how ids in a text become links."""

from __future__ import annotations

import hashlib
import re
from typing import TYPE_CHECKING

from axlebook.records.book import Book

from ..cleaning import clean

if TYPE_CHECKING:
    from markupsafe import Markup

PEOPLE = "people.html"
_PLAIN = re.compile(r"[a-z0-9](?:[a-z0-9-]{0,98}[a-z0-9])?")
_MADE = re.compile(r"x-[0-9a-f]{16}")
_DEVICE = re.compile(r"con|prn|aux|nul|com[0-9]|lpt[0-9]")
_WORD = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_IDLIKE = re.compile(r"(?=.*[a-z])(?=.*[0-9]).+")  # `crayons` may be an instrument, and is a word of the shop


def file_name(id: str) -> str:
    """A name that every disk takes and no id can choose at will.

    >>> file_name("t-1232"), file_name("../etc/passwd")
    ('t-1232', 'x-7fef78f53440346c')
    """
    if _PLAIN.fullmatch(id) and not _MADE.fullmatch(id) and not _DEVICE.fullmatch(id):
        return id
    return f"x-{hashlib.sha256(id.encode('utf-8', 'surrogatepass')).hexdigest()[:16]}"


class Links:
    """The pages of a book by id."""

    def __init__(self, book: Book) -> None:
        shelves = (("tires", book.tires), ("centers", book.centers), ("wheelsets", book.wheelsets),
                   ("engines", book.engines), ("instruments", book.instruments),
                   ("limits", book.limit_sets))  # fmt: skip
        self.folder = {id: folder for folder, shelf in reversed(shelves) for id in shelf}
        people = {record.id for record in book.of_kind("person")}
        for id in book.paths:
            if id not in people:
                self.folder.setdefault(id, "records")
        self.page = {id: f"{folder}/{file_name(id)}.html" for id, folder in self.folder.items()}
        self.page |= dict.fromkeys(people - self.folder.keys(), PEOPLE)

    def linked(self, text: str, root: str, own: str = "") -> Markup:
        """A text with a link on each id in it; `root` leads to the top of the pages, `own` is the path of this page.

        In a sentence only what has a digit is taken for an id; a text that is an id and nothing else is one.
        """
        from markupsafe import Markup, escape

        told, end, plain = Markup(), 0, clean(text)
        for match in _WORD.finditer(plain):
            id = match[0]
            if self.page.get(id, own) == own or not (id == plain or _IDLIKE.fullmatch(id)):
                continue
            told += escape(plain[end : match.start()])
            told += Markup('<a href="{}">{}</a>').format(f"{root}{self.page[id]}", id)
            end = match.end()
        return told + escape(plain[end:])
