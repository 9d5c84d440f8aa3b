"""The annual summary: what its first page says, what is laid to which engine, and what no text of a record may do."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path

import html5lib
import pytest
from tests.cli.commands import AT, THICK, THIN, TOP, call, promised, small_ledger

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.reports import annual_html, annual_markdown
from axlebook.reports.annual_json import annual_json
from axlebook.reports.annual_parts import Annual, Group, Listed, Part, Plot
from axlebook.reports.item import Item
from axlebook.reports.plan_view import Mark, PlanAxle
from axlebook.reports.view import Day

HOSTILE = "<script>alert(1)</script> </svg></title> [a](javascript:alert(2)) | {{ 7*7 }} & 'x' \"y\" <!--"
MARKS = "&lt;script&gt;"
OUT = "  - at: driver-1\n    wheelset: d-1\n    from: 2020-01-01\n"
DEFECT = """kind: defect
found_on: 2026-01-10
engine: e-1
place: driver-2 right
what: "Flange thin."
restriction:
  words: "Not to be used."
disposition: open
"""


@pytest.fixture
def thin(tmp_path: Path) -> Path:
    return small_ledger(tmp_path, {AT: THIN, "defects/2026/2026-01-10-flange.yaml": DEFECT})


def parsed(page: str) -> html5lib.HTMLParser:
    """The page as a browser reads it; html5lib lists what the standard calls an error."""
    parser = html5lib.HTMLParser(tree=html5lib.getTreeBuilder("etree"), namespaceHTMLElements=False)
    parser.parse(page)
    return parser


def tags(page: str) -> list[str]:
    """Every element of a page, in order."""
    return [str(one.tag) for one in html5lib.parse(page, namespaceHTMLElements=False).iter()]


def test_the_first_page_says_what_is_out_by_which_clause_and_what_is_restricted(thin: Path) -> None:
    called = call("annual", "e-1", "2026", "--format", "markdown", at=thin)
    first = called.out.partition("## Plan of the wheels")[0]
    assert "# Condition of engine 1, 2026" in first
    assert "State at the end of 2026-02-28, not of the whole year 2026: the book was closed that day." in first
    assert "✗ outside: driver-2 right, t-2-right: flange thickness, worst 15/16 in" in first
    assert "230.113(g)" in first
    assert "restriction: Not to be used, no last day is written" in first
    assert called.code == 1


def test_a_year_that_is_not_over_is_told_as_of_today_whose_end_nobody_knows(
    thin: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("axlebook.cli.opened.today", lambda: date(2026, 3, 4))
    ledger = thin / "ledger.yaml"
    lines = [one for one in ledger.read_text(encoding="utf-8").splitlines(True) if not one.startswith("closed_on")]
    ledger.write_text("".join(lines), encoding="utf-8")
    called = call("annual", "e-1", "2026", "--format", "markdown", at=thin)
    assert "State on 2026-03-04, by what is entered so far: the year 2026 is not over." in called.out


def test_a_year_that_is_over_is_told_as_of_its_last_day_and_knows_nothing_later(thin: Path) -> None:
    called = call("annual", "1", "2025", "--format", "json", at=thin)
    told = promised(called.out)
    assert told["as_of"] == "2025-12-31"
    assert told["result"]["state"] == "State at the end of 2025-12-31, the year's last day."
    assert "15/16" not in called.out
    assert called.code == 0


def test_an_earlier_day_is_taken_as_asked_and_said(thin: Path) -> None:
    result = promised(call("annual", "e-1", "2026", "--as-of", "2026-01-09", "--format", "json", at=thin).out)["result"]
    assert result["state"].endswith("not of the whole year 2026: as asked with --as-of.")


def test_the_json_has_every_quantity_with_its_figures_and_a_plan_from_the_front(thin: Path) -> None:
    told = promised(call("annual", "e-1", "2026", "--format", "json", at=thin).out)
    [row] = [row for row in told["result"]["rows"] if row["verdict"] == "outside"]
    assert [f["value"] for f in row["figures"] if f["name"] == "limit at_most"] == ["15/16 in"]
    assert [axle["at"] for axle in told["result"]["plan"]] == ["engine-truck-1", "driver-1", "driver-2", "tender-1"]
    assert told["result"]["plan"][2]["right"]["verdict"] == "outside"
    assert told["result"]["plan"][0]["left"]["verdict"] is None
    assert told["counts"]["outside"] == sum(f["verdict"] == "outside" for f in told["findings"])


def test_a_place_whose_wheelset_is_out_is_drawn_empty_and_says_since_when(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THICK})
    path = root / "engines" / "e-1.yaml"
    told = path.read_text(encoding="utf-8").replace(OUT, f"{OUT}    until: 2026-02-01\n")
    path.write_text(told, encoding="utf-8")
    plan = promised(call("annual", "e-1", "2026", "--format", "json", at=root).out)["result"]["plan"]
    assert [axle["at"] for axle in plan] == ["engine-truck-1", "driver-1", "driver-2", "tender-1"]
    assert plan[1]["empty_since"] == "2026-02-01"
    assert "| driver-1: no wheelset here since 2026-02-01 | " in call(
        "annual", "e-1", "2026", "--format", "markdown", at=root
    ).out.replace("\\", "")
    page = call("annual", "e-1", "2026", at=root).out
    assert "driver-1: no wheelset here since 2026-02-01</text>" in page
    assert parsed(page).errors == []
    status = call("status", at=root).out
    assert "driver-1       -  no wheelset here since 2026-02-01" in status


def test_the_first_page_opens_with_what_is_not_within(thin: Path) -> None:
    page = call("annual", "e-1", "2026", "--format", "markdown", at=thin).out
    headings = [line for line in page.splitlines() if line.startswith("## ")]
    assert headings[:3] == ["## Not within", "## For a person to look at", "## Within the limits on file"]


def test_nothing_read_is_never_told_as_a_pass(tmp_path: Path) -> None:
    page = call("annual", "e-1", "2026", "--format", "markdown", at=small_ledger(tmp_path)).out
    assert "Nothing was ever read on" in page
    assert "nothing read" in page.partition("## Plan of the wheels")[2]


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        (("e-9", "2026"), "there is no engine 'e-9'. There are: e-1."),
        (("e-1", "2027"), "of 2027: the book goes as far as 2026-02-28 (the book was closed that day)."),
        (("e-1", "1901"), "no record of engine e-1 is of 1901 or before."),
        (("e-1", "26"), "'26' is no year as it is written here"),
        (("e-1", "２０２６"), "is no year as it is written here"),
    ],
)
def test_what_cannot_be_told_is_refused_in_a_sentence(thin: Path, asked: tuple[str, str], says: str) -> None:
    called = call("annual", *asked, at=thin)
    assert says in called.err
    assert called.out == ""
    assert called.code == 2


def test_a_file_is_written_whole_and_never_over_another(thin: Path) -> None:
    first = call("annual", "e-1", "2026", "-o", "a.html", at=thin)
    written = (thin / "a.html").read_bytes()
    assert first.code == 1
    assert first.out == ""
    assert written == call("annual", "e-1", "2026", at=thin).out.encode()
    again = call("annual", "e-1", "2025", "-o", "a.html", at=thin)
    assert again.code == 2
    assert "is there already" in again.err
    assert (thin / "a.html").read_bytes() == written


@pytest.mark.parametrize(("engine", "shape"), [("12", "html"), ("3", "markdown"), ("3", "json")])
def test_the_same_records_and_day_give_the_same_bytes(tmp_path: Path, engine: str, shape: str) -> None:
    asked = ("annual", engine, "2025", "--format", shape, "--ledger", str(TOP / "demo-ledger"))
    assert call(*asked, at=tmp_path).out == call(*asked, at=tmp_path).out


def test_a_browser_reads_every_page_of_the_demo_without_an_error(tmp_path: Path) -> None:
    for engine in ("12", "3", "21"):
        page = call("annual", engine, "2025", "--ledger", str(TOP / "demo-ledger"), at=tmp_path).out
        assert parsed(page).errors == []


def test_the_page_stands_alone_and_asks_for_nothing_from_outside(tmp_path: Path) -> None:
    page = call("annual", "12", "2026", "--ledger", str(TOP / "demo-ledger"), at=tmp_path).out
    found = html5lib.parse(page, namespaceHTMLElements=False)
    assert not {"script", "link", "iframe", "object", "form", "base"} & {str(one.tag) for one in found.iter()}
    for one in found.iter():
        for name, value in one.attrib.items():
            assert not str(name).startswith("on")
            if str(name) in ("src", "href"):
                assert value.startswith(("data:image/svg+xml;base64,", "data:image/jpeg;base64,", "#"))
    assert "default-src 'none'" in page
    assert "@import" not in page
    assert "url(" not in page
    assert all(one.attrib.get("alt") for one in found.iter("img"))
    assert {one.attrib["href"][1:] for one in found.iter("a")} <= {str(one.attrib.get("id")) for one in found.iter()}


def test_the_plan_has_its_words_for_who_cannot_see_it(thin: Path) -> None:
    page = call("annual", "e-1", "2026", at=thin).out
    said = re.search(r'<desc id="plan-1-words">(.*?)</desc>', page)
    assert said
    assert "right outside, flange thickness 15/16 in, margin 0 in" in said[1]
    assert "FRONT" in page


def test_no_text_of_a_record_can_act(tmp_path: Path) -> None:
    def ledger(folder: Path, text: str) -> Path:
        folder.mkdir()
        quoted = json.dumps(text)
        files = {
            AT: THIN + f"not_measured:\n  - quantity: flange_height\n    places: [driver-1 left]\n    because: other\n"
                       f"    note: {quoted}\nnote: {quoted}\n",
            "defects/2026/2026-01-10-flange.yaml": DEFECT.replace('"Flange thin."', quoted)
            .replace('"Not to be used."', quoted),
            "waivers/w-1.yaml": "kind: waiver\nfinding:\n  check: flange-thin\n  subject: e-1 driver-2 right\n"
                                f"reason: {quoted}\napproved_by: lead\nexpires_on: 2026-12-31\n",
        }  # fmt: skip
        root = small_ledger(folder, files)
        for name in ("ledger.yaml", "engines/e-1.yaml"):
            path = root / name
            old = path.read_text(encoding="utf-8")
            path.write_text(re.sub(r"(?m)^(railway|number): .*$", lambda m: f"{m[1]}: {quoted}", old), encoding="utf-8")
        return root

    bad, plain = ledger(tmp_path / "bad", HOSTILE), ledger(tmp_path / "plain", "plain")
    page = call("annual", "e-1", "2026", at=bad).out
    assert page
    assert tags(page) == tags(call("annual", "e-1", "2026", at=plain).out)
    assert parsed(page).errors == []
    assert MARKS in page
    assert "{{ 7*7 }}" in page
    text = call("annual", "e-1", "2026", "--format", "markdown", at=bad).out
    assert "<script>" not in text
    assert not re.search(r"(?<!\\)\]\(", text)
    assert promised(call("annual", "e-1", "2026", "--format", "json", at=bad).out)


def test_no_sign_that_acts_leaves_a_renderer_whatever_stands_in_a_view() -> None:
    """A reader refuses such signs in a record; were one to slip through, it would be shown and not obeyed."""
    bad, plain = (made(text) for text in (f"{HOSTILE} \x1b[31m\u202ered", "plain"))
    page = annual_html.render_annual(bad)
    assert [tag for tag in tags(page) if tag != "text"] == [
        tag for tag in tags(annual_html.render_annual(plain)) if tag != "text"
    ]
    assert parsed(page).errors == []
    for rendered in (page, annual_markdown.render_annual(bad), json.dumps(annual_json(bad))):
        assert not re.search("[\x1b\u202e]", rendered)


def made(text: str) -> Annual:
    """A summary that has the text everywhere a record's text can stand."""
    item, row = Item(text, Verdict.OUTSIDE), (text, text)
    finding = Finding("flange-thin", Verdict.OUTSIDE, Severity.SHOP, text, Place(text), text)
    mark = Mark(Verdict.OUTSIDE, None, finding)
    table = Listed(text, row, ((row, Verdict.OUTSIDE), (row, None)))
    part = Part("x", text, (item,), (table,), (Plot("<svg/>", text),))
    return Annual(
        text, text, text, 2026, text, Day(date(2026, 2, 28)), text, text, (text,), (Group(text, (item,), 2, "x"),),
        (PlanAxle(text, text, mark, mark, mark),), (part,), (text,), text,
    )  # fmt: skip


def test_another_engines_findings_turn_no_exit_code_and_what_is_no_engines_does(tmp_path: Path) -> None:
    two = small_ledger(tmp_path, {AT: THIN})
    (two / "engines" / "e-2.yaml").write_text('kind: engine\nnumber: "2"\nwheelsets: []\n', encoding="utf-8")
    (two / "service").mkdir(exist_ok=True)
    (two / "service" / "e-2-2026-01.yaml").write_text(
        'kind: service\nengine: e-2\nmonth: "2026-01"\nlines: []\n', encoding="utf-8"
    )
    found = json.loads(call("annual", "e-2", "2026", "--format", "json", at=two).out)["findings"]
    assert not [f for f in found if "e-1" in f["subject"].split()]
    (two / "tires" / "torn.yaml").write_text("kind: tire\n  marks: [", encoding="utf-8")
    called = call("annual", "e-2", "2026", "--format", "json", at=two)
    assert "unreadable" in {f["verdict"] for f in json.loads(called.out)["findings"]}
    assert called.code == 1


def test_a_wheel_that_is_thick_enough_is_within_and_the_word_safe_stands_nowhere(tmp_path: Path) -> None:
    page = call("annual", "e-1", "2026", "--format", "markdown", at=small_ledger(tmp_path, {AT: THICK})).out
    assert "| ✓ driver-2 right (t-2-right), worst | 1 1/4 in (31.75 mm) |" in page
    assert "✓ within: flange" not in page  # of the wheel as a whole: which shims lie under its tire, nobody wrote
    assert "| driver-2 (d-2) | ○ not assessed: shim layers under a tire: which shims" in page
    assert not re.search(r"\b(safe|OK|fit to run|passed)\b", page)


def test_a_template_that_nobody_filled_in_is_no_inspection_of_the_year(tmp_path: Path) -> None:
    blank = "kind: inspection\nmeasured_on: 2026-02-10\nengine: e-1\npurpose: periodic\n"
    small = small_ledger(tmp_path, {AT: THICK, "inspections/2026/2026-02-10-e-1-periodic.yaml": blank})
    called = call("annual", "e-1", "2026", "--format", "markdown", at=small)
    told = [line for line in called.out.splitlines() if "2026-02-10-e-1-periodic" in line.replace("\\", "")]
    assert [line for line in told if "it counts as no inspection" in line], called.out
    assert not [line for line in told if "| periodic |" in line]


def test_a_short_id_in_a_cell_is_not_broken_at_its_hyphen_and_hostile_text_stays_text() -> None:
    from axlebook.reports.html import _unbroken

    assert str(_unbroken("by 2026-12-05.")) == 'by <span class="id">2026-12-05</span>.'
    assert str(_unbroken("with bar-1 by v6")) == 'with <span class="id">bar-1</span> by v6'
    assert str(_unbroken("2026-02-14-e-12-annual <b>x-1</b>")) == (
        '2026-02-14-e-12-annual &lt;b&gt;<span class="id">x-1</span>&lt;/b&gt;'
    )


def test_like_findings_name_each_record_once_with_its_lines() -> None:
    from axlebook.reports.annual_findings import findings_part

    def found(path: str, line: int) -> Finding:
        return Finding("check", Verdict.SUSPECT, Severity.DATA, "e-1", Place(path), "Slip.", known_at=(line, 1))

    many = [found("a/r-1.yaml", 9), found("a/r-2.yaml", 4), found("a/r-1.yaml", 7)]
    [table] = findings_part(many).tables
    assert [cells[3] for cells, _ in table.rows] == ["r-1, lines 7, 9; r-2, line 4"]


def test_a_correction_tells_who_made_it_and_whom_nobody_named_did_not_approve_it(tmp_path: Path) -> None:
    correction = """kind: correction
record: 2026-01-10-e-1-annual
corrected_on: 2026-01-15
by: v1
at: /readings/0/values/worst
was: 15/16 in
is: 7/8 in
reason: read again
"""
    root = small_ledger(tmp_path, {AT: THIN, "corrections/c-1.yaml": correction})
    out = call("annual", "e-1", "2026", "--format", "markdown", at=root).out
    head, _, row = out[out.rindex("\n", 0, out.index("Approved by")) :].split("\n")[1:4]
    told = dict(zip(head.split("|"), row.split("|"), strict=True))
    assert (told[" By "].strip(), told[" Approved by "].strip()) == ("v1", "")
    assert told[" Record "].strip().endswith("flange thickness worst")  # as history has it, and no pointer


def test_a_tag_that_says_no_restriction_is_told_so(tmp_path: Path) -> None:
    tagged = DEFECT.replace('restriction:\n  words: "Not to be used."\n', "tag: {tagged_on: 2026-01-10}\n")
    root = small_ledger(tmp_path, {AT: THIN, "defects/2026/2026-01-10-flange.yaml": tagged})
    out = call("annual", "e-1", "2026", "--format", "markdown", at=root).out
    assert "tag 2026-01-10: it says no restriction" in out
