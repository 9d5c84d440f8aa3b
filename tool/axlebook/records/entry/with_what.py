"""Which instrument is meant by what is typed: its name, its number in the list; or was it a reading, too early?"""

from __future__ import annotations

from .header import Known, Refused, no_such_number, numbered
from .question import Question


def chosen(known: Known, there: tuple[str, ...], text: str, *, asked: bool) -> str:
    """The instrument that a text names; `asked` where it answers that very question.

    Raises
    ------
    Refused
        None is named so.
    """
    number = int(text) if text.isdecimal() and len(text) < 3 else 0
    found = there[number - 1] if 1 <= number <= len(there) else text
    if found not in known.instruments and found not in there:
        raise Refused(_no_instrument(there, text, asked=asked))
    return found


def _no_instrument(there: tuple[str, ...], text: str, *, asked: bool) -> str:
    """Why a text names no instrument; a reading typed where one is asked for is told so."""
    left_out = "Enter: not told." if asked else "-: not told."
    if text.isdecimal() and there:
        first = "What this is read with is asked first. " if asked else ""
        return f"{no_such_number(there, text)} {first}{left_out}"
    first = ", and what this is read with is asked first" if asked else ""
    return f"{text[:30]!r} is no instrument on record{first}. There are: {numbered(there) or 'none'}. {left_out}"


def require_no_reading(question: Question, there: tuple[str, ...], text: str, unit: str) -> None:
    """Refuse, until it is typed once more, the number of an instrument that may be a reading in the unit told."""
    if unit and question.dimension == "length" and text.isdecimal() and 1 <= int(text) <= len(there):
        raise Refused(
            f"{text} is {there[int(text) - 1]} in the list, or is it a reading of {text} {unit}? The reading is asked "
            f"next. For the instrument write {text} once more.", insist=True,
        )  # fmt: skip
