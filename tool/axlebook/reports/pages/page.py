"""One page before it is rendered: what is said, its tables, its pictures, the record as it is written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from ..annual_parts import Part
from ..html import render_page
from ..item import Item
from ..plan_drawing import STYLES, Drawing
from ..text import SYMBOLS
from .links import Links

HEADINGS = (
    ("index.html", "Engines"),
    ("due.html", "Due"),
    ("findings.html", "Findings"),
    ("limits.html", "Limits"),
    ("people.html", "People, instruments"),
    ("all.html", "A to Z"),
)


class Picture(NamedTuple):
    """A plot or a photo; `file` is its path from the top of the pages, '' where it is only named."""

    file: str
    words: str
    caption: str
    kind: str  # plot, photo


@dataclass(frozen=True)
class Page:
    """One page of the book."""

    path: str
    title: str
    about: str = ""  # what it is of, below the title
    id: str = ""
    told: tuple[Item, ...] = ()
    plan: tuple[Drawing, ...] = ()
    first: tuple[Part, ...] = ()  # before the pictures
    pictures: tuple[Picture, ...] = ()
    parts: tuple[Part, ...] = ()
    record: str = ""  # its text, line by line as it is written
    record_path: str = ""


class Frame(NamedTuple):
    """What stands on every page."""

    railway: str
    state: str
    foot: str


def rendered(page: Page, links: Links, frame: Frame) -> bytes:
    """The page as bytes."""
    root = "../" * page.path.count("/")
    return render_page(
        "pages.html.j2", page=page, title=page.title, root=root, headings=HEADINGS, frame=frame,
        link=lambda text: links.linked(text, root, page.path),
        sign=lambda verdict: SYMBOLS[verdict][0], style=lambda verdict: STYLES[verdict],
    ).encode("utf-8")  # fmt: skip
