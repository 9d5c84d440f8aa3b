"""Which sheet is meant, and making it: pages of boxes, a receiving sheet, or the day a tire goes on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from . import CannotRun
from .engines import require_read

if TYPE_CHECKING:
    from axlebook.checks._boxes import Ask
    from axlebook.checks._questions import Target
    from axlebook.records.book import Book
    from axlebook.records.fit import Missing
    from axlebook.records.tire import Tire
    from axlebook.records.wheelset import Center
    from axlebook.reports.fit_story import FitStory
    from axlebook.reports.paper import Paper
    from axlebook.reports.sheet import Sheet
    from axlebook.reports.view import Day

APPLY, RECEIVING, ANNUAL, SHOP = "apply", "receiving", "annual", "shop"
AFTER_WORK = "after-work"


@dataclass(frozen=True)
class Made:
    """A sheet that was made: paper with boxes, or sheets of sections."""

    purpose: str
    id: str
    parts: tuple[str, ...]  # what it is about, by id
    paper: Paper | None = None
    sheets: tuple[Sheet, ...] = ()

    @property
    def alarms(self) -> bool:
        """Whether a figure on it is outside what it was held against."""
        return any(sheet.alarms for sheet in self.sheets)

    def html(self) -> str:
        """As one HTML file."""
        if self.paper is not None:
            from axlebook.reports.paper_html import render_paper

            return render_paper(self.paper)
        from axlebook.reports.html import render_page

        return render_page("sheets.html.j2", sheets=self.sheets, title="; ".join(s.title for s in self.sheets))

    def markdown(self) -> str:
        """As Markdown."""
        if self.paper is not None:
            from axlebook.reports import paper_markdown

            return paper_markdown.render_markdown(self.paper)
        from axlebook.reports.sheet_markdown import render_markdown

        return "\n".join(render_markdown(sheet) for sheet in self.sheets)

    def result(self) -> dict[str, Any]:
        """What a JSON report holds of it."""
        if self.paper is not None:
            from axlebook.reports.paper_json import paper_json

            return paper_json(self.paper)
        sheets = [sheet.result() for sheet in self.sheets]
        return {"subject": self.parts[0], "purpose": self.purpose, "sheet": self.id, "sheets": sheets}


def target_named(book: Book, about: str) -> Target:
    """What is meant: an engine by id or number, a wheelset, a tire, a center."""
    from difflib import get_close_matches

    from axlebook.checks._questions import target_of

    engine = book.engine_named(about)
    found = target_of(book, engine.id if engine else about, book.as_of)
    if found is None:
        require_read(book, about)
        there = [*book.engines, *book.wheelsets, *book.tires, *book.centers]
        near = get_close_matches(about, there, n=1)
        hint = f"Did you mean {near[0]}?" if near else f"There are: {', '.join(there[:8]) or 'none yet'}."
        raise CannotRun(f"there is no engine, wheelset, tire or center {about[:60]!r}. {hint}")
    return found


def make(book: Book, target: Target, purpose: str | None, day: Day, revision: str) -> Made:
    """The sheet asked for."""
    wanted = purpose or _usual(book, target)
    target = _where_it_stands(book, target) if wanted not in (APPLY, RECEIVING, SHOP) else target
    if wanted == APPLY:
        return _applying(book, target, day, revision)
    asked = _asks(book, target, wanted)
    if wanted == RECEIVING and target.id in book.tires:
        from axlebook.reports.sheet_receiving import receiving_sheet

        sheet = receiving_sheet(book, book.tires[target.id], asked, day)
        return _numbered(target.id, wanted, (sheet,), (target.id,), day, revision)
    from axlebook.reports.paper_view import paper

    made = paper(book, asked, target.id, wanted, day, revision)
    return Made(wanted, made.id, (target.id, *_parts_of(asked)), made)


def _usual(book: Book, target: Target) -> str:
    """What is most likely wanted: a new tire is received and then goes on, a loose wheelset is in the shop."""
    from axlebook.records.book import Thing

    if target.engine:
        return ANNUAL
    tire = book.tires.get(target.id)
    if tire is None:
        return SHOP
    if book.standing.wheel_of_tire(tire.id, book.as_of):
        return ANNUAL
    return APPLY if tire.for_center and book.series.get((Thing("tire", tire.id), "tire_bore")) else RECEIVING


def _where_it_stands(book: Book, target: Target) -> Target:
    """A tire or center that is on a wheelset is measured there."""
    from axlebook.checks._questions import target_of

    if target.engine or target.id in book.wheelsets:
        return target
    on = book.standing.wheel_of_tire(target.id, book.as_of)
    center = on[0] if on else target.id
    for wheelset, _, spell in book.standing.sides_of.get(center, ()):
        if spell.until is None or spell.until > book.as_of:
            return target_of(book, wheelset, book.as_of) or target
    return target


def _asks(book: Book, target: Target, purpose: str) -> tuple[Ask, ...]:
    from axlebook.checks._boxes import asks
    from axlebook.checks._questions import purposes_for

    there = purposes_for(book)
    if purpose not in there:
        plans = f"There are plans for: {', '.join(there)}." if there else "There is no plan at all in plans/."
        raise CannotRun(f"no plan is for {purpose[:60]!r}. {plans} `--purpose {APPLY}` is for the day a tire goes on.")
    found = asks(book, target, purpose)
    if not found:
        others = ", ".join(one for one in there if asks(book, target, one)) or "none"
        raise CannotRun(f"no plan asks anything of {target.id} for {purpose}. Plans ask something of it for: {others}.")
    return found


def _parts_of(asked: tuple[Ask, ...]) -> Iterator[str]:
    from axlebook.records.condition import Stand

    for ask in asked:
        if isinstance(ask.site, Stand):
            yield from ask.site.ids


# -- the day a tire goes on ------------------------------------------------------------------------------------------


def _applying(book: Book, target: Target, day: Day, revision: str) -> Made:
    """A sheet for each tire that is to go on."""
    from axlebook.checks._boxes import asks
    from axlebook.checks._questions import purposes_for, target_of
    from axlebook.reports.sheet_apply import apply_sheet

    sheets, parts = [], []
    for tire, center in _to_go_on(book, target):
        there = target_of(book, center.wheelset, book.as_of)
        after = asks(book, there, AFTER_WORK) if there and AFTER_WORK in purposes_for(book) else ()
        sheets.append(apply_sheet(book, tire, center, _story(book, tire, center, day), after, day))
        parts += [center.id, *([tire.id] if tire else [])]
    return _numbered(target.id, APPLY, tuple(sheets), (target.id, *parts), day, revision)


def _to_go_on(book: Book, target: Target) -> list[tuple[Tire | None, Center]]:
    from axlebook.records.bore_order import tires_ordered

    tire = book.tires.get(target.id)
    if tire is not None:
        center = book.centers.get(tire.for_center)
        if center is None:
            raise CannotRun(f"no center on record is the one {tire.id} is for. Enter it: ordered: for_center.")
        return [(tire, center)]
    if target.id in book.engines:
        raise CannotRun(f"name the tire or the wheelset a tire goes on, not the whole engine {target.id}.")
    centers = [book.centers[target.id]] if target.id in book.centers else list(book.wheelsets[target.id].centers)
    ordered = [(tire, center) for center in centers for tire in tires_ordered(book, center)]
    found: list[tuple[Tire | None, Center]] = [*ordered] if ordered else [(None, center) for center in centers]
    if not found:
        raise CannotRun(f"{target.id} has no wheel center on record: no tire can go on it.")
    return found


def _story(book: Book, tire: Tire | None, center: Center, day: Day) -> FitStory | Missing:
    """The fit worked out, or why it cannot be."""
    from axlebook.engineering.fitting import Impossible
    from axlebook.records.fit import Missing, find_fit
    from axlebook.reports.fit_from_records import story_of

    if tire is None:
        return Missing("", "")
    found = find_fit(book, tire, center, None)
    if isinstance(found, Missing):
        return found
    try:
        return story_of(book, found, day)
    except Impossible as impossible:
        names = {"bore": f"the bore of {tire.id}", "center_diameter": f"the center {center.id}"}
        return Missing(impossible.named(names), "Measure both again before any heat.")
    except ValueError as refused:
        return Missing(str(refused), "Measure both again before any heat.")


def _numbered(
    about: str, purpose: str, sheets: tuple[Sheet, ...], parts: tuple[str, ...], day: Day, revision: str
) -> Made:
    """The sheets with their id, which what stands on them makes, and where the ledger stands."""
    from axlebook.reports.paper_view import sheet_id

    id = sheet_id(about, purpose, day, [sheet.result() for sheet in sheets])
    typed = f" Type it in with: axlebook enter {id}" if purpose != APPLY else ""
    told = tuple(replace(sheet, revision=f"Sheet {id}. {revision}{typed}") for sheet in sheets)
    return Made(purpose, id, parts, None, told)
