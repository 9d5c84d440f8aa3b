"""Paper sheets from the boxes that the plans ask for: a page a wheelset, in walking order."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import groupby
from typing import Any

from axlebook.checks._boxes import Ask
from axlebook.records.book import Book
from axlebook.records.condition import Stand
from axlebook.records.forms import parse_position

from .paper import Figure, Group, Known, Look, Page, Paper, Source, Spot
from .paper_fitting import fitted
from .view import WHO_DECIDES, Day

CAUTIONS = (
    "Before anyone goes under or between: engine chocked and unable to move, brake, throttle and rods in one named "
    "person's charge.",
    "Pinch points: keep hands from between shoe, rod and wheel while anything is barred over. Nobody stands under or "
    "beside a wheelset that hangs; blocks, not jacks, carry it.",
    "A local code and the person in charge come before this sheet.",
)
PAIRS = (("left", "right"), ("A", "B"))
SHORT_ID = 8
Refs = dict[tuple[str, str], int]  # stage with source, clause -> its number
STAGES = {"condemning": "CONDEMNING", "shop": "shop", "new": "new work", "practice": "practice", "note": "note"}


def paper(book: Book, asked: Sequence[Ask], about: str, purpose: str, day: Day, revision: str) -> Paper:
    """The sheet of some boxes; what was pre-filled makes its id."""
    engines = [ask.site.engine for ask in asked if ask.site is not None and ask.site.engine.id]
    engine = engines[0] if engines else None
    rows = [_row(ask) for ask in asked]
    id = sheet_id(about, purpose, day, rows)
    pages = tuple(one for page in _pages(book, asked) for one in fitted(page))
    return Paper(
        engine.id if engine else "", engine.number if engine else "", about, purpose,
        f"{purpose.replace('-', ' ').capitalize()} sheet, {about}", day, id, revision, pages,
        book.vocabulary.holds, book.vocabulary.reasons_not_measured, CAUTIONS, WHO_DECIDES, rows,
    )  # fmt: skip


def sheet_id(about: str, purpose: str, day: Day, rows: Any) -> str:
    """What tells one sheet from another, and a stale one from a fresh one: the same boxes give the same id."""
    content = json.dumps([about, purpose, day.as_of.isoformat(), rows], sort_keys=True, ensure_ascii=True)
    return f"{about}-{purpose}-{day.as_of}-{hashlib.sha256(content.encode()).hexdigest()[:SHORT_ID]}"


def _row(ask: Ask) -> dict[str, Any]:
    question, last = ask.question, ask.last
    return {
        "what": ask.what, "where": ask.where, "position": ask.position, "wanted": question.wanted,
        "looked_for": not question.is_read, "how": question.how, "hold": question.hold,
        "least_count": question.least_count, "unit": ask.unit if question.is_read else "", "instrument": ask.instrument,
        "last": last.text if last else "", "last_on": last.day if last else "",
        "last_in": last.reading.source.record if last else "", "last_in_doubt": bool(last and last.in_doubt),
        "last_before": last.since.id if last and last.since else "",
        "expected": ask.expected.text if ask.expected else "",
        "limits": [
            {"words": f"{one.of} {one.words}".strip(), "stage": one.stage, "source": one.cited, "limit": one.id}
            for one in (*ask.governed.limits, *ask.sizes)
        ],
        "no_limit": ask.governed.gap,
    }  # fmt: skip


# -- pages -----------------------------------------------------------------------------------------------------------


def _pages(book: Book, asked: Sequence[Ask]) -> Iterable[Page]:
    places = tuple(dict.fromkeys(ask.at for ask in asked if ask.at))
    for at in (*places, *([""] if any(not ask.at for ask in asked) else [])):
        yield _page(book, at, [ask for ask in asked if ask.at == at], places)


def _page(book: Book, at: str, asked: list[Ask], row: tuple[str, ...]) -> Page:
    sides = _sides(asked) if at else ()
    refs: Refs = {}
    wheels = tuple(_groups([a for a in asked if a.side and a.question.is_read], sides, refs))
    pair = tuple(_groups([a for a in asked if not a.side and a.question.is_read], (), refs))
    looks = tuple(_looks([a for a in asked if not a.question.is_read], sides, refs))
    stand = next((a.site for a in asked if isinstance(a.site, Stand)), None)
    wheelset = stand.wheelset.id if stand and at else ""
    angles = {int(p.angle) for a in asked if (p := parse_position(a.position)) and p.angle is not None}
    loose = bool(at) and at == wheelset
    name = at if loose else at.replace("-", " ").upper() or _name_off_the_axles(book, asked)
    about = (*(["stands on no engine"] if loose else []), *(_about(asked, stand) if at else ()))
    return Page(
        name, wheelset, about, tuple(side.upper() for side in sides), row,
        tuple(sorted(angles)), wheels, pair, looks, _sources(refs),
    )  # fmt: skip


def _name_off_the_axles(book: Book, asked: Iterable[Ask]) -> str:
    """Centers on the bench by their ids; what is no wheel's and no center's is the engine's."""
    parts = dict.fromkeys(ask.where for ask in asked)
    return f"CENTER {', '.join(parts)}" if parts.keys() <= book.centers.keys() else "THE ENGINE"


def _sides(asked: Iterable[Ask]) -> tuple[str, ...]:
    there = {ask.side for ask in asked}
    return next((pair for pair in PAIRS if there & set(pair)), PAIRS[0])


def _about(asked: Iterable[Ask], stand: Stand | None) -> Iterable[str]:
    """Which parts are on it, and from where angles are counted."""
    seen = {}
    for ask in asked:
        if isinstance(ask.site, Stand) and ask.site.side:
            parts = [part.id for part in (ask.site.tire, ask.site.center) if part is not None]
            seen[ask.site.side] = f"{ask.site.side} {' on '.join(parts)}" if parts else ""
    yield from sorted(filter(None, seen.values()))
    if stand is not None:
        yield f"datum: {stand.wheelset.datum or 'NOT on record: say what 0 deg is counted from'}"


def _groups(asked: list[Ask], sides: tuple[str, ...], refs: Refs) -> Iterable[Group]:
    """The boxes of each quantity; by side where it has sides, else place by place."""
    key = (lambda ask: (ask.what, "")) if sides else (lambda ask: (ask.what, ask.where))
    ordered: dict[tuple[str, str], list[Ask]] = {}
    for ask in asked:
        ordered.setdefault(key(ask), []).append(ask)
    for many in ordered.values():
        first = many[0]
        positions = dict.fromkeys(ask.position for ask in many)
        spots = tuple(Spot(position, _boxes(many, position, sides)) for position in positions)
        place = f", {first.where}" if not sides and not first.at else ""
        yield Group(
            first.what, first.question.title + place, first.unit, _gauge(many), _figures(many, refs),
            next((ask.governed.gap for ask in many if ask.governed.gap), ""), spots, first.question.wanted,
            first.question.how,
        )  # fmt: skip


def _boxes(many: list[Ask], position: str, sides: tuple[str, ...]) -> tuple[Known | None, ...]:
    here = [ask for ask in many if ask.position == position]
    if not sides:
        return (_known(here[0]),)
    return tuple(next((_known(ask) for ask in here if ask.side == side), None) for side in sides)


def _known(ask: Ask) -> Known:
    last = ask.last
    if last is None:
        return Known()
    return Known(f"{last.text}, {last.day}", "; ".join(ask.notes), ask.expected.text if ask.expected else "")


def _gauge(many: list[Ask]) -> str:
    """What it was read with last, how fine it has to be, and how the wheelset is to be held."""
    used = dict.fromkeys(ask.instrument for ask in many if ask.instrument)
    question = many[0].question
    told = [" / ".join(used)] if used else []
    told += [f"to {question.least_count}"] if question.least_count else []
    told += [question.hold] if question.hold else []
    told += ["with part and instrument temperature"] if question.needs_temperature else []
    return ", ".join(told)


def _figures(many: Iterable[Ask], refs: Refs) -> tuple[Figure, ...]:
    """Each limit once; what one clause says of one thing stands together."""
    found: dict[tuple[str, int], list[str]] = {}
    for ask in many:
        for one in (*ask.governed.limits, *ask.sizes):
            cited = f"{STAGES.get(one.stage, one.stage)}: {one.source}", one.clause
            words = found.setdefault((one.of, refs.setdefault(cited, len(refs) + 1)), [])
            if one.words not in words:
                words.append(one.words)
    told = [of for of, _ in found]
    said = [of if at == told.index(of) else "" for at, of in enumerate(told)]  # each thing is named once
    return tuple(
        Figure(f"{of} {' or '.join(words)}".strip(), ref)
        for of, ((_, ref), words) in zip(said, found.items(), strict=True)
    )


def _sources(refs: Refs) -> tuple[Source, ...]:
    """Each source once, with its clauses by number."""
    found: dict[str, list[tuple[int, str]]] = {}
    for (name, clause), ref in refs.items():
        found.setdefault(name, []).append((ref, clause))
    return tuple(Source(name, tuple(clauses)) for name, clauses in found.items())


def _looks(asked: list[Ask], sides: tuple[str, ...], refs: Refs) -> Iterable[Look]:
    for what, many in groupby(sorted(asked, key=lambda a: _first(asked, a.what)), key=lambda a: a.what):
        found = list(many)
        there = {ask.side for ask in found}
        has = tuple(side in there for side in sides) if there & set(sides) else ()
        question = found[0].question
        yield Look(what, question.title, has, _figures(found, refs), question.wanted, question.how)


def _first(asked: list[Ask], what: str) -> int:
    return next(index for index, ask in enumerate(asked) if ask.what == what)


def with_revision(paper: Paper, revision: str) -> Paper:
    """The same sheet, saying where the ledger stands."""
    return replace(paper, revision=revision)
