"""A row of a sheet as a line: one reading, one thing looked for, or why neither was done."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from axlebook.quantities import Unit

from ..book import Book
from ..entry.answers import SEEN, read_reason
from ..entry.header import Refused as NoReason
from ..forms import is_id, parse_position
from . import cells
from .cells import Cell, Refused
from .columns import BY_KEY, PARTING, UNKNOWN, Column, belongs, row_key

Told = dict[str, str]
Refuse = Callable[[str, Refused], None]
SAYS = ("value", "answer", "because")  # a row without any of them says nothing


@dataclass(frozen=True)
class Ways:
    """How a file is to be read, as the person says: what stands in for blanks, and marks that can mean two things."""

    defaults: Mapping[str, str]
    decimal_comma: bool = False
    dates: str = ""  # mdy, dmy or ''


@dataclass(frozen=True)
class Line:
    """What a row says, by the keys of the columns; `row` is its number in the file."""

    row: int
    kind: str  # reading, look, excuse
    told: Told

    def get(self, key: str) -> str:
        """What it says in a column, or ''."""
        return self.told.get(key, "")

    @property
    def where(self) -> str:
        """The place, or the part."""
        return self.get("place") or self.get("part")

    @property
    def session(self) -> tuple[str, str, str, str]:
        """What tells one session from another."""
        return self.get("measured_on"), self.get("engine"), self.get("purpose"), self.get("by")


def read_line(
    number: int, row: Mapping[Column, tuple[Cell, Unit | None]], book: Book, ways: Ways, refuse: Refuse
) -> Line | None:
    """The line of a row; None where it says nothing, or where something of it was refused."""
    texts: Told = {}
    dimension, sound = "", True
    for column, (cell, unit) in sorted(row.items(), key=lambda item: item[0].key != "what"):  # `what` tells the rest
        if not cell.text.strip():
            continue
        try:
            if column.key == "what":
                text = _word(cells.plain(cell.text), book)
                dimension = _dimension(text, book)
            else:
                _refuse_angle(column, cell, texts.get("what", ""), dimension)
                text = _text(column, cell, unit, dimension, ways)
        except Refused as refused:
            refuse(column.head, refused)
            sound = False
        else:
            texts[column.key] = text
    if not sound:
        return None
    try:
        return _line(number, texts, book, ways)
    except Refused as refused:
        refuse("", refused)
        return None


def _dimension(what: str, book: Book) -> str:
    word = book.vocabulary.quantities.get(what)
    return word.dimension if word else ""


def _refuse_angle(column: Column, cell: Cell, what: str, dimension: str) -> None:
    """The angle of a reading is its position; `worst` and a bare 90 are one, and no angle that can be read."""
    if column.key == "angle" and dimension:
        raise Refused(
            f"angle says nothing of {what}: it is of what was seen.",
            "Where round a figure was read stands in 'position': name the column so, or move it there, "
            f"{cells.plain(cell.text)[:40]}.",
        )


def _text(column: Column, cell: Cell, unit: Unit | None, dimension: str, ways: Ways) -> str:
    """A cell as its column is written."""
    if cell.kind == "wrong":
        raise Refused(cell.text, "Type what was read as plain text.")
    if column.sort == "day":
        return cells.day(cell, ways.dates)
    if column.sort == "value":
        return _values(cell, unit, dimension or "any", ways)
    if column.sort in ("temperature", "angle", "length", "any"):
        return cells.measure(cell, unit, column.sort, decimal_comma=ways.decimal_comma, head=column.head)
    text = cells.plain(cell.text)
    if cell.kind in ("day", "month"):
        raise Refused(f"{text} is a date, and does not belong into this column.", "Format the column as text.")
    if column.sort in ("names", "numbers"):
        return " ".join(text.replace(",", " ").replace(";", " ").split())
    return f"{text} deg" if column.sort == "position" and unit is not None and text.isdecimal() else text


def _values(cell: Cell, unit: Unit | None, dimension: str, ways: Ways) -> str:
    if cells.is_mark(mark := cells.plain(cell.text)):
        raise Refused(f"{mark} is no figure.", "Where it was not read, empty the cell and write why into "
                      "'not measured because': no access, no instrument, no time.")  # fmt: skip
    parts = [part for part in cell.text.split(";") if part.strip()]
    if not parts:
        return ""
    return PARTING.join(
        UNKNOWN
        if part.strip().casefold() == UNKNOWN
        else cells.measure(Cell(part, cell.kind), unit, dimension, decimal_comma=ways.decimal_comma)
        for part in parts
    )


def _word(text: str, book: Book) -> str:
    """The quantity or observation meant, by its name or its title."""
    words = {**book.vocabulary.quantities, **book.vocabulary.observations}
    if not text or text in words:
        return text
    folded = text.casefold()
    found = [name for name, word in words.items() if folded in (word.title.casefold(), name.replace("_", " "))]
    if len(found) == 1:
        return found[0]
    if text in book.vocabulary.derived:
        comes_from = " and ".join(book.vocabulary.derived[text].comes_from)
        raise Refused(f"{text} is worked out{f' from {comes_from}' if comes_from else ''}, never typed.",
                      "Write what was read.")  # fmt: skip
    near = get_close_matches(folded.replace(" ", "_"), words, n=1)
    raise Refused(
        f"{text[:40]!r} is nothing that is measured or looked for here.",
        f"Write {near[0]} if that is meant." if near else "The words stand in schema/vocabulary.yaml.",
    )


def _line(number: int, texts: Told, book: Book, ways: Ways) -> Line | None:
    said = [key for key in SAYS if texts.get(key)]
    if not said:
        _refuse_leftover(texts)
        return None
    if len(said) > 1:
        heads = " and ".join(BY_KEY[key].head for key in said)
        raise Refused(f"{heads} are both filled in.", "A row says one of them.")
    if not texts.get("what"):
        raise Refused("it does not say what was measured.", "Fill in the column 'what'.")
    texts = {key: text for key, text in ways.defaults.items() if text} | texts
    engine = book.engine_named(texts.get("engine", ""))
    texts |= {"engine": engine.id} if engine else {}
    _require_where(texts)
    _require_key(texts)
    kind = _kind(texts, said[0], book)
    told = _of_kind(texts, kind, book)
    _require_session(told, book)
    return Line(number, kind, told)


def _refuse_leftover(texts: Told) -> None:
    """A size or a note without an answer is half a row: it is not read as if nothing stood there."""
    left = [key for key in texts if key == "note" or BY_KEY[key].of == "look" or key == "reason_kept"]
    if left:
        raise Refused(f"{BY_KEY[left[0]].head} is filled in, and no reading, answer or reason beside it.",
                      "Fill in value, seen, or not measured because.")  # fmt: skip


def _require_where(texts: Told) -> None:
    if bool(texts.get("place")) == bool(texts.get("part")):
        both = texts.get("place")
        raise Refused("a place and a part are both named." if both else "neither a place nor a part is named.",
                      "Fill in one of the two columns.")  # fmt: skip
    if texts.get("place") and not texts.get("engine"):
        raise Refused("a place is named, and no engine.", "Fill in the column 'engine'.")


def _require_key(texts: Told) -> None:
    """The key names what the row names: else cells of two rows were mixed, as by sorting some columns alone."""
    made = row_key(texts["what"], texts.get("place") or texts.get("part", ""), texts.get("position", ""))
    told = texts.pop("key", "")
    if told and " ".join(told.split()) not in (made, made.removesuffix(f" / {texts.get('position')}")):
        raise Refused(
            f"the row key says {told[:80]!r}, and the row itself {made[:80]!r}: cells of two rows are mixed.",
            "Sort whole rows only; of a row you made yourself leave the key empty.",
        )


def _kind(texts: Told, said: str, book: Book) -> str:
    is_quantity = texts["what"] in book.vocabulary.quantities
    if said == "because":
        return "excuse"
    if is_quantity and said == "answer":
        raise Refused(f"{texts['what']} is measured, and seen is filled in.", "Write its figure into value.")
    if not is_quantity and said == "value":
        raise Refused(f"{texts['what']} is looked for, and value is filled in.",
                      "Write seen or not seen into seen; a size into length, width or distance.")  # fmt: skip
    return "reading" if is_quantity else "look"


def _of_kind(texts: Told, kind: str, book: Book) -> Told:
    """What of the row belongs to it; what does not is refused unless it is about how things were held."""
    for key in texts:
        column = BY_KEY[key]
        if not belongs(column, kind) and column.of != "setup" and not (kind == "excuse" and key == "with"):
            raise Refused(f"{column.head} says nothing of {texts['what']}{' not measured' * (kind == 'excuse')}.",
                          "Empty it, or look whether it stands in the right row.")  # fmt: skip
    told = {key: text for key, text in texts.items() if belongs(BY_KEY[key], kind)}
    if kind == "look":
        told.pop("position", None)
    elif (kind == "reading" or "position" in told) and parse_position(told.get("position", "")) is None:
        text = told.get("position", "")
        why = f"{text!r} is no position." if text else "no position is told."
        raise Refused(why, "Write it such as 90 deg, worst, all round.")
    if kind == "look":
        told["answer"] = _answer(told["answer"])
    if kind == "excuse":
        told |= _reason(told, book.vocabulary.reasons_not_measured)
    return told


def _answer(text: str) -> str:
    found = SEEN.get(text.casefold())
    if found is None:
        looked = "; where nobody looked, empty the cell and write why into 'not measured because'."
        raise Refused(f"{text[:40]!r} is no answer.",
                      f"Write seen, not seen or unknown{looked if cells.is_mark(text) else '.'}")  # fmt: skip
    return found


def _reason(told: Told, reasons: tuple[str, ...]) -> Told:
    try:
        if cells.is_mark(told["because"]):
            raise NoReason("")
        because, words = read_reason(reasons, told["because"])
    except NoReason:
        raise Refused(f"{told['because'][:40]} is no reason.", f"Write one of: {', '.join(reasons)}.") from None
    note = "; ".join(text for text in (words, told.get("note", "")) if text)
    return {"because": because} | ({"note": note} if note else {})


def _require_session(told: Told, book: Book) -> None:
    for key, option in (("measured_on", "--day"), ("purpose", "--purpose")):
        if not told.get(key):
            raise Refused(f"{BY_KEY[key].head} is not told.", f"Fill it in, or say it for all such rows: {option}.")
    engine = told.get("engine", "")
    if engine and engine not in book.engines:
        there = ", ".join(book.engines) or "none"
        raise Refused(f"there is no engine {engine[:40]!r} in this ledger.", f"There are: {there}.")
    for name in told.get("by", "").split():
        if not is_id(name):
            raise Refused(f"{name[:40]!r} is no person's id.", "Write ids such as lead or v3, a space between.")
