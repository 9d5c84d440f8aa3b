"""How judgements are weighed, doubted and decided: each rule by the smallest values that show it."""

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from axlebook.checks import (
    ALONG_TIME,
    BY_THEMSELVES,
    NAMES,
    OF_OTHERS,
    _frogs,
    _judging,
    back_to_back_moved,
    in_turns_of,
)
from axlebook.checks._by_limit import _weight, decide
from axlebook.checks._judging import (
    doubted,
    sort_limits,
    weight,
    worst_for,
)
from axlebook.findings import Place, Verdict
from axlebook.limits import Bound, Condition, FacetTest, Judgement, Limit, Span, point
from axlebook.records import unsure
from axlebook.records.book import Thing
from axlebook.records.change import Change
from axlebook.records.condition import Value
from axlebook.records.fit import Missing
from axlebook.records.unsure import NO_SIZE, NOT_SURE, WRONG_UNIT, unsure_of

from .made_up import INCH, PLACE, judgement, limit, value


def heaviest(*pairs: Judgement) -> Judgement:
    return min(((value("1"), one) for one in pairs), key=weight)[1]


def test_outside_weighs_more_than_undecided_and_that_more_than_what_was_not_judged_or_is_within() -> None:
    order = [judgement(v) for v in ("outside", "undecided", "not assessed", "within")]
    assert [heaviest(*order[n:]).verdict for n in range(4)] == [one.verdict for one in order]
    assert [min(order[n:], key=_weight).verdict for n in range(4)] == [one.verdict for one in order]


def test_of_what_is_outside_the_heavier_limit_weighs_more_and_then_the_less_margin() -> None:
    shop, heavy = judgement("outside", "-5", "shop"), judgement("outside", "-1", "condemning")
    assert heaviest(shop, heavy) is heavy
    assert min(shop, heavy, key=_weight) is heavy
    further = judgement("outside", "-2", "condemning")
    assert heaviest(heavy, further) is further
    assert min(heavy, further, key=_weight) is further


def test_of_what_is_within_the_less_margin_weighs_more_whatever_the_limit() -> None:
    near, far = judgement("within", "1", "shop"), judgement("within", "2", "condemning")
    assert heaviest(far, near) is near
    assert min(far, near, key=_weight) is near


def test_what_is_undecided_weighs_by_its_limit() -> None:
    shop, heavy = judgement("undecided", "-5", "shop"), judgement("undecided", "1", "condemning")
    assert heaviest(shop, heavy) is heavy


def test_without_a_margin_it_weighs_as_one_that_has_none_left() -> None:
    seen = judgement("outside")
    assert heaviest(judgement("outside", "1"), seen) is seen
    assert heaviest(judgement("outside", "-1"), seen) is not seen


WIDE, MIDDLE, NARROW = value("1", "9"), value("2", "8"), value("3", "7")


@pytest.mark.parametrize(("word", "worst"), [("under", WIDE), ("at_most", WIDE), ("over", WIDE), ("at_least", WIDE)])
def test_the_worst_value_is_the_lowest_for_a_least_figure_and_the_highest_for_a_most(word: str, worst: Value) -> None:
    condition = Condition("tire_width", (Bound(word, Fraction(5), "5"),))
    assert worst_for(condition, [MIDDLE, worst, NARROW]) is worst
    low, high = value("1"), value("9")
    assert worst_for(condition, [MIDDLE, low, high]) is (low if word in ("under", "at_most") else high)


def test_a_value_open_to_one_side_is_the_worst_where_the_condition_holds_for_it_sooner() -> None:
    condition = Condition("tire_width", (Bound("under", Fraction(5), "5"),))
    below, above, within = value(None, "1"), value("1", "open"), value("6")
    assert worst_for(condition, [within, MIDDLE, below]) is below  # for certain
    assert worst_for(condition, [within, above]) is above  # perhaps
    low = value("4")
    assert worst_for(condition, [value(None, "9"), low]) is low
    assert worst_for(condition, []) is None
    assert worst_for(Condition("crack", seen="crack"), [NARROW, WIDE]) is NARROW


def test_of_two_bounds_the_worst_is_what_either_holds_for() -> None:
    condition = Condition("tire_width", (Bound("under", Fraction(5), "5"), Bound("over", Fraction(8), "8")))
    high = value("9")
    assert worst_for(condition, [value("6"), high]) is high


def test_what_is_not_sure_decides_nothing() -> None:
    assert doubted(judgement("outside"), NOT_SURE).verdict is Verdict.UNDECIDED
    assert doubted(judgement("within"), NOT_SURE).verdict is Verdict.NOT_ASSESSED
    assert doubted(judgement("within"), NOT_SURE).missing == NOT_SURE
    assert doubted(judgement("within"), "").verdict is Verdict.WITHIN
    assert doubted(judgement("undecided"), NOT_SURE).missing == ""


@pytest.mark.parametrize(
    ("slipped", "position", "derived", "told"),
    [
        (("0 deg",), "0 deg", False, True),
        (("0 deg",), "120 deg", False, False),
        (("0 deg",), "120 deg", True, True),  # worked out from all positions
        ((), "0 deg", True, False),
        (None, "0 deg", False, False),
    ],
)
def test_a_value_in_the_wrong_unit_is_doubted_at_its_position_and_in_what_is_worked_out_from_it(
    monkeypatch: pytest.MonkeyPatch, slipped: tuple[str, ...] | None, position: str, derived: bool, told: bool
) -> None:
    reading: Any = SimpleNamespace(sure="certain")
    monkeypatch.setattr(unsure, "unit_slips", lambda book: {} if slipped is None else {id(reading): slipped})
    words = SimpleNamespace(derived={"tire_width"} if derived else set())
    book: Any = SimpleNamespace(vocabulary=words, readings=(), series={})
    assert unsure_of(book, value("1", position=position)._replace(readings=(reading,))) == (WRONG_UNIT if told else "")


@pytest.mark.parametrize(
    ("quantity", "text", "told"),
    [("lateral", "-3/8 in", NO_SIZE), ("lateral", "0 in", ""), ("quarter_error", "-1/16 in", "")],
)
def test_a_size_of_less_than_nothing_is_none_and_what_tells_which_way_it_is_out_is(
    monkeypatch: pytest.MonkeyPatch, quantity: str, text: str, told: str
) -> None:
    reading: Any = SimpleNamespace(
        sure="certain", quantity=quantity, values=(("worst", (SimpleNamespace(text=text),)),)
    )
    monkeypatch.setattr(unsure, "unit_slips", lambda book: {})
    book: Any = SimpleNamespace(vocabulary=SimpleNamespace(derived=set()), readings=(reading,), series={})
    assert unsure_of(book, value("1")._replace(readings=(reading,))) == told


def test_what_is_no_size_is_no_pass_and_outside_it_stays() -> None:
    assert doubted(judgement("within"), NO_SIZE).verdict is Verdict.NOT_ASSESSED
    assert doubted(judgement("outside"), NO_SIZE).verdict is Verdict.OUTSIDE


def test_limits_are_sorted_by_their_facets_and_those_a_waiver_stands_in_for_are_left_out() -> None:
    sure = limit(name="own/sure")
    perhaps = limit(name="own/perhaps", applies_to=(FacetTest("role", ("driver",)),))
    refused = limit(name="own/refused", applies_to=(FacetTest("make", ("tired",)),))
    facets: Any = {"make": "one-piece"}.get
    found = sort_limits([sure, perhaps, refused], facets)
    assert ([x.id for x in found.sure], [x.id for x in found.perhaps]) == (["own/sure"], ["own/perhaps"])
    assert [(x.id, answer.facet) for x, answer in found.refused] == [("own/refused", "make")]
    last: Any = "2027-01-01"
    waiver = limit(name="own/waiver", docket="D-1", expires_on=last, replaces=("own/sure", "own/perhaps"))
    found = sort_limits([sure, perhaps, refused, waiver], facets)
    assert ([x.id for x in found.sure], [x.id for x in found.perhaps]) == (["own/waiver"], [])
    assert [x.id for x, _ in found.refused] == ["own/refused"]


def decided(limits: list[Limit], of: Fraction, band: Fraction = Fraction(0)) -> Judgement | str:
    title = SimpleNamespace(title="tire width")
    vocabulary = SimpleNamespace(find_quantity=lambda name: title, facets={"role": SimpleNamespace(title="role")})
    book: Any = SimpleNamespace(limits_on=lambda engine, name: limits, vocabulary=vocabulary)
    return decide(book, None, "tire_width", point(of), band)


def test_a_figure_is_decided_by_the_limits_on_it_alone_and_by_none_that_asks_for_more() -> None:
    alone = limit(name="own/alone")
    [condition] = alone.conditions
    joint = alone._replace(id="own/joint", conditions=(condition, Condition("chip", (Bound("over", INCH, "1 in"),))))
    seen = alone._replace(id="own/seen", conditions=(Condition("tire_width", seen="crack"),))
    found = decided([joint, seen, alone], INCH / 2)
    assert isinstance(found, Judgement)
    assert (found.limit.id, found.verdict) == ("own/alone", Verdict.OUTSIDE)
    assert decided([joint, seen], INCH / 2) == "no limit on file for tire width"


def test_the_guard_band_counts_only_for_a_limit_that_says_so() -> None:
    guarded = limit()._replace(decision="guard band")
    found = [decided([of], INCH * 2, INCH) for of in (limit(), guarded)]
    assert [one.verdict for one in found if isinstance(one, Judgement)] == [Verdict.WITHIN, Verdict.WITHIN]
    found = [decided([of], INCH * 2 - Fraction(1, 10**9), INCH) for of in (limit(), guarded)]
    assert [one.verdict for one in found if isinstance(one, Judgement)] == [Verdict.WITHIN, Verdict.UNDECIDED]


def test_a_limit_that_may_be_for_it_keeps_a_figure_from_being_decided_and_a_waiver_silences_another() -> None:
    perhaps = limit(name="own/perhaps", applies_to=(FacetTest("role", ("driver",)),))
    assert decided([perhaps], INCH) == "role is not on record"
    last: Any = "2027-01-01"
    wider = limit()._replace(conditions=(Condition("tire_width", (Bound("under", INCH / 4, "1/4 in"),)),))
    waiver = wider._replace(id="own/waiver", docket="D-1", expires_on=last, replaces=("own/x",))
    found = decided([limit(), waiver], INCH / 2)
    assert isinstance(found, Judgement)
    assert (found.limit.id, found.verdict) == ("own/waiver", Verdict.WITHIN)


@pytest.mark.parametrize("states", [1, 2])
def test_every_check_that_can_be_run_by_itself_is_one_piece_of_work_of_each_state(states: int) -> None:
    pieces = in_turns_of(states)
    assert len(set(pieces)) == len(pieces)
    alone = {name for name in NAMES if not name.startswith(OF_OTHERS)}
    assert set(pieces) == {(state, name.replace("_", "-")) for state in range(states) for name in alone}
    assert {*ALONG_TIME, *BY_THEMSELVES} < alone
    assert ALONG_TIME.isdisjoint(BY_THEMSELVES)


@pytest.mark.parametrize(("word", "other"), [("under", "0.5"), ("over", "-0.5")])
def test_a_value_of_nothing_at_all_is_weighed_as_that(word: str, other: str) -> None:
    condition = Condition("tire_width", (Bound(word, Fraction(5), "5"),))
    nothing = value("0")
    assert worst_for(condition, [value(other), nothing]) is nothing


def test_a_joint_limit_is_judged_with_its_first_quantity_that_was_read_and_what_is_seen_where_it_was_seen(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    book: Any = SimpleNamespace(vocabulary=SimpleNamespace(quantities={"long", "wide"}, derived={"area"}))
    bounds = (Bound("over", INCH, "1 in"),)
    read = {"long": [value("1")]}
    monkeypatch.setattr(_judging, "values", lambda book, site, name: read.get(name, []))

    def here(of: Limit, name: str) -> bool:
        return _judging._here(book, book, of, name)

    def of(*names: str) -> Limit:
        return limit()._replace(conditions=tuple(Condition(name, bounds) for name in names))

    assert (here(of("long"), "long"), here(of("area"), "area")) == (True, True)
    assert (here(of("long", "wide"), "long"), here(of("long", "wide"), "wide")) == (True, False)
    read.clear()
    assert here(of("long", "wide"), "wide")
    assert not here(of("long", "chip"), "long")  # a size of what was looked for
    assert not here(limit()._replace(conditions=(Condition("crack", seen="crack"),)), "crack")


def opened(monkeypatch: pytest.MonkeyPatch, perhaps: Limit, verdict: Verdict, covered: str) -> bool:
    monkeypatch.setattr(_judging, "_judged", lambda *given: judgement(verdict))
    site: Any = None
    judged = [(value("1"), judgement("within", of=limit(name=covered)))]
    return bool(_judging._open(site, site, [value("1")], judged, [perhaps], {}.get))


def test_a_limit_that_may_be_for_it_is_left_open_unless_its_own_set_has_judged_and_it_would_pass(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    perhaps = limit(name="own/perhaps")
    assert not opened(monkeypatch, perhaps, Verdict.WITHIN, "own/x")
    assert opened(monkeypatch, perhaps, Verdict.OUTSIDE, "own/x")
    assert opened(monkeypatch, perhaps, Verdict.UNDECIDED, "own/x")
    assert opened(monkeypatch, perhaps, Verdict.WITHIN, "law/x")
    assert not opened(monkeypatch, perhaps._replace(where="tape line"), Verdict.OUTSIDE, "law/x")


@pytest.mark.parametrize(
    ("limits", "serves", "speaks", "practice", "told"),
    [
        ([], False, False, False, False),
        ([], True, False, False, True),  # it only serves another
        ([limit()], True, False, False, False),
        ([], False, True, True, True),  # a practice for what is worked out from it
        ([], False, False, True, False),
        ([], False, True, False, False),
    ],
)
def test_what_is_judged_by_something_worked_out_from_it_is_not_said_to_have_no_limit(
    limits: list[Limit], serves: bool, speaks: bool, practice: bool, told: bool
) -> None:
    word = SimpleNamespace(speaks_for=("tire_width",) if speaks else ("other",))
    vocabulary = SimpleNamespace(
        derived={"worked_out": word}, quantities={"tire_width": SimpleNamespace(serves=serves)}
    )
    sets = [SimpleNamespace(practices=[SimpleNamespace(quantity="worked_out")] if practice else [])]
    book: Any = SimpleNamespace(
        limits_on=lambda engine, name: limits if name == "tire_width" else [],
        limits_for=lambda engine: sets,
        vocabulary=vocabulary,
    )
    site: Any = SimpleNamespace(engine=None)
    assert _judging._judged_otherwise(book, site, "tire_width", {}.get) is told
    joint = limit()._replace(conditions=limit().conditions * 2)
    limits.append(joint)
    assert _judging._judged_otherwise(book, site, "tire_width", {}.get)


@pytest.mark.parametrize(
    ("values", "face", "check"),
    [
        (("1", "2", "3"), 0, 2),
        (("3", "1", "2"), 1, 0),
        (("0", "0.5"), 0, 1),
        (("-0.5", "0"), 0, 1),
    ],
)
def test_at_a_frog_the_narrowest_back_and_the_widest_check_are_nearest(
    values: tuple[str, ...], face: int, check: int
) -> None:
    found = [value(one) for one in values]
    assert _frogs._nearest(found, _frogs.FACE) is found[face]
    assert _frogs._nearest(found, _frogs.CHECK) is found[check]


def test_at_a_frog_a_value_with_no_end_is_nearer_than_any() -> None:
    known, below, above = value("1"), value(None, "5"), value("-5", "open")
    assert _frogs._nearest([known, below], _frogs.FACE) is below
    assert _frogs._nearest([known, above], _frogs.CHECK) is above


def test_what_cannot_be_compared_is_said_at_its_reading_and_where_none_is_named_at_the_last() -> None:
    stand: Any = SimpleNamespace(name="e-1 driver-1")
    rule: Any = SimpleNamespace(figure=Fraction(2))
    source, last = SimpleNamespace(record="2026-01-10-a"), Place("inspections/2026/2026-01-10-a.yaml", "/readings/1")
    point: Any = SimpleNamespace(text="53 in", origin=SimpleNamespace(at=last, hold="on blocks", source=source))
    change = Change(Thing("wheelset", "d-1"), "back_to_back", "0 deg", point, point, 0.0, 0.001, 0.0)
    named: Any = SimpleNamespace(at=PLACE, hold="on blocks")
    for reading, at in ((named, PLACE), (None, last)):
        lacking = [change._replace(lack=Missing("why", "step", reading))]
        [found] = back_to_back_moved._group(rule, stand, lacking, rule, rule)
        assert (found.verdict, found.place, found.next) == (Verdict.NOT_ASSESSED, at, "step")


def test_a_joint_limit_is_judged_with_the_worst_of_each_other_quantity_and_doubted_with_any(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[dict[str, Span]] = []

    def judge(of: Limit, found: dict[str, Span], facets: Any) -> Judgement:
        asked.append(dict(found))
        return judgement("outside")

    bounds = (Bound("over", INCH, "1 in"),)
    joint = limit()._replace(conditions=tuple(Condition(name, bounds) for name in ("tire_width", "depth", "length")))
    deepest = value("3")
    known: dict[str, list[Value]] = {"depth": [value("1"), deepest], "length": []}
    monkeypatch.setattr(_judging, "judge", judge)
    monkeypatch.setattr(_judging, "values", lambda book, site, name: known[name])
    monkeypatch.setattr(_judging, "unsure_of", lambda book, of: NOT_SURE if of is deepest else "")
    site: Any = None
    found = _judging._judged(site, site, joint, value("2"), {}.get)
    assert asked == [{"tire_width": point(Fraction(2)), "depth": point(Fraction(3))}]
    assert (found.verdict, found.missing) == (Verdict.UNDECIDED, NOT_SURE)
    known["depth"].pop()
    assert _judging._judged(site, site, joint, value("2"), {}.get).verdict is Verdict.OUTSIDE
