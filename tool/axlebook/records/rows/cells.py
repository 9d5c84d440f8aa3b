"""One cell: its text as a record has it, or why it cannot be taken and what to type instead."""

from __future__ import annotations

import re
import unicodedata
from datetime import date, timedelta
from typing import NamedTuple

from axlebook.quantities import NotAMeasure, Unit, parse_measure

LONGEST = 1000


class Cell(NamedTuple):
    """A cell as the file has it: text, a number as it is shown, or a day that the spreadsheet knows as one."""

    text: str
    kind: str = "text"  # text, number, shown (as a CSV has it), day (YYYY-MM-DD), month (YYYY-MM), wrong (text is why)


EMPTY = Cell("")


class Refused(Exception):  # noqa: N818 - an answer to the person
    """Why a cell cannot be taken, and what to do."""

    def __init__(self, why: str, then: str) -> None:
        super().__init__(why, then)
        self.why, self.then = why, then


AS_TEXT = "Format the column as text (or type an apostrophe first) and type the fraction again"
_MONTHS = {
    1: "jan gen ene", 2: "feb fev fév", 3: "mar mär mrz maa", 4: "apr avr abr", 5: "may mai mei mag maj",
    6: "jun juin giu", 7: "jul juil lug", 8: "aug aoû ago aou", 9: "sep set", 10: "oct okt ott out",
    11: "nov", 12: "dec dez déc dic",
}  # fmt: skip
_MONTH_OF = {word: number for number, words in _MONTHS.items() for word in words.split()}
_WORD = re.compile(r"(?:(?P<before>[0-9]{1,4})[ ./-]*)?(?P<month>[^\W\d_]{3,10})\.?[ ,./-]*(?P<after>[0-9]{1,4})?"
                   r"(?:[ ,./-]+(?P<year>[0-9]{2,4}))?")  # fmt: skip
_DIGITS = re.compile(r"(?P<first>[0-9]{1,2})([./-])(?P<second>[0-9]{1,2})\2(?P<year>[0-9]{4}|[0-9]{2})?")
_ISO = re.compile(r"(?P<year>[0-9]{4})-(?P<first>[0-9]{1,2})(?:-(?P<second>[0-9]{1,2}))?")
_HOURS = re.compile(r"[T ]+[0-9]{1,2}:[0-9]{2}(?::[0-9]{2}(?:\.[0-9]+)?)?(?: ?[ap]m)?\Z", re.IGNORECASE)
_BARE_NUMBER = re.compile(r"[-+]?[0-9][0-9 ./-]*|[-+]?\.[0-9]+", re.ASCII)
_DECIMAL = re.compile(r"[-+]?[0-9]*\.?[0-9]+", re.ASCII)
_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])|^,(?=[0-9])")
_POINT = re.compile(r"([0-9]*)\.([0-9]+)", re.ASCII)
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}\.[0-9]{3}", re.ASCII)
_DAYS_SINCE, _FIRST_SERIAL, _LAST_SERIAL = date(1899, 12, 30), 36526, 73415  # 2000-01-01 to 2100-12-31
_MARKS = ("x", "xx", "n/a", "n.a", "na", "none", "nil", "n")
_UNITS = {"temperature": ("degF", "degC"), "angle": ("deg",), "hardness": ("HB",)}  # else inch or mm
_HALVINGS = (2, 4, 8, 16, 32, 64)


def plain(text: str) -> str:
    """A cell's text on one line, with plain spaces.

    Raises
    ------
    Refused
        It is too long, or holds signs that cannot be typed.
    """
    if len(text) > LONGEST:
        raise Refused(f"the cell holds {len(text)} characters.", f"Keep it under {LONGEST}.")
    line = spaced(text)
    if not line.isprintable():
        raise Refused("the cell holds signs that cannot be typed or seen.", "Type it again.")
    return line


def spaced(text: str) -> str:
    """A text on one line, its words one space apart.

    >>> spaced("oil\\n  on\\u00a0rim")
    'oil on rim'
    """
    plainer = "".join(" " if sign in "\n\r\t" or unicodedata.category(sign)[0] == "Z" else sign for sign in text)
    return " ".join(plainer.split())


def measure(cell: Cell, unit: Unit | None, dimension: str, *, decimal_comma: bool, head: str = "value") -> str:
    """A figure with its unit, as the record is to have it; `unit` is that of the column's head, `any` any dimension.

    Raises
    ------
    Refused
        It is a date, has no unit, or is no figure of that dimension.
    """
    text = plain(cell.text)
    _refuse_date(cell, text, dimension)
    if decimal_comma and cell.kind != "number":  # a workbook's own number has no mark of a country
        text = _with_points(text)
    bare = bool(_BARE_NUMBER.fullmatch(text)) or text[-1:] in "½¼¾⅛⅜⅝⅞"
    if bare and dimension == "length":
        _refuse_serial(text)
    if bare and unit is not None:
        _refuse_rounded(cell, text)
        text = f"{text} {unit.name}"
    try:
        found = parse_measure(text)
    except NotAMeasure as refused:
        raise _explained(text, refused, head, dimension, bare=bare) from None
    if dimension not in ("any", found.dimension):
        raise Refused(
            f"{text} is a {found.dimension.replace('_', ' ')}, and a {dimension.replace('_', ' ')} is asked for.",
            "Look whether it stands in the right row and column.",
        )
    return text


def _refuse_date(cell: Cell, text: str, dimension: str) -> None:
    pair = _date_in(text)
    if cell.kind in ("day", "month") or pair is not None:
        meant = _fraction_meant(*(pair or (0, 0)), text) if dimension in ("length", "any") else ""
        likely = f", most likely of {meant}" if meant else ""
        raise Refused(
            f"{text} is a date: the spreadsheet made it of a fraction{likely}.",
            f"{AS_TEXT}, with its unit: {meant or '1/16'} in.",
        )


def _date_in(text: str) -> tuple[int, int] | None:
    """The two numbers that a spreadsheet may have made a date of; None where the text is no date.

    >>> _date_in("16-Jan"), _date_in("1/16/2026"), _date_in("2026-01-16 00:00:00"), _date_in("1 3/8 in")
    ((16, 1), (1, 16), (1, 16), None)
    """
    bare = _HOURS.sub("", text)
    if match := _ISO.fullmatch(bare):
        return int(match["first"]), int(match["second"] or match["year"][2:])
    if match := _DIGITS.fullmatch(bare):
        return int(match["first"]), int(match["second"])
    match = _WORD.fullmatch(bare)
    month = match and _month(match["month"])
    if not match or not month or not (match["before"] or match["after"]):
        return None
    if match["before"]:
        return int(match["before"]), month
    return month, int(match["after"])


def _month(word: str) -> int | None:
    folded = word.casefold()
    return _MONTH_OF.get(folded[:4]) or _MONTH_OF.get(folded[:3])


def _fraction_meant(first: int, second: int, text: str) -> str:
    """The fraction of an inch that a date was most likely typed as; '' where there is none.

    >>> _fraction_meant(1, 16, "2026-01-16"), _fraction_meant(8, 5, ""), _fraction_meant(1, 1, "1932-01-01")
    ('1/16', '5/8', '1/32')
    """
    year = int(text[2:4]) if _ISO.match(text) else 0
    tries = [(first, second), (second, first), *([(first, year)] if second == 1 else [])]
    for above, below in tries:
        if below in _HALVINGS and above < below and above % 2:
            return f"{above}/{below}"
    return ""


def _refuse_serial(text: str) -> None:
    """A whole number that a spreadsheet keeps for a day of this century is no size of a wheel."""
    if text.isdecimal() and _FIRST_SERIAL <= int(text) <= _LAST_SERIAL:
        day = _DAYS_SINCE + timedelta(days=int(text))
        meant = _fraction_meant(day.month, day.day, day.isoformat())
        likely = f", most likely of {meant}" if meant else ""
        raise Refused(
            f"{text} is the number a spreadsheet keeps for the day {day}{likely}.",
            f"{AS_TEXT}, with its unit: {meant or '1/16'} in.",
        )


def _refuse_rounded(cell: Cell, text: str) -> None:
    """A spreadsheet that made a number of a fraction saves to CSV what it shows, and that is often rounded."""
    if cell.kind == "shown" and not _DECIMAL.fullmatch(text):
        raise Refused(
            f"{text} has no unit of its own. A spreadsheet makes a number of such a fraction and saves it rounded to "
            "one digit: 2 7/16 becomes 2 4/9.",
            "Look at the paper, and write the unit behind it: 2 7/16 in. Or import the .xlsx, which has it unrounded.",
        )


def _with_points(text: str) -> str:
    """A number with a decimal comma as one with a point; a point in it is taken for neither of what it may mean.

    >>> _with_points("1,375 in")
    '1.375 in'
    """
    pointed = _POINT.search(text)
    if pointed is None:
        return _COMMA.sub(".", text)
    if _COMMA.search(text):
        raise Refused(f"{text} has a point and a comma.", "Write the number without a mark between thousands.")
    with_comma = _POINT.sub(r"\1,\2", text)
    if not _THOUSANDS.fullmatch(pointed[0]):
        raise Refused(
            f"{text} has a point, and the file is said to have decimal commas.",
            f"Write {with_comma}; or leave out --decimal comma where all the file has decimal points.",
        )
    whole = _POINT.sub(r"\1\2", text)
    raise Refused(
        f"{text} has a point, and the file is said to have decimal commas: it may be {whole}, the point between "
        f"thousands, or {with_comma}.",
        f"Look at the paper, and write {whole} or {with_comma}; or leave out --decimal comma where all the file has "
        "decimal points.",
    )


def is_mark(text: str) -> bool:
    """Whether a text is what people put into a cell that they have nothing for.

    >>> is_mark("N/A"), is_mark("--"), is_mark("0"), is_mark("unknown")
    (True, True, False, False)
    """
    return text.casefold().strip(" .") in _MARKS or (bool(text) and not any(sign.isalnum() for sign in text))


def _explained(text: str, refused: NotAMeasure, head: str, dimension: str, *, bare: bool) -> Refused:
    if bare:
        units = _UNITS.get(dimension, ("in", "mm"))
        written = " or ".join(f"{text} {unit}" for unit in units)
        return Refused(
            f"{text} has no unit.", f"Write {written}, or put the unit into the column's head: {head} ({units[0]})."
        )
    if _COMMA.search(text):
        return Refused(
            f"{text}: {refused.reason}", f"{refused.hint} Or say that the whole file has decimal commas: "
            "--decimal comma.",
        )  # fmt: skip
    if dimension == "angle":
        return Refused(f"{text}: {refused.reason}", "Write the angle from the datum, such as 140 deg.")
    return Refused(f"{text}: {refused.reason}", refused.hint)


_WRITTEN_DAY = re.compile(r"([0-9]{1,2})[./-]([0-9]{1,2})[./-]([0-9]{4})")
_YEAR_FIRST = re.compile(r"([0-9]{4})[/.]([0-9]{1,2})[/.]([0-9]{1,2})")


def day(cell: Cell, order: str) -> str:
    """A day as a record has it. `order` is mdy, dmy or '': a day written otherwise is taken where it has one meaning.

    >>> day(Cell("3/14/2026"), ""), day(Cell("14.3.2026"), ""), day(Cell("3/4/2026"), "dmy"), day(Cell("1987"), "")
    ('2026-03-14', '2026-03-14', '2026-04-03', '1987')
    """
    text = plain(cell.text)
    bare = _HOURS.sub("", text)
    if match := _YEAR_FIRST.fullmatch(bare):
        return "-".join((match[1], match[2].zfill(2), match[3].zfill(2)))
    match = _WRITTEN_DAY.fullmatch(bare)
    if match is None:
        return bare if _ISO.fullmatch(bare) else text
    first, second, year = int(match[1]), int(match[2]), match[3]
    ways = {"mdy": _on(year, first, second), "dmy": _on(year, second, first)}
    found = sorted({day for way, day in ways.items() if day and order in ("", way)})
    if len(found) == 1:
        return found[0]
    if found:
        raise Refused(f"{text} may be {found[0]} or {found[1]}.", "Write it so, or say which with --dates mdy or dmy.")
    other = next(((way, day) for way, day in ways.items() if day), None)
    if other is None:
        raise Refused(f"{text} is no day of the calendar.", "Write it such as 2026-03-07.")
    raise Refused(
        f"{text} has no day by --dates {order}: there is no month {second if order == 'dmy' else first}.",
        f"Write {other[1]} if that is meant; or, where the whole file has the {_FIRST_IS[other[0]]} first, "
        f"--dates {other[0]}.",
    )


_FIRST_IS = {"mdy": "month", "dmy": "day"}


def _on(year: str, month: int, day: int) -> str:
    return f"{year}-{month:02}-{day:02}" if 1 <= month <= 12 and 1 <= day <= 31 else ""
