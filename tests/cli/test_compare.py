"""`compare`: what a change means for the metal, and when it fails."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from tests.cli.commands import call, promised
from tests.cli.compare_book import OWN_SET, YEARS, at, book, branch, commit, git, session, told
from tests.cli.repositories import written
from tests.cli.test_waived import RULE, WAIVER

from axlebook.cli import compare_states
from axlebook.sources.yaml_text import read_tree


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """The book with four yearly readings."""
    return book(tmp_path / "own")


def test_where_nothing_differs_it_says_so_and_exits_0(root: Path) -> None:
    called = call("compare", "main", at=root)
    assert called.code == 0
    assert "Nothing differs: no record was added, altered or deleted" in " ".join(called.lines)
    assert called.lines[-1].endswith("decide.")


def test_a_reading_stands_beside_the_one_before_and_what_was_to_be_expected(root: Path) -> None:
    written(root, {at(2026): session(2026, "1 3/16 in")})
    [reading] = told(root, "main")["readings"]
    assert (reading["subject"], reading["part"], reading["position"]) == ("e-1 driver-2 right", "t-2-right", "worst")
    assert (reading["now"], reading["before"], reading["before_on"]) == ("1 3/16 in", "1 13/64 in", "2025-01-10")
    figures = {figure["name"]: float(figure["value"]) / 0.0254 for figure in reading["figures"]}
    # by hand: 1/64 in a year before, 365 days now; one reading: sqrt((1/128)^2 + (1/64)^2 / 12) = 0.00902 in,
    # two of them 0.01276 in, twice that 0.0255 in; the slope is known far better
    assert figures["change"] == pytest.approx(-1 / 64)
    assert figures["expected change"] == pytest.approx(-1 / 64, rel=2e-3)
    assert figures["uncertainty"] == pytest.approx(0.0255, abs=5e-5)
    assert reading["out_of_expectation"] is False


def test_a_reading_out_of_expectation_is_told_first_and_by_name(root: Path) -> None:
    written(root, {at(2026): session(2026, "1 5/16 in")})
    text = " ".join(call("compare", "main", at=root).out.split())
    assert "Readings out of expectation (1)" in text
    assert (
        "OUT OF EXPECTATION: e-1 driver-2 right (t-2-right), flange thickness, worst: 1 5/16 in on 2026-01-10" in text
    )
    [reading] = told(root, "main")["readings"]
    assert reading["out_of_expectation"] is True


@pytest.mark.parametrize(("read", "is_out"), [("1 3/16 in", False), ("1 1/4 in", False), ("1 1/2 in", True)])
def test_a_fraction_read_with_no_instrument_is_held_as_loosely_as_one_from_a_coarse_rule(
    root: Path, read: str, is_out: bool
) -> None:
    """Four fractions that lie on one line, as eyes like them, do not make a reading good to a millionth."""
    for year, value in {**YEARS, 2026: read}.items():
        written(root, {at(year): session(year, value).replace("    with: gauge-1\n", "")})
        if year == 2025:
            commit(root)
            git(root, "branch", "-f", "read-before")
    [reading] = told(root, "read-before")["readings"]
    assert reading["out_of_expectation"] is is_out
    why = "as from a coarse rule: how fine it was read is not on record"
    assert reading["because"] == why
    assert f"in ± 0.1768 in, {why}" in " ".join(call("compare", "main", "--all", at=root).out.split())


def test_where_there_is_room_a_reading_as_expected_is_shown_too(root: Path) -> None:
    written(root, {at(2026): session(2026, "1 3/16 in")})
    short = call("compare", "main", at=root)
    assert "Readings added (1)" in short.out
    text = " ".join(call("compare", "main", "--all", at=root).out.split())
    assert "Readings added (1) reading: e-1 driver-2 right (t-2-right), flange thickness, worst: 1 3/16 in" in text
    assert "change -1/64 in; expected -0.0156 in ± 0.0255 in" in text
    assert "Not shown" not in short.out


def test_what_kept_a_reading_from_being_held_against_earlier_ones_is_said(root: Path) -> None:
    written(root, {at(2026): session(2026, "1 3/16 in", place="driver-1 left"), at(2027): session(2027, "1 in")})
    first, late = sorted(told(root, "main")["readings"], key=lambda one: str(one["read_on"]))
    assert first["because"] == "it is the first reading there"
    assert late["because"] == "it is dated after the day the book is read at (2026-02-28)"
    assert (first["out_of_expectation"], late["out_of_expectation"]) == (None, None)


def test_a_signed_record_edited_is_loud_and_fails(root: Path) -> None:
    branch(root, "edit")
    written(root, {at(2024): session(2024, "1 9/32 in", signed=True)})
    commit(root)
    [record] = told(root, "main", "edit")["records"]
    assert (record["became"], record["signed_before"]) == ("altered", True)
    [difference] = record["differences"]
    assert difference["about"] == "e-1 driver-2 right, flange thickness, worst"
    assert (difference["was"], difference["now"]) == ("1 7/32 in", "1 9/32 in")
    called = call("compare", "main", "edit", "--all", at=root)
    assert called.code == 1
    after_head = called.out[called.out.index("Signed records altered or deleted (1)") :]
    assert after_head.splitlines()[1].startswith("SIGNED RECORD ALTERED: inspection")
    short = " ".join(call("compare", "main", "edit", at=root).out.split())  # what was altered, without --all
    assert "inspection: e-1 driver-2 right, flange thickness, worst: was 1 7/32 in, now 1 9/32 in" in short
    assert "put it back as it was, and write a correction" in " ".join(called.out.split())


def correction(year: int, effect: str) -> str:
    """A correction of one inspection, approved."""
    return (
        f"kind: correction\nrecord: {year}-01-10-e-1-annual\ncorrected_on: {year}-02-01\nby: v1\n"
        f"approved_by: lead\nreason: read again\n{effect}"
    )


PUT_RIGHT = "at: /readings/0/values/worst\nwas: {}\nis: 1 1/8 in\n"


@pytest.mark.parametrize(
    ("effect", "said"),
    [
        (
            PUT_RIGHT.format("1 7/32 in"),
            "2024-01-10-e-1-annual, e-1 driver-2 right, flange thickness, worst: was 1 7/32 in, now 1 1/8 in.",
        ),
        ("withdraws: yes\n", "2024-01-10-e-1-annual counts no longer."),
        (PUT_RIGHT.format("1 in"), "it has no effect: `1 7/32 in` stands there, not `1 in`."),
    ],
)
def test_what_a_correction_changes_is_said_when_it_comes_in(root: Path, effect: str, said: str) -> None:
    written(root, {"corrections/c-1.yaml": correction(2024, effect)})
    called = call("compare", "main", at=root)
    text = " ".join(called.out.split())
    assert "1 correction added" in text
    assert f"What corrections change (1) correction: {said} corrections/c-1.yaml" in text
    [record] = told(root, "main")["records"]
    assert [one["about"] for one in record["differences"]]


def test_what_a_correction_changed_is_said_when_it_is_taken_away(root: Path) -> None:
    written(root, {"corrections/c-1.yaml": correction(2024, PUT_RIGHT.format("1 7/32 in"))})
    commit(root)
    branch(root, "back")
    git(root, "rm", "--quiet", "corrections/c-1.yaml")
    commit(root)
    [record] = told(root, "main", "back")["records"]
    [difference] = record["differences"]
    assert (record["became"], difference["was"], difference["now"]) == ("deleted", "1 1/8 in", "1 7/32 in")
    text = " ".join(call("compare", "main", "back", at=root).out.split())
    assert "flange thickness, worst: was 1 1/8 in, now 1 7/32 in" in text


def test_each_fate_of_a_record_is_told_apart(root: Path) -> None:
    old = (root / at(2022)).read_text()
    written(root, {
        at(2022): None,
        "inspections/2022/2022-01-10-e-1-other.yaml": old,
        at(2023): session(2023, "1 15/64 in", signed=True),
        at(2024): None,
        at(2025): "# a comment\n" + session(2025, "1 13/64 in"),
        "people/v1.yaml": (root / "people/v1.yaml").read_text() + "note: came in\n",
        "people/v9.yaml": "kind: person\nname: V9\n",
    })  # fmt: skip
    found = {record["path"]: record for record in told(root, "main")["records"]}
    fates = {path: record["became"] for path, record in found.items()}
    assert fates == {
        "inspections/2022/2022-01-10-e-1-other.yaml": "renamed",
        at(2023): "signed",
        at(2024): "deleted",
        at(2025): "written otherwise",
        "people/v1.yaml": "added to",
        "people/v9.yaml": "added",
    }
    assert found["inspections/2022/2022-01-10-e-1-other.yaml"]["path_before"] == at(2022)
    assert found[at(2024)]["signed_before"]
    assert "SIGNED RECORD DELETED: inspection" in call("compare", "main", at=root).out


def test_a_tire_that_went_on_and_a_wheelset_that_moved_are_metal_not_lines(root: Path) -> None:
    tire = (root / "tires/t-2-right.yaml").read_text().replace('"102"', '"201"')
    engine = (root / "engines/e-1.yaml").read_text()
    written(root, {
        "tires/t-9.yaml": tire,
        "tire-work/2026/2026-01-20-t-9-applied.yaml": "kind: tire-applied\napplied_on: 2026-01-20\ntire: t-9\n"
        "center: d-2-right\nby: lead\nshims: none\n",
        "engines/e-1.yaml": engine.replace("a_end: left", "a_end: right", 1),
    })  # fmt: skip
    parts = {part["what"]: part for part in told(root, "main")["parts"]}
    assert (parts["tire"]["was"], parts["tire"]["now"]) == ("t-2-right", "t-9")
    assert parts["tire"]["where"] == "e-1 driver-2 right, center d-2-right"
    assert parts["tire"]["record"] == "2026-01-20-t-9-applied"
    assert (parts["wheelset"]["was"], parts["wheelset"]["now"]) == ("et-1, end A left", "et-1, end A right")


def test_an_end_that_was_written_down_is_told_as_that_and_not_as_a_wheelset_off_and_on(root: Path) -> None:
    engine = (root / "engines/e-1.yaml").read_text()
    written(root, {"engines/e-1.yaml": engine.replace("    a_end: left\n", "", 1)})
    git(root, "add", "-A")
    git(root, "commit", "-qm", "as the card has it")
    written(root, {"engines/e-1.yaml": engine})
    said = " ".join(call("compare", "HEAD", at=root).out.split())
    assert "e-1 engine-truck-1: et-1, end A left, which was on no record before, by e-1." in said
    assert "et-1 off" not in said


def test_a_limit_that_was_loosened_is_told_with_who_did_it(root: Path) -> None:
    branch(root, "loose")
    written(root, {"limits/own.yaml": OWN_SET.replace("1 1/16 in", "1 in")})
    git(root, "add", "--all")
    git(root, "-c", "user.name=v7", "commit", "--quiet", "--message", "less strict")
    [limit] = told(root, "main", "loose")["limits"]
    assert (limit["id"], limit["became"]) == ("own/flange", "loosened")
    text = " ".join(call("compare", "main", "loose", "--all", at=root).out.split())
    assert "LOOSENED: own/flange, flange thickness: was out at or under 1 1/16 in" in text
    assert "now out at or under 1 in" in text
    assert "Changed by v7; in Notebook of the test railway" in text


def test_a_set_that_is_no_longer_adopted_is_loud(root: Path) -> None:
    text = (root / "ledger.yaml").read_text()
    written(root, {"ledger.yaml": text.replace("adopted_by: lead\n", "adopted_by: lead\n      until: 2025-12-31\n")})
    [adoption] = told(root, "main")["adoptions"]
    assert (adoption["set"], adoption["in_force_before"], adoption["in_force_now"]) == ("us-49-cfr-230", True, False)
    assert "NO LONGER IN FORCE: the ledger: us-49-cfr-230" in call("compare", "main", at=root).out


def test_two_states_without_a_history_of_their_own_say_what_is_not_looked_at(root: Path) -> None:
    said = "In both states what only a history tells (who entered what, when, and what was edited) is not looked at: "
    assert said not in " ".join(call("compare", "HEAD", at=root).out.split())
    path = root / "ledger.yaml"
    path.write_text(path.read_text(encoding="utf-8") + "git_history: not of this book\n", encoding="utf-8")
    commit(root, "the history is another book's")
    told = " ".join(call("compare", "HEAD~1", "HEAD", at=root).out.split())
    assert f"{said}ledger.yaml says that this git history is not the book's own." in told


def test_a_new_finding_that_counts_fails_and_one_that_is_gone_does_not(root: Path) -> None:
    written(root, {at(2026): session(2026, "15/16 in")})
    commit(root)
    there = told(root, "HEAD~1", "HEAD", "--exact")["findings"]
    assert [(f["check"], f["severity"]) for f in there["new"] if f["verdict"] == "outside"] == [
        ("flange-thin", "condemning")
    ]
    assert call("compare", "HEAD~1", "HEAD", at=root).code == 1
    back = told(root, "HEAD", "HEAD~1", "--exact")["findings"]
    assert {f["fingerprint"] for f in there["new"]} >= {
        f["fingerprint"] for f in back["gone"] if f["verdict"] == "outside"
    }
    assert not [f for f in back["new"] if f["check"] == "flange-thin"]


def test_a_finding_read_again_in_a_later_record_is_new_and_its_past_is_told(root: Path) -> None:
    written(root, {at(2025): session(2025, "15/16 in")})
    commit(root)
    written(root, {at(2026): session(2026, "15/16 in")})
    called = call("compare", "HEAD", "--all", at=root)
    assert called.code == 1
    assert "The same was found before, in 2025-01-10-e-1-annual." in " ".join(called.out.split())


def test_paths_choose_what_is_shown_and_counts(root: Path) -> None:
    written(root, {at(2026): session(2026, "15/16 in")})
    assert call("compare", "main", at=root).code == 1
    called = call("compare", "main", "tires", at=root)
    assert called.code == 0
    assert "Shown is only what stands in tires" in called.out
    assert call("compare", "main", "inspections/2026", at=root).code == 1


def test_both_states_are_read_at_one_day(root: Path) -> None:
    written(root, {"ledger.yaml": (root / "ledger.yaml").read_text().replace("2026-02-28", "2031-02-28")})
    found = told(root, "main")
    due = [f["message"] for f in found["findings"]["new"] if "ertificate" in f["message"]]
    assert due == []  # the certificate ran out for both: time went by, no record changed
    assert promised(call("compare", "main", "--format", "json", at=root).out)["as_of"] == "2031-02-28"


def test_what_two_states_have_alike_is_read_once(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    branch(root, "more")
    written(root, {at(2026): session(2026, "1 3/16 in")})
    commit(root)
    read: list[bytes] = []

    def counted(content: bytes) -> dict[str, Any]:
        read.append(content)
        return read_tree(content)

    monkeypatch.setattr("axlebook.read.read_tree", counted)
    assert call("compare", "main", "more", at=root).code == 0
    records = [path for path in git(root, "ls-files").splitlines() if path.endswith(".yaml")]
    assert len(read) == len(records)


# --- which two states ----------------------------------------------------------------------------------------


def test_a_branch_is_held_against_where_it_left_and_not_against_what_came_since(root: Path) -> None:
    branch(root, "topic")
    written(root, {"people/v8.yaml": "kind: person\nname: V8\n"})
    commit(root)
    git(root, "checkout", "--quiet", "main")
    written(root, {at(2026): session(2026, "1 3/16 in")})
    commit(root)
    git(root, "checkout", "--quiet", "topic")
    for arguments in (["main"], ["main", "topic"]):
        found = told(root, *arguments)
        assert [record["path"] for record in found["records"]] == ["people/v8.yaml"]
        assert "where it and main parted" in found["before"]["named"]
    exact = told(root, "main", "topic", "--exact")
    assert {record["path"]: record["became"] for record in exact["records"]} == {
        "people/v8.yaml": "added", at(2026): "deleted"
    }  # fmt: skip


def test_two_branches_that_each_add_a_session_merge_without_a_conflict(root: Path) -> None:
    for name, year in (("one", 2026), ("two", 2021)):
        git(root, "checkout", "--quiet", "-B", name, "main")
        written(root, {at(year): session(year, "1 3/16 in" if year == 2026 else "1 17/64 in")})
        commit(root)
    git(root, "merge", "--quiet", "--no-edit", "one")
    found = told(root, "main", "HEAD")
    assert [record["became"] for record in found["records"]] == ["added", "added"]


def test_the_files_as_they_are_are_named_with_what_is_not_committed(root: Path) -> None:
    assert "changes not committed" not in told(root, "main")["after"]["named"]
    written(root, {at(2026): session(2026, "1 3/16 in")})
    after = told(root, "main")["after"]
    assert after["dirty"] is True
    assert after["named"].endswith("with changes not committed")


def test_a_bare_clone_compares_two_revisions(root: Path, tmp_path: Path) -> None:
    branch(root, "more")
    written(root, {at(2026): session(2026, "15/16 in")})
    commit(root)
    git(tmp_path, "clone", "--quiet", "--bare", str(root), "bare.git")
    called = call("compare", "main", "more", "--ledger", "bare.git", at=tmp_path)
    assert called.code == 1
    assert "15/16 in" in called.out
    alone = call("compare", "main", "--ledger", "bare.git", at=tmp_path)
    assert (alone.code, alone.out) == (2, "")
    assert "a bare clone has no files: name two revisions" in alone.err


@pytest.mark.parametrize("base", ["main", "0" * 40])
def test_a_base_that_a_shallow_clone_has_not_got_shows_all_and_says_so(root: Path, tmp_path: Path, base: str) -> None:
    branch(root, "more")
    written(root, {at(2026): session(2026, "15/16 in")})
    commit(root)
    git(tmp_path, "clone", "--quiet", "--depth=1", root.as_uri(), "shallow")
    called = call("compare", base, at=tmp_path / "shallow")
    assert called.code == 1
    told_all = " ".join(called.out.split())
    assert f"In doubt: The base {base} is not here (this is a shallow clone" in told_all
    assert "git fetch --unshallow" in told_all
    assert told(tmp_path / "shallow", base)["before"]["revision"] is None


def test_a_base_from_before_the_ledger_shows_all_and_says_so(root: Path) -> None:
    git(root, "checkout", "--quiet", "--orphan", "early")
    git(root, "rm", "-r", "--quiet", "--cached", ".")
    git(root, "commit", "--quiet", "--allow-empty", "--message", "nothing yet")
    git(root, "checkout", "--quiet", "--force", "main")
    found = told(root, "early", "main")
    assert any("there was no ledger here: everything is shown as new" in note for note in found["in_doubt"])
    assert {record["became"] for record in found["records"]} == {"added"}


@pytest.mark.parametrize("revision", ["", "-x", "--output=x", "nope", "main\n", "\x00", "main..", "^main", "x" * 300])
def test_a_revision_that_is_none_is_one_sentence_and_exit_2(root: Path, revision: str) -> None:
    for arguments in (["--", revision], ["--", "main", revision]):
        called = call("compare", *arguments, at=root)
        if arguments[1] == "main" and revision == "":
            continue  # an empty path is the ledger itself
        assert (called.code, called.out) == (2, ""), arguments
        assert called.err.count("\n") == 1
        assert "fault of axlebook" not in called.err


def test_outside_git_it_cannot_run_and_says_why(root: Path, tmp_path: Path) -> None:
    import shutil

    shutil.copytree(root, tmp_path / "plain", ignore=shutil.ignore_patterns(".git"))
    called = call("compare", "main", at=tmp_path / "plain")
    assert (called.code, called.out) == (2, "")
    assert "not under version control: there are no two states of it to compare" in called.err


def test_the_words_for_fetching_are_a_command_of_git() -> None:
    assert compare_states.FETCH.startswith("git fetch ")


THIN = session(2026, "15/16 in")
WORN = {at(2026): session(2026, "1 3/16 in").replace("gauge-1", "rule-9"), "instruments/rule-9.yaml": RULE}


@pytest.mark.parametrize(
    ("found", "then"),
    [
        ({at(2026): THIN}, {at(2026): THIN.replace("    values:", "    sure: uncertain\n    values:")}),
        ({**WORN, "people/lead.yaml": "kind: person\nrole: lead\n"}, {"waivers/w-1.yaml": WAIVER}),
    ],
    ids=["doubted", "waived"],
)
def test_a_fault_that_is_doubted_or_waived_is_not_told_as_better(
    root: Path, found: dict[str, str], then: dict[str, str]
) -> None:
    written(root, found)
    commit(root, "a thin flange, or a rule whose certificate has run out")
    written(root, then)
    text = " ".join(call("compare", "HEAD", at=root).out.split())
    hushed = told(root, "HEAD")["findings"]["better"]
    assert "no more, 0 better" in text
    assert f"Findings that are there and count no more ({len(hushed)})" in text
    assert {pair["before"]["verdict"] for pair in hushed} <= {"outside", "suspect"}
