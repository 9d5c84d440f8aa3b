"""Restrictions as one plain list: what holds today, in the words of its record."""

from typing import Any

from axlebook.records.restrictions import restrictions

from .books import Trees, book_of, engine, line, truck

TAG = {"engine": "1", "restrictions": "not to be used", "tagged_on": "2026-01-10", "signed_by": "lead"}
PEOPLE = {"people/chair.yaml": {"kind": "person", "role": "chair"}}


def listed(trees: Trees, as_of: str = "2026-02-28") -> list[tuple[str, str, str, str]]:
    """Kind, subject, words and last day of each line."""
    base = {**engine(line("engine-truck-1", "et-1")), **truck("et-1"), **PEOPLE}
    return [(one.kind, one.subject, one.words, one.until) for one in restrictions(book_of(base | trees, as_of))]


def defect(**more: Any) -> Trees:
    """A defect of the engine truck."""
    tree = {"kind": "defect", "found_on": "2026-01-10", "engine": "e-1", "place": "engine-truck-1", "what": "thin"}
    return {"defects/2026/2026-01-10-e-1-thin.yaml": tree | more}


def waiver(**more: str) -> Trees:
    """A waiver of the same engine truck."""
    finding = {"check": "lateral-excessive", "subject": "e-1 engine-truck-1"}
    tree = {"kind": "waiver", "finding": finding, "reason": "shims are on order", "approved_by": "chair"}
    return {"waivers/w-1.yaml": tree | {"approved_on": "2026-01-12", "expires_on": "2026-06-30"} | more}


def test_an_open_defect_gives_its_tag_and_its_restriction() -> None:
    assert listed(defect(tag=TAG, restriction={"words": "dead, at a walk", "until": "2026-03-31"})) == [
        ("restriction", "e-1 engine-truck-1", "dead, at a walk", "2026-03-31"),
        ("tag", "e-1 engine-truck-1", "not to be used", ""),
    ]


def test_a_closed_defect_holds_nothing_back_and_did_until_it_was_closed() -> None:
    closed = defect(tag=TAG, disposition="repaired", closed_on="2026-02-01")
    assert listed(closed) == []
    assert [kind for kind, *_ in listed(closed, "2026-01-31")] == ["tag"]


def test_a_restriction_holds_from_its_first_day_to_its_last() -> None:
    told = defect(restriction={"words": "5 mph", "from": "2026-01-12", "until": "2026-02-28"})
    assert [bool(listed(told, day)) for day in ("2026-01-11", "2026-01-12", "2026-02-28", "2026-03-01")] == [
        False, True, True, False,
    ]  # fmt: skip


def test_a_waiver_in_force_is_listed_with_its_last_day_and_not_after() -> None:
    words = "lateral-excessive is waived: shims are on order"
    assert listed(waiver()) == [("waiver", "e-1 engine-truck-1", words, "2026-06-30")]
    assert listed(waiver(), "2026-07-01") == []
    assert listed(waiver(closed_on="2026-02-01")) == []


def test_a_tag_that_says_no_restriction_is_listed_as_that() -> None:
    assert listed(defect(tag={"engine": "1"})) == [
        ("tag", "e-1 engine-truck-1", "tagged; the tag says no restriction", "")
    ]


def test_what_ends_first_stands_first() -> None:
    both = defect(restriction={"words": "5 mph"}) | waiver()
    assert [kind for kind, *_ in listed(both)] == ["waiver", "restriction"]
