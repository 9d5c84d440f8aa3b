"""What metal moved: tires and centers fitted or taken off, wheelsets put elsewhere or turned end for end."""

from __future__ import annotations

from dataclasses import dataclass

from axlebook.records.book import Book, side_of

from .sides import Side


@dataclass(frozen=True)
class PartChange:
    """One place where something else stands now than before; '' is nothing on record."""

    what: str  # tire, center, wheelset
    site: str  # "e-12 driver-3 left, center d-3-left"
    was: str
    now: str
    record: str  # by which that came about; '' where no record tells
    path: str


def part_changes(before: Side, after: Side) -> list[PartChange]:
    """Return what stands elsewhere on the day both books are read at."""
    old, new = before.book, after.book
    return [*_wheelsets(old, new), *_centers(old, new), *_tires(old, new)]


def _wheelsets(old: Book, new: Book) -> list[PartChange]:
    was, now = _lines(old), _lines(new)
    return [
        PartChange("wheelset", f"{engine} {place}", was.get((engine, place), ""), now.get((engine, place), ""),
                   engine if (engine, place) in now else "", new.paths.get(engine, ""))
        for engine, place in sorted({*was, *now})
        if was.get((engine, place)) != now.get((engine, place))
    ]  # fmt: skip


def _lines(book: Book) -> dict[tuple[str, str], str]:
    return {
        (engine.id, line.at): f"{line.wheelset}, end A {line.a_end}" if line.a_end else line.wheelset
        for engine in book.engines.values()
        for line in book.standing.standing_lines(engine, book.as_of)
    }


def _centers(old: Book, new: Book) -> list[PartChange]:
    keys = sorted({*old.standing.centers, *new.standing.centers})
    found = []
    for wheelset, side in keys:
        was, now = (book.standing.center_on(wheelset, side, book.as_of) for book in (old, new))
        if was != now:
            by = next((spell.by for spell in reversed(new.standing.centers.get((wheelset, side), [])) if now), "")
            found.append(PartChange("center", f"{wheelset} {side}", was, now, by, new.paths.get(by, "")))
    return found


def _tires(old: Book, new: Book) -> list[PartChange]:
    found = []
    for center in sorted({*old.standing.tires, *new.standing.tires}):
        was, now = (book.standing.tire_on(center, book.as_of) for book in (old, new))
        if was != now:
            by = _by(new, center, was, now)
            found.append(PartChange("tire", _site(new, center) or center, was, now, by, new.paths.get(by, "")))
    return found


def _by(book: Book, center: str, was: str, now: str) -> str:
    """The record that put the tire on, or took the other off."""
    if now:
        return next((spell.by for spell in reversed(book.standing.tires[center]) if spell.what == now), "")
    removed = [w for w in book.work_on.get(was, ()) if w.kind == "tire-removed" and w.center == center]
    return removed[-1].id if removed else ""


def _site(book: Book, center: str) -> str:
    """Where a center stands, as the shop says it."""
    for wheelset, end, spell in reversed(book.standing.sides_of.get(center, [])):
        line = book.standing.line_of(wheelset, book.as_of)
        if line is not None and spell.until is None and wheelset in book.wheelsets:
            return f"{line.engine} {line.at} {side_of(line.a_end, book.wheelsets[wheelset], end)}, center {center}"
    return f"center {center}"
