"""Sheets to take to the wheel, in Debian's Chromium: a page a wheelset on both papers, nothing cut off."""

from __future__ import annotations

import re
import subprocess
from functools import cache
from pathlib import Path

import pytest
from tests.browser.chromium import PAPERS, chromium, printed
from tests.cli.commands import TOP, call, small_ledger

pytestmark = pytest.mark.browser

PIXELS = {"A4": 718, "Letter": 740}  # of the width between the margins of the style sheet, 96 to the inch


@cache
def sheet(*arguments: str) -> str:
    """A sheet of the demo."""
    called = call("sheet", *arguments, "--ledger", str(TOP / "demo-ledger"), at=TOP)
    assert called.err == ""
    return called.out


def on_paper(folder: Path, html: str, paper: str) -> list[str]:
    """The texts of the printed pages, whose size is held to that of the paper."""
    sizes, pages = printed(folder, html, paper)
    assert set(sizes) == {PAPERS[paper]}
    return pages


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("engine", "wheelsets"), [("12", 9), ("3", 3), ("21", 3)])
def test_each_wheelset_is_one_page_with_its_name_and_the_sheet_s_id(
    tmp_path: Path, engine: str, wheelsets: int, paper: str
) -> None:
    pages = on_paper(tmp_path, sheet(engine), paper)
    named = [match[1] for one in pages if (match := re.search(r"^ *((?:DRIVER|TENDER|\w+ TRUCK) \d)\b", one, re.M))]
    assert len(pages) == wheelsets + 1  # and one for the places of the engine that are no wheel
    assert all("Measured by" in one and f"Sheet e-{engine}-annual-" in one for one in pages)
    assert len(set(named)) == len(named)


@pytest.mark.parametrize("paper", PAPERS)
def test_no_text_beside_a_box_stands_in_it(tmp_path: Path, paper: str) -> None:
    script = (
        "<script>document.title = [...document.querySelectorAll('td, th, .who')].filter(c => c.scrollWidth > "
        "c.clientWidth + 1).map(c => c.textContent.trim()).join('; ') || 'none';</script>"
    )
    html = re.sub(r"<meta http-equiv=.*?>", "", sheet("12"))
    as_wide = f"body {{ width: {PIXELS[paper]}px; }}</style>"
    html = html.replace("@media print {", "@media all {").replace("</style>", as_wide)
    (tmp_path / "wide.html").write_text(html.replace("</body>", f"{script}</body>"), encoding="utf-8")
    out = chromium(tmp_path, "--window-size=1000,900", "--dump-dom", (tmp_path / "wide.html").as_uri())
    title = re.search(r"<title>([^<]*)</title>", out)
    assert title
    assert title[1] == "none"


@pytest.mark.parametrize("paper", PAPERS)
def test_a_plan_that_asks_more_than_a_page_holds_goes_on_a_second_with_the_same_heading(
    tmp_path: Path, paper: str
) -> None:
    root = small_ledger(tmp_path)
    html = call("sheet", "d-2", "--purpose", "annual", at=root).out
    parts = re.findall(r"page (\d) of (\d)", html)
    pages = on_paper(tmp_path, html, paper)
    assert len(pages) == max(len(parts), 1)
    assert all("DRIVER 2" in one and "Measured by" in one for one in pages)


@pytest.mark.parametrize("paper", PAPERS)
def test_the_day_a_tire_goes_on_is_four_pages_a_tire_and_each_hold_point_stands_with_its_work(
    tmp_path: Path, paper: str
) -> None:
    pages = on_paper(tmp_path, sheet("t-2603", "--purpose", "apply"), paper)
    assert len(pages) == 4
    assert [number for page in pages for number in re.findall(r"HOLD POINT (\d):", page)] == ["1", "2", "3", "4"]
    assert "Suspended load" in pages[0]
    assert "HOLD POINT 2" in pages[1]
    assert "HOLD POINT 4" in pages[2]


@pytest.mark.parametrize("paper", PAPERS)
def test_a_receiving_sheet_prints_whole(tmp_path: Path, paper: str) -> None:
    pages = on_paper(tmp_path, sheet("t-2603", "--purpose", "receiving"), paper)
    assert 2 <= len(pages) <= 3
    assert "Read the marks first" in pages[0]
    assert "Measured by" in pages[-1]


def test_a_table_has_its_right_border_in_print(tmp_path: Path) -> None:
    page = call("bore", "d-1-left", "--format", "html", "--ledger", str(TOP / "demo-ledger"), at=TOP).out
    on_paper(tmp_path, page, "A4")
    files = (str(tmp_path / "printed.pdf"), str(tmp_path / "p"))
    subprocess.run(["pdftoppm", "-gray", "-r", "300", "-l", "1", "-singlefile", *files], check=True)
    head, pixels = (tmp_path / "p.pgm").read_bytes().split(b"\n255\n", 1)
    width, height = map(int, head.split()[1:3])
    rows = [pixels[at : at + width] for at in range(0, width * height, width)]
    rules = [row for row in rows if sum(one < 128 for one in row) > width * 0.8]  # rules from side to side
    end = max(at for row in rules for at, one in enumerate(row) if one < 128)
    dark = sum(min(row[end - 4 : end + 2]) < 128 for row in rows)
    assert dark > height * 0.2, "the tables stand open to the right"
