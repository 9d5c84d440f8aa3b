"""`history`: a part's life with both times, in a repository and outside one."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.checks.histories import change, commit, git
from tests.cli.commands import AT, THICK, call, promised, small_ledger

SIGNED = THICK.replace("by: lead", "by: v1") + "signed:\n  signed_by: lead\n  signed_on: 2026-01-11\n  witness: v1\n"
TIRE = "t-2-right"
REMOVED = """kind: tire-removed
removed_on: 2026-02-01
tire: t-2-right
center: d-2-right
came_off: loose
by: lead
"""
DEFECT = """kind: defect
found_on: 2026-01-10
engine: e-1
place: driver-2 right
what: "a flat of 2 in"
disposition: open
"""
CORRECTION = """kind: correction
record: 2026-01-10-e-1-annual
corrected_on: 2026-01-20
at: /readings/0/values/worst
was: 1 1/4 in
is: 1 3/16 in
reason: "read again"
approved_by: lead
"""


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    """A ledger whose tire was measured, corrected, found flat and taken off, each in a commit of its own."""
    root = small_ledger(tmp_path)
    git(tmp_path, "init", "--quiet")
    commit(tmp_path)
    steps = ((AT, SIGNED, "2026-01-12", "v1"), ("corrections/2026-01-20-flange.yaml", CORRECTION, "2026-01-20", "lead"),
             ("defects/2026/2026-01-10-flat.yaml", DEFECT, "2026-01-21", "lead"),
             ("tire-work/2026/2026-02-01-off.yaml", REMOVED, "2026-02-20", "V. One"))  # fmt: skip
    for path, text, on, by in steps:
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_text(text, encoding="utf-8")
        commit(tmp_path, on=on, by=by)
    return root


def rows(root: Path, id: str, *arguments: str) -> list[dict[str, object]]:
    told = promised(call("history", id, "--format", "json", *arguments, at=root).out)
    found: list[dict[str, object]] = told["result"]["rows"]
    return found


def test_a_session_has_both_times_and_all_who_had_part_in_it(ledger: Path) -> None:
    (session,) = [row for row in rows(ledger, TIRE) if row["record"] == "2026-01-10-e-1-annual"]
    assert session["measured_on"] == "2026-01-10"
    assert session["by"] == ["v1"]
    assert (session["signed_by"], session["witness"]) == ("lead", "v1")
    entered = session["entered"]
    assert isinstance(entered, dict)
    assert (entered["on"], entered["author"]) == ("2026-01-12", "v1")
    assert entered["commit"] == git(ledger, "log", "--format=%H", "--author=v1", "--", AT)
    assert entered["carries_signature"] is False


def test_a_reading_is_told_as_corrected_and_the_correction_beside_it(ledger: Path) -> None:
    told = {str(row["record"]): row for row in rows(ledger, TIRE)}
    assert "flange thickness 1 3/16 in" in str(told["2026-01-10-e-1-annual"]["words"])
    assert "was 1 1/4 in, is 1 3/16 in: read again" in str(told["2026-01-20-flange"]["words"])


def test_a_correction_has_a_history_of_its_own_and_says_of_which_reading(ledger: Path) -> None:
    (told,) = [row["words"] for row in rows(ledger, "2026-01-20-flange") if row["what"] == "correction"]
    where = "driver-2 right flange thickness worst"
    assert told == f"in 2026-01-10-e-1-annual, {where}: was 1 1/4 in, is 1 3/16 in: read again"


def test_a_defect_at_its_place_and_its_removal_belong_to_the_tire_that_stood_there(ledger: Path) -> None:
    whats = [(row["what"], row["measured_on"]) for row in rows(ledger, TIRE)]
    assert ("defect", "2026-01-10") in whats
    assert ("tire-removed", "2026-02-01") in whats
    others = [row["what"] for row in rows(ledger, "t-2-left")]
    assert "defect" not in others
    assert "tire-removed" not in others


def test_the_places_of_a_tire_end_with_its_removal(ledger: Path) -> None:
    told = promised(call("history", TIRE, "--format", "json", at=ledger).out)["result"]["positions"]
    assert told[-1]["until"] == "2026-02-01"
    assert "d-2-right" in told[-1]["where"]
    assert "at e-1 driver-2 right" in told[-1]["where"]


def test_of_one_day_a_tire_comes_off_before_it_goes_on_elsewhere_and_is_altered_before_it_is_deleted(
    tmp_path: Path,
) -> None:
    off, on = "tire-work/2026/2026-02-01-z-off.yaml", "tire-work/2026/2026-02-01-a-on.yaml"
    applied = "kind: tire-applied\napplied_on: 2026-02-01\ntire: t-2-right\ncenter: d-1-right\nby: lead\n"
    root = small_ledger(tmp_path, {off: REMOVED, on: applied})
    git(tmp_path, "init", "--quiet")
    commit(tmp_path, on="2026-02-02")
    (root / off).write_text(REMOVED.replace("loose", "cut"), encoding="utf-8")
    commit(tmp_path, on="2026-02-03")
    (root / off).unlink()
    commit(tmp_path, on="2026-02-03")
    whats = [row["what"] for row in rows(root, "2026-02-01-z-off")]
    assert whats[-2:] == ["altered", "deleted"]
    (root / off).write_text(REMOVED, encoding="utf-8")
    whats = [row["what"] for row in rows(root, TIRE) if row["what"] in ("tire-removed", "tire-applied")]
    assert whats == ["tire-removed", "tire-applied"]


def test_an_alteration_tells_what_stood_there_and_who_changed_it(ledger: Path) -> None:
    change(ledger, {AT: [["1 1/4 in", "1 3/8 in"]]})
    commit(ledger.parent, on="2026-02-22", by="stranger")
    (altered,) = [row for row in rows(ledger, TIRE) if row["what"] == "altered"]
    assert altered["measured_on"] is None
    assert altered["words"] == "readings 0 values worst: 1 1/4 in, then 1 3/8 in"
    assert altered["by"] == ["stranger"]


def test_what_is_changed_on_the_disk_is_told_as_not_committed(ledger: Path) -> None:
    change(ledger, {AT: [["1 1/4 in", "1 3/8 in"]]})
    *_, altered = rows(ledger, TIRE)  # the newest of all that is told
    assert (altered["what"], altered["entered"]) == ("altered", None)
    assert altered["words"] == "readings 0 values worst: 1 1/4 in, then 1 3/8 in"
    text = " ".join(call("history", TIRE, at=ledger).out.split())
    assert "not committed yet record altered: readings 0 values worst: 1 1/4 in, then 1 3/8 in." in text
    markdown = call("history", TIRE, "--format", "markdown", at=ledger).out
    assert "then 1 3/8 in |  | not committed yet |" in markdown


def test_a_defect_that_is_closed_is_told_with_who_repaired_it_and_when_that_was_entered(ledger: Path) -> None:
    path = "defects/2026/2026-01-10-flat.yaml"
    repaired = (
        "disposition: repaired\nrepair: {words: turned, standard: page 3, done_on: 2026-02-03, by: [v1]}\n"
        "approved: {by: chair, approved_on: 2026-02-04}\nclosed_on: 2026-02-05\nby: [lead]\n"
    )
    change(ledger, {path: [["disposition: open\n", repaired]]})
    commit(ledger.parent, on="2026-02-06", by="v1")
    found, repair, closed = [row for row in rows(ledger, TIRE) if row["what"] in ("defect", "repair")]
    assert (found["what"], found["by"]) == ("defect", ["lead"])
    assert (repair["measured_on"], repair["words"], repair["by"]) == ("2026-02-03", "turned (page 3)", ["v1"])
    assert (closed["measured_on"], closed["words"], closed["by"]) == ("2026-02-05", "closed: repaired", ["chair"])
    assert [row["entered"]["on"] for row in (found, repair, closed)] == ["2026-01-21", "2026-02-06", "2026-02-06"]


def test_a_correction_without_effect_is_not_told_as_one(ledger: Path) -> None:
    change(ledger, {"corrections/2026-01-20-flange.yaml": [["was: 1 1/4 in", "was: 1 1/8 in"]]})
    (told,) = [row for row in rows(ledger, TIRE) if row["what"] == "correction"]
    assert "WITHOUT EFFECT" in str(told["words"])


def test_the_marks_of_a_tire_are_told_in_shop_words(tmp_path: Path) -> None:
    marked = "kind: tire\nmarks: {heat: K17, made_on: 1998, stamped: outside face}\n"
    out = call("history", "t-9", at=small_ledger(tmp_path, {"tires/t-9.yaml": marked})).out
    assert "tire t-9 (heat K17, made 1998, stamped outside face)" in out


def test_a_sentence_of_a_record_does_not_end_twice(ledger: Path) -> None:
    path = ledger / "defects" / "2026" / "2026-02-01-flat.yaml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(DEFECT.replace("a flat of 2 in", "A flat of 2 in.") + "found_by: lead\n", encoding="utf-8")
    for id in (TIRE, "e-1"):
        assert ".; " not in call("history", id, "--all", at=ledger).out


def test_a_deleted_record_has_a_history(ledger: Path) -> None:
    (ledger / AT).unlink()
    commit(ledger.parent, on="2026-02-22", by="stranger")
    called = call("history", "2026-01-10-e-1-annual", "--all", at=ledger)
    assert called.code == 0
    assert "deleted record 2026-01-10-e-1-annual" in called.out
    assert "2026-02-22 record deleted: taken away; by stranger" in called.out


def test_outside_git_it_says_that_nothing_is_known_and_tells_the_rest(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: SIGNED})
    called = call("history", TIRE, at=root)
    assert called.code == 0
    assert "Not under version control: when it was entered is not known." in called.out
    assert "flange thickness 1 1/4 in" in called.out
    assert all(row["entered"] is None for row in rows(root, TIRE))


def test_a_shallow_clone_says_so_and_dates_nothing_by_its_edge(ledger: Path, tmp_path: Path) -> None:
    git(tmp_path, "clone", "--quiet", "--depth=1", tmp_path.as_uri(), "shallow")
    root = tmp_path / "shallow" / "ledger"
    assert "This clone is shallow" in call("history", TIRE, at=root).out
    assert all(row["entered"] is None for row in rows(root, TIRE))


def test_a_commit_that_carries_a_signature_is_told_as_not_verified(ledger: Path) -> None:
    tree = git(ledger, "rev-parse", "HEAD^{tree}")
    parent = git(ledger, "rev-parse", "HEAD^")
    text = (
        f"tree {tree}\nparent {parent}\nauthor V. One <v@example.invalid> 1771588800 +0000\n"
        "committer V. One <v@example.invalid> 1771588800 +0000\n"
        "gpgsig -----BEGIN SSH SIGNATURE-----\n none\n -----END SSH SIGNATURE-----\n\nsigned\n"
    )
    (ledger.parent / "commit").write_text(text, newline="")
    git(ledger, "reset", "--quiet", "--soft", git(ledger, "hash-object", "-t", "commit", "-w", "../commit"))
    entered = [row["entered"] for row in rows(ledger, TIRE) if row["what"] == "tire-removed"]
    assert [e["carries_signature"] for e in entered if isinstance(e, dict)] == [True]
    words = " ".join(call("history", TIRE, "--all", at=ledger).out.split())
    assert "carries a signature, which was not verified" in words


def test_a_screen_holds_24_lines_and_says_how_many_are_left_out(ledger: Path) -> None:
    for number in range(10, 29):
        text = THICK.replace("2026-01-10", f"2025-02-{number}")
        (ledger / f"inspections/2026/2025-02-{number}-e-1-annual.yaml").write_text(text, encoding="utf-8")
    called = call("history", TIRE, at=ledger)
    assert len(called.lines) <= 24
    assert "earlier. In full: --all" in called.out
    assert "2026-02-01 tire taken off" in called.out


def test_markdown_has_both_times_in_a_table_and_no_text_acts_as_markup(ledger: Path) -> None:
    change(ledger, {"defects/2026/2026-01-10-flat.yaml": [["a flat of 2 in", "a flat | <b>of</b> 2 in @lead"]]})
    told = call("history", TIRE, "--format", "markdown", at=ledger).out
    assert "| Measured | What | By | Entered | Record |" in told
    assert "2026-01-12 by v1 in " in told
    assert "<b>" not in told
    assert "a flat \\| " in told


IDS = ["e-1", "d-2", "d-2-right", "gauge-1", "lead", "us-49-cfr-230", "2026-01-10-e-1-annual", "ledger"]


@pytest.mark.parametrize("id", IDS)
def test_every_kind_of_id_has_a_history(ledger: Path, id: str) -> None:
    assert call("history", id, at=ledger).code == 0
    assert promised(call("history", id, "--format", "json", at=ledger).out)["result"]["id"] == id


@pytest.mark.parametrize("id", ["", "t-99", "x" * 500, "t-2-right\x1b[31m", "--", "../ledger"])
def test_an_id_that_is_none_is_refused_in_a_sentence(ledger: Path, id: str) -> None:
    called = call("history", "--", id, at=ledger)
    assert called.code == 2
    assert "\x1b" not in called.err
    assert called.err.startswith("axlebook: no part and no record is named")


def test_a_misspelled_id_is_answered_with_the_nearest(ledger: Path) -> None:
    assert "Did you mean t-2-right?" in call("history", "t-2-rigth", at=ledger).err


def test_at_a_revision_only_what_had_come_by_then_is_told(ledger: Path) -> None:
    early = git(ledger, "log", "--format=%H", "--author=v1", "--", AT)
    whats = [row["what"] for row in rows(ledger, TIRE, "--at", early)]
    assert "annual" not in whats or "tire-removed" not in whats
    assert "defect" not in whats


def test_a_history_that_is_not_the_books_is_not_told_as_its_own(ledger: Path) -> None:
    change(ledger, {"ledger.yaml": [["closed_on:", "git_history: not of this book\nclosed_on:"]]})
    assert "another history: when it was entered is not known" in " ".join(call("history", TIRE, at=ledger).out.split())
    assert all(row["entered"] is None for row in rows(ledger, TIRE))


def test_what_was_found_repaired_or_corrected_later_is_not_told_of_an_earlier_day(ledger: Path) -> None:
    repaired = DEFECT + "repair:\n  done_on: 2026-01-30\n  words: turned\n  by: lead\nclosed_on: 2026-02-03\n"
    (ledger / "defects/2026/2026-01-10-flat.yaml").write_text(repaired, encoding="utf-8")
    told = {day: [row["what"] for row in rows(ledger, TIRE, "--as-of", day)] for day in ("2026-01-09", "2026-01-31")}
    assert not {"defect", "repair", "correction"} & {*told["2026-01-09"]}
    assert [what for what in told["2026-01-31"] if what in ("defect", "repair", "correction")] == [
        "defect", "correction", "repair",
    ]  # fmt: skip
    assert "1 1/4 in" in str(rows(ledger, TIRE, "--as-of", "2026-01-19"))


def test_a_defect_of_a_tire_on_a_wheelset_with_ends_is_told_of_that_tire(tmp_path: Path) -> None:
    tired = "kind: wheelset\nmade: tired\ncenters:\n  c-a:\n    first_end: A\n  c-b:\n    first_end: B\n"
    found = "kind: tire-found\nfound_on: 2020-01-01\ntire: {tire}\ncenter: {center}\n"
    files = {"wheelsets/tw-1.yaml": tired, "defects/2026/2026-01-10-flat.yaml": DEFECT.replace("driver-2", "tender-1")}
    for end in ("a", "b"):
        files[f"tires/t-9-{end}.yaml"] = "kind: tire\n"
        files[f"tire-work/2020/2020-01-01-t-9-{end}-found.yaml"] = found.format(tire=f"t-9-{end}", center=f"c-{end}")
    root = small_ledger(tmp_path, files)
    told = {end: [row["what"] for row in rows(root, f"t-9-{end}")] for end in ("a", "b")}
    assert ("defect" in told["a"], "defect" in told["b"]) == (False, True)  # end A is on the left of e-1
