"""Where the metal of a defect stands now."""

from typing import Any

from axlebook.records.defect import defects
from axlebook.records.due import falls_due
from axlebook.records.restrictions import restrictions

from .books import Trees, book_of, driver, engine, line, tire, tire_work, truck

TAG = {"engine": "1", "restrictions": "not to be used", "tagged_on": "2026-01-02", "signed_by": "lead"}
MOVED = {
    **engine(line("driver-1", "d-1", until="2026-01-05"), line("driver-1", "d-2", "2026-01-06")),
    "engines/e-2.yaml": {"kind": "engine", "wheelsets": [line("driver-1", "d-1", "2026-01-06")]},
    **driver("d-1"),
    **driver("d-2"),
    **tire("t-1"),
    **tire_work("found", "2020-01-01", "t-1", "d-1-left"),
}


def defect(**more: Any) -> Trees:
    tree = {"kind": "defect", "found_on": "2026-01-02", "engine": "e-1", "what": "cracked", "tag": TAG}
    return {"defects/2026/2026-01-02-e-1-crack.yaml": tree | {"restriction": {"words": "not to run"}} | more}


def held(trees: Trees, as_of: str = "2026-01-15") -> list[tuple[str, str, str]]:
    """Engine, kind and subject of each line; what falls due says the same of the restriction."""
    book = book_of(trees, as_of)
    found = sorted((one.engine, one.kind, one.subject) for one in restrictions(book))
    due = {(one.engine, one.subject) for one in falls_due(book) if one.kind == "restriction"}
    assert due == {(engine, subject) for engine, kind, subject in found if kind == "restriction"}
    return found


def test_tag_and_restriction_go_with_the_wheelset_under_another_engine() -> None:
    told = MOVED | defect(place="driver-1 left")
    assert held(told, "2026-01-04") == [
        ("e-1", "restriction", "e-1 driver-1 left"),
        ("e-1", "tag", "e-1 driver-1 left"),
    ]
    assert held(told) == [("e-2", "restriction", "e-2 driver-1 left"), ("e-2", "tag", "e-2 driver-1 left")]


def test_a_defect_of_a_part_is_told_where_the_part_stands_now() -> None:
    for part, name in (("d-1", "e-2 driver-1"), ("d-1 right", "e-2 driver-1 right"), ("t-1", "e-2 driver-1 left")):
        assert held(MOVED | defect(part=part)) == [("e-2", "restriction", name), ("e-2", "tag", name)]
    assert {subject for _, _, subject in held(MOVED | defect(part="d-1-left"))} == {"e-2 driver-1 left"}


def test_what_stands_under_no_engine_holds_no_engine_back_and_is_told_of_the_part() -> None:
    out = {**MOVED, "engines/e-2.yaml": {"kind": "engine", "wheelsets": []}}
    assert held(out | defect(place="driver-1")) == [("", "restriction", "d-1"), ("", "tag", "d-1")]
    assert {subject for _, _, subject in held(out | defect(place="driver-1 left"))} == {"t-1"}


def test_a_defect_of_the_engine_itself_stays_with_the_engine() -> None:
    for place in ("crosshead left", ""):
        told = MOVED | defect(**({"place": place} if place else {}))
        assert held(told) == [("e-1", kind, f"e-1 {place}".strip()) for kind in ("restriction", "tag")]


def test_of_a_wheelset_whose_ends_are_not_told_the_place_stays_as_written() -> None:
    base = {**engine(line("tender-1", "tw-1")), **truck("tw-1")}
    assert {subject for _, _, subject in held(base | defect(place="tender-1 left"))} == {"e-1 tender-1 left"}


def test_a_wheel_turned_end_for_end_is_told_on_its_new_side() -> None:
    lines = (
        line("tender-1", "tw-1", until="2026-01-05", a_end="left"),
        line("tender-1", "tw-1", "2026-01-06", a_end="right"),
    )
    (one,) = defects(book_of({**engine(*lines), **truck("tw-1")} | defect(place="tender-1 left")))
    assert (one.subject, one.moved_from) == ("e-1 tender-1 right", "e-1 tender-1 left")
