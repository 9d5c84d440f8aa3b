"""The pages in Debian's Chromium, opened from a folder: walked link by link without a dead end, and fit for a phone."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from tests.browser.chromium import chromium
from tests.cli.commands import AT, THIN, TOP, call, small_ledger

pytestmark = pytest.mark.browser

# Opens each page in a frame, waits until it is drawn, and goes on to every link it finds there.
WALK = """<!DOCTYPE html><title>-</title><iframe id="f" width="390" height="900"></iframe><script>
const seen = new Set(), waiting = ["site/index.html"], bad = [], wide = [];
const frame = document.getElementById("f");
function next() {
  if (!waiting.length) { document.title = JSON.stringify({pages: seen.size, bad, wide}); return; }
  const page = waiting.pop();
  if (seen.has(page)) { next(); return; }
  seen.add(page); frame.onload = () => look(page); frame.src = page;
}
function look(page) {
  const d = frame.contentDocument, here = new URL(".", location.href).href;
  if (!d || !d.querySelector("nav") || !d.querySelector("h1")) { bad.push(page); next(); return; }
  if (getComputedStyle(d.querySelector("nav ul")).display !== "flex") bad.push(page + ": no style");
  for (const i of d.querySelectorAll("img")) i.loading = "eager";
  const pictures = [...d.querySelectorAll("img")].map(i => i.decode().catch(() => bad.push(i.src)));
  Promise.all(pictures).then(() => {
    if (d.documentElement.scrollWidth > d.documentElement.clientWidth) wide.push(page);
    for (const a of d.querySelectorAll("a")) waiting.push(a.href.replace(here, "").split("#")[0]);
    next();
  });
}
next();
</script>"""


def walked(folder: Path) -> dict[str, object]:
    """What a walk through the pages in `folder/site` found."""
    (folder / "walk.html").write_text(WALK, encoding="utf-8")
    for _ in range(2):  # on a machine with other work a walk may run out of the browser's own time
        out = chromium(
            folder, "--allow-file-access-from-files", "--virtual-time-budget=6000000", "--dump-dom",
            (folder / "walk.html").as_uri(), patience=300,
        )  # fmt: skip
        if title := re.search(r"<title>(\{.*?\})</title>", out):
            break
    assert title, "the walk did not come to its end"
    found: dict[str, object] = json.loads(title[1])
    return found


@pytest.mark.parametrize("book", ["small", "demo"])
def test_every_page_is_reached_and_has_its_style_and_pictures_and_fits_a_phone(tmp_path: Path, book: str) -> None:
    ledger = TOP / "demo-ledger" if book == "demo" else small_ledger(tmp_path, {AT: THIN})
    assert call("pages", str(tmp_path / "site"), "--ledger", str(ledger), at=tmp_path).code == 0
    pages = len(list((tmp_path / "site").rglob("*.html")))
    assert walked(tmp_path) == {"pages": pages, "bad": [], "wide": []}
