"""The page that lies on top of a time capsule: plain words for somebody who has nothing but this zip."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass
from datetime import date

from .cleaning import clean
from .html import render_page
from .view import WHO_DECIDES

WIDTH = 78


@dataclass(frozen=True)
class Told:
    """What the page has to tell of this very capsule."""

    engine: str
    number: str
    railway: str
    as_of: date
    revision: str  # the commit, or that there is none
    annual: str  # the file of the annual summary; '' where there is none
    year: int
    closing: str  # what was done to ledger.yaml, in a sentence
    left_out: tuple[str, ...]  # what could not be packed, and why
    version: str


def readme(told: Told) -> str:
    """The text, in lines that fit any screen and any sheet."""
    text = render_page("capsule.txt.j2", told=told, who_decides=WHO_DECIDES)
    return "\n\n".join(_block(one) for one in text.split("\n\n") if one.strip()) + "\n"


def _block(text: str) -> str:
    """A heading, or a paragraph in lines."""
    plain = clean(text.strip())
    if plain.startswith("# "):
        return f"{plain[2:]}\n{'=' * len(plain[2:])}"
    return textwrap.fill(plain, WIDTH, break_long_words=False, break_on_hyphens=False)
