"""Debian's Chromium and its printer: a page opened, a page printed and read again."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

QUIET = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-sync",
    "--disable-component-update", "--disable-default-apps", "--no-first-run",
)  # fmt: skip
PAPERS = {"A4": (595, 842), "Letter": (612, 792)}  # points


def chromium(folder: Path, *arguments: str, patience: int = 120) -> str:
    """Run Chromium with a profile of its own, for so many seconds at most; what it prints."""
    program = shutil.which("chromium")
    assert program, "install Debian's chromium"
    done = subprocess.run(
        [program, *QUIET, f"--user-data-dir={folder / 'profile'}", *arguments],
        capture_output=True, text=True, timeout=patience, check=True,
    )  # fmt: skip
    return done.stdout


def printed(folder: Path, html: str, paper: str = "") -> tuple[list[tuple[int, int]], list[str]]:
    """The sizes of the printed pages in points, and their texts; without a paper, on the page's own."""
    if paper:
        html = html.replace("</style>", f"@page {{ size: {paper}; }}</style>")
    page, target = folder / "printed.html", folder / "printed.pdf"
    page.write_text(html, encoding="utf-8")
    chromium(folder, "--no-pdf-header-footer", f"--print-to-pdf={target}", page.as_uri())
    told = subprocess.run(["pdfinfo", "-l", "99", str(target)], capture_output=True, text=True, check=True).stdout
    sizes = [(round(float(w)), round(float(h))) for w, h in re.findall(r"size: +([\d.]+) x ([\d.]+)", told)]
    text = subprocess.run(["pdftotext", "-layout", str(target), "-"], capture_output=True, text=True, check=True).stdout
    return sizes, text.split("\f")[:-1]
