"""The rules of a tire day and of a pressing, each by the least that shows it; figures are chosen exact in binary."""

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from axlebook.checks import (
    _pressed,
    back_to_back_not_as_predicted,
    bore_outside_order,
    grip_not_proved,
    heat_uneven,
    mean_too_cold,
    taper_differs,
)
from axlebook.checks._bores import Bore
from axlebook.checks._by_limit import banded
from axlebook.checks._heat_asked import mean_at_most
from axlebook.findings import Finding, Place, Verdict
from axlebook.limits import Span
from axlebook.records import growth

PLACE = Place("tire-work/a.yaml", "/readings/0")


def heat(low: int | None, high: int | None) -> Any:
    exact = [None if end is None else Fraction(end) for end in (low, high)]
    text = f"{low} to {high}"
    return SimpleNamespace(span=Span(*exact), text=text, at=PLACE, when="", where="", clock="", angle="", contact="")


@pytest.mark.parametrize(
    ("inside", "tread", "most"),
    [
        ([heat(300, 300)], [heat(360, 360)], 320),
        ([heat(300, 310), heat(290, 330)], [heat(300, 360), heat(350, 390)], 350),
        ([heat(300, 300)], [heat(240, 240)], 300),  # a colder tread takes nothing away
        ([heat(300, None)], [heat(360, 360)], None),
        ([heat(300, 300)], [heat(360, None)], None),
    ],
)
def test_the_mean_is_at_most_a_third_of_the_way_from_the_inside_face_to_the_tread(
    inside: list[Any], tread: list[Any], most: int | None
) -> None:
    assert mean_at_most(inside, tread) == most


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        ([heat(320, 320)], "within"),  # 300 to 320 is asked
        ([heat(320, None)], "within"),
        ([heat(319, 330)], "undecided"),
        ([heat(300, 300)], "undecided"),
        ([heat(299, 299)], "outside"),
        ([heat(None, 299)], "outside"),
        ([heat(None, 300)], "undecided"),
        ([heat(330, 330), heat(299, 299)], "outside"),
        ([heat(330, 330), heat(310, 310)], "undecided"),
    ],
)
def test_a_mean_is_hot_enough_only_where_every_reading_is_and_too_cold_where_one_is(
    readings: list[Any], told: str
) -> None:
    assert mean_too_cold._verdict(readings, Fraction(300), Fraction(320)) == Verdict(told)


def mean(monkeypatch: pytest.MonkeyPatch, inside: list[Any], tread: list[Any]) -> list[Finding]:
    asked = (Fraction(300), Fraction(320), "practice")
    monkeypatch.setattr(mean_too_cold, "asked_of_the_mean", lambda book, app: asked)
    monkeypatch.setattr(mean_too_cold, "told_together", lambda readings: ", ".join(r.text for r in readings))
    app: Any = SimpleNamespace(subject="t-1 on c-1", session=SimpleNamespace(id="s-1"), engine=None)
    book: Any = SimpleNamespace(in_mm=lambda engine: False)
    return list(mean_too_cold._judged(book, app, inside, tread))


def test_a_tread_that_is_hot_over_an_inside_face_that_is_not_is_the_trap(monkeypatch: pytest.MonkeyPatch) -> None:
    [found] = mean(monkeypatch, [heat(299, 299)], [heat(300, 300)])
    assert found.verdict is Verdict.SUSPECT
    assert "hot outside, the mean too cold" in found.message
    [found] = mean(monkeypatch, [heat(299, 299)], [heat(299, 400)])
    assert found.verdict is Verdict.OUTSIDE
    assert "The readings cannot tell" not in found.message
    [found] = mean(monkeypatch, [heat(290, 290)], [heat(380, 380)])  # a third of the way: 320
    assert "the mean not shown to be hot enough" in found.message
    [found] = mean(monkeypatch, [heat(290, 290)], [heat(379, 379)])
    assert "the mean too cold" in found.message
    [found] = mean(monkeypatch, [heat(290, 290)], [heat(380, None)])
    assert "the mean too cold." in found.message


def test_a_tread_by_itself_proves_only_that_it_was_too_cold(monkeypatch: pytest.MonkeyPatch) -> None:
    assert mean(monkeypatch, [], [heat(400, 400)]) == []
    assert mean(monkeypatch, [], [heat(300, 330)]) == []
    [found] = mean(monkeypatch, [], [heat(299, 299)])
    assert found.verdict is Verdict.OUTSIDE
    assert "the tread, its hottest face, read" in found.message


def test_what_is_hot_enough_says_nothing_and_what_may_be_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    [found] = mean(monkeypatch, [heat(320, 320)], [heat(400, 400)])
    assert (found.verdict, found.message) == (Verdict.WITHIN, "")
    [found] = mean(monkeypatch, [heat(310, 310)], [])
    assert found.verdict is Verdict.UNDECIDED
    assert "the inside face read 310 to 310" in found.message
    assert found.message.endswith("The readings cannot tell whether it was there.")


def taped(mean: float, band: float, *, told: bool = True) -> Any:
    reading = SimpleNamespace(at=PLACE)
    diameter = SimpleNamespace(text="as read")
    missing = () if told else ("resolution",)
    return SimpleNamespace(mean=mean, band=band, doubt=0.0, not_told=missing, readings=[reading], diameters=[diameter])


def grown(monkeypatch: pytest.MonkeyPatch, by: float, low: float = 0.5, **more: Any) -> Finding:
    """A tread that grew by so much, good to 0.3125 (0.1875 and 0.25 together), where 0.5 to 1 was to be expected."""
    monkeypatch.setattr(growth, "guard", lambda size: size.band)
    app: Any = SimpleNamespace(subject="t-1 on c-1", session=SimpleNamespace(id="s-1"))
    fit: Any = SimpleNamespace(interference=0.25)
    before, after = more.get("before", taped(4.0, 0.1875)), more.get("after", taped(4.0 + by, 0.25))
    expected: Any = SimpleNamespace(low=low, high=1.0)
    return grip_not_proved._compared(app, before, after, expected, fit, False)


@pytest.mark.parametrize(
    ("by", "told", "says"),
    [
        (0.8125, "within", ""),
        (0.8124, "undecided", "Undecided"),
        (0.1875, "undecided", "Undecided"),
        (0.1874, "suspect", "does not grip"),
        (1.3125, "within", ""),
        (1.3126, "suspect", "stretched"),
        (-0.5, "suspect", "does not grip"),
    ],
)
def test_growth_proves_the_grip_only_beyond_what_the_tape_is_good_to(
    monkeypatch: pytest.MonkeyPatch, by: float, told: str, says: str
) -> None:
    found = grown(monkeypatch, by)
    assert found.verdict == Verdict(told)
    assert says in found.message
    figures = {figure.name: figure.value for figure in found.figures}
    assert float(figures["growth of the tread"]) == pytest.approx(by * 1000)
    assert figures["guard band"] == "312.5"
    assert (figures["least expected, rim alone"], figures["most expected, solid disc"]) == ("500.0", "1000.0")


def test_a_tape_too_coarse_for_the_growth_proves_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    assert grown(monkeypatch, 0.8125, low=0.3125).verdict is Verdict.NOT_ASSESSED
    assert grown(monkeypatch, 0.8125, low=0.3126).verdict is Verdict.WITHIN
    for name in ("before", "after"):
        unknown = {name: taped(4.0, 0.25, told=False)}
        assert grown(monkeypatch, 0.8125, **unknown).verdict is Verdict.NOT_ASSESSED


@pytest.mark.parametrize(
    ("value", "told"), [(2, "within"), (4, "within"), (3, "within"), (1, "outside"), (5, "outside")]
)
def test_a_figure_of_a_pressing_is_within_its_practice_from_end_to_end(
    monkeypatch: pytest.MonkeyPatch, value: int, told: str
) -> None:
    found = pressed(monkeypatch, SimpleNamespace(least=Fraction(2), most=Fraction(4), cited="Book"), value)
    assert found.verdict == Verdict(told)
    assert ("asks 4 to 8 tons" in found.message) is (told == "outside")  # said by the half
    figures = {figure.name: (float(figure.value), figure.unit) for figure in found.figures}
    assert figures == {"force an inch": (value * 2, "tons"), "least": (4.0, "tons"), "most": (8.0, "tons")}
    inch = pressed(monkeypatch, SimpleNamespace(least=Fraction(2), most=Fraction(4), cited="Book"), value, "in")
    assert [figure.value for figure in inch.figures] == ["2000.0", "4000.0"]


@pytest.mark.parametrize(
    ("practice", "lack"),
    [
        (None, "for this size"),
        (SimpleNamespace(least=None, most=Fraction(4), cited=""), "with a tolerance"),
        (SimpleNamespace(least=Fraction(2), most=None, cited=""), "with a tolerance"),
    ],
)
def test_a_pressing_without_a_practice_is_not_judged(monkeypatch: pytest.MonkeyPatch, practice: Any, lack: str) -> None:
    found = pressed(monkeypatch, practice, 3)
    assert found.verdict is Verdict.NOT_ASSESSED
    assert f"no practice on file {lack}" in found.message


def pressed(monkeypatch: pytest.MonkeyPatch, practice: Any, value: int, unit: str = "tons") -> Finding:
    monkeypatch.setattr(_pressed, "adopted", lambda *given: iter([practice] if practice else []))
    derived = {"hub_force": SimpleNamespace(title="force")}
    book: Any = SimpleNamespace(vocabulary=SimpleNamespace(derived=derived))
    mounting: Any = SimpleNamespace(center=None, subject="c-1 on d-1", session=SimpleNamespace(place=PLACE))
    given = (book, "check", mounting, "hub_force", Fraction(value), Fraction(1), "tons", "it read 3")
    return _pressed._by_practice(*given, (unit, Fraction(1, 2)), "Ask.")


@pytest.mark.parametrize(
    ("value", "told"),
    [(3, "within"), (2, "undecided"), (4, "undecided"), (5, "undecided"), (1, "undecided"), ("0.99", "outside"),
     ("5.01", "outside"), ("2.99", "undecided"), ("3.01", "undecided")],
)  # fmt: skip
def test_a_figure_is_within_a_band_of_practice_only_by_what_it_is_good_to(value: int | str, told: str) -> None:
    assert banded(Fraction(value), Fraction(1), Fraction(2), Fraction(4)) == Verdict(told)


@pytest.mark.parametrize(
    ("readings", "low", "high"),
    [
        ([heat(300, 300), heat(330, 330)], 30, 30),
        ([heat(300, 310), heat(330, 340)], 20, 40),
        ([heat(300, 340), heat(310, 330)], 0, 30),  # they may have been alike; no place is 40 hotter than another
        ([heat(300, None), heat(330, 330)], 0, None),
        ([heat(None, 300), heat(330, 330)], 30, None),
        ([heat(None, 300), heat(None, 330)], 0, None),
        ([heat(300, 300), heat(315, 315), heat(330, 330)], 30, 30),
    ],
)
def test_unevenness_is_what_is_certain_to_what_is_possible(readings: list[Any], low: int, high: int | None) -> None:
    assert heat_uneven._spread(readings) == Span(Fraction(low), None if high is None else Fraction(high))


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [(10, 10, "18 degF"), (10, 20, "18 to 36 degF"), (10, None, "18 degF or more"), (0, 20, "0 to 36 degF")],
)
def test_a_difference_of_temperature_is_said_in_fahrenheit_degrees(low: int, high: int | None, told: str) -> None:
    assert heat_uneven._said(Span(Fraction(low), None if high is None else Fraction(high)), celsius=False) == told


def differs(monkeypatch: pytest.MonkeyPatch, seat: float | None, bore: float | None) -> tuple[Finding | None, Any]:
    """Tapers of a seat and a bore; the bands are 0.375 and 0.5, together 0.625."""
    asked: list[tuple[str, Span, float]] = []

    def decide(book: Any, stand: Any, quantity: str, span: Span, band: Fraction) -> str:
        asked.append((quantity, span, float(band)))
        return f"no limit on file for {quantity}"

    monkeypatch.setattr(taper_differs, "decide", decide)
    monkeypatch.setattr(taper_differs, "difference_band", lambda book, size: size.band)
    reading = SimpleNamespace(at=PLACE)
    sizes = [
        SimpleNamespace(taper=lambda t=t: t, band=Fraction(b), readings=[reading])
        for t, b in ((seat, "0.375"), (bore, "0.5"))
    ]
    part = SimpleNamespace(id="x")
    fit: Any = SimpleNamespace(center_size=sizes[0], bore_size=sizes[1], tire=part, center=part)
    book: Any = SimpleNamespace(in_mm=lambda engine: False)
    return taper_differs._judged(book, fit, None), asked


def test_a_taper_is_held_against_the_other_by_its_own_limit_or_else_by_that_on_a_taper(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    found, asked = differs(monkeypatch, 0.75, 0.25)
    assert found is not None
    half = Span(Fraction("0.5"), Fraction("0.5"))
    assert asked == [("taper_difference", half, 0.625), ("taper", half, 0.625)]
    assert "the outer edge grips harder" in found.message
    assert [figure.value for figure in found.figures] == ["750.0", "250.0"]
    found, asked = differs(monkeypatch, 0.25, 0.75)
    assert found is not None
    assert asked[0][1] == half
    assert "the inner edge grips harder" in found.message
    found, _ = differs(monkeypatch, 0.25, 0.25)
    assert found is not None
    assert "seat and bore have the same taper" in found.message
    assert "grips harder" not in found.message


@pytest.mark.parametrize(("seat", "bore"), [(None, 0.25), (0.25, None)])
def test_a_taper_not_known_differs_from_none(
    monkeypatch: pytest.MonkeyPatch, seat: float | None, bore: float | None
) -> None:
    assert differs(monkeypatch, seat, bore) == (None, [])


def bored(mean: float, least: str | None = "2", most: str | None = "4", doubt: float = 0.0) -> Finding:
    """A bore good to 0.5 (a standard uncertainty of 0.5 / 1.645), of which 2 to 4 was ordered."""
    size: Any = SimpleNamespace(mean=mean, parts={"x": 0.0}, doubt=0.5, readings=[SimpleNamespace(at=PLACE)])
    tire: Any = SimpleNamespace(id="t-1", path="tires/t-1.yaml")
    exact = [None if end is None else Fraction(end) for end in (least, most)]
    return bore_outside_order._judged(Bore(tire, exact[0], exact[1], "2 to 4", size, None, False), False)


@pytest.mark.parametrize(
    ("mean", "told"),
    [
        (2.5, "within"), (3.5, "within"), (2.499, "undecided"), (3.501, "undecided"), (2.0, "undecided"),
        (1.5, "undecided"), (4.5, "undecided"), (1.499, "outside"), (4.501, "outside"),
    ],
)  # fmt: skip
def test_a_bore_is_within_its_order_by_all_it_is_good_to_and_outside_beyond_that(mean: float, told: str) -> None:
    found = bored(mean)
    assert found.verdict == Verdict(told)
    assert [float(figure.value) for figure in found.figures] == pytest.approx([mean * 1000, 500.0])


@pytest.mark.parametrize(
    ("mean", "least", "most", "told"),
    [(9.0, "2", None, "within"), (2.5, "2", None, "within"), (0.5, None, "4", "within"), (5.0, None, "4", "outside"),
     (1.0, "2", None, "outside")],
)  # fmt: skip
def test_an_order_of_one_bound_asks_no_more(mean: float, least: str | None, most: str | None, told: str) -> None:
    assert bored(mean, least, most).verdict == Verdict(told)


def gauged(monkeypatch: pytest.MonkeyPatch, read: float, pull: float = 0.0) -> Finding:
    """A pair of which 8 is predicted from 10 less two of 1, each good to 0.25, and the reading too: 0.5 or all 1.0."""
    monkeypatch.setattr(back_to_back_not_as_predicted, "guard", lambda size: 0.25)
    monkeypatch.setattr(back_to_back_not_as_predicted, "_pull", lambda book, apps: pull)
    reading = SimpleNamespace(at=PLACE, source=SimpleNamespace(record="r-1"))
    parts = [SimpleNamespace(mean=mean, readings=[reading]) for mean in (10.0, 1.0, 1.0)]
    found: Any = SimpleNamespace(parts=parts, back_to_back=8.0)
    size: Any = SimpleNamespace(mean=read, readings=[reading])
    book: Any = SimpleNamespace(in_mm=lambda engine: False)
    app: Any = SimpleNamespace(stand=None)
    return back_to_back_not_as_predicted._judged(book, "d-1", [app], found, size)


@pytest.mark.parametrize(
    ("read", "pull", "told", "says"),
    [
        (8.5, 0.0, "within", ""),
        (7.5, 0.0, "within", ""),
        (8.501, 0.0, "undecided", "wide, the readings together may be out so far"),
        (7.499, 0.0, "undecided", "narrow, the readings together may be out so far"),
        (9.0, 0.0, "undecided", "the readings together may be out so far"),
        (9.001, 0.0, "suspect", "wide, more than the readings and cooling can explain"),
        (6.999, 0.0, "suspect", "narrow, more than the readings and cooling can explain"),
        (9.25, 0.25, "undecided", "cooling can have drawn the tires off so far"),
        (9.0, 0.25, "undecided", "the readings together may be out so far"),
        (9.251, 0.25, "suspect", "more than the readings and cooling can explain"),
    ],
)
def test_a_pair_is_as_predicted_within_its_readings_together_and_what_cooling_can_do(
    monkeypatch: pytest.MonkeyPatch, read: float, pull: float, told: str, says: str
) -> None:
    found = gauged(monkeypatch, read, pull)
    assert found.verdict == Verdict(told)
    assert says in found.message
    figures = {figure.name: float(figure.value) for figure in found.figures}
    assert figures == pytest.approx(
        {
            "predicted": 8000, "measured": read * 1000, "difference": (read - 8) * 1000, "root sum square": 500,
            "worst case": 1000, "pull off the registers, at most": pull * 1000, "register distance": 10000,
        }
    )  # fmt: skip
