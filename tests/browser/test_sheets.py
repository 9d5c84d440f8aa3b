"""The sheets in Debian's Chromium: they print on A4 and Letter with nothing cut off, and fit a phone."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.browser.chromium import PAPERS, chromium, printed
from tests.cli.commands import call
from tests.cli.fit_ledger import OURS, fit_ledger

pytestmark = pytest.mark.browser

SHEETS = {"fit": ("fit", "t-new", "d-2-left"), "bore": ("bore", "d-2-left")}


def page(folder: Path, name: str) -> str:
    """The HTML of a sheet."""
    return call(*SHEETS[name], "--format", "html", at=fit_ledger(folder)).out


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_prints_whole_on_both_papers(tmp_path: Path, name: str, paper: str) -> None:
    sizes, texts = printed(tmp_path, page(tmp_path, name), paper)
    assert set(sizes) == {PAPERS[paper]}
    assert 2 <= len(texts) <= 5
    assert all(len(text.split()) > 20 for text in texts)  # no page with a line or two
    words = " ".join(" ".join(texts).split())
    assert "the authority having jurisdiction decide." in words
    assert "Cautions" in words


def test_the_head_of_a_table_that_runs_on_stands_on_the_next_page_too(tmp_path: Path) -> None:
    html = page(tmp_path, "bore")
    row = re.search(r"<tr><td>50 degF</td>.*?</tr>", html)
    assert row
    _, texts = printed(tmp_path, html.replace(row[0], row[0] * 80))
    assert sum("Tire and shop at" in text for text in texts) >= 3


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_fits_a_phone_without_sideways_scrolling(tmp_path: Path, name: str) -> None:
    script = "<script>document.title = document.documentElement.scrollWidth + ' of ' + innerWidth</script></body>"
    html = re.sub(r"<meta http-equiv=.*?>", "", page(tmp_path, name)).replace("</body>", script)
    (tmp_path / "phone.html").write_text(html, encoding="utf-8")
    told = chromium(tmp_path, "--window-size=500,900", "--dump-dom", (tmp_path / "phone.html").as_uri())
    title = re.search(r"<title>(\d+) of (\d+)</title>", told)
    assert title
    assert int(title[1]) <= int(title[2])


def test_an_alarm_keeps_to_the_two_columns_of_its_table(tmp_path: Path) -> None:
    script = (
        "<script>const left = row => row.lastElementChild.getBoundingClientRect().left;"
        "document.title = [...document.querySelectorAll('tr.alarm')].map(row => {"
        "const other = row.nextElementSibling ?? row.previousElementSibling;"
        "return other ? left(row) === left(other) : row.children.length === 2})</script></body>"
    )
    far = fit_ledger(tmp_path, **{"limits/ours.yaml": OURS.replace("0.047 in", "0.030 in")})
    html = call(*SHEETS["fit"], "--format", "html", at=far).out
    assert '<tr class="alarm">' in html
    changed = re.sub(r"<meta http-equiv=.*?>", "", html).replace("</body>", script)
    (tmp_path / "alarm.html").write_text(changed, encoding="utf-8")
    told = chromium(tmp_path, "--window-size=1000,900", "--dump-dom", (tmp_path / "alarm.html").as_uri())
    title = re.search(r"<title>([^<]*)</title>", told)
    assert title
    assert set(title[1].split(",")) == {"true"}
