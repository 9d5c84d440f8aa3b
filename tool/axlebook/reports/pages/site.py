"""The pages of a book, one after the other: path and bytes of every file."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from ..html import render_page
from ..view import WHO_DECIDES
from ..wear_plot import Drawing
from .engine_page import engine_page
from .ground import Ground
from .life import life_page
from .limit_pages import limits_page, set_page
from .lists import all_page, due_page, findings_page, index_page, people_page
from .page import Frame, Page, rendered

Draw = Callable[[list[Drawing]], Iterable[str]]  # as `quick_svg` draws each


def pages(ground: Ground, draw: Draw) -> Iterator[tuple[str, bytes]]:
    """Every file of the pages; same ground, same bytes, whoever draws the plots."""
    frame = frame_of(ground)
    yield "style.css", render_page("pages.css.j2").encode("utf-8")
    for page in _pages(ground):
        yield page.path, rendered(page, ground.links, frame)
    yield from {f"photos/{photo.name}": photo.content for photo in ground.photos if photo.media}.items()
    yield from _plots(ground, draw)


def _pages(ground: Ground) -> Iterator[Page]:
    yield from (index_page(ground), findings_page(ground), due_page(ground), limits_page(ground), people_page(ground),
                all_page(ground))  # fmt: skip
    engines = {one.engine: one for one in ground.conditions}
    for id in ground.links.folder:
        if id in engines:
            yield engine_page(ground, ground.book.engines[id], engines[id])
        elif id in ground.book.limit_sets and ground.links.folder[id] == "limits":
            yield set_page(ground, ground.book.limit_sets[id])
        else:
            page = life_page(ground, id)
            if page is not None:
                yield page


def _plots(ground: Ground, draw: Draw) -> Iterator[tuple[str, bytes]]:
    """The plots; one that was drawn before is taken as it is."""
    named = {ground.plot_name(one): one for many in ground.plots.values() for one in many}
    new = {name: one for name, one in named.items() if not ground.drawn.get(name)}
    yield from ((name, ground.drawn[name]) for name in named if name not in new)
    for name, plot in zip(new, draw(list(new.values())), strict=True):
        yield name, plot.encode("utf-8")


def frame_of(ground: Ground) -> Frame:
    """The day and the commit, for every page."""
    day, revision = ground.report.day, ground.report.revision
    why = f" ({day.why})" if day.why else ""
    commit = (
        f" Commit {revision.commit[:12]}{', with uncommitted changes' if revision.dirty else ''}."
        if (revision.commit)
        else " Not under version control."
    )
    return Frame(ground.book.ledger.railway, f"As of {day.as_of}{why}.{commit}", WHO_DECIDES)
