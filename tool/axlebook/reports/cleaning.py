"""The one place where text of records is made fit for a terminal: nothing in it can move, color or reorder a line.

A record may come from a stranger. Control characters, escape codes and the signs that turn the direction of
writing are shown as what they are, never obeyed.
"""

from __future__ import annotations

import re

# C0 and C1 controls, soft hyphen, zero-width signs, line separators, direction marks and overrides, the byte-order
# mark, tag characters, lone surrogates.
_UNFIT = re.compile(
    "[\x00-\x1f\x7f-\x9f\u00ad\u061c\u115f\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb"
    "\U000e0000-\U000e007f\ud800-\udfff]"
)
# The blanks before a line end are looked at from their first alone: else many blanks take their square of time.
_GAP = re.compile(r"(?:(?<![ \t])[ \t]+)?[\r\n]+[ \t]*")


def clean(text: str) -> str:
    r"""Return a text of records as one line, every sign in it that does something written out.

    >>> clean("wheel\x1b[31m\u202e of\n  engine 12")
    'wheel\\x1b[31m\\u202e of engine 12'
    """
    return _UNFIT.sub(_written_out, _GAP.sub(" ", text).replace("\t", " "))


def encodable(text: str, encoding: str) -> str:
    """Return the text with what an encoding lacks written out, so that printing it never fails.

    >>> encodable("½ in", "ascii")
    '\\\\xbd in'
    """
    return text.encode(encoding, "backslashreplace").decode(encoding)


def _written_out(match: re.Match[str]) -> str:
    sign = match[0]
    if "\udc80" <= sign <= "\udcff":  # a byte of a file name that is not UTF-8, as Python carries it
        return f"\\x{ord(sign) - 0xDC00:02x}"
    return sign.encode("unicode_escape").decode("ascii")
