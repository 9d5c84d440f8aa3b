"""Which keys of which records name another record, and the names found there."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Any, NamedTuple

from axlebook.findings import Place
from axlebook.records.book import Book
from axlebook.records.fields import Tree
from axlebook.records.reading import UNKNOWN
from axlebook.records.session import Session

ANY_KIND = (
    ("person", "by"),
    ("person", "signed/signed_by"),
    ("person", "signed/witness"),
    ("person", "transcribed/by"),
)
OF_KIND = {
    "ledger": (("person", "approvers"), ("person", "frogs/by"), ("instrument", "frogs/with")),
    "engine": (("wheelset", "wheelsets/wheelset"),),
    "tire": (("center", "ordered/for_center"),),
    "inspection": (
        ("engine", "engine"),
        ("instrument", "instruments"),
        ("record", "after"),
        ("interval", "also_satisfies"),
        ("purpose", "purpose"),
    ),
    "turning": (("engine", "engine"), ("tire", "tires"), ("wheelset", "wheelsets")),
    "tire-applied": (("tire", "tire"), ("center", "center"), ("session", "fit_from"), ("instrument", "heat/with")),
    "tire-removed": (("tire", "tire"), ("center", "center")),
    "tire-found": (("tire", "tire"), ("center", "center")),
    "mounting": (("center", "center"), ("wheelset", "wheelset"), ("session", "fit_from")),
    "service": (("engine", "engine"), ("person", "days/by")),
    "defect": (
        ("engine", "engine"),
        ("record", "found_in"),
        ("limit", "limit"),
        ("part", "part"),
        ("person", "tag/inspected_by"),
        ("person", "tag/signed_by"),
        ("person", "restriction/set_by"),
        ("person", "repair/by"),
        ("person", "approved/by"),
    ),
    "waiver": (("record", "finding/record"),),
    "correction": (("record", "record"), ("person", "approved_by")),
}


def _stepped(target: str, path: str) -> tuple[str, str, tuple[str, ...]]:
    key, *steps = path.split("/")
    return target, key, tuple(steps)


STEPS = {
    kind: tuple(_stepped(*one) for one in (*ANY_KIND, *OF_KIND.get(kind, ())))
    for kind in (*OF_KIND, "driver", "wheelset", "instrument", "person", "plan", "limit-set")
}


PURPOSES = ("receiving", "shop", "after-work", "after-incident", "daily", "periodic")


class Named(NamedTuple):
    """One id that a record names, of what kind it must be, and where it stands."""

    target: str
    id: str
    place: Place


def in_frame(path: str, tree: Tree, known: dict[str, Collection[str]]) -> Iterator[Named]:
    """The unknown ids that the frame of a record names; those of its readings are looked at apart."""
    for target, key, steps in STEPS.get(tree.get("kind", ""), ()):
        if key not in tree or _all_known(tree[key], steps, known[target]):
            continue
        for pointer, id in _texts(tree[key], steps, f"/{key}"):
            if id == UNKNOWN and target in ("person", "instrument"):
                continue  # an old card does not tell; who-not-told and instrument-not-told do
            if id not in known[target]:
                yield Named(target, id, Place(path, pointer))


def _all_known(tree: Any, steps: tuple[str, ...], ids: Collection[str]) -> bool:
    """Whether every text under some keys is a known id: where it stands is asked only of one that is not."""
    if isinstance(tree, str):
        return bool(steps) or tree in ids
    if isinstance(tree, list):
        return all(_all_known(item, steps, ids) for item in tree)
    if steps and isinstance(tree, dict) and steps[0] in tree:
        return _all_known(tree[steps[0]], steps[1:], ids)
    return True


def _texts(tree: Any, steps: tuple[str, ...], pointer: str) -> Iterator[tuple[str, str]]:
    """Every text under some keys, through lists."""
    if isinstance(tree, list):
        for index, item in enumerate(tree):
            yield from _texts(item, steps, f"{pointer}/{index}")
    elif isinstance(tree, str):
        if not steps:
            yield pointer, tree
    elif isinstance(tree, dict) and steps and steps[0] in tree:
        yield from _texts(tree[steps[0]], steps[1:], f"{pointer}/{steps[0]}")


def all_trees(book: Book) -> Iterator[tuple[str, str, Tree]]:
    """Id, path and tree of every record that names others."""
    yield "ledger", book.ledger.path, book.ledger.tree
    for engine in book.engines.values():
        yield engine.id, engine.path, engine.tree
    for wheelset in book.wheelsets.values():
        yield wheelset.id, wheelset.path, wheelset.tree
    for tire in book.tires.values():
        yield tire.id, tire.path, tire.tree
    for session in book.sessions:
        yield session.id, session.path, session.tree
    for service in book.services.values():
        yield service.id, service.path, service.tree
    for instrument in book.instruments.values():
        yield instrument.id, instrument.path, instrument.tree
    for plain in book.plain.values():
        yield plain.id, plain.path, plain.tree


def hidden(book: Book) -> set[str]:
    """Kinds of which some are not known because the record that tells of them could not be read."""
    lost = {problem.place.path.partition("/")[0] for problem in book.problems if problem.left_out is not None}
    found = {"center", "part"} if lost & {"drivers", "wheelsets"} else set()
    return found | ({"interval", "purpose", "limit", "practice"} if lost & {"limits", "plans"} else set())


def known_ids(book: Book) -> dict[str, Collection[str]]:
    """The ids on file, by what they may be named as."""
    intervals = {interval.id for limit_set in book.limit_sets.values() for interval in limit_set.intervals}
    own = {"ledger"} if book.ledger.tree else set()
    asked = {p for plan in book.of_kind("plan") for p in plan.tree["purposes"] if isinstance(p, str)}
    return {
        "engine": book.engines,
        "wheelset": book.wheelsets,
        "tire": book.tires,
        "center": book.centers,
        "instrument": book.instruments,
        "person": {person.id for person in book.of_kind("person")},
        "limit set": book.limit_sets,
        "limit": {limit.id for limit_set in book.limit_sets.values() for limit in limit_set.limits},
        "practice": {one.id for limit_set in book.limit_sets.values() for one in limit_set.practices},
        "session": book.session_by_id,
        "record": {*book.paths, *own, *(c.record for c in book.corrections if c.withdraws and not c.failed)},
        "interval": intervals,
        "purpose": {*PURPOSES, *intervals, *asked},
        "part": {*book.tires, *book.centers, *book.wheelsets, *book.engines},
    }


def in_readings(session: Session, known: dict[str, Collection[str]]) -> Iterator[Named]:
    """Unknown instruments, people and parts of readings; most are known, and cost a look each."""
    instruments, people, parts, frame = known["instrument"], known["person"], known["part"], session.by
    for reading in session.readings:
        if reading.instrument not in instruments and reading.instrument:
            yield Named("instrument", reading.instrument, reading.at.below("with"))
        if reading.part and reading.part not in parts and (id := reading.part.partition(" ")[0]) not in parts:
            yield Named("part", id, reading.at.below("part"))
        if reading.by is not frame:
            yield from (Named("person", id, reading.at.below("by")) for id in reading.by if id not in people)
    for seen in session.observations:
        if seen.part and (id := seen.part.partition(" ")[0]) not in parts:
            yield Named("part", id, seen.at.below("part"))
        if "with" in seen.tree and seen.tree["with"] != UNKNOWN and seen.tree["with"] not in instruments:
            yield Named("instrument", seen.tree["with"], seen.at.below("with"))
        if seen.by is not frame:
            yield from (Named("person", id, seen.at.below("by")) for id in seen.by if id not in people)
    for examined in session.examinations:
        if examined.part and (id := examined.part.partition(" ")[0]) not in parts:
            yield Named("part", id, examined.at.below("part"))
