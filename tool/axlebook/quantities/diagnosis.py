"""Why a text is no measure, in words for the person who wrote it. Only refused text comes here."""

import re

from .measures import NotAMeasure
from .units import EXAMPLES, SPELLINGS, find_unit

_MONTHS = (
    "jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?"
    "|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?"
)
_DATE = re.compile(
    rf"\b(?:{_MONTHS})\b|^[0-9]{{4}}-[0-9]{{1,2}}-[0-9]{{1,2}}"
    r"|^[0-9]{1,2}[/.-][0-9]{1,2}[/.-](?:[0-9]{4}|[0-9]{2})(?![0-9])(?! *[a-z\"'])",
    re.IGNORECASE,
)
_MONTHS_IN_ORDER = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH_NAMED = re.compile(rf"\b(?:{_MONTHS})\b", re.IGNORECASE)
_NUMBERS = re.compile(r"[0-9]{1,2}")
_YEAR = re.compile(r"[0-9]{4}|[0-9]{2}:.*")
_RULE = (2, 4, 8, 16, 32, 64)  # into so many parts people read an inch
_COMMA = re.compile(r"[0-9] ?,[0-9]")
_THOUSANDS = re.compile(r"([0-9]{1,3}(?:,[0-9]{3})+)(?![0-9,])")
_POINTED = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]")  # 1,353.5
_TURNED = re.compile(r"([0-9]{1,3}(?:\.[0-9]{3})+),([0-9]+)(?![0-9,])")  # 1.353,5
_SPACED = re.compile(r"^([-+]?[0-9]{1,3}(?: [0-9]{3})+) ?,([0-9]+)(?![0-9,])")  # 1 353,5
_BEFORE_FRACTION = re.compile(r"([0-9]) ?, ?(?=[0-9]+ ?/)")  # 53,3/8
_DIGIT = re.compile(r"[0-9]")
_HUGE_POWER = re.compile(r"[0-9.][eE][-+]?[0-9]{3}")
_BACKSLASH = re.compile(r"[0-9] ?\\ ?[0-9]")
_TWO_SLASHES = re.compile(r"[0-9] ?/ ?[0-9]+ ?/ ?[0-9]")
_DASHED = re.compile(r"^([0-9./ ]+?) ?- ?([0-9./]+) *([^0-9]*)$")
_FEET_WITHOUT_INCH = re.compile(r"^[-+]?[0-9]+ *(?:ft\.?|feet|foot|') *-?[0-9][0-9 ./]*$", re.IGNORECASE)
_INCHES_FIRST = re.compile(r"^[0-9 ./-]+(?:inch(?:es)?|in\.?|\") *[0-9]+ *(?:ft|feet|foot|')", re.IGNORECASE)
_LEADING_NUMBER = re.compile(r"^[-+]?[0-9./ -]*[0-9](?:[eE][-+]?[0-9]+)?")
_TWO_NUMBERS = re.compile(
    r"^[-+]?(?:[0-9.]+ +[0-9.]+(?: *[^0-9/ .]|$)|[0-9]*\.[0-9]+ *[0-9]*/|[0-9 ]+/ ?[0-9]*\.)"
)
_FIRST = re.compile(r"[-+]?\.?[0-9]")
_NOT_FINITE = re.compile(r"^[-+]?(?:nan|inf|infinity)\b", re.IGNORECASE)

#: Spellings that mean more than one unit: what to write is for the writer to say.
_AMBIGUOUS = {
    "F": "{0} degF",
    "C": "{0} degC",
    "f": "{0} degF",
    "c": "{0} degC",
    "mil": "{0} thou, or {0} mm",
    "mils": "{0} thou, or {0} mm",
    "ton": "{0} short ton, {0} long ton or {0} t",
    "tons": "{0} short tons, {0} long tons or {0} t",
    "T": "{0} t",
    "M": "{0} m",
    "k": "{0} K",
    "mPa": "{0} MPa",
    "#": "{0} lb",
}

SHORT = 2  # letters of a unit too short to guess from by leaving one out
MANY = "this is more than one number."
NO_UNIT = "the number has no unit."
GENERAL_HINT = "Write a number and its unit, such as 53 3/8 in, 53.375 in, 61.91 mm or 350 degF."


def _comma(line: str) -> tuple[str, str]:
    """Why a comma is refused; what is offered must itself be read."""
    if match := _SPACED.match(line):
        plain = f"{match[1].replace(' ', '')}.{match[2]}{line[match.end() :]}"
        return "a comma is not read as a decimal mark.", f"Write {plain}." if _readable(plain) else GENERAL_HINT
    reason, hint = _comma_meant(line)
    offered = hint.removeprefix("Write ").removesuffix(".").split(" or ")
    return reason, hint if all(map(_readable, offered)) else GENERAL_HINT


def _comma_meant(line: str) -> tuple[str, str]:
    if _BEFORE_FRACTION.search(line):
        spaced = _BEFORE_FRACTION.sub(r"\1 ", line)
        return "a comma stands before the fraction.", f"Write {spaced}."
    if match := _TURNED.search(line):
        plain = f"{match[1].replace('.', '')}.{match[2]}"
        return "a comma is not read as a decimal mark.", f"Write {_TURNED.sub(plain, line, count=1)}."
    if _POINTED.search(line):
        return "commas between thousands are not read.", f"Write {line.replace(',', '')}."
    if match := _THOUSANDS.search(line):
        plain = line.replace(",", "")
        if match[1].count(",") == 1 and match[1] == line[: match.end()]:
            return (
                "a comma may be a decimal mark or part thousands, and the two differ a thousandfold.",
                f"Write {plain} or {line.replace(',', '.')}.",
            )
        return "commas between thousands are not read.", f"Write {plain}."
    return "a comma is not read as a decimal mark.", f"Write {line.replace(' ,', '.').replace(',', '.')}."


def _readable(text: str) -> bool:
    """Whether a text that is to be offered is itself read."""
    from .parsing import find_measure  # it asks here only for what it refuses

    try:
        return find_measure(text) is not None
    except NotAMeasure:
        return False


def _slashed(line: str) -> str:
    """The fraction that was typed with the stroke of a path; in inches where no unit stands, as fractions are."""
    return next((f"Write {text}." for text in (line, f"{line} in") if _readable(text)), GENERAL_HINT)


def _dashed(match: re.Match[str]) -> str:
    """What two numbers with a hyphen between them can stand for, as far as that is read.

    >>> _dashed(_DASHED.match("53-54 in")), _dashed(_DASHED.match("5- 17/64 in"))
    ('Write 53 to 54 in for a range, 53/54 in for a fraction.', 'Write 5 17/64 in for one number.')
    """
    first, second, unit = (part.strip() for part in match.groups())
    unit = unit or "in"
    ways = (("a range", f"{first} to {second} {unit}"), ("a fraction", f"{first}/{second} {unit}"),
            ("one number", f"{first} {second} {unit}"))  # fmt: skip
    offered = [f"{text} for {what}" for what, text in ways if _readable(text)]
    return f"Write {', '.join(offered)}." if offered else GENERAL_HINT


def _unit(line: str) -> tuple[str, str]:
    number = match[0] if (match := _LEADING_NUMBER.match(line)) else ""
    rest = line[len(number) :].strip()
    number = number.strip()
    if not rest:
        return NO_UNIT, f"Write the unit after it, such as {number} in or {number} mm."
    if rest in _AMBIGUOUS:
        return f"the unit {rest!r} has more than one meaning.", f"Write {_AMBIGUOUS[rest].format(number)}."
    if _DIGIT.search(rest) and find_unit(rest) is None:
        return "there is more after the first number than one unit.", GENERAL_HINT
    if (near := _nearest(rest)) and _readable(f"{number} {near}"):
        return f"the unit {rest[:20]!r} is not known.", f"Write {number} {near} if that is meant."
    if find_unit(rest) is not None:
        points = any(one.count(".") > 1 for one in number.split())
        reason = "a number has one decimal point." if points else MANY
        return reason, "Look at the card again, and write one number and its unit, such as 2.61 in or 5 1/2 in."
    return f"the unit {rest[:20]!r} is not known.", GENERAL_HINT


def _nearest(unit_text: str) -> str | None:
    import difflib  # only a mistyped unit needs it

    if len(unit_text) > 20:
        return None
    near = difflib.get_close_matches(unit_text, SPELLINGS, n=1, cutoff=0.6)
    if not near or len(near[0]) < len(unit_text) <= SHORT:
        return None  # `im` is as far from `in` and `mm` as from `m`
    return SPELLINGS[near[0]].name


def _fraction_hint(line: str) -> str:
    """Which fraction a date was most likely made of, by a hand or by a spreadsheet."""
    cell = "A spreadsheet makes a date of a fraction: format the cell as text, or type an apostrophe first."
    meant = _fractions_meant(line)
    if not meant:
        return f"Write what was read, with its unit, such as 1/16 in. {cell}"
    return f"Write {' or '.join(f'{one} in' for one in meant)} if that was read. {cell}"


def _fractions_meant(line: str) -> list[str]:
    """The fractions of a rule that a day and a month can stand for.

    >>> _fractions_meant("1-Aug"), _fractions_meant("16-Jan"), _fractions_meant("2026-03-08"), _fractions_meant("2-Feb")
    (['1/8'], ['1/16'], ['3/8'], [])
    """
    numbers = [int(one) for one in _NUMBERS.findall(_YEAR.sub(" ", line))]
    named = _MONTH_NAMED.search(line)
    if named:
        numbers.append(_MONTHS_IN_ORDER.index(named[0][:3].lower()) + 1)
    if len(numbers) < 2:
        return []
    one, two = numbers[:2] if not named else (numbers[0], numbers[-1])
    return [f"{above}/{below}" for above, below in ((one, two), (two, one))
            if below in _RULE and above % 2 and above < below]  # fmt: skip


def _reason_and_hint(line: str) -> tuple[str, str]:
    if not line:
        return "there is nothing here.", GENERAL_HINT
    if _NOT_FINITE.match(line):
        return "this is no number.", "Where nothing was measured, leave the reading out and say why."
    if _DATE.search(line):
        return "this is a date, and a size is asked for.", _fraction_hint(line)
    if not _DIGIT.search(line):
        return "there is no number.", GENERAL_HINT
    if _COMMA.search(line) or _BEFORE_FRACTION.search(line):
        return _comma(line)
    if _HUGE_POWER.search(line):
        return "the power of ten is out of all measure.", GENERAL_HINT
    if _BACKSLASH.search(line):
        return "the slash leans the other way.", _slashed(line.replace("\\", "/"))
    if _TWO_SLASHES.search(line):
        return "a fraction has one slash.", "Write a whole number, a space and a fraction, such as 1 1/2 in."
    if _INCHES_FIRST.match(line):
        return "feet come before inches.", f"Write {EXAMPLES['length']}, or 4 ft 8 1/2 in."
    if _FEET_WITHOUT_INCH.match(line):
        return "the second number has no unit.", f"Write {line} in."
    if match := _DASHED.match(line):
        return "a hyphen between two numbers may be a range or a fraction.", _dashed(match)
    if not _FIRST.match(line):
        return (
            "a value starts with its number, its sign directly before it.",
            "Write the number first; only under and over may stand before it, as in under 0.0015 in.",
        )
    if _TWO_NUMBERS.match(line):
        return MANY, "Write 5 1/2 in or 5.5 in for five and a half."
    return _unit(line)


def refusal(text: str, line: str) -> NotAMeasure:
    """Build the refusal of a text, `line` being the same with plain spaces, quotes and dashes."""
    return NotAMeasure(text, *_reason_and_hint(line))
