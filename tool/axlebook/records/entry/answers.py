"""What a person types at a reading: a figure, a look, a command; and what is understood of it."""

from __future__ import annotations

import re

from axlebook.quantities import Measure, NotAMeasure, Quantity, both_ways, parse_measure, render_value

from .header import Refused, sentence
from .question import Question, Size

_FRACTION = re.compile(r"(\d{2,4})/(2|4|8|16|32|64)(?!\d)")
_MEANT = re.compile(r"Write (.+) if that is meant\.")
SEEN = {
    "yes": "seen", "y": "seen", "seen": "seen", "no": "not seen", "not seen": "not seen", "none": "not seen",
    "unknown": "unknown",
}  # fmt: skip


def read_value(question: Question, text: str, unit: str) -> Measure:
    """A figure of the right dimension; `unit` stands in where none is written and the figure is a length.

    Raises
    ------
    Refused
        It is none; what to write instead.
    """
    plain = text.replace("\t", " ").strip()
    if question.dimension == "hardness":
        return _measure(question, plain)
    if plain and plain[-1].isdecimal() and unit and question.dimension == "length":
        plain = f"{plain} {unit}"
    return _measure(question, plain)


def _measure(question: Question, text: str) -> Measure:
    try:
        measure = parse_measure(text)
    except NotAMeasure as refused:
        raise Refused(f"{sentence(refused.reason)} {_hint(question, refused.hint)}") from None
    if measure.dimension != question.dimension:
        raise Refused(
            f"{sentence(question.title)} is a {question.dimension.replace('_', ' ')}, and {text[:30]} is a "
            f"{measure.dimension.replace('_', ' ')}."
        )
    return measure


def _hint(question: Question, hint: str) -> str:
    """What to write instead, unless that is no value of this kind: `mn` is no minute where a length is asked."""
    meant = _MEANT.fullmatch(hint)
    try:
        fits = meant is None or parse_measure(meant[1]).dimension == question.dimension
    except NotAMeasure:
        fits = True
    return hint if fits or question.dimension != "length" else "Write it such as 2 7/16 in or 62 mm."


def read_size(size: Size, text: str, unit: str) -> str:
    """How large something is that was seen, or where: its text as it is kept; '' where it is left out."""
    if text.lower() in ("", "-", "s", "skip"):
        return ""
    plain = text.strip()
    if plain[-1].isdecimal():
        plain += " deg" if size.dimension == "angle" else f" {unit}" if unit and size.dimension == "length" else ""
    try:
        measure = parse_measure(plain)
    except NotAMeasure as refused:
        raise Refused(f"{sentence(refused.reason)} {refused.hint}") from None
    if measure.dimension != size.dimension:
        raise Refused(f"{sentence(size.title)} is a {size.dimension}, and {plain[:30]} is a {measure.dimension}.")
    return plain


def require_on_the_wheel(question: Question, size: Size, text: str) -> None:
    """Refuse, until it is typed once more, a length that has no room on the wheel: most likely a lost point."""
    if question.across is None or size.dimension != "length" or not text:
        return
    measure = parse_measure(text)
    if isinstance(measure, Quantity) and measure.exact > question.across:
        wheel = render_value(question.across, "length", measure.unit, 2)
        raise Refused(
            f"{text} is more than the wheel is across, {wheel}. Look at the point and the unit; if it stands, write it "
            "once more.", insist=True,
        )  # fmt: skip


def read_look(text: str) -> str:
    """Whether something was seen; Enter alone is no answer, since silence is never a pass."""
    found = SEEN.get(text.lower())
    if found is None:
        raise Refused("Write no (looked, and not seen), yes (seen), unknown, or n (not looked for).")
    return found


def read_reason(reasons: tuple[str, ...], text: str) -> tuple[str, str]:
    """Why something was not measured: one of the ledger's words, or `other` with the words typed as a note.

    >>> read_reason(("no access", "too hot", "other"), "2"), read_reason(("no access", "other"), "gear in the way")
    (('too hot', ''), ('other', 'gear in the way'))
    """
    plain = " ".join(text.split())
    if not plain:
        raise Refused("A reason is needed: a blank is never read as good.")
    if len(plain) < 2 and not plain.isdecimal():
        raise Refused(f"{plain} is no reason. Write why, in a word or two, or its number; u goes back.")
    if plain.isdecimal():
        if not 1 <= int(plain) <= len(reasons):
            raise Refused(f"There is no reason {plain}.")
        return reasons[int(plain) - 1], ""
    for reason in reasons:
        if plain.lower() == reason or plain.lower().startswith(f"{reason},"):
            return reason, plain[len(reason) :].lstrip(", ")
    return "other", plain


def without_space(text: str) -> str:
    """The mixed number that a fraction may have been before its space was lost; '' where it can be none.

    >>> without_space("23/8 in"), without_space("443/8"), without_space("11/16 in"), without_space("2 3/8 in")
    ('2 3/8', '44 3/8', '', '')
    """
    match = _FRACTION.match(text)
    if match is None or int(match[1]) <= int(match[2]):
        return ""
    digits, below = match[1], int(match[2])
    splits = ((digits[:at], digits[at:]) for at in range(1, len(digits)))
    fitting = (f"{whole} {part}/{below}" for whole, part in splits if part[0] != "0" and int(part) < below)
    return next(fitting, "")


def echoed(measure: Measure) -> str:
    """A reading in both systems."""
    return both_ways(measure)
