"""Intervals, practices, events and watch lists of a limit set that are not what they were."""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.limits import Interval, LimitSet

from .limit_change import LimitChange, Way


def interval_changes(shelf: LimitSet, old: LimitSet | None, new: LimitSet | None) -> Iterator[LimitChange]:
    was = {one.id: one for one in old.intervals} if old else {}
    now = {one.id: one for one in new.intervals} if new else {}
    for id in dict.fromkeys([*was, *now]):
        a, b = was.get(id), now.get(id)
        one = b or a
        assert one is not None
        if a is not None and b is not None and a._replace(place=b.place, note=b.note, title=b.title) == b:
            continue
        way = Way.TAKEN_AWAY if b is None else Way.ADDED if a is None else _interval_way(a, b)
        yield LimitChange(
            f"{shelf.id}/{id}", shelf.title, one.place.path, way, one.title, _every(a), _every(b), one.clause
        )


def _interval_way(was: Interval, now: Interval) -> Way:
    """Longer is looser, where nothing else was changed."""
    alike = was._replace(every=now.every, place=now.place, note=now.note, title=now.title) == now
    if not alike or was.every is None or now.every is None or was.every[1] != now.every[1]:
        return Way.CHANGED
    return Way.LOOSENED if now.every[0] > was.every[0] else Way.TIGHTENED


def _every(interval: Interval | None) -> str:
    if interval is None:
        return ""
    told = [
        f"{count} {unit}{'s' if count > 1 else ''}"
        for count, unit in filter(None, (interval.every, interval.alternative))
    ]
    return ", ".join([f"every {' or '.join(told)}" if told else "", interval.stage]).strip(", ")


def other_changes(shelf: LimitSet, old: LimitSet | None, new: LimitSet | None) -> Iterator[LimitChange]:
    """Practices, what an event asks for, watch lists, and how the set decides: told, without a direction."""
    for name in ("practices", "after", "watch"):
        was = {one.id: one for one in getattr(old, name, ())}
        now = {one.id: one for one in getattr(new, name, ())}
        for id in dict.fromkeys([*was, *now]):
            a, b = was.get(id), now.get(id)
            if a is not None and b is not None and a._replace(place=b.place, source=b.source) == b:
                continue
            way = Way.TAKEN_AWAY if b is None else Way.ADDED if a is None else Way.CHANGED
            one = b or a
            assert one is not None
            yield LimitChange(id, shelf.title, one.place.path, way, f"{name.rstrip('s')} {id}", "", "", one.clause)
    if old and new and (old.decision, old.historic, old.tightens) != (new.decision, new.historic, new.tightens):
        yield LimitChange(
            shelf.id, shelf.title, shelf.place.path, Way.CHANGED, "the set itself", _itself(old), _itself(new), ""
        )


def _itself(found: LimitSet) -> str:
    tightens = f"tightens {', '.join(found.tightens)}" if found.tightens else ""
    return ", ".join(filter(None, (f"decides by {found.decision}", "historic" if found.historic else "", tightens)))
