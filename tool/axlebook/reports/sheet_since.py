"""What changed for the boxes of a sheet since it was printed: told before the sheet is typed in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from axlebook.checks._boxes import Ask
from axlebook.records.condition import Stand

MOST = 6  # things told one by one
Key = tuple[str, str, str]


def changes(printed: Sequence[Ask], now: Sequence[Ask]) -> list[str]:
    """What is otherwise now, a sentence each, in the order of the sheet; what one record changed is told once."""
    before, after = _by_box(printed), _by_box(now)
    both = [key for key in before if key in after]
    found = list(dict.fromkeys(words for key in both for words in _parts(before[key], after[key])))
    found += _read_since([(before[key], after[key]) for key in both])
    found += list(dict.fromkeys(words for key in both for words in _known_otherwise(before[key], after[key])))
    found += _boxes(after, [key for key in after if key not in before], "is asked now and has no box on the sheet")
    found += _boxes(before, [key for key in before if key not in after], "has a box on the sheet and is asked no more")
    return found


def told(found: Sequence[str]) -> list[str]:
    """No more of it than a person reads."""
    more = len(found) - MOST
    return [*found[:MOST], *([f"And {more} more."] if more > 0 else [])]


def _by_box(asked: Sequence[Ask]) -> dict[Key, Ask]:
    return {(ask.what, ask.where, ask.position): ask for ask in asked}


def _parts(before: Ask, after: Ask) -> Iterator[str]:
    was, here = (_standing(ask) for ask in (before, after))
    if was != here:
        yield f"{after.where}: {' on '.join(was) or 'nothing'} stood there, now {' on '.join(here) or 'nothing'}."


def _standing(ask: Ask) -> list[str]:
    if not isinstance(ask.site, Stand):
        return []
    parts = (ask.site.tire, ask.site.center) if ask.site.side else (ask.site.wheelset,)
    return [part.id for part in parts if part is not None]


def _read_since(pairs: Sequence[tuple[Ask, Ask]]) -> Iterator[str]:
    """Last readings that are others now, those of one record together."""
    found: dict[str, list[tuple[Ask, Ask]]] = {}
    for before, after in pairs:
        if _last(before) != _last(after):
            found.setdefault(after.last.reading.source.record if after.last else "", []).append((before, after))
    for record, many in found.items():
        before, after = many[0]
        more = f", and {len(many) - 1} box{'es' * (len(many) > 2)} more" if len(many) > 1 else ""
        box = f"{after.where}, {after.question.title}{f', {after.position}' if after.position else ''}"
        was = f"{before.last.text} of {before.last.day}" if before.last else "never read"
        now = f"{after.last.text} of {after.last.day}" if after.last else "not on record"
        yield f"{box}{more}: {was} on the sheet, now {now}{f' ({record})' if record else ''}."


def _last(ask: Ask) -> tuple[str, ...]:
    return (ask.last.text, ask.last.day, ask.last.reading.source.record) if ask.last else ()


def _known_otherwise(before: Ask, after: Ask) -> Iterator[str]:
    """Limits that are others now, work done since, and a reading that is in doubt now."""
    what = f"{after.where}, {after.question.title}"
    if _limits(before) != _limits(after):
        yield f"{what}: the limits on file are others now."
    if _last(before) == _last(after):
        yield from (f"{what}: the last reading is {note} now." for note in after.notes if note not in before.notes)


def _limits(ask: Ask) -> list[tuple[str, str, str]]:
    return [(one.of, one.words, one.cited) for one in (*ask.governed.limits, *ask.sizes)]


def _boxes(asked: dict[Key, Ask], keys: Sequence[Key], words: str) -> list[str]:
    return list(dict.fromkeys(f"{asked[key].where}, {asked[key].question.title} {words}." for key in keys))


__all__ = ["changes", "told"]
