"""`steam`: a day goes into the month's file at its place, and no other byte of it changes."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from tests.cli.commands import Called, call, promised, small_ledger

from axlebook.sources.yaml_text import read_tree

MAY = """# yaml-language-server: $schema=../schema/service.schema.json
kind: service
engine: e-1   # the small one
month: 2025-05

# a wet spring
days:
  # the opening weekend
  - day: 2025-05-03
    miles: 34 mile
    # rained all day
  - {day: 2025-05-10, until: 2025-05-11}

  # the fair
  - day: 2025-05-24
    note: >-
      two trains,
      # not a comment

      both full
# end of May
note: "cards in the box"
"""
PATH = "service/e-1-2025-05.yaml"


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    return small_ledger(tmp_path, {PATH: MAY})


def steam(ledger: Path, *arguments: str) -> Called:
    return call("steam", "e-1", *arguments, at=ledger)


def added(ledger: Path, was: str = MAY) -> tuple[str, str, str]:
    """What stands before the addition, the addition, and what stands after, in a file that was `was`."""
    now = (ledger / PATH).read_bytes().decode()
    start = next((i for i, (a, b) in enumerate(zip(was, now, strict=False)) if a != b), len(was))
    start = now.rfind("\n", 0, start) + 1
    while not now.startswith(was[:start]) or not now.endswith(was[start:]):
        start = now.rfind("\n", 0, start - 1) + 1
        assert start > 0
    return was[:start], now[start : len(now) - len(was) + start], was[start:]


def test_the_first_day_of_a_month_begins_its_file(ledger: Path) -> None:
    called = steam(ledger, "2025-06-01", "--miles", "34")
    assert (called.code, called.err) == (0, "")
    assert called.out == "2025-06-01, 34 mile: written to service/e-1-2025-06.yaml\n"
    first, *rest = (ledger / "service/e-1-2025-06.yaml").read_text(encoding="utf-8").splitlines()
    assert first.startswith("# yaml-language-server: $schema=")
    assert rest == [
        "kind: service", "engine: e-1", "month: 2025-06", "days:", "  - day: 2025-06-01", "    miles: 34 mile",
    ]  # fmt: skip


def test_a_day_goes_between_its_neighbors_and_above_the_comment_of_the_next(ledger: Path) -> None:
    assert steam(ledger, "2025-05-17").code == 0
    before, new, after = added(ledger)
    assert new == "  - day: 2025-05-17\n"
    assert before.endswith("until: 2025-05-11}\n")
    assert after.startswith("\n  # the fair\n")


def test_a_comment_further_in_stays_with_the_day_above_it(ledger: Path) -> None:
    assert steam(ledger, "2025-05-04").code == 0
    before, new, _ = added(ledger)
    assert (before.rstrip().rpartition("\n")[2].strip(), new) == ("# rained all day", "  - day: 2025-05-04\n")


def test_the_last_day_goes_after_a_folded_note_and_before_the_next_key(ledger: Path) -> None:
    assert steam(ledger, "2025-05-30").code == 0
    before, new, after = added(ledger)
    assert before.endswith("      both full\n")
    assert (new, after[:12]) == ("  - day: 2025-05-30\n", "# end of May")


def test_a_day_before_all_others_goes_first(ledger: Path) -> None:
    assert steam(ledger, "2025-05-01").code == 0
    _, new, after = added(ledger)
    assert (new, after.splitlines()[0]) == ("  - day: 2025-05-01\n", "  - day: 2025-05-03")


def test_a_run_of_days_miles_people_and_a_note_are_written(ledger: Path) -> None:
    called = steam(
        ledger, "2025-05-26", "--until", "2025-05-28", "--miles", "90 km", "--by", "lead", "--note", 'a "tour"'
    )
    assert (called.code, called.err) == (0, "")
    day = read_tree((ledger / PATH).read_bytes())["days"][-1]  # type: ignore[index]
    assert day == {
        "day": "2025-05-26", "until": "2025-05-28", "miles": "90 km", "by": ["lead"], "note": 'a "tour"',
    }  # fmt: skip


@pytest.mark.parametrize("day", ["2025-05-03", "2025-05-10", "2025-05-11"])
def test_a_day_that_is_there_is_refused(ledger: Path, day: str) -> None:
    called = steam(ledger, day)
    assert called.code == 2
    assert f"is in {PATH} already; a day counts once" in called.err
    assert (ledger / PATH).read_text(encoding="utf-8") == MAY


def test_a_run_over_a_day_that_is_there_is_refused(ledger: Path) -> None:
    assert "2025-05-24 is in" in steam(ledger, "2025-05-23", "--until", "2025-05-25").err


def test_the_same_day_twice_is_written_once(ledger: Path) -> None:
    assert (steam(ledger, "2025-06-01").code, steam(ledger, "2025-06-01").code) == (0, 2)
    assert (ledger / "service/e-1-2025-06.yaml").read_text(encoding="utf-8").count("- day:") == 1


def test_a_run_over_the_end_of_a_month_is_asked_for_month_by_month(ledger: Path) -> None:
    called = steam(ledger, "2025-05-31", "--until", "2025-06-01")
    assert called.code == 2
    assert "lies in two months" in called.err


def test_the_last_of_a_month_and_the_first_of_the_next_go_to_their_own_files(ledger: Path) -> None:
    assert (steam(ledger, "2025-05-31").code, steam(ledger, "2025-06-01").code) == (0, 0)
    assert "2025-05-31" in (ledger / PATH).read_text(encoding="utf-8")
    assert "2025-06-01" in (ledger / "service/e-1-2025-06.yaml").read_text(encoding="utf-8")


def test_a_day_to_come_is_refused(ledger: Path) -> None:
    called = steam(ledger, (date.today() + timedelta(days=2)).isoformat())
    assert called.code == 2
    assert "is not yet over" in called.err


def test_a_file_with_windows_line_ends_keeps_them(ledger: Path) -> None:
    was = MAY.replace("\n", "\r\n")
    (ledger / PATH).write_bytes(was.encode())
    assert steam(ledger, "2025-05-17", "--miles", "12").code == 0
    now = (ledger / PATH).read_bytes()
    assert now.count(b"\n") == now.count(b"\r\n")
    assert now.replace(b"  - day: 2025-05-17\r\n    miles: 12 mile\r\n", b"") == was.encode()


def test_a_file_with_a_byte_order_mark_and_no_last_line_end_is_added_to(ledger: Path) -> None:
    was = b"\xef\xbb\xbfkind: service\nengine: e-1\nmonth: 2025-05\ndays:\n- day: 2025-05-03"
    (ledger / PATH).write_bytes(was)
    assert steam(ledger, "2025-05-04").code == 0
    assert (ledger / PATH).read_bytes() == was + b"\n- day: 2025-05-04"


def test_a_month_without_days_gets_its_list(ledger: Path) -> None:
    was = b"kind: service\nengine: e-1\nmonth: 2025-05\n"
    (ledger / PATH).write_bytes(was)
    assert steam(ledger, "2025-05-04").code == 0
    assert (ledger / PATH).read_bytes() == was + b"days:\n  - day: 2025-05-04\n"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("kind: service\nengine: e-1\nmonth: 2025-05\ndays: [{day: 2025-05-03}]\n", "one under the other"),
        ("kind: service\nengine: e-1\nmonth: 2025-05\ndays:\n  -\n    day: 2025-05-03\n", "one under the other"),
        ("kind: service\nengine: e-1\nmonth: 2025-05\ndays:\n  - day: 3/5/2025\n", "is at fault"),
        ("kind: service\nengine: e-2\nmonth: 2025-05\ndays:\n  - day: 2025-05-03\n", "it is of e-2, not of e-1"),
        (
            "kind: service\nengine: e-1\nmonth: 2025-04\ndays:\n  - day: 2025-04-03\n",
            "it is of 2025-04, not of 2025-05",
        ),
        ("kind: service\nengine: e-1\nmonth: 2025-05\ndays: {", "cannot be read|is at fault"),
    ],
)
def test_a_file_that_is_not_sound_is_left_as_it_is(ledger: Path, text: str, words: str) -> None:
    (ledger / PATH).write_text(text, encoding="utf-8")
    called = steam(ledger, "2025-05-17")
    assert called.code == 2
    assert any(word in called.err for word in words.split("|")), called.err
    assert (ledger / PATH).read_text(encoding="utf-8") == text


def test_an_engine_that_is_not_there_is_answered_with_those_that_are(ledger: Path) -> None:
    called = call("steam", "e-9", "2025-05-17", at=ledger)
    assert called.code == 2
    assert "there is no engine 'e-9'. There are: e-1" in called.err


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("5/17/2025",), "is no day as it is written here. Write 2025-05-17."),
        (("2025-02-30",), "is no day: the calendar has no such day. Write it such as"),
        (("2025-02",), "is no day: the day is missing. Write it such as"),
        (("2025-05-17", "--until", "2025-05-16"), "lies before the first"),
        (("2025-05-17", "--miles", "far"), "--miles"),
        (("2025-05-17", "--miles", "34 in"), "no distance run"),
        (("2025-05-17", "--by", "nobody-9"), "there is no person"),
    ],
)
def test_what_makes_no_sense_is_refused_in_a_sentence(ledger: Path, arguments: tuple[str, ...], words: str) -> None:
    called = steam(ledger, *arguments)
    assert called.code == 2
    assert words in called.err
    assert "Traceback" not in called.err
    assert (ledger / PATH).read_text(encoding="utf-8") == MAY


def test_a_year_that_stands_as_a_total_takes_no_days(ledger: Path) -> None:
    (ledger / "service/e-1-2019.yaml").write_text(
        "kind: service\nengine: e-1\nyear: 2019\ntotal: {service_days: '40', source: cards}\n", encoding="utf-8"
    )
    assert "would count twice" in steam(ledger, "2019-05-17").err


def test_another_who_writes_at_the_same_time_is_waited_for(ledger: Path) -> None:
    (ledger / "service/.e-1-2025-05.yaml.part").write_bytes(b"half")
    called = steam(ledger, "2025-05-17")
    assert called.code == 2
    assert "someone else is writing" in called.err
    assert (ledger / PATH).read_text(encoding="utf-8") == MAY


def test_what_a_power_cut_left_is_cleared_away(ledger: Path) -> None:
    import os

    left = ledger / "service/.e-1-2025-05.yaml.part"
    left.write_bytes(b"half")
    os.utime(left, (1_000_000_000, 1_000_000_000))
    assert steam(ledger, "2025-05-17").code == 0
    assert not left.exists()


def test_the_day_counts_at_once_and_the_json_keeps_the_promise(ledger: Path) -> None:
    called = steam(ledger, "2025-05-17", "--format", "json")
    assert promised(called.out)["result"] == {"path": PATH, "day": "2025-05-17"}
    assert call("check", PATH, at=ledger).code == 0


@pytest.fixture
def new_ledger(tmp_path: Path) -> Path:
    assert call("init", "book", at=tmp_path).code == 0
    (tmp_path / "book/engines/e-5.yaml").write_text("kind: engine\nnumber: '5'\nwheelsets: []\n", encoding="utf-8")
    return tmp_path / "book"


def test_on_a_ledger_made_by_init_a_day_can_be_added(new_ledger: Path) -> None:
    assert call("steam", "5", "2025-05-17", at=new_ledger).code == 0
    first = (new_ledger / "service/e-5-2025-05.yaml").read_text(encoding="utf-8").splitlines()[0]
    assert (new_ledger / "service" / first.partition("$schema=")[2]).is_file()


def test_today_is_meant_where_no_day_is_named(new_ledger: Path) -> None:
    called = call("steam", "e-5", at=new_ledger)
    today = date.today()
    assert called.out.startswith((f"{today}:", f"{today - timedelta(days=1)}:"))


def test_a_day_to_come_is_refused_in_an_open_book(new_ledger: Path) -> None:
    called = call("steam", "e-5", (date.today() + timedelta(days=2)).isoformat(), at=new_ledger)
    assert called.code == 2
    assert "is not yet over" in called.err


def test_a_closed_book_takes_no_day_after_it_was_closed(ledger: Path) -> None:
    called = steam(ledger, "2026-03-01")
    assert called.code == 2
    assert "this book was closed on 2026-02-28" in called.err
