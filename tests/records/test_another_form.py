"""The same facts written in another allowed way or order, or with what came later, are judged alike: the demo."""

from __future__ import annotations

import json
import random
import re
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import date
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from axlebook.findings import Finding
from axlebook.quantities import Quantity, find_measure
from axlebook.records.forms import position_named
from axlebook.run import Outcome, run_entries
from axlebook.sources.folder import read_folder
from axlebook.sources.names import Entry

TOP = Path(__file__).parents[2]
#: A correction names what stands in the first letter by letter; in the second somebody wrote what cannot be read.
LEFT_AS_THEY_ARE = ("2019-02-16-e-12-annual", "2016-07-29-e-12-periodic")
JUDGED_BY = ("ledger.yaml", "limits", "plans")

Tree = dict[str, Any]
Rewrite = Callable[[Tree], None]


@cache
def entries() -> tuple[Entry, ...]:
    """The files of the demo."""
    return tuple(read_folder(TOP / "demo-ledger"))


@cache
def trees() -> dict[str, str]:
    """Its records that may be rewritten, as JSON, by path."""
    found = {e.path: e.content for e in entries() if e.content is not None and e.path.split("/")[0] not in JUDGED_BY}
    return {
        path: json.dumps(yaml.load(content, Loader=yaml.CBaseLoader))
        for path, content in found.items()
        if not path.endswith(tuple(f"{name}.yaml" for name in LEFT_AS_THEY_ARE))
    }


@cache
def as_it_is() -> Outcome:
    """What the demo says."""
    return run_entries(entries(), as_of=None, today=date(2030, 1, 1))


def rewritten(rewrite: Rewrite) -> Outcome:
    """What it says once every record is rewritten; some must have been."""
    texts = {}
    for path, text in trees().items():
        tree = json.loads(text)
        rewrite(tree)
        if json.dumps(tree) != text:
            texts[path] = json.dumps(tree).encode()
    assert texts
    found = [entry._replace(content=texts.get(entry.path, entry.content)) for entry in entries()]
    return run_entries(found, as_of=None, today=date(2030, 1, 1))


def told(found: Finding) -> tuple[str, ...]:
    """What a finding says but for its text, its line, and how the record spells a position."""
    steps = (position_named(step) for step in found.place.pointer.split("/") if not step.isdecimal())
    return found.fingerprint, found.verdict, found.severity, found.cause, found.waived, *steps


def within(outcome: Outcome) -> Counter[tuple[str, ...]]:
    """What is within, counted; of several that lie alike any may stand for them."""
    return Counter((one.check, one.severity, one.subject, one.quantity, one.place.path) for one in outcome.within)


def held(outcome: Outcome) -> None:
    """Hold an outcome to that of the demo as it is."""
    before = as_it_is()
    new, gone = (
        Counter(map(told, one.findings)) - Counter(map(told, other.findings))
        for one, other in ((outcome, before), (before, outcome))
    )
    assert (new, gone) == (Counter(), Counter())
    assert within(outcome) == within(before)


def readings(tree: Tree) -> Iterator[Tree]:
    """The readings of a record."""
    yield from tree.get("readings", ())


def respelled(spell: Callable[[str], str], years: range = range(1000, 3000)) -> Rewrite:
    """Every angle of a position spelled otherwise, in the records of some years."""

    def rewrite(tree: Tree) -> None:
        day = str(next((tree[key] for key in tree if key.endswith("_on")), ""))
        if day[:4].isdecimal() and int(day[:4]) in years:
            for one in readings(tree):
                one["values"] = {
                    re.sub(r"^(\d+) deg", lambda found: spell(found[1]), at): value
                    for at, value in one["values"].items()
                }

    return rewrite


@pytest.mark.parametrize(
    "rewrite",
    [
        respelled(lambda degrees: f"{degrees}°"),
        respelled(lambda degrees: f"{degrees}.0 deg"),
        respelled(lambda degrees: f"{degrees:0>3}deg", range(1000, 2025)),
        respelled(lambda degrees: f"{degrees} °", range(2025, 2026)),
    ],
    ids=["sign", "decimal", "in three digits until 2024", "of one year"],
)
def test_a_position_is_the_same_however_it_is_spelled(rewrite: Rewrite) -> None:
    held(rewritten(rewrite))


def figures(write: Callable[[Quantity], str]) -> Rewrite:
    """Every figure of a reading written otherwise."""

    def one(text: str) -> str:
        found = find_measure(text)
        new = write(found) if isinstance(found, Quantity) else ""
        return new if new and getattr(find_measure(new), "exact", None) == found.exact else text  # type: ignore[union-attr]

    def rewrite(tree: Tree) -> None:
        for reading in readings(tree):
            reading["values"] = {
                at: one(value) if isinstance(value, str) else [one(text) for text in value]
                for at, value in reading["values"].items()
            }

    return rewrite


def in_unit(quantity: Quantity, unit: str, factor: Fraction) -> str:
    """An inch figure as a decimal of a unit."""
    number = f"{float(quantity.number * factor):.8f}".rstrip("0").rstrip(".")
    return f"{number} {unit}" if quantity.unit == "in" else ""


@pytest.mark.parametrize(
    "write",
    [
        lambda found: in_unit(found, "in", Fraction(1)),
        lambda found: in_unit(found, "mm", Fraction(254, 10)),
        lambda found: re.sub(r"^(\d+) (\d+/\d+) in$", r"\1-\2″", found.text),
        lambda found: re.sub(r" in$", " inches", found.text),
        lambda found: re.sub(r" ?\b1/4 in$", "¼ in", found.text),
    ],
    ids=["decimal", "mm", "hyphen", "inches", "one sign"],
)
def test_a_figure_is_the_same_however_it_is_written(write: Callable[[Quantity], str]) -> None:
    held(rewritten(figures(write)))


def planes(tree: Tree) -> None:
    """The planes and clock positions as another keyboard writes them, in the records of 2025."""
    if str(tree.get("measured_on", "")).startswith("2025"):
        for one in (*readings(tree), tree.get("setup", {})):
            one |= {"where": one["where"].replace("3/8 in", '0.375"')} if "where" in one else {}
            one |= {"clock": one["clock"].replace("'", "’")} if "clock" in one else {}


def lists(tree: Tree) -> None:
    """A list where one may stand for itself, and the other way round."""
    for one in (tree, *readings(tree)):
        by = one.get("by")
        if tree["kind"] in ("inspection", "turning") and by:
            one["by"] = [by] if isinstance(by, str) else by[0] if len(by) == 1 else by
    for one in readings(tree):
        one["values"] = {at: [value] if isinstance(value, str) else value for at, value in one["values"].items()}


def turned(tree: Tree) -> None:
    """Readings and looks the other way round, and the keys of each."""
    for name in ("readings", "observations", "not_measured", "examinations"):
        if name in tree:
            tree[name] = [dict(reversed(one.items())) for one in reversed(tree[name])]
    told = dict(reversed(tree.items()))
    tree.clear()
    tree.update(told)


def shuffled(tree: Tree) -> None:
    """The readings, looks and people of a record in no order at all."""
    chance = random.Random(str(sorted(tree)))
    for name in ("readings", "observations", "not_measured", "instruments", "by"):
        if isinstance(tree.get(name), list):
            chance.shuffle(tree[name])


@pytest.mark.parametrize("rewrite", [planes, lists, turned, shuffled])
def test_what_is_written_in_another_order_or_wording_is_judged_alike(rewrite: Rewrite) -> None:
    held(rewritten(rewrite))


def test_a_part_that_is_named_by_itself_is_the_one_that_stood_at_the_place() -> None:
    book = as_it_is().book
    of = {name: word.of for name, word in (*book.vocabulary.quantities.items(), *book.vocabulary.observations.items())}
    parts = {}
    for session in book.sessions:
        for one in (*session.readings, *session.observations):
            thing = book.thing_of(of[getattr(one, "quantity", "") or one.looked_for], one) if one.place else None
            if thing is not None and thing.kind != "engine" and session.day.text[:4] in ("2024", "2025"):
                parts[session.day.text, session.purpose, one.pointer] = thing.name

    def rewrite(tree: Tree) -> None:
        for name in ("readings", "observations"):
            for index, one in enumerate(tree.get(name, ())):
                part = parts.get((tree.get("measured_on"), tree.get("purpose"), f"/{name}/{index}"))
                if part and tree["engine"] in ("e-12", "e-3", "e-21"):
                    del one["place"]
                    one["part"] = part

    held(rewritten(rewrite))


def test_one_position_that_is_spelled_in_two_ways_is_read_twice() -> None:
    path = "inspections/2026/2026-02-14-e-12-annual.yaml"
    text = next(e.content for e in entries() if e.path == path).decode()  # type: ignore[union-attr]
    doubled = text.replace("      120 deg: 53.376 in\n", "      120 deg: 53.376 in\n      120.0°: 53.378 in\n")
    assert doubled != text
    changed = [e._replace(content=doubled.encode()) if e.path == path else e for e in entries()]
    found = run_entries(changed, as_of=None, today=date(2030, 1, 1))
    (one,) = (f for f in found.findings if f.check == "back-to-back-outside")
    assert one.message.startswith("e-12 tender-2, back-to-back, 120 deg: 53.376 in and 53.378 in")
    assert one.place.pointer == "/readings/102/values/120 deg"


@pytest.mark.parametrize("day", ["2014-06-01", "2018-09-20", "2021-02-15", "2024-07-15", "2025-11-22"])
def test_what_was_done_later_changes_nothing_that_is_said_of_a_day(day: str) -> None:
    kept = [entry for entry in entries() if not _later(entry, day)]
    assert len(kept) < len(entries())
    whole, short = (
        run_entries(many, as_of=date.fromisoformat(day), today=date(2030, 1, 1)) for many in (entries(), kept)
    )
    unreadable = {told(one) for one in whole.findings if one.verdict == "unreadable"}  # it may be of any day
    assert {*map(told, whole.findings)} - unreadable == {*map(told, short.findings)} - unreadable
    assert within(whole) == within(short)


def _later(entry: Entry, day: str) -> bool:
    """Whether a record is of work, a look or a correction after a day."""
    tree = json.loads(trees().get(entry.path, "{}"))
    keys = ("measured_on", "found_on", "applied_on", "removed_on", "turned_on", "mounted_on", "corrected_on")
    return any(tree.get(key, "unknown")[:10] > day for key in keys if tree.get(key, "unknown") != "unknown")
