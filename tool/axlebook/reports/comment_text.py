r"""Text of records made fit for a comment on a code host: nothing in it is mark-up, a mention, a reference or a link.

A host reads more than Markdown: it links #12, GH-12 and names after an @, draws emoji and formulas, and decodes
entities before it looks for any of them. A zero-width space after the sign that begins one keeps it plain.
"""

from __future__ import annotations

import re

from .cleaning import clean
from .sheet_markdown import escaped

_GAP = "\u200b"
_REFERENCE = re.compile(r"(?i)\b(gh)(-)(?=\d)")
_EMOJI = re.compile(r":(?=[\w+\\-]+:)")


def commented(text: str, most: int = 0) -> str:
    r"""Return a text of records for a comment, cut to a length where one is given.

    >>> commented("<b>#12 @lead &#64;lead $x$ :tada:").replace(_GAP, "|")
    '\\<b\\>\\#|12 @|lead &amp;\\#|64;lead \\$x\\$ :|tada:'
    >>> commented("one two three", 8)
    'one two ...'
    """
    plain = clean(text)
    if most and len(plain) > most:
        plain = f"{plain[:most].rpartition(' ')[0] or plain[:most]} ..."
    found = escaped(plain).replace("&", "&amp;").replace("$", "\\$")
    found = found.replace("\\#", f"\\#{_GAP}").replace("\\!", f"\\!{_GAP}")
    return _EMOJI.sub(f":{_GAP}", _REFERENCE.sub(rf"\1{_GAP}\2", found))


def as_code(text: str, most: int = 200) -> str:
    """Return a path or an id as code: no sign of it is read.

    >>> as_code("tires/t-`1`|.yaml")
    "`tires/t-'1'/.yaml`"
    """
    plain = clean(text)[:most].replace("`", "'").replace("|", "/").strip()
    return f"`{plain}`" if plain else ""
