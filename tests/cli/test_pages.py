"""`pages`: the whole book as static pages; every link resolves, nothing of a record acts, nothing of yours is lost."""

from __future__ import annotations

import os
import re
from pathlib import Path

import html5lib
import pytest
from tests.cli.commands import AT, THIN, call, promised, small_ledger

from axlebook.sources import two_hands
from axlebook.sources.page_folder import MARKER

HOSTILE = THIN + 'note: "<script>alert(1)</script> & <img src=x onerror=alert(2)> t-2-right"\n'


def site(folder: Path, files: dict[str, str] | None = None) -> Path:
    """The pages of the small ledger."""
    root = small_ledger(folder, files or {AT: THIN})
    called = call("pages", str(folder / "site"), at=root)
    assert (called.code, called.err) == (0, "")
    return folder / "site"


def test_an_engine_past_a_limit_is_not_told_to_be_held_back_by_nothing(tmp_path: Path) -> None:
    page = next((site(tmp_path) / "engines").glob("*.html")).read_text(encoding="utf-8")
    told = page.partition("What holds it back")[2].partition("Its wheelsets")[0]
    assert "outside, condemning" in page
    assert "None is on record" not in told
    assert "No tag, restriction or waiver in force is on record" in told
    assert "What is outside a limit stands under What was found" in told


def test_what_no_limit_judges_and_nobody_read_stands_on_the_page_of_its_engine(tmp_path: Path) -> None:
    page = next((site(tmp_path) / "engines").glob("*.html")).read_text(encoding="utf-8")
    told = page.partition("Not measured, not judged")[2].partition("Every wheel, every quantity")[0]
    assert "Not judged, by cause" in told
    assert "the plan asks for it, and it is neither read nor excused" in told.lower()
    assert "nothing out" not in told


SIGNS = (Path(__file__).parents[2] / "ledger" / "limits" / "loose-tire-practice.yaml").read_text(encoding="utf-8")


def test_a_set_of_signs_is_not_said_to_hold_nothing(tmp_path: Path) -> None:
    """It has no limit and no interval: it read `0 limits, 0 intervals`."""
    page = (site(tmp_path, {"limits/loose-tire-practice.yaml": SIGNS}) / "limits.html").read_text(encoding="utf-8")
    assert "watch lists: 1" in page
    assert "limits: 0" not in page


def everything(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_every_link_resolves_and_every_page_is_reached_from_the_first(tmp_path: Path) -> None:
    top = site(tmp_path)
    seen, waiting = set(), [top / "index.html"]
    while waiting:
        page = waiting.pop()
        if page in seen:
            continue
        seen.add(page)
        tree = html5lib.parse(page.read_text(encoding="utf-8"), namespaceHTMLElements=False)
        for one in tree.iter():
            target = one.attrib.get("href") or one.attrib.get("src")
            if target is None or target.startswith("#"):
                continue
            assert not re.match(r"[a-z]+:|/", target)
            there = (page.parent / target.partition("#")[0]).resolve()
            assert there.is_file(), f"{page.name}: {target}"
            assert there.is_relative_to(top.resolve())
            if there.suffix == ".html":
                waiting.append(top / there.relative_to(top.resolve()))
    assert seen == set(top.rglob("*.html"))


def test_no_page_has_an_error_of_html_or_a_script(tmp_path: Path) -> None:
    for page in site(tmp_path, {AT: HOSTILE}).rglob("*.html"):
        parser = html5lib.HTMLParser(tree=html5lib.getTreeBuilder("etree"), namespaceHTMLElements=False)
        tree = parser.parse(page.read_text(encoding="utf-8"))
        assert parser.errors == []
        assert not {"script", "iframe", "object", "form", "base"} & {str(one.tag) for one in tree.iter()}
        assert not [name for one in tree.iter() for name in one.attrib if str(name).startswith("on")]


def test_a_note_of_a_stranger_stands_as_text_and_its_ids_are_links(tmp_path: Path) -> None:
    page = (site(tmp_path, {AT: HOSTILE}) / "records" / "2026-01-10-e-1-annual.html").read_text(encoding="utf-8")
    assert "&lt;script&gt;alert(1)&lt;/script&gt; &amp; &lt;img" in page
    assert '<a href="../tires/t-2-right.html">t-2-right</a>' in page


def test_the_same_book_gives_the_same_bytes_also_over_old_pages(tmp_path: Path) -> None:
    first = everything(site(tmp_path))
    assert call("pages", str(tmp_path / "other"), at=tmp_path / "ledger").code == 0
    assert everything(tmp_path / "other") == first
    assert call("pages", str(tmp_path / "site"), at=tmp_path / "ledger").code == 0
    assert everything(tmp_path / "site") == first
    assert [p.name for p in tmp_path.iterdir() if p.name.startswith(".site")] == []


def test_plots_drawn_by_two_processes_are_those_of_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read = {f"inspections/{year}/{year}-01-10-e-1-annual.yaml": f"{year}-01-10" for year in (2023, 2024, 2025)}
    files = {path: THIN.replace("2026-01-10", day).replace("15/16", "1 1/8") for path, day in read.items()}
    files |= {path.replace("annual", "periodic"): text.replace("right", "left").replace("annual", "periodic")
              for path, text in files.items()}  # fmt: skip
    drawn = []
    for two in (False, True):
        monkeypatch.setattr(two_hands, "has_second", lambda two=two: two and hasattr(os, "fork"))
        called = call("pages", str(tmp_path / str(two)), at=small_ledger(tmp_path / f"book {two}", files))
        assert (called.code, called.err) == (0, "")
        drawn.append(everything(tmp_path / str(two)))
    assert drawn[0] == drawn[1]
    assert len([path for path in drawn[0] if path.startswith("plots/")]) > 1


def test_the_page_of_a_tire_tells_what_is_outside_where_it_stands(tmp_path: Path) -> None:
    page = (site(tmp_path) / "tires" / "t-2-right.html").read_text(encoding="utf-8")
    assert "✗ outside, condemning" in page
    assert "230.113(g)" in page


def test_a_person_has_a_role_and_no_address(tmp_path: Path) -> None:
    person = "kind: person\nrole: fitter\ngit_authors: [somebody@example.invalid]\n"
    found = everything(site(tmp_path, {AT: THIN, "people/v9.yaml": person}))
    assert b"fitter" in found["people.html"]
    assert not [path for path, content in found.items() if b"somebody@example" in content]


@pytest.mark.parametrize("own", ["mine.txt", "sub/mine.html"])
def test_a_file_of_ones_own_among_old_pages_is_never_lost(tmp_path: Path, own: str) -> None:
    top = site(tmp_path)
    (top / own).parent.mkdir(exist_ok=True)
    (top / own).write_text("mine", encoding="utf-8")
    before = everything(top)
    called = call("pages", str(top), at=tmp_path / "ledger")
    assert called.code == 2
    assert "which this command did not write" in called.err
    assert everything(top) == before


def test_a_folder_that_was_not_made_here_is_left_alone(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "a.jpg").write_bytes(b"x")
    called = call("pages", str(tmp_path / "photos"), at=root)
    assert called.code == 2
    assert MARKER in called.err
    assert everything(tmp_path / "photos") == {"a.jpg": b"x"}


@pytest.mark.parametrize("place", [".", "..", "tires/site", "attachments/site"])
def test_pages_never_stand_among_records(tmp_path: Path, place: str) -> None:
    root = small_ledger(tmp_path)
    before = everything(root)
    assert call("pages", place, at=root).code == 2
    assert everything(root) == before


def test_a_link_in_the_place_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    assert call("pages", str(tmp_path / "link"), at=root).code == 2
    assert list((tmp_path / "real").iterdir()) == []


def test_the_json_tells_how_many_files(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    told = promised(call("pages", str(tmp_path / "site"), "--format", "json", at=root).out)
    assert told["result"]["files"] == len(everything(tmp_path / "site")) - 1  # the marker is no page


def test_pages_that_a_killed_call_left_aside_are_put_back_and_told(tmp_path: Path) -> None:
    top = site(tmp_path)
    before = everything(top)
    top.rename(tmp_path / ".site.0123456789ab.old")  # killed between the two renames of the swap
    (tmp_path / "other").mkdir()
    assert call("pages", str(tmp_path / "other" / "site"), at=tmp_path / "ledger").code == 0
    (tmp_path / "other" / "site").rename(tmp_path / ".site.0123456789ab.part")
    called = call("pages", str(top), at=tmp_path / "ledger")
    assert called.code == 0
    assert (
        "An earlier call was cut off: .site.0123456789ab.old put back; .site.0123456789ab.part removed." in called.out
    )
    assert everything(top) == before
    assert [one.name for one in tmp_path.iterdir() if one.name.startswith(".site")] == []


def test_a_folder_beside_that_may_be_somebodys_own_is_named_and_kept(tmp_path: Path) -> None:
    top = site(tmp_path)
    for name in (".site.0123456789ab.part", ".site.mine.old"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "a.txt").write_text("mine", encoding="utf-8")
    called = call("pages", str(top), at=tmp_path / "ledger")
    assert called.code == 0
    assert "'.site.0123456789ab.part' beside it is half written, or not of this command" in " ".join(called.out.split())
    assert (tmp_path / ".site.0123456789ab.part" / "a.txt").read_text(encoding="utf-8") == "mine"
    assert (tmp_path / ".site.mine.old" / "a.txt").read_text(encoding="utf-8") == "mine"
