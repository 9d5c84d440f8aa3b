"""Small books for the tests of records: trees in, a book out, through the reader and the schemas."""

import json
from datetime import date
from typing import Any

from axlebook.records.book import Book
from axlebook.records.condition import Stand, stands
from axlebook.run import read_book
from axlebook.sources.names import Entry

Trees = dict[str, Any]


def book_of(trees: Trees, as_of: str = "2026-01-15") -> Book:
    """A book of trees by path; all of them must be sound."""
    ledger = {"kind": "ledger", "railway": "Test railway (invented)", "defaults": {"track_gauge": "4 ft 8 1/2 in"}}
    files = {"ledger.yaml": ledger} | trees
    entries = [Entry(path, json.dumps(tree).encode(), None) for path, tree in sorted(files.items())]
    book = read_book(entries, as_of=date.fromisoformat(as_of), today=date(2026, 3, 1))
    assert not book.problems, book.problems
    return book


def engine(*lines: Trees, **more: Any) -> Trees:
    """An engine e-1 with lines of which wheelset stands where."""
    return {"engines/e-1.yaml": {"kind": "engine", "wheelsets": list(lines)} | more}


def line(at: str, wheelset: str, start: str = "2020-01-01", **more: str) -> Trees:
    """One dated line."""
    return {"at": at, "wheelset": wheelset, "from": start} | more


def driver(id: str, **axle: str) -> Trees:
    """A driver with a center on each side."""
    centers = {f"{id}-{side}": {"first_side": side, "nominal_diameter": "44 in", "spokes": "14"}
               for side in ("left", "right")}  # fmt: skip
    return {f"drivers/{id}.yaml": {"kind": "driver", "axle": axle, "centers": centers}}


def truck(id: str, **more: Any) -> Trees:
    """A one-piece truck wheelset."""
    return {f"wheelsets/{id}.yaml": {"kind": "wheelset", "made": "one-piece", "axle": {}} | more}


def tire(id: str, **form: str) -> Trees:
    """A tire."""
    return {f"tires/{id}.yaml": {"kind": "tire", "form": form}}


def tire_work(kind: str, day: str, tire: str, center: str, **more: Any) -> Trees:
    """Tire work of a kind: found, applied or removed."""
    tree = {"kind": f"tire-{kind}", f"{kind}_on": day, "tire": tire, "center": center} | more
    return {f"tire-work/{day[:4]}/{day}-{tire}-{kind}.yaml": tree}


def turning(day: str, *tires: str) -> Trees:
    """A turning of some tires."""
    return {
        f"turnings/{day[:4]}/{day}-e-1.yaml": {
            "kind": "turning",
            "turned_on": day,
            "engine": "e-1",
            "tires": list(tires),
        }
    }


def inspection(day: str, *readings: Trees, seen: tuple[Trees, ...] = (), name: str = "e-1", **more: Any) -> Trees:
    """An inspection with readings and observations."""
    tree = {"kind": "inspection", "measured_on": day, "engine": "e-1", "purpose": "periodic"}
    tree |= {"readings": list(readings), "observations": list(seen)} | more
    return {f"inspections/{day[:4]}/{day}-{name}.yaml": tree}


def reading(quantity: str, place: str, *values: str, **more: str) -> Trees:
    """A reading; positions 0, 120, 240 deg in order, or `worst` for a single value."""
    key = "part" if place[0] in "td" and "driver" not in place and "tender" not in place else "place"
    positions = ("worst",) if len(values) == 1 else ("0 deg", "120 deg", "240 deg", "90 deg")
    return {"quantity": quantity, key: place, "values": dict(zip(positions, values, strict=False))} | more


def looked(for_: str, place: str, answer: str = "seen", **more: Any) -> Trees:
    """An observation."""
    return {"looked_for": for_, "place": place, "answer": answer} | more


def stand_at(book: Book, name: str) -> Stand:
    """The stand of a name, such as `e-1 driver-1 left`."""
    return next(stand for stand in stands(book) if stand.name == name)
