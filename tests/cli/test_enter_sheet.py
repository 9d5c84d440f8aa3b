"""`enter SHEET`: the boxes of a paper sheet in the order of its pages, and what changed since it was printed."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pytest
from tests.cli.commands import Called, call
from tests.cli.fit_ledger import fit_ledger
from tests.cli.repositories import commit, small_repository, written
from tests.cli.sheet_ledger import PLAN, READ, YEARS, sheet_ledger

from axlebook.sources.yaml_text import read_tree

YEARLY = ("--purpose", "yearly")
NEXT = "inspections/2026/2026-02-20-e-1-yearly.yaml"


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    return sheet_ledger(tmp_path)


def printed(root: Path, about: str, *arguments: str) -> str:
    """Print a sheet; give its id as it stands at the foot of its pages."""
    out = call("sheet", about, *(arguments or YEARLY), at=root).out
    found = set(re.findall(r"Sheet (?:<b>)?([a-z0-9-]+-\d{4}-\d\d-\d\d-[0-9a-f]{8})", out))
    assert len(found) == 1, found
    return str(found.pop())


def enter(monkeypatch: pytest.MonkeyPatch, root: Path, *typed: str, answers: tuple[str, ...] = ()) -> Called:
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO("\n".join([*answers, ""]).encode())))
    return call("enter", *typed, at=root)


def write_next(root: Path, thick: str = "2 27/32 in") -> None:
    (root / NEXT).write_text(READ.format(day="2026-02-20", thick=thick, back="53.201 in"), encoding="utf-8")


HEADER = ("2026-02-21", "lead", *["-"] * 7)


def test_its_boxes_are_asked_as_the_page_has_them_left_right_both_then_what_is_looked_for(
    ledger: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    id = printed(ledger, "e-1")
    said = enter(monkeypatch, ledger, id, answers=(*HEADER, *["n here no time"] * 17)).err
    asked = re.findall(r"^\d+ of \d+\. e-1 ([^.]+?)(?:, (?:0 deg|worst))?\. ", said, re.MULTILINE)
    of_a_page = ["{} left, tire thickness", "{} left, flange thickness", "{} right, tire thickness",
                 "{} right, flange thickness", "{}, back-to-back", "{} left, crack or break",
                 "{} right, crack or break"]  # fmt: skip
    pages = [line.format(at) for at in ("driver-1", "driver-2") for line in of_a_page]
    assert asked == [*pages, "engine, coupler height"]


@pytest.mark.parametrize("shape", ["html", "markdown"])
def test_every_page_tells_how_it_is_typed_in(ledger: Path, shape: str) -> None:
    out = re.sub(r"</?b>|`", "", call("sheet", "e-1", *YEARLY, "--format", shape, at=ledger).out)
    typed = re.findall(r"Type it in with: axlebook enter ([a-z0-9-]+)", out)
    assert set(typed) == {printed(ledger, "e-1")}
    assert len(typed) == (out.count("<section") if shape == "html" else 1)


def test_the_paper_s_own_order_is_that_of_the_questions(ledger: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = re.sub(r"(?s)<style>.*?</style>|<[^>]+>", " ", call("sheet", "d-2", *YEARLY, at=ledger).out)
    heads = [out.index(words) for words in ("tire thickness", "flange thickness", "back-to-back", "crack or break")]
    assert heads == sorted(heads)


def test_a_sheet_that_is_the_ledger_s_own_still_is_said_to_be_so(ledger: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    called = enter(monkeypatch, ledger, printed(ledger, "d-2"))
    assert "nothing on record changed for its boxes since it was printed" in called.err


def test_the_record_tells_which_sheet_it_was_typed_in_from(ledger: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    id = printed(ledger, "d-2")
    called = enter(monkeypatch, ledger, id, answers=(*HEADER, "2 7/8 in", "e", "w"))
    assert called.code == 0, called.err
    tree = read_tree((ledger / called.lines[0]).read_bytes())
    assert tree["note"] == f"Typed in from the sheet {id}."
    assert (tree["purpose"], tree["engine"]) == ("yearly", "e-1")


def test_a_draft_begun_from_a_sheet_goes_on_in_its_order_and_keeps_its_name(
    ledger: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    id = printed(ledger, "d-2")
    enter(monkeypatch, ledger, id, answers=(*HEADER, "s", "s"))
    called = enter(monkeypatch, ledger, "--resume", answers=("2 7/8 in", "e", "w"))
    assert "e-1 driver-2 right, tire thickness, 0 deg" in called.err
    assert id in (ledger / called.lines[0]).read_text(encoding="utf-8")
    assert "was printed" not in called.err


def test_what_was_read_since_is_told_with_its_record(ledger: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    id = printed(ledger, "d-2", *YEARLY, "--as-of", "2026-02-15")
    write_next(ledger)
    said = enter(monkeypatch, ledger, id).err
    assert "Since this sheet of 2026-02-15 was printed, what is on record changed:" in said
    assert (
        "driver-2 left, tire thickness, 0 deg, and 1 box more: 2 7/8 in of 2026-01-10 on the sheet, now 2 27/32 in "
        "of 2026-02-20 (2026-02-20-e-1-yearly)."
    ) in said


def test_a_sheet_from_another_commit_is_found_there_and_what_changed_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    years = {
        f"inspections/{day[:4]}/{day}-e-1-yearly.yaml": READ.format(day=day, thick=thick, back=back)
        for day, (thick, back) in YEARS.items()
    }
    root = small_repository(tmp_path, {"plans/own-yearly.yaml": PLAN, **years})
    id = printed(root, "d-2")
    was = call("sheet", "d-2", *YEARLY, at=root).out
    write_next(root)  # of a day before the sheet's own, entered after it was printed
    commit(root, "typed in late")
    said = enter(monkeypatch, root, id).err
    first = re.findall(r"Ledger at commit ([0-9a-f]{12})", was)[0]
    assert f"was printed from the ledger at commit {first}, what is on record changed:" in said
    assert "on the sheet, now 2 27/32 in of 2026-02-20" in said


def test_a_tire_that_went_on_since_is_told(ledger: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    id = printed(ledger, "d-2", *YEARLY, "--as-of", "2026-02-15")
    work = {
        "tires/t-9.yaml": "kind: tire\n",
        "tire-work/2026/2026-02-17-t-2-left-removed.yaml": "kind: tire-removed\nremoved_on: 2026-02-17\n"
        "tire: t-2-left\ncenter: d-2-left\n",
        "tire-work/2026/2026-02-18-t-9-applied.yaml": "kind: tire-applied\napplied_on: 2026-02-18\ntire: t-9\n"
        "center: d-2-left\n",
    }
    written(ledger, {**work})
    said = enter(monkeypatch, ledger, id).err
    assert "driver-2 left: t-2-left on d-2-left stood there, now t-9 on d-2-left." in said
    assert "2 7/8 in of 2026-01-10 on the sheet, now not on record." in said


def test_other_boxes_and_other_limits_are_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    root = small_repository(tmp_path, {"plans/own-yearly.yaml": PLAN})
    id = printed(root, "d-2")
    own = (
        "kind: limit-set\nsource: {title: Our notebook (invented), edition: of 2019}\ndecision: guard band\nlimits:\n"
        "  - {id: thin, quantity: tire_thickness, stage: shop, out_when: {under: 2 in}, clause: page 1}\n"
    )
    book = (root / "ledger.yaml").read_text(encoding="utf-8")
    more = "  limit_sets:\n    - {set: ours, adopted_on: 2019-01-01, adopted_by: lead}\n"
    assert "  limit_sets:\n" in book
    plan = PLAN.replace("[0 deg, 180 deg]", "[0 deg, 90 deg]")
    written(root, {"limits/ours.yaml": own, "ledger.yaml": book.replace("  limit_sets:\n", more),
                   "plans/own-yearly.yaml": plan})  # fmt: skip
    said = enter(monkeypatch, root, id).err
    assert "driver-2 left, tire thickness: the limits on file are others now." in said
    assert "driver-2 left, tire thickness is asked now and has no box on the sheet." in said
    assert "driver-2 left, tire thickness has a box on the sheet and is asked no more." in said
    assert "Day [" in said  # it goes on with what the ledger asks now


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("e-1-yearly-2026-02-28", "is not the whole id of a sheet: it stands at the foot of every page"),
        ("e-1-yearly-2026-02-28-12ab", "is not the whole id of a sheet"),
        ("e-1-yearly-2026-02-30-3cbde4ca", "is not the whole id of a sheet"),
        ("e-1-yearli-2026-02-28-3cbde4ca", "no plan is for 'yearli'. There are plans for: "),
        ("e-1-yearli-2026-02-28-3cbde4ca", "Type such as: axlebook enter e-1 --purpose yearly"),
        ("d-22-yearly-2026-02-28-3cbde4ca", "Did you mean d-2?"),
        ("e-9-yearly-2026-02-28-3cbde4ca", "nothing of that name is on record here. Engines: e-1."),
        ("d-2-apply-2026-02-28-3cbde4ca", "axlebook new tire-applied 2026-02-28-d-2"),
    ],
)
def test_an_id_that_is_none_is_answered_with_what_to_type(
    ledger: Path, monkeypatch: pytest.MonkeyPatch, typed: str, words: str
) -> None:
    called = enter(monkeypatch, ledger, typed)
    assert (called.code, called.out) == (2, "")
    assert words in called.err
    assert not list((ledger / ".drafts").glob("*"))


def test_an_id_with_a_sign_misread_goes_on_and_says_so(ledger: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    said = enter(monkeypatch, ledger, "d-2-yearly-2026-02-28-00000000").err
    assert "The ledger as it is now does not give the sheet d-2-yearly-2026-02-28-00000000." in said
    assert "Day [" in said


def test_capitals_and_blanks_of_an_id_are_no_matter(ledger: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    called = enter(monkeypatch, ledger, f" {printed(ledger, 'd-2').upper()}. ")
    assert "nothing on record changed" in called.err


def test_letters_read_for_figures_in_the_last_signs_are_no_matter(
    ledger: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    id = printed(ledger, "d-2")
    stem, _, mark = id.rpartition("-")
    called = enter(monkeypatch, ledger, f"{stem}-{mark.replace('0', 'O').replace('1', 'l')}", answers=("",))
    assert "nothing on record changed" in called.err
    assert id in next((ledger / ".drafts").glob("*.jsonl")).read_text(encoding="utf-8")


def test_another_purpose_than_the_sheet_s_is_refused(ledger: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    called = enter(monkeypatch, ledger, printed(ledger, "d-2"), "--purpose", "daily")
    assert called.code == 2
    assert "is for yearly, not for daily" in called.err


def test_a_receiving_sheet_of_a_tire_is_typed_in_by_its_id(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    root = fit_ledger(tmp_path)
    id = printed(root, "t-new", "--purpose", "receiving")
    said = enter(monkeypatch, root, id, answers=(*HEADER, "s", "q")).err
    assert "nothing on record changed for its boxes" in said
    assert re.search(r"1 of \d+\. t-new, ", said)


def test_an_engine_is_named_by_its_number_as_at_sheet(ledger: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (ledger / "engines/e-1.yaml").write_text(
        re.sub(r"number: .*", 'number: "77"', (ledger / "engines/e-1.yaml").read_text(encoding="utf-8")),
        encoding="utf-8",
    )
    assert "1 of" in enter(monkeypatch, ledger, "77", *YEARLY, answers=HEADER).err


def test_both_columns_of_a_sheet_are_typed_in_and_stand_in_one_record(
    ledger: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    id = printed(ledger, "d-2")
    answers = ("2 7/8 in", "2nd 2 29/32 in", "v1", "2 13/16 in", "2nd 2 13/16 in", "e", "w")
    called = enter(monkeypatch, ledger, id, answers=(*HEADER, *answers))
    assert called.code == 0, called.err
    told: Any = read_tree((ledger / called.lines[0]).read_bytes())["readings"]
    assert [(one.get("by"), one["values"]) for one in told] == [
        (None, {"0 deg": "2 7/8 in"}), (["v1"], {"0 deg": "2 29/32 in"}),
        (None, {"180 deg": "2 13/16 in"}), (["v1"], {"180 deg": "2 13/16 in"}),
    ]  # fmt: skip
