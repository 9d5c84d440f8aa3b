"""Every command on a ledger whose words mean harm: an answer, and none of the words acts wherever it is read."""

from __future__ import annotations

import base64
import csv
import io
import json
import re
from pathlib import Path
from xml.etree import ElementTree

import html5lib
import pytest
from icalendar import Calendar
from tests.cli.commands import AT, THIN, TOP, Called, call, small_ledger
from tests.cli.repositories import commit, git, small_repository
from tests.hostile.poisoned import poisoned_demo

COMMANDS = [
    "check --all", "check --all --format json", "check --format sarif", "check --format github", "check --no-history",
    "status --all", "status --format json", "status e-12 --color",
    "due --all", "due --calendar", *(f"due --format {shape}" for shape in ("json", "markdown", "csv", "ics")),
    *(f"wear --format {shape}" for shape in ("text", "json", "markdown", "html", "svg")),
    *(f"annual e-12 2025 --format {shape}" for shape in ("html", "markdown", "json")),
    *(f"fit t-2601 d-3-left --format {shape}" for shape in ("text", "json", "markdown", "html")),
    *(f"bore d-3-left --format {shape}" for shape in ("text", "json", "markdown", "html")),
    *(f"braking e-12 --format {shape}" for shape in ("text", "json", "markdown", "html", "svg")),
    *(f"turning e-12 --format {shape}" for shape in ("text", "json", "markdown", "html")),
    *(f"history d-2 --format {shape}" for shape in ("text", "json", "markdown")),
    *(f"compare HEAD~1 --format {shape}" for shape in ("text", "json", "markdown")),
    "explain flange-thin", "explain us-49-cfr-230", "explain us-49-cfr-230 --format json",
]  # fmt: skip
# Nothing that moves a cursor, colors, turns the direction of writing or hides: but for the line end.
ACTS_ON_A_TERMINAL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u00ad\u200e\u200f\u2028-\u202e\u2066-\u2069]")
COLOR = re.compile(r"\x1b\[[0-9;]*m")


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The poisoned demo as a repository of two commits: as it was, and as it was poisoned."""
    root = poisoned_demo(tmp_path_factory.mktemp("hostile"))
    ledger = root / "ledger.yaml"
    ledger.write_text(re.sub(r'"?git_history"?: .*\n', "", ledger.read_text("utf-8")), encoding="utf-8")
    git(root, "init", "--quiet", "--initial-branch=main")
    poisoned = {path: path.read_bytes() for path in root.rglob("*.yaml")}
    for path in poisoned:
        path.write_bytes((TOP / "demo-ledger" / path.relative_to(root)).read_bytes())
    commit(root, "as it was")
    for path, content in poisoned.items():
        path.write_bytes(content)
    commit(root, "\x1b[31mplanted <planted-tag> =1+1")
    return root


def answered(called: Called) -> None:
    """An answer of 0, 1 or 2, in which no fault of axlebook shows."""
    assert called.code in (0, 1, 2)
    assert "Traceback" not in called.out + called.err
    assert "a fault of axlebook itself" not in called.err
    assert (called.code == 2) == (not called.out), called.err
    assert not ACTS_ON_A_TERMINAL.search(called.err)


@pytest.mark.parametrize("asked", COMMANDS)
def test_no_word_of_a_record_acts_in_what_a_command_gives(asked: str, book: Path) -> None:
    called = call(*asked.split(), at=book)
    answered(called)
    assert called.code != 2, called.err
    shape = asked.rpartition("--format ")[2] if "--format" in asked else "html" if "annual" in asked else "text"
    {"html": in_a_browser, "svg": in_a_drawing, "csv": in_a_spreadsheet, "ics": in_a_calendar, "markdown": in_markdown,
     "json": in_json, "sarif": in_json, "github": in_a_workflow, "text": on_a_terminal}[shape](called.out)  # fmt: skip


def on_a_terminal(out: str) -> None:
    assert not ACTS_ON_A_TERMINAL.search(COLOR.sub("", out))


def in_json(out: str) -> None:
    assert json.loads(out)
    assert not ACTS_ON_A_TERMINAL.search(out)


def in_a_browser(out: str) -> None:
    page = html5lib.parse(out, namespaceHTMLElements=False)
    names = {element.tag for element in page.iter() if isinstance(element.tag, str)}
    assert not names & {"planted-tag", "script", "iframe", "object", "embed", "base", "form"}
    for element in page.iter():
        assert not [name for name in element.attrib if name.lower().startswith("on")]
        for name in ("href", "src", "action", "{http://www.w3.org/1999/xlink}href"):
            link = element.attrib.get(name, "")
            if link.startswith("data:image/svg+xml;base64,"):  # our own drawing
                in_a_drawing(base64.b64decode(link.partition(",")[2]).decode())
            elif element.tag == "img" and link.startswith(("data:image/jpeg;base64,", "data:image/png;base64,")):
                assert base64.b64decode(link.partition(",")[2]).startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n"))
            else:
                assert not re.match(r"(?i)\s*(javascript|data|https?):", link), element.attrib


def in_a_drawing(out: str) -> None:
    drawing = ElementTree.fromstring(out)
    names = {element.tag.rpartition("}")[2] for element in drawing.iter()}
    assert not names & {"script", "planted-tag", "foreignObject"}
    assert not [name for element in drawing.iter() for name in element.attrib if name.startswith("on")]


def in_a_spreadsheet(out: str) -> None:
    rows = list(csv.reader(io.StringIO(out, newline="")))
    assert len({len(row) for row in rows}) == 1
    assert not [cell for row in rows for cell in row if cell.lstrip().startswith(("=", "+", "-", "@"))]


def in_a_calendar(out: str) -> None:
    events = Calendar.from_ical(out).walk("VEVENT")
    assert len(events) == out.count("BEGIN:VEVENT\r\n")
    assert not [event for event in events if "ATTACH" in event]
    assert out.count("END:VCALENDAR\r\n") == 1


def in_a_workflow(out: str) -> None:
    commands = [line for line in out.splitlines() if line.startswith("::")]
    ours = re.compile(r"::(error|warning|notice) file=[^:]*,line=\d+,col=\d+,title=[a-z-]+::")
    assert all(ours.match(line) for line in commands)
    assert "file=planted" not in [line.split(",")[0] for line in commands]


def in_markdown(out: str) -> None:
    from markdown_it import MarkdownIt

    tokens = MarkdownIt("commonmark", {"html": True}).enable("table").parse(out)
    inner = [child for token in tokens for child in token.children or ()]
    tags = [one.content for one in [*tokens, *inner] if one.type in ("html_inline", "html_block")]
    assert not [tag for tag in tags if MARK_IN_A_TAG.search(tag)]
    assert not [one for one in inner if one.type == "image"]
    assert not [one for one in inner if one.type == "link_open" and "planted" in str(one.attrs.get("href"))]


MARK_IN_A_TAG = re.compile(r"<[^>]*(planted|svg|script)")


WRITTEN = "\x1b]0;planted\x07\u202e<b>=1+1"


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small ledger in a repository."""
    return small_repository(tmp_path_factory.mktemp("small"), {AT: THIN})


@pytest.mark.parametrize("asked", [
    "check {}", "status {}", "due --engine {}", "wear {}", "annual {} 2026", "annual e-1 {}", "fit {} d-2-left",
    "fit t-2-left {}", "bore {}", "braking {}", "turning {}", "turning e-1 --save {}", "turning e-1 --cut {}",
    "history {}", "compare {}", "explain {}", "new {} x", "new tire {}", "steam {}", "steam e-1 {}",
    "steam e-1 --miles {}", "steam e-1 --by {}", "steam e-1 2026-02-01 --by lead --note {}", "check --as-of {}",
    "check --at {}", "check --ledger {}", "check --format {}", "{}", "enter {}", "enter e-1 --purpose {}",
    "demo --seed {} x", "annual e-1 2026 -o {}/{}/x", "fit --bore {}", "braking e-1 --power {}", "init {}", "demo {}",
])  # fmt: skip
def test_a_hostile_argument_is_answered_in_clean_words(asked: str, small: Path) -> None:
    called = call(*(word.replace("{}", WRITTEN) for word in asked.split()), at=small)
    assert "a fault of axlebook itself" not in called.err
    assert called.code in (0, 1, 2)
    assert not ACTS_ON_A_TERMINAL.search(called.err)
    on_a_terminal(called.out)


@pytest.mark.parametrize("value", [
    "1e999999 in", "1" * 10_000 + "/" + "3" * 10_000 + " in", "9" * 10_000 + " in", "-0 in", "1e-999999 in",
    "1/0 in", "0/0 in", "nan in", "inf in", "1" + " " * 10_000 + "in", "1 " + "1/" * 5_000 + "2 in", "٣ in", "1e30 in",
    "999999999999999 in", "under " * 2_000 + "1 in", "1 in to " * 2_000 + "2 in",
])  # fmt: skip
def test_a_number_out_of_all_measure_is_a_finding_with_a_place(value: str, tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THIN.replace("15/16 in", f'"{value}"')})
    called = call("check", "--all", "--format", "json", at=root)
    answered(called)
    found = [one for one in json.loads(called.out)["findings"] if one["path"] == AT and one["line"] == 12]
    assert found, value[:30]
    assert all(len(one["message"]) < 1_000 for one in found)
    for command in ("status", "due", "wear", "annual e-1 2026", "turning e-1", "braking e-1"):
        answered(call(*command.split(), at=root))
