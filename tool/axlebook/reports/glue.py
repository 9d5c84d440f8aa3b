"""What keeps a figure, its fraction and its unit on one line while a text is broken into lines."""

from __future__ import annotations

import re
from fractions import Fraction

from axlebook.quantities import UNITS

GLUE = "\ue000"  # in place of a space that is not to be broken: a sign of one cell that is nobody's own
_NAMES = sorted({unit.shown(Fraction(many)).split()[0] for unit in UNITS.values() for many in (1, 2)})
_UNITS = "|".join(re.escape(name) for name in _NAMES)
_INSIDE = re.compile(rf"(?<=\d) (?=\d+/\d|(?:{_UNITS})(?![\w-]))", re.ASCII)


def glued(text: str) -> str:
    """The text with glue inside its figures.

    >>> glued("flange thickness 1 13/64 in, 2 wheels").replace(GLUE, "_")
    'flange thickness 1_13/64_in, 2 wheels'
    """
    return _INSIDE.sub(GLUE, text)


def unglued(text: str) -> str:
    """The text as it was."""
    return text.replace(GLUE, " ")
