"""What an entry asks, and in which order: each rule by the least that shows it."""

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from axlebook.checks import _questions
from axlebook.checks._questions import MOST_LIMITS, _fits
from axlebook.findings import Place
from axlebook.limits import Between, Bound, Condition, FacetTest, Limit, Table

WHEELSET = SimpleNamespace(id="d-1", driver=True, made="tired")
ONE_PIECE = SimpleNamespace(id="tw-1", driver=False, made="one-piece")


def fits(
    part: str,
    of: str,
    wheelset: Any = WHEELSET,
    *,
    stands: tuple[str, ...] = (),
    roles: tuple[str, ...] = (),
    applies_to: tuple[FacetTest, ...] = (),
    wrong: bool = False,
    for_part: bool = True,
) -> bool:
    lines = [SimpleNamespace(role=role) for role in stands]
    standing = SimpleNamespace(lines_of={wheelset.id: lines} if wheelset else {})
    asking: Any = SimpleNamespace(
        book=SimpleNamespace(tires={"t-1"}, centers={"c-1"}, standing=standing),
        things=SimpleNamespace(of={"it": of}, always_wrong=lambda what, place, named, position: wrong),
        is_for_part=lambda ask, named: for_part,
    )
    ask: Any = SimpleNamespace(what="it", roles=frozenset(roles), applies_to=applies_to)
    return _fits(asking, ask, part, wheelset)


@pytest.mark.parametrize(
    ("part", "of", "told"),
    [
        ("d-1", "wheelset", True), ("d-1", "end", False), ("d-1 left", "end", True), ("d-1 left", "wheelset", False),
        ("d-1 left", "wheel", False), ("t-1", "tire", True), ("t-1", "wheel", True), ("t-1", "center", False),
        ("c-1", "center", True), ("c-1", "wheel", False),
    ],
)  # fmt: skip
def test_a_part_is_asked_for_what_is_of_it(part: str, of: str, told: bool) -> None:
    assert fits(part, of) is told
    assert not fits("t-1", "tire", for_part=False)


def test_a_wheel_in_one_piece_is_asked_for_at_its_end_of_the_wheelset() -> None:
    assert fits("tw-1 A", "wheel", ONE_PIECE)
    assert not fits("tw-1", "wheel", ONE_PIECE)


def test_a_tire_by_itself_is_asked_for_without_a_wheelset() -> None:
    assert fits("t-1", "tire", None)
    assert not fits("t-1", "wheelset", None)


def test_a_wheelset_out_of_the_engine_is_asked_for_by_where_it_stood_or_else_as_a_driver() -> None:
    assert fits("d-1", "wheelset", roles=("driver",))
    assert not fits("d-1", "wheelset", roles=("tender",))
    assert fits("d-1", "wheelset", roles=("tender",), stands=("tender",))
    assert not fits("d-1", "wheelset", roles=("driver",), stands=("tender",))
    assert fits("tw-1", "wheelset", ONE_PIECE, roles=("tender",))  # nobody knows where it stands
    assert not fits("d-1", "wheelset", wrong=True)


def test_what_is_for_another_role_or_make_is_not_asked_and_what_nobody_knows_is() -> None:
    driver = (FacetTest("role", ("driver",)),)
    assert fits("d-1", "wheelset", applies_to=driver)
    assert not fits("d-1", "wheelset", applies_to=driver, stands=("tender",))
    assert fits("d-1", "wheelset", applies_to=driver, stands=("tender", "driver"))  # it stood at both
    assert fits("d-1", "wheelset", applies_to=driver, stands=("tender", "trailing-truck"))
    assert not fits("d-1", "wheelset", applies_to=(FacetTest("make", ("one-piece",)),))


def bounded(number: int, *, joint: bool = False) -> Limit:
    bound = Bound("under", Fraction(number), f"{number} mm")
    conditions = (Condition("it", (bound,)),) * (2 if joint else 1)
    return Limit(f"own/{number}", "own", conditions, "shop", f"page {number}", "as written", "Book", Place("l", ""))


@pytest.mark.parametrize(
    ("count", "more"),
    [(1, ""), (MOST_LIMITS, ""), (MOST_LIMITS + 1, "; and 1 more"), (MOST_LIMITS + 3, "; and 3 more")],
)
def test_the_first_limits_are_written_out_and_the_others_counted(
    monkeypatch: pytest.MonkeyPatch, count: int, more: str
) -> None:
    limits = [bounded(number) for number in range(1, count + 1)]
    assert said(monkeypatch, limits) == (
        "Limits on file: "
        + "; ".join(f"out under {n} mm, Book, page {n}" for n in range(1, min(count, MOST_LIMITS) + 1))
        + f"{more}."
    )


def test_a_limit_whose_table_lacks_what_it_is_looked_up_by_is_told_without_a_figure(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    table = Table(("axle_load", "thickness"), Between.NEXT_ROW, ((Fraction(1), Fraction(2)),), ("2 mm",))
    limit = bounded(1)._replace(conditions=(Condition("it", (Bound("under", None, ""),)),), table=table)
    assert said(monkeypatch, [limit]) == (
        "Limits on file: figure not known (not on record: axle load), Book, page 1."
    )


def said(monkeypatch: pytest.MonkeyPatch, limits: list[Limit]) -> str:
    monkeypatch.setattr(_questions, "reader", lambda book, site: {}.get)
    monkeypatch.setattr(_questions, "out_words", lambda bound, text: f"{bound.word} {text}")
    words = SimpleNamespace(facets={"axle_load": SimpleNamespace(title="axle load", write="`it`")})
    book: Any = SimpleNamespace(limits_on=lambda engine, what: limits, vocabulary=words)
    site: Any = SimpleNamespace(engine=None)
    return _questions._limits(book, site, "it")


def test_a_joint_limit_is_none_for_this_figure_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    none = "No limit on file is for this figure alone."
    assert said(monkeypatch, []) == none
    assert said(monkeypatch, [bounded(1, joint=True)]) == none
