"""The page of one id: where it stood, what was done to it, its plots and photos, its findings, its record."""

from __future__ import annotations

import re
from collections.abc import Iterable

from axlebook.findings import Finding, Verdict
from axlebook.records.history import history_of

from ..annual_condition import HEAD, row_cells
from ..annual_findings import findings_part
from ..annual_parts import Listed, Part, listed
from ..history_view import HistoryView, view_of
from ..item import Item
from ..photos import Photo
from ..plan_drawing import quantity
from ..text import sentence
from .ground import Ground
from .page import Page, Picture

LIFE = ("Measured or done", "What", "Told", "By", "Record", "Entered")


def life_page(ground: Ground, id: str) -> Page | None:
    """The page of an id; None where the book knows nothing of it."""
    found = history_of(ground.book, id)
    if found is None:
        return None
    view = view_of(ground.book, found)
    path = ground.book.paths.get(id, "")
    return Page(
        ground.links.page[id],
        f"{_capital(view.kind)} {id}",
        _about(ground, id, view),
        id,
        first=tuple(_before(ground, id, view)),
        pictures=pictures_of(ground, id, view),
        parts=tuple(life_parts(ground, id, view)),
        record=text_of(ground, path),
        record_path=path,
    )


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}".replace("-", " ")


def _about(ground: Ground, id: str, view: HistoryView) -> str:
    """Marks or title, and the engines it is of."""
    laid = ground.laid.record(id) if id in ground.book.paths else ground.laid.part(id)
    engines = ", ".join(sorted(laid - {id}))
    told = (view.title, f"Of {engines}" if engines else "")
    return " ".join(f"{one}." for one in told if one)


def _before(ground: Ground, id: str, view: HistoryView) -> Iterable[Part]:
    """What is found on it, how it was last read, where it stood: before plots and photos."""
    found = findings_of(ground, id)
    if any(one.verdict is not Verdict.NOT_ASSESSED for one in found):
        yield findings_part(found)
    unknown = [one for one in found if one.verdict is Verdict.NOT_ASSESSED]
    if unknown:
        told = dict.fromkeys(f"{sentence(one.message)} {sentence(one.next)}" for one in unknown)
        yield Part("not-judged", "Not judged", tuple(Item(words, Verdict.NOT_ASSESSED) for words in told))
    rows = ground.rows_of.get(id, [])
    if rows:
        cells = tuple(((quantity(row), *row_cells(row, row.trend)), row.verdict) for row in rows)
        table = Listed("By the tightest limit in force on the day", ("What", *HEAD), cells)
        yield Part("readings", "As last read", (), (table,))
    if view.positions:
        table = listed("By the dated lines", ("When", "Where", "Record"), view.positions)
        yield Part("positions", "Where it stood, what stood on it", (), (table,))


def life_parts(ground: Ground, id: str, view: HistoryView) -> Iterable[Part]:
    """What was done, and what was put right later."""
    rows = [(row.measured, row.what, row.words, row.people, row.record, row.entered) for row in view.rows]
    if rows:
        heads = LIFE if any(row[-1] for row in rows) else LIFE[:-1]
        told = (Item(f"{view.unknown}."),) if view.unknown else ()
        table = listed("In the order it happened", heads, [row[: len(heads)] for row in rows])
        yield Part("life", "Its life on record", told, (table,))
    corrected = [one.id for one in ground.corrections_of.get(id, ())]
    if corrected:
        yield Part("corrections", "Put right later", (Item(f"See {', '.join(corrected)}."),))


def findings_of(ground: Ground, id: str) -> list[Finding]:
    """The findings in a record, that name a part, or that are of the place where it stands now."""
    here = ground.found_at.get(id, set())
    return [
        one
        for one in ground.report.findings
        if one.record == id or one.fingerprint in here or id in re.split(r"[\s,()]+", one.subject)
    ]


def pictures_of(ground: Ground, id: str, view: HistoryView) -> tuple[Picture, ...]:
    """The plots of an id, and the photos of every record of its life."""
    involved = {id, *(row.record for row in view.rows)}
    photos = [photo for photo in ground.photos if photo.cited.record in involved]
    return (*ground.plot_pictures(id), *(_picture(photo) for photo in photos))


def _picture(photo: Photo) -> Picture:
    """A photo as a picture; what cannot be shown is named."""
    if photo.media:
        return Picture(f"photos/{photo.name}", photo.words, photo.caption, "photo")
    return Picture("", photo.words, f"Not shown: {photo.caption} For {photo.why}.", "photo")


def text_of(ground: Ground, path: str) -> str:
    """A record as it is written."""
    return ground.contents.get(path, b"").decode("utf-8", "replace").strip("\ufeff\r\n")
