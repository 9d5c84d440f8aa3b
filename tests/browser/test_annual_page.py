"""The annual summary in Debian's Chromium: opens from a file, asks nothing of a network, prints whole, fits a phone."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path

import pytest
from tests.browser.chromium import PAPERS, chromium, printed
from tests.cli.commands import TOP, call

pytestmark = pytest.mark.browser

ENGINES = ("12", "3", "21")


@cache
def page(engine: str, year: str = "2025") -> str:
    """The summary of an engine of the demo, at the end of the year in which most was done."""
    called = call("annual", engine, year, "--ledger", str(TOP / "demo-ledger"), at=TOP)
    assert called.err == ""
    return called.out


def told(folder: Path, html: str, script: str, width: int) -> str:
    """What a script says of the page as it is laid out in a frame of a width: the width of a phone, say."""
    (folder / "inner.html").write_text(re.sub(r"<meta http-equiv=.*?>", "", html), encoding="utf-8")
    (folder / "outer.html").write_text(
        f'<!DOCTYPE html><title>-</title><iframe src="inner.html" width="{width}" height="900" onload="'
        f"const d = this.contentDocument; document.title = {script}\"></iframe>", encoding="utf-8",
    )  # fmt: skip
    out = chromium(folder, "--allow-file-access-from-files", "--dump-dom", (folder / "outer.html").as_uri())
    title = re.search(r"<title>([^<]*)</title>", out)
    assert title
    assert title[1] != "-"
    return title[1]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("engine", "year"), [*((engine, "2025") for engine in ENGINES), ("12", "2026")])
def test_it_prints_whole_with_the_first_page_alone_on_its_sheet(
    tmp_path: Path, engine: str, year: str, paper: str
) -> None:
    sizes, pages = printed(tmp_path, page(engine, year), paper)
    assert set(sizes) == {PAPERS[paper]}
    assert 4 <= len(pages) <= 40
    assert all(len(one.split()) > 20 for one in pages)  # no page with a line or two
    assert "Restrictions in force" in pages[0]
    assert "Plan of the wheels" not in pages[0]
    assert "Plan of the wheels" in pages[1]
    assert "Signature" in pages[-1]
    headed = [one for one in pages if re.search(r"^ *Where +Reading +", one, re.MULTILINE)]
    assert len(headed) >= 2  # heads of tables are on every page that needs one


@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize("width", [390, 800])
def test_it_fits_a_phone_and_a_screen_without_sideways_scrolling(tmp_path: Path, engine: str, width: int) -> None:
    script = "d.documentElement.scrollWidth + ' of ' + d.documentElement.clientWidth"
    needed, there = map(int, told(tmp_path, page(engine), script, width).split(" of "))
    assert needed <= there <= width


def test_no_text_of_the_plan_stands_out_of_its_box_or_over_another(tmp_path: Path) -> None:
    script = (
        "[...d.querySelectorAll('.plan')].flatMap(plan => [...plan.querySelectorAll('text')].filter(t => "
        "t.getBBox().x < -1 || t.getBBox().x + t.getBBox().width > 400).map(t => t.textContent)).concat("
        "[...d.querySelectorAll('.plan text')].filter(t => { const r = [...t.parentNode.querySelectorAll('rect')]"
        ".find(r => { const a = r.getBBox(), b = t.getBBox(); return b.x > a.x && b.x < a.x + a.width && b.y > a.y "
        "&& b.y < a.y + a.height; }); if (!r) return false; const a = r.getBBox(), b = t.getBBox(); "
        "return b.x + b.width > a.x + a.width || b.y + b.height > a.y + a.height + 1; }).map(t => t.textContent))"
        ".join('; ') || 'none'"
    )
    assert told(tmp_path, page("12"), script.replace('"', "'"), 800) == "none"


def asked_by_the_page(folder: Path, html: str) -> set[str]:
    """What a page asked of a network; what Chromium asks for itself has no origin."""
    (folder / "asking.html").write_text(html, encoding="utf-8")
    log = folder / "net.json"
    chromium(folder, f"--log-net-log={log}", "--dump-dom", (folder / "asking.html").as_uri())
    text = log.read_text(encoding="utf-8", errors="replace").rstrip().rstrip(",")
    events = json.loads(text if text.endswith("}") else text + "]}")["events"]
    found = [event.get("params", {}) for event in events]
    return {
        str(one["url"]) for one in found
        if isinstance(one, dict) and str(one.get("url", "")).startswith(("http", "ws", "ftp"))
        and one.get("initiator", "not an origin") != "not an origin"
    }  # fmt: skip


def test_it_opens_from_a_file_and_asks_nothing_of_a_network(tmp_path: Path) -> None:
    assert asked_by_the_page(tmp_path, page("12")) == set()
    asking = '<!DOCTYPE html><title>x</title><img src="http://nowhere.invalid/x.png">'
    assert asked_by_the_page(tmp_path, asking) == {"http://nowhere.invalid/x.png"}  # the test can see a request
