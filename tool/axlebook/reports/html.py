"""HTML from templates: one file that opens offline, needs no script, and prints on A4 and Letter in black and white.

Every text of a record is escaped by the template engine; a name that a template misspells is an error, never a gap.
Same values, same bytes.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from .cleaning import clean
from .text import sentence

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

    from .sheet import Sheet

_SHORT_ID = re.compile(r"(?<![\w-])([a-z]{1,12}(?:-[a-z]{1,12})?-[0-9]{1,6}|[0-9]{4}-[0-9]{2}-[0-9]{2})(?![\w-])")


@lru_cache(maxsize=1)
def environment() -> Environment:
    """The one template environment."""
    from jinja2 import Environment, PackageLoader, StrictUndefined

    made = Environment(
        loader=PackageLoader("axlebook.reports", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=_finalized,
    )
    made.filters["sentence"] = sentence
    made.filters["unbroken"] = _unbroken
    return made


def _finalized(value: Any) -> Any:
    """Text of records without signs that act; mark-up made here as it is."""
    from markupsafe import Markup

    return clean(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def _unbroken(text: str) -> Markup:
    """Text in which a day, and a short id such as bar-1, is not broken over two lines at its hyphen."""
    from markupsafe import Markup, escape

    pieces = _SHORT_ID.split(clean(text))
    whole = Markup('<span class="id">{}</span>')
    return Markup("").join(whole.format(one) if at % 2 else escape(one) for at, one in enumerate(pieces))


def render_page(template: str, **values: Any) -> str:
    """A page from a template, which extends `base.html.j2`."""
    return environment().get_template(template).render(**values)


def render_sheet(sheet: Sheet) -> str:
    """The page of a sheet."""
    return render_page("sheet.html.j2", sheet=sheet, title=sheet.title)
