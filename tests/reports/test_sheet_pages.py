"""The sheet's renderers: what a hostile text may not do, what paper and phone need, and amounts as they are read."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest
from jinja2 import UndefinedError

from axlebook.reports import html
from axlebook.reports.amounts import Amounts, minutes, significant
from axlebook.reports.page import Look
from axlebook.reports.sheet import Gap, Line, Section, Sheet, Table, computed
from axlebook.reports.sheet_markdown import render_markdown
from axlebook.reports.sheet_text import render_sheet

HOSTILE = "<script>alert(1)</script> & \"x\" 'y' | [a](http://b.example) \x1b[31m\u202ered {{ 7*7 }}"


def sheet(text: str = "plain", *, lines: int = 1) -> Sheet:
    """A sheet that has the text everywhere a record's text can stand."""
    many = tuple(Line(text, text, computed("x", 1.0, "m"), text, main=True) for _ in range(lines))
    table = Table(text, ("A", text), ((text, ""), (text, text)), boxes=True)
    return Sheet(
        "fit", text, text, (text,), (Section(text, many, (table,), (text,)),), (Gap(text, text),), (text,), (text,),
        identity=(text,),
    )  # fmt: skip


class _Tags(HTMLParser):
    """Collects the tags and attributes of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.open: list[str] = []
        self.attributes: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [name for name, _ in attrs]
        if tag not in ("meta", "br"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def _tags(page: str) -> _Tags:
    found = _Tags()
    found.feed(page)
    assert found.open == []
    return found


def test_no_text_of_a_record_can_act_in_html() -> None:
    page, plain = html.render_sheet(sheet(HOSTILE)), html.render_sheet(sheet())
    assert _tags(page).tags == _tags(plain).tags
    assert "script" not in _tags(page).tags
    assert "&lt;script&gt;" in page
    assert "{{ 7*7 }}" in page
    assert "\x1b" not in page
    assert "\u202e" not in page


def test_a_page_stands_alone_asks_nothing_of_a_network_and_needs_no_script() -> None:
    page = html.render_sheet(sheet())
    tags = _tags(page)
    assert not {"script", "link", "img", "iframe", "object"} & set(tags.tags)
    assert not {"src", "href", "onclick", "style"} & set(tags.attributes)
    assert "default-src 'none'" in page
    assert "url(" not in page
    assert "@import" not in page


def test_a_page_is_made_for_paper_and_phone_and_heads_repeat() -> None:
    page = html.render_sheet(sheet())
    assert "width=device-width" in page
    assert "@media print" in page
    assert "thead { display: table-header-group; }" in page
    assert re.search(r"<thead><tr><th scope=\"col\">", page)
    assert "size:" not in page.replace("font-size:", "").replace("box-sizing", "").replace("text-size-adjust:", "")


def test_soft_ink_on_paper_has_the_contrast_that_aa_asks_for() -> None:
    page = html.render_sheet(sheet())
    for name in ("ink", "soft"):
        color = re.search(rf"--{name}: #([0-9a-f]{{3}});", page)
        assert color
        levels = [int(c * 2, 16) / 255 for c in color[1]]
        linear = [v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in levels]
        luminance = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
        shade = 0.855  # of #eee, the darkest paper here
        assert (shade + 0.05) / (luminance + 0.05) >= 4.5


def test_a_name_that_a_template_misspells_is_an_error() -> None:
    with pytest.raises(UndefinedError):
        html.environment().from_string("{{ sheet.titel }}").render(sheet=sheet())


def test_no_text_of_a_record_can_act_in_markdown() -> None:
    page, plain = render_markdown(sheet(HOSTILE)), render_markdown(sheet())
    assert len(page.splitlines()) == len(plain.splitlines())
    assert "<script>" not in page
    assert not re.search(r"(?<!\\)\]\(", page)
    unescaped = re.compile(r"(?<!\\)\|")
    assert [len(unescaped.findall(line)) for line in page.splitlines()] == [
        len(unescaped.findall(line)) for line in plain.splitlines()
    ]


def test_no_text_of_a_record_can_act_on_a_terminal() -> None:
    for whole in (True, False):
        page = render_sheet(sheet(HOSTILE), Look(), whole=whole)
        assert "\x1b" not in page
        assert "\u202e" not in page


def test_the_short_page_says_how_much_it_leaves_out_and_all_leaves_out_nothing() -> None:
    short = render_sheet(sheet(lines=40), Look(), whole=False)
    assert len(short.splitlines()) <= 24
    assert re.search(r"Not shown here: \d+ more lines, \d things? MISSING. See all with --all.", short)
    assert render_sheet(sheet(lines=40), Look(), whole=True).count("plain: plain. [plain]") == 40


@pytest.mark.parametrize(
    ("shown", "says"),
    [
        (Amounts().length(0.0011938), "0.0470 in (1.194 mm)"),
        (Amounts(metric=True).length(0.0011938), "1.194 mm (0.0470 in)"),
        (Amounts(single=True).length(0.0011938), "0.0470 in"),
        (Amounts().temperature(293.15), "68 degF (20 degC)"),
        (Amounts().rise(100.0), "180 degF (100 degC)"),
        (Amounts().stress(20e6), "2900 psi (20.0 MPa)"),
        (Amounts().mass(370.0), "816 lb (370 kg)"),
        (Amounts().force(1e6), "225,000 lbf (1000 kN)"),
        (Amounts().torque(1e6), "738,000 lbf ft (1000 kN m)"),
        (Amounts().heat(10e6), "9480 Btu (10.0 MJ)"),
        (minutes(90.0), "1.5 min"),
        (significant(999.6), "1000"),
        (significant(0.0), "0"),
    ],
)
def test_amounts_read_as_a_person_expects(shown: str, says: str) -> None:
    assert shown == says
