"""One text for each plane and clock position, however it was typed: a limit and a reading must name the same."""

from __future__ import annotations

from functools import lru_cache

from axlebook.quantities import Quantity, find_measure, render_fraction, render_value

from .forms import position_named

_LONGEST = 3  # words of a length: 1 3/8 in


@lru_cache(maxsize=4096)
def plane_named(text: str) -> str:
    """Words that say where something was read, the length they begin with and their spaces and quotes as usual.

    >>> plane_named('3/8"  above tread'), plane_named("0.375 in above tread")
    ('3/8 in above tread', '3/8 in above tread')
    >>> plane_named("10mm outside measuring circle"), plane_named("6 o’clock")
    ('10 mm outside measuring circle', "6 o'clock")
    """
    words = text.replace("’", "'").split()
    for many in range(min(len(words), _LONGEST), 0, -1):
        length = find_measure(" ".join(words[:many]))
        if isinstance(length, Quantity) and length.dimension == "length":
            words[:many] = [render_fraction(length.exact) or render_value(length.exact, "length", length.unit)]
            break
    return " ".join(words)


def spot_named(text: str) -> str:
    """The same for what may be a position as well, as a waiver names the place of a finding."""
    return position_named(plane_named(text))


def plain_plane(text: str) -> str:
    """A plane without what does not tell it from others: capitals, and the article.

    >>> plain_plane("At the throat"), plain_plane("9.525 mm above the tread")
    ('at throat', '3/8 in above tread')
    """
    return " ".join(word for word in plane_named(text).casefold().split() if word != "the")
