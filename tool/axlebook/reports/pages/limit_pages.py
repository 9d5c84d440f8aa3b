"""Limit sets as pages: every limit, interval and practice with its clause, and for which engines they are in force."""

from __future__ import annotations

from collections.abc import Iterable

from axlebook.limits import LimitSet

from ..annual_parts import Cells, Part, listed
from ..explained import entries, explained_entry
from ..item import Item
from ..text import sentence
from .ground import Ground
from .life import text_of
from .page import Page


def limits_page(ground: Ground) -> Page:
    """The sets, those in force first."""
    rows = [(one.id, one.title, one.edition or "not told", ", ".join(_engines(ground, one)) or "no engine", _held(one))
            for one in ground.book.limit_sets.values()]  # fmt: skip
    table = listed(f"On file on {ground.book.as_of}", ("Set", "Source", "Edition", "In force for", "Holds"),
                   sorted(rows, key=lambda row: (row[3] == "no engine", row[0])))  # fmt: skip
    part = Part("sets", "Limit sets", (), (table,) if rows else (), nothing="None is on file: nothing can be judged.")
    told = (Item("The book is judged by these and by nothing else. Whether the law of the place asks for more is for "
                 "the railway and the authority having jurisdiction to say."),)  # fmt: skip
    return Page("limits.html", "Limits on file", told=told, first=(part,))


def _held(one: LimitSet) -> str:
    """What a set holds, by kind; a kind it has none of is not told."""
    kinds = {
        "limits": one.limits, "intervals": one.intervals, "practices": one.practices, "asked after an event": one.after,
        "watch lists": one.watch, "asked of tags and repairs": one.paperwork,
    }  # fmt: skip
    return ", ".join(f"{name}: {len(many)}" for name, many in kinds.items() if many) or "nothing"


def _engines(ground: Ground, one: LimitSet) -> list[str]:
    """The engines that a set is in force for on the day."""
    book = ground.book
    return [engine.id for engine in book.engines.values() if one.id in {s.id for s in book.limits_for(engine)}]


def set_page(ground: Ground, one: LimitSet) -> Page:
    """One set with all its entries."""
    vocabulary = ground.book.vocabulary
    told = [(found.id.rpartition("/")[2], page.title, " ".join(page.paragraphs), found.clause)
            for found in entries(one) for page in (explained_entry(found, vocabulary),)]  # fmt: skip
    in_force = ", ".join(_engines(ground, one))
    path = ground.book.paths.get(one.id, "")
    parts = (
        Part("entries", "Limits, intervals, practices", (),
             (listed("Each with its clause", ("Id", "Of what", "What it says", "Clause"), told),) if told else (),
             nothing="None is in it."),
        *_others(one),
    )  # fmt: skip
    lead = (
        Item(f"In force for {in_force} on {ground.book.as_of}." if in_force else "In force for no engine on this day."),
        Item(f"Edition: {one.edition or 'not told'}. Text seen on {one.seen_on or 'a day not told'}. "
             f"Decides {one.decision}."),
    )  # fmt: skip
    altered = (Item("The text that came with axlebook was ALTERED in this ledger."),)
    return Page(
        ground.links.page[one.id], f"Limit set {one.id}", sentence(one.title), one.id,
        told=(*lead, *(altered if one.id in ground.book.sets_altered else ())), first=parts,
        record=text_of(ground, path), record_path=path,
    )  # fmt: skip


def _others(one: LimitSet) -> Iterable[Part]:
    """What an event asks for, what papers must tell, signs that are watched."""
    rows: list[Cells] = [(f"after {e.event.replace('_', ' ')}", "; ".join(e.asks), e.clause) for e in one.after]
    rows += [(f"papers: {p.of}", "; ".join(p.asks).replace("_", " "), p.clause) for p in one.paperwork]
    rows += [(w.title or w.id, ", ".join(s.sign.replace("_", " ") for s in w.signs), w.clause) for w in one.watch]
    if rows:
        table = listed("Each with its clause", ("What", "Asks for, or watches", "Clause"), rows)
        yield Part("others", "Events, papers, signs", (), (table,))
