"""The page of `wear` in Debian's Chromium: it draws its plots, fits a phone, and prints on both papers."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.browser.chromium import PAPERS, chromium, printed
from tests.cli.commands import call
from tests.cli.wear_ledger import wear_ledger

pytestmark = pytest.mark.browser



def page(folder: Path) -> str:
    """The HTML of the small ledger's wear."""
    return call("wear", "--format", "html", at=wear_ledger(folder)).out


def asked(folder: Path, html: str, script: str, width: int) -> str:
    """What a script finds in the loaded page at a width."""
    told = f"<script>addEventListener('load', () => {{ document.title = {script} }})</script></body>"
    changed = re.sub(r"<meta http-equiv=.*?>", "", html).replace("</body>", told)
    (folder / "asked.html").write_text(changed, encoding="utf-8")
    out = chromium(folder, f"--window-size={width},900", "--dump-dom", (folder / "asked.html").as_uri())
    title = re.search(r"<title>([^<]*)</title>", out)
    assert title
    return title[1]


def test_every_plot_is_drawn_and_none_is_wider_than_a_phone(tmp_path: Path) -> None:
    html = page(tmp_path)
    drawn = asked(tmp_path, html, "[...document.images].map(i => i.naturalWidth > 100 && i.width <= innerWidth)", 500)
    assert drawn == "true,true,true"
    wide, room = asked(tmp_path, html, "document.documentElement.scrollWidth + ' ' + innerWidth", 500).split()
    assert int(wide) <= int(room)


@pytest.mark.parametrize("paper", PAPERS)
def test_it_prints_on_both_papers_with_a_plot_and_its_facts_on_one_page(tmp_path: Path, paper: str) -> None:
    sizes, pages = printed(tmp_path, page(tmp_path), paper)
    assert set(sizes) == {PAPERS[paper]}
    heads = [n for n, page in enumerate(pages) if "e-1 driver-2 right (t-2-right): flange thickness" in page]
    assert heads
    assert "book the lathe by" in pages[heads[0]]
    assert all(len(page.split()) > 20 for page in pages)
