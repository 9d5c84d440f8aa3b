"""`enter` in a real pseudo-terminal of 24 lines by 80: a whole wheelset with a slip, an undo, a kill and a resume."""

from __future__ import annotations

import os
import re
import shutil
import signal
import sys
import termios
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from select import select
from typing import Any

import pexpect
import pytest
from tests.cli.commands import TOP, call, promised

from axlebook.sources.schemas import judge
from axlebook.sources.two_hands import ONE_PROCESS
from axlebook.sources.yaml_text import read_tree

DAY = "2026-03-07"
PATH = f"inspections/2026/{DAY}-d-2-annual.yaml"
# Every prompt ends so, and begins at the edge, as no line of a record that is shown does.
PROMPT = re.compile(r"(?:^|\n)(?! )[^\n]*(?:: |\? )$")
QUIET = 0.05  # seconds without a word more: what was read is not cut off in the middle
HEADER = [
    (r"Day \[", DAY), (r"Who measures", "lead, v6"), (r"How held", "4"), (r"Clock position", "6 o'clock"),
    (r"Air temperature", "45 degF"), (r"Temperature of the part", "45 degF"),
    (r"Temperature of the instrument", "45 degF"),
    (r"Instruments at hand", "bar-1 gauge-2 micrometer-2 rule-1 rule-3 wheel-caliper-1"),
    (r"Unit where none is written", "-"),
]  # fmt: skip


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    root = tmp_path / "book"
    shutil.copytree(TOP / "demo-ledger", root)
    return root


def _sits_down(width: int) -> None:
    """Ctrl-C stops it, also where the tests run in the background; and it is as wide as it is from the beginning."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    termios.tcsetwinsize(0, (24, width))


class Terminal:
    """A person at a terminal."""

    def __init__(
        self, ledger: Path, *arguments: str, environment: dict[str, str] | None = None, width: int = 80
    ) -> None:
        told = {**os.environ, "TERM": "xterm", "NO_COLOR": "1", "PYTHONPATH": str(TOP / "tool"), **(environment or {})}
        told.pop("COLUMNS", None)  # the tests' own terminal may have told its width
        self.child: Any = pexpect.spawn(
            sys.executable, ["-m", "axlebook", *arguments], cwd=str(ledger), env=told, encoding="utf-8",
            dimensions=(24, width), timeout=60, maxread=65536, preexec_fn=partial(_sits_down, width),
        )  # fmt: skip
        self.child.delaybeforesend = None

    def ask(self) -> str:
        """The screen since the last answer, up to the next prompt; all that is left where the program has ended."""
        seen = ""
        while True:
            found = self.child.expect([r"\? $", r": $", pexpect.EOF], searchwindowsize=4)
            seen += self.child.before + (self.child.after if found < 2 else "")
            if found == 2 or (PROMPT.search(seen) and not select([self.child.child_fd], [], [], QUIET)[0]):
                return str(seen.replace("\r\n", "\n"))

    def type(self, text: str) -> str:
        """Type a line; give the screen that follows."""
        self.child.sendline(text)
        return self.ask()

    def header(self) -> str:
        """Answer what is asked before the walk."""
        screen = self.ask()
        for asks, text in HEADER:
            assert re.search(asks, screen), screen
            screen = self.type(text)
        return screen

    def kill(self) -> None:
        """The power goes."""
        self.child.kill(signal.SIGKILL)
        self.child.wait()

    def stop(self) -> int:
        """The exit code after Ctrl-C; once more where it fell between Python's last look for one and its wait."""
        self.child.sendintr()
        if self.child.expect([pexpect.EOF, pexpect.TIMEOUT], timeout=10):
            self.child.sendintr()
        return self.end()

    def end(self) -> int:
        """The exit code."""
        if self.child.after is not pexpect.EOF:
            self.child.expect(pexpect.EOF)
        self.child.wait()
        return int(self.child.exitstatus)


def same_as_last_time(screen: str) -> str:
    """The answer of a person who finds everything as it was."""
    if screen.rstrip().endswith("Seen?"):
        return "no"
    if "back-to-back, 0 deg: read with which instrument?" in screen:
        return "micrometer-2"
    flat = " ".join(screen.split())
    last = re.findall(r"Last time (.+?)(?: at [^.]+?)? on \d{4}-\d\d-\d\d(?: \([^)]*\))?\.", flat)
    return str(last[-1]) if last else "n no instrument"


def box(screen: str) -> str:
    """The number and name of the box that is asked."""
    found = re.findall(r"^(\d+ of \d+\. .+)$", screen, re.MULTILINE)
    return str(found[-1])


def walk(terminal: Terminal, screen: str, until: str) -> str:
    """Answer as last time until something stands on the screen."""
    for _ in range(80):
        if re.search(until, screen):
            return screen
        screen = terminal.type(same_as_last_time(screen))
    raise AssertionError(screen)


def test_a_whole_wheelset_with_a_slip_an_undo_a_kill_in_the_middle_and_a_resume(ledger: Path) -> None:
    before = sorted(p.relative_to(ledger) for p in ledger.rglob("*.yaml"))
    one = Terminal(ledger, "enter", "d-2", "--purpose", "annual")
    before_it = screen = one.header()
    assert "1 of 44. e-12 driver-2 left, tire thickness, 0 deg" in screen

    # how to take it, then a slip: 13/16 where 2 13/16 is meant
    assert "Rule, square to the tread" in one.type("?")
    screen = one.type("13/16 in")
    assert "= 13/16 in (20.6375 mm)" in screen
    assert "UNLIKELY." in screen
    expected = re.search(r"Expect (.+?) to (.+? in)\.", " ".join(before_it.split()))
    assert expected is not None
    told = f"Expected was {expected[1]} in to {expected[2]}."
    assert told in " ".join(screen.split())  # as the question before it said
    assert "2 13/16 in" in screen  # last time, and what fits
    assert "k keep, r re-measure, s skip" in screen
    screen = one.type("r")
    assert "1 of 44." in screen
    screen = one.type("2 13/16 in")
    assert "= 2 13/16 in (71.4375 mm)" in screen

    # an undo
    screen = one.type("2 25/32 in")
    assert "3 of 44." in screen
    screen = one.type("u")
    assert "The last answer is taken back: box 2, 2 25/32 in." in screen
    assert "2 of 44." in screen

    # the power goes at the first flange, in the middle of the wheelset
    screen = walk(one, screen, "driver-2 left, flange height")
    stopped_at = box(screen)
    one.kill()
    assert not (ledger / PATH).exists()

    two = Terminal(ledger, "enter", "d-2", "--purpose", "annual")
    screen = two.ask()
    assert "Go on with it? yes or no" in screen
    screen = two.type("yes")
    assert "answers are here already" in screen
    assert box(screen) == stopped_at

    # back-to-back with two digits exchanged: kept only with a second reading that says the same
    screen = walk(two, screen, r"of 44. e-12 driver-2, back-to-back, 0 deg")
    was = same_as_last_time(screen)
    slip = was.replace("53.2", "52.3")
    screen = two.type(slip)
    assert "UNLIKELY." in screen
    screen = two.type("k")
    screen = two.type(was)
    assert "does not bear the first out" in " ".join(screen.split())
    screen = two.type(was)
    screen = walk(two, screen, r"The end: ")
    # two wheels with 8 figures each and the pair with 4; 9 looks a wheel; no feelers for 3 places at each register
    assert "The end: 20 read, 18 looked for, 6 not measured." in screen
    assert "w write" in screen
    assert slip not in screen
    two.child.sendline("w")
    assert two.end() == 0
    told = " ".join(two.child.before.split())
    assert f"git add {PATH}" in told or "not under version control" in told
    assert "safe on this disk" in told

    after = sorted(p.relative_to(ledger) for p in ledger.rglob("*.yaml"))
    assert [str(p) for p in after if p not in before] == [PATH]
    tree = read_tree((ledger / PATH).read_bytes())
    assert judge(tree, PATH) == []
    assert (tree["measured_on"], tree["engine"], tree["by"]) == (DAY, "e-12", ["lead", "v6"])
    assert not list((ledger / ".drafts").glob("*.jsonl"))
    assert "required-reading-missing" not in call("check", PATH, "--all", at=ledger).out


def test_plain_mode_is_one_prompt_a_line_without_color_or_codes(ledger: Path) -> None:
    one = Terminal(
        ledger, "enter", "d-2", "--purpose", "annual", "--plain", environment={"NO_COLOR": "", "FORCE_COLOR": "1"}
    )
    one.child.expect(r"Day \[[0-9-]+\]:\r\n")
    for _, text in HEADER:
        one.child.sendline(text)
    one.child.expect(
        r"1 of 44\. e-12 driver-2 left, tire thickness, 0 deg\. "
        r"Last time 2 13/16 in on 2026-02-14\. Expect 2 25/32 to 2 7/8 in\. With rule-1\. Reading:\r\n"
    )
    assert "\x1b" not in one.child.before + one.child.after
    one.child.sendline("q")
    assert one.end() == 0
    assert "--resume" in one.child.before


@pytest.fixture
def in_color(ledger: Path) -> Iterator[Terminal]:
    one = Terminal(ledger, "enter", "d-2", "--purpose", "annual", environment={"NO_COLOR": ""})
    yield one
    one.kill()


def test_in_a_terminal_nothing_moves_the_cursor_and_no_line_is_wider_than_it(in_color: Terminal) -> None:
    in_color.header()
    screen = in_color.type("13/16 in")
    codes = set(re.findall(r"\x1b\[[0-9;?]*[A-Za-z]", screen))
    assert all(code.endswith("m") for code in codes)
    bare = re.sub(r"\x1b\[[0-9;]*m", "", screen)
    assert max(map(len, bare.splitlines())) <= 80
    assert len(bare.splitlines()) < 24


def test_at_sixty_columns_no_line_is_wider_and_no_figure_is_parted_at_the_end_of_one(ledger: Path) -> None:
    one = Terminal(ledger, "enter", "d-2", "--purpose", "annual", width=60)
    answers = ("?", "3/16 in", "k", "?", "worn through", "2 13/16 in", "q")
    screens = [one.header(), *(one.type(text) for text in answers)]
    again = Terminal(ledger, "enter", "d-2", "--purpose", "annual", "--new", width=60)
    last = again.ask()
    for asks, text in HEADER:  # what was said last time is offered, and there is much of it
        assert re.search(asks, last), last
        screens.append(last)
        last = again.type(text)
    again.kill()
    said = "\n".join(screens)
    assert "bar-1, gauge-2, micrometer-2, rule-1" in " ".join(said.split())
    typed = {*answers, *(text for _, text in HEADER)}
    lines = [line for line in said.splitlines() if line.strip() not in typed]
    assert [line for line in lines if len(line) > 60] == []
    assert not re.search(r"\d\n *\d+/\d", "\n".join(lines))


def test_the_end_of_input_in_a_terminal_keeps_the_draft(ledger: Path) -> None:
    one = Terminal(ledger, "enter", "d-2", "--purpose", "annual")
    one.header()
    one.child.sendeof()
    assert one.end() == 2
    assert "are kept as a draft" in " ".join(one.child.before.split())
    assert len(list((ledger / ".drafts").glob("*.jsonl"))) == 1


def test_a_stop_while_an_answer_is_weighed_keeps_the_answers_before_it(ledger: Path) -> None:
    two_processes = {ONE_PROCESS: ""}  # weigh it: the stop is for both, and one says so
    one = Terminal(ledger, "enter", "d-2", "--purpose", "annual", environment=two_processes)
    one.header()
    one.type("2 13/16 in")
    one.child.sendline("2 25/32 in")
    assert one.stop() == 2  # while it is weighed, or right after: both end the same way
    told = " ".join(one.child.before.split())
    assert "kept as a draft" in told
    assert "Go on with: axlebook enter d-2 --purpose annual --resume" in told
    two = Terminal(ledger, "enter", "d-2", "--resume")
    assert re.search(r"[23] of 44\. e-12 driver-2 left, tire thickness, ", two.ask())
    two.kill()


def test_a_paper_sheet_is_typed_in_by_its_id_through_a_power_cut(ledger: Path) -> None:
    sheet = call("sheet", "d-2", "--as-of", "2026-02-28", "--format", "json", at=ledger)
    id = promised(sheet.out)["result"]["sheet"]
    one = Terminal(ledger, "enter", id)
    screen = one.ask()
    assert "nothing on record changed" in " ".join(screen.split())
    for asks, text in HEADER:
        assert re.search(asks, screen), screen
        screen = one.type(text)
    screen = walk(one, screen, "driver-2 right, tire thickness")  # on paper it follows the left wheel's figures
    assert max(map(len, screen.splitlines())) <= 80
    stopped_at = box(screen)
    one.kill()
    two = Terminal(ledger, "enter", id)
    assert "Go on with it? yes or no" in two.ask()
    screen = two.type("y")
    assert box(screen) == stopped_at
    assert "The end: " in two.type("e")
    two.child.sendline("w")
    assert two.end() == 0
    assert f"Typed in from the sheet {id}." in (ledger / PATH).read_text(encoding="utf-8")


def test_two_people_at_once_each_keep_their_own_draft_and_write_their_own_record(ledger: Path) -> None:
    people = [Terminal(ledger, "enter", "d-2", "--purpose", "annual") for _ in range(2)]
    for one in people:
        one.header()
    for number, one in enumerate(people):
        one.type(f"2 {25 + 2 * number}/32 in")
    for one in people:
        assert "The end: 1 read" in one.type("e")
        one.child.sendline("w")
        assert one.end() == 0
    written = sorted((ledger / "inspections/2026").glob(f"{DAY}-d-2-annual*.yaml"), key=lambda p: p.stem)
    assert [path.stem for path in written] == [f"{DAY}-d-2-annual", f"{DAY}-d-2-annual-2"]
    values = [read_tree(path.read_bytes())["readings"][0]["values"] for path in written]  # type: ignore[index,call-overload]
    assert values == [{"0 deg": "2 25/32 in"}, {"0 deg": "2 27/32 in"}]


def test_a_draft_that_someone_is_writing_is_not_offered_to_another(ledger: Path) -> None:
    one, two = (Terminal(ledger, "enter", "d-2", "--purpose", "annual") for _ in range(2))
    one.header()
    assert "Go on with it" not in two.ask()
    assert call("enter", "d-2", "--resume", at=ledger).code == 2
    one.kill()
    two.kill()


def test_a_flat_longer_than_the_wheel_as_it_was_last_read_is_asked_about(ledger: Path) -> None:
    one = Terminal(ledger, "enter", "d-2", "--purpose", "annual")
    screen = walk(one, one.header(), "flat spot")
    assert "flat spot" in screen
    one.type("yes")
    one.type("90 deg")
    told = " ".join(one.type("120 in").split())
    assert "120 in is more than the wheel is across, 49.62 in." in told
    assert "more than" not in one.type("1.2 in")
    one.kill()
