"""The watch list of the demo railway: one tire stands on it today, and the loose tire of 2018 is history."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path

import pytest

from axlebook.checks._judging import every_stand
from axlebook.records.book import Book
from axlebook.records.growth import growth_of
from axlebook.records.squeeze import Squeeze, find_squeeze
from axlebook.records.watch import WatchItem, watch_list
from axlebook.records.watch_signs import fit_of
from axlebook.run import read_book
from axlebook.sources.folder import read_folder
from axlebook.sources.names import Entry

DEMO = Path(__file__).resolve().parents[2] / "demo-ledger"


@cache
def _entries() -> tuple[Entry, ...]:
    return tuple(_from_the_start(entry) for entry in read_folder(DEMO))


def _from_the_start(entry: Entry) -> Entry:
    """The demo as if the railway had had its list of signs from the start."""
    if entry.path != "ledger.yaml" or entry.content is None:
        return entry
    head, use, rest = entry.content.partition(b"- set: loose-tire-practice\n")
    assert use, "the demo has adopted a list of signs"
    return Entry(entry.path, head + use + rest.replace(b"adopted_on: 2018", b"adopted_on: 2014", 1), None)


def _book(day: str | None) -> Book:
    as_of = date.fromisoformat(day) if day else None
    return read_book(_entries(), as_of=as_of, today=date(2026, 3, 1))


def _suspect(day: str | None) -> dict[str, WatchItem]:
    return {item.stand.tire.id: item for item in watch_list(_book(day)) if item.suspect and item.stand.tire}


def test_one_tire_of_the_demo_stands_on_the_list_today() -> None:
    found = _suspect(None)
    assert list(found) == ["t-1242"]
    assert {sign.word.sign for sign in found["t-1242"].signs} == {"rust_line", "back_to_back"}


def test_the_change_is_seen_on_both_tires_of_the_pair_and_suspects_only_the_one_with_a_second_sign() -> None:
    pair = {i.stand.side: i for i in watch_list(_book(None)) if i.stand.wheelset.id == "d-4" and i.stand.side}
    assert pair["right"].suspect
    assert not pair["left"].suspect
    assert pair["left"].hint


@pytest.mark.parametrize("day", ["2018-08-11", "2018-08-18"])
def test_the_loose_tire_of_2018_stood_on_it_until_it_came_off(day: str) -> None:
    assert "t-1232" in _suspect(day)


@pytest.mark.parametrize("day", ["2018-08-10", "2018-08-26", "2018-09-30", "2019-03-01"])
def test_before_and_after_it_does_not(day: str) -> None:
    assert "t-1232" not in _suspect(day)


def test_the_growth_a_fit_lets_expect_is_the_same_wherever_it_is_told() -> None:
    book = _book(None)
    found = [(book, fit) for one in every_stand(book) if (fit := fit_of(book, one)) is not None]
    told = [(growth_of(book, fit), find_squeeze(book, fit)) for book, fit in found]
    grown = [(growth, squeeze) for growth, squeeze in told if growth is not None and isinstance(squeeze, Squeeze)]
    assert grown
    assert all(growth.least_expected == squeeze.growth.low for growth, squeeze in grown)


def test_every_tire_now_fitted_is_on_the_list_once() -> None:
    book = _book(None)
    tires = [item.stand.tire.id for item in watch_list(book) if item.stand.tire]
    assert len(tires) == len(set(tires))
    assert "t-1231" not in tires  # taken off in November
    assert watch_list(book) is watch_list(book)  # worked out once
