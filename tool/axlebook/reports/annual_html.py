"""The annual summary as one HTML file that stands alone: opens offline, reads without a script, prints on paper."""

from __future__ import annotations

from base64 import b64encode

from axlebook.findings import Verdict

from .annual_parts import Annual
from .html import render_page
from .plan_drawing import STYLES, drawings
from .text import SYMBOLS


def render_annual(annual: Annual) -> str:
    """The page of a summary; same summary, same bytes."""
    return render_page(
        "annual.html.j2", annual=annual, title=annual.title, plan=drawings(annual.engine, annual.plan),
        sign=_sign, style=_style, base64=_base64,
    )  # fmt: skip


def _sign(verdict: Verdict) -> str:
    return SYMBOLS[verdict][0]


def _style(verdict: Verdict) -> str:
    return STYLES[verdict]


def _base64(svg: str) -> str:
    return b64encode(svg.encode("utf-8")).decode("ascii")
