"""The pull-request comment: one, worst first, never too long, and nothing in it but words.

The golden file is written anew by `python -m tests.cli.test_compare_comment`, and read before it is kept.
"""

from __future__ import annotations

import re
import tempfile
from datetime import date
from pathlib import Path

import pytest
from tests.cli.commands import call
from tests.cli.compare_book import OWN_SET, at, book, branch, git, session
from tests.cli.repositories import written

from axlebook.reports.compare_markdown import render_comment
from axlebook.reports.compare_view import Compared, Item, Section, State
from axlebook.reports.view import Day, Report
from axlebook.sources.new_repository import NewCommit, write_repository

GOLDEN = Path(__file__).parent / "golden" / "compare.md"
MOST = 60_000
CHANGES: dict[str, str | None] = {
    at(2026): session(2026, "15/16 in"),
    at(2024): session(2024, "1 9/32 in", signed=True),
    at(2022): None,
    "limits/own.yaml": OWN_SET.replace("1 1/16 in", "1 in"),
}


def comment(folder: Path) -> str:
    """The comment on one branch of a small book whose commits are the same everywhere."""
    root = book(folder / "drawn")
    tracked = {path: (root / path).read_bytes() for path in git(root, "ls-files").splitlines()}
    there = folder / "book"
    changes = {path: None if text is None else text.encode() for path, text in CHANGES.items()}
    write_repository(there, [
        NewCommit(date(2026, 1, 5), "lead", "the book as it was", tracked),
        NewCommit(date(2026, 1, 12), "v2", "this winter", changes, branch="topic", start="main"),
    ])  # fmt: skip
    called = call("compare", "main", "topic", "--format", "markdown", at=there)
    assert called.code == 1
    return called.out


def test_the_comment_is_as_it_was_read_and_kept(tmp_path: Path) -> None:
    assert comment(tmp_path) == GOLDEN.read_text(encoding="utf-8")


def test_what_weighs_most_comes_first() -> None:
    titles = [
        line for line in GOLDEN.read_text(encoding="utf-8").splitlines() if line.startswith(("####", "<summary>"))
    ]
    assert [re.sub(r"[#<>/]|summary|\(.*|\\", "", title).strip() for title in titles][:5] == [
        "Signed records altered or deleted",
        "Findings that are new and count",
        "Limits loosened or taken away",
        "Records altered or deleted",
        "Readings out of expectation",
    ]


HOSTILE = (
    "@lead #12 GH-12 owner/name#3 <script>x</script> <img src=x> [a](http://evil.example) ![b](//evil.example/x.png) "
    "`code` **bold** | cell | </details> &#64;lead $x$ :tada: https://evil.example www.evil.example a@evil.example "
    "\u202e\x1b[31m"
)


ACTS = (
    r"@\w", r"(?<!\\)#\w", r"\\#\w", r"(?<!\\)\[", r"https?:", r"www\.", r"(?i)gh-\d", r":tada:", r"(?<!\\)\$", r"&#",
    r"[\x00-\x08\x0b-\x1f\u202e]", r"!\[",
)  # fmt: skip


def test_no_text_of_a_record_acts_in_a_comment(tmp_path: Path) -> None:
    root = book(tmp_path / "own")
    escaped = HOSTILE.replace("\\", "\\\\").replace('"', '\\"').replace("\x1b", "\\e").replace("\u202e", "\\u202e")
    branch(root, "topic")
    written(root, {
        at(2026): session(2026, "15/16 in", more=f'note: "{escaped}"\n'),
        at(2023): session(2023, "1 15/64 in", more=f'note: "{escaped}"\n'),
        at(2024): session(2024, "1 7/32 in", more=f'note: "{escaped}"\n'),
        at(2022): session(2022, f'"{escaped[:60]}"'),
        "limits/own.yaml": OWN_SET.replace("1 1/16 in", "1 in").replace(
            "  title: Notebook of the test railway (invented)", f'  title: "{escaped}"'
        ),
        "tires/t-[x](y).yaml": "kind: tire\n",
    })  # fmt: skip
    git(root, "add", "--all")
    git(root, "-c", "user.name=@lead <b> [x](y)", "commit", "--quiet", "--message", "m")
    text = call("compare", "main", "topic", "--format", "markdown", at=root).out
    plain = re.sub(r"`[^`\n]*`", "", text)  # what stands as code is not read
    assert "lead" in plain
    own = r"</?(details|summary|sub|br)>"
    assert not re.findall(r"(?<!\\)<", re.sub(own, "", plain))
    for acts in ACTS:
        assert not re.findall(acts, plain), acts
    rows = [line for line in text.splitlines() if line.startswith("| ")]
    assert {len(re.findall(r"(?<!\\)\|", row)) for row in rows} <= {7}
    assert text.count("<details>") == text.count("</details>")


def test_markdown_itself_makes_nothing_of_it(tmp_path: Path) -> None:
    from markdown_it import MarkdownIt

    reader = MarkdownIt("commonmark", {"html": True}).enable("table")
    root = book(tmp_path / "own")
    written(root, {at(2023): session(2023, "1 15/64 in", more="note: '" + HOSTILE.rstrip("\u202e\x1b[31m") + "'\n")})
    text = call("compare", "main", "--format", "markdown", at=root).out
    kinds = {child.type for token in reader.parse(text) for child in token.children or ()}
    assert kinds <= {"text", "strong_open", "strong_close", "html_inline", "softbreak", "code_inline", "text_special"}
    inline = {c.content for t in reader.parse(text) for c in t.children or () if c.type == "html_inline"}
    assert inline <= {"<br>", "<sub>", "</sub>"}


@pytest.mark.parametrize("readings", [400, 3000])
def test_it_never_grows_too_long_and_what_is_left_out_is_counted(tmp_path: Path, readings: int) -> None:
    root = book(tmp_path / "own")
    text = session(2026, "15/16 in")
    one = text[text.index("  - quantity") :].replace("worst", "{} deg")
    many = "".join(one.format(number % 360) for number in range(readings))
    written(root, {at(2026): text[: text.index("  - quantity")] + many})
    called = call("compare", "main", "--format", "markdown", at=root)
    assert len(called.out) < MOST
    assert called.out.count("<details>") == called.out.count("</details>")
    assert called.out.rstrip().endswith("</sub>")
    left = re.search(r"\*\*(\d+) more are not shown here\*\*", called.out)
    shown = called.out.count("| e-1 driver-2 right ")
    assert (left is not None) is (shown < readings)
    assert shown + int(left[1] if left else 0) >= readings


@pytest.mark.parametrize("most", [MOST, 1_800])
def test_what_is_folded_and_what_is_left_out_are_counted_in_findings_and_not_in_lines(most: int) -> None:
    told = tuple(Item(f"NOT ASSESSED, {n}", f"cause {n}", many=n) for n in range(1, 21))  # 210 in all, 15 lines open
    section = Section("New findings that do not count", told)
    report = Report("compare", Day(date(2026, 3, 7)), {}, ())
    state = State("one")
    text = render_comment(Compared(state, state, report, None, (), (section,), "All."), most)  # type: ignore[arg-type]
    shown = [int(n) for n in re.findall(r"NOT ASSESSED, (\d+)", text)]
    assert "<summary>90 more</summary>" in text
    left = re.search(r"\*\*(\d+) more are not shown here\*\*", text)
    assert (left is None) is (most == MOST)
    assert sum(shown) + int(left[1] if left else 0) == 210


def test_on_a_terminal_it_is_a_screen_and_counts_what_is_left(tmp_path: Path) -> None:
    root = book(tmp_path / "own")
    written(root, CHANGES)
    called = call("compare", "main", at=root)
    assert len(called.lines) <= 24
    assert re.search(r"^Not shown: \d+ more\. In full: --all$", called.out, re.M)
    for loud in ("Signed records", "Findings that are new", "Limits loosened"):
        assert loud in called.out


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as name:
        GOLDEN.write_text(comment(Path(name)), encoding="utf-8")
