"""The sheet for a tire as it comes from the machine shop: what was ordered, and boxes for what came."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from axlebook.checks._boxes import Ask
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.forms import PLANES, parse_position
from axlebook.records.tire import Tire

from .sheet import Gap, Line, Section, Sheet, Table, written
from .view import Day

LEAD = (
    "Measure before anything else is done to the tire. A tire is for its own measured center only; what cannot be "
    "read is left blank and the reason written beside it: a blank is never read as good."
)
CAUTIONS = (
    "A tire is heavy and rolls: flat on even blocks, lifted only by a plan, nobody in the way it can fall or roll.",
    "Edges of a fresh bore cut and so do chips: never clear them by hand, and keep the floor round the tire clear.",
)
ORDERED = {
    "tire_thickness": "nominal_thickness", "tire_width": "nominal_width", "tire_seat_width": "seat_width",
    "flange_back_to_register": "flange_back_to_register",
}  # fmt: skip
MARKS = ("serial", "heat", "maker", "made_on", "stamped")


def receiving_sheet(book: Book, tire: Tire, asked: Sequence[Ask], day: Day) -> Sheet:
    """The sheet of one tire, from what the plans for receiving ask."""
    read = [ask for ask in asked if ask.question.is_read]
    looks = [ask for ask in asked if not ask.question.is_read]
    sections = (_marks(tire), *_readings(tire, read), _looks(looks), _circumstances(book))
    return Sheet(
        "sheet", f"Receiving sheet for tire {tire.id}", tire.id, (LEAD,), sections, tuple(_gaps(tire)),
        cautions=CAUTIONS, day=day, identity=(f"TIRE {tire.id}", _for_center(tire)),
    )  # fmt: skip


def _for_center(tire: Tire) -> str:
    center = tire.for_center
    return f"ORDERED FOR CENTER {center} ONLY" if center else "FOR CENTER ____________: no order on record says which"


def _marks(tire: Tire) -> Section:
    """Stamp against record and certificate, before anything is measured."""
    marks, steel = fields.inner(tire.tree, "marks"), fields.inner(tire.tree, "steel")
    rows = [(key.replace("_", " "), fields.text(marks, key) or "not on record", "", "") for key in MARKS]
    certificate = fields.text(steel, "certificate") or "not on record"
    rows.append(("certificate in hand", certificate, "", ""))
    head = ("Mark", "On record", "As stamped", "Agrees: yes / NO")
    return Section(
        "Read the marks first", tables=(Table("Two people, one reads aloud", head, tuple(rows), boxes=True),)
    )


def _readings(tire: Tire, asked: Sequence[Ask]) -> Iterator[Section]:
    by_what: dict[str, list[Ask]] = {}
    for ask in asked:
        by_what.setdefault(ask.what, []).append(ask)
    for many in by_what.values():
        first = many[0].question
        unit = f" [{many[0].unit}]" if many[0].unit else ""
        notes = (first.how,) if first.how else ()
        tables = tuple(_tables(many))
        title = f"{first.title[0].upper()}{first.title[1:]}{unit}{' (if you can)' if first.wanted else ''}"
        yield Section(title, tuple(_ordered(tire, many)), tables, notes)


def _ordered(tire: Tire, many: Sequence[Ask]) -> Iterator[Line]:
    """What the order asks, and what was read before."""
    form, ordered = fields.inner(tire.tree, "form"), fields.inner(tire.tree, "ordered")
    what = many[0].what
    if what == "tire_bore":
        bore = fields.inner(ordered, "bore")
        least, most = fields.text(bore, "at_least"), fields.text(bore, "at_most")
        if least or most:
            at = fields.text(bore, "temperature") or "a temperature NOT told"
            figures = (*written("ordered_least", least, "", tire.id), *written("ordered_most", most, "", tire.id))
            yield Line("Ordered", f"{least or 'not told'} to {most or 'not told'} at {at}", figures, tire.path)
    elif text := fields.text(form, ORDERED.get(what, "")):
        yield Line("Ordered", text, written(f"ordered_{what}", text, "", tire.id), tire.path)
    last = {ask.last.reading.source.record: ask.last for ask in many if ask.last}
    for record, one in last.items():
        told = ", ".join(f"{ask.position} {ask.last.text}" for ask in many if ask.last)
        temperature = f"; tire at {one.reading.part_temperature}" if one.reading.part_temperature else ""
        yield Line(f"Read on {one.day}", f"{told}{temperature}", note=record)
    asked = many[0].question
    needs = [
        f"to {asked.least_count}" if asked.least_count else "",
        "both temperatures" if asked.needs_temperature else "",
    ]
    if any(needs):
        yield Line("Read", ", ".join(filter(None, needs)))


def _tables(many: Sequence[Ask]) -> Iterator[Table]:
    """Angles down and planes across where both are asked, else one position a row; each for two readers."""
    spots = [parse_position(ask.position) for ask in many]
    planes = tuple(plane for plane in PLANES if any(s and s.angle is not None and s.plane == plane for s in spots))
    if planes:
        angles = dict.fromkeys(
            ask.position.removesuffix(f" {s.plane}") for ask, s in zip(many, spots, strict=True) if s
        )
        for reader in ("First reader", "Second reader, on their own"):
            rows = tuple((angle, *([""] * len(planes))) for angle in angles)
            yield Table(reader, ("At", *planes), rows, boxes=True)
        yield _temperatures()
        return
    rows = tuple((ask.position, "", "", "") for ask in many)
    yield Table("", ("At", "Reading", "Second reader", "Not measured because"), rows, boxes=True)


def _temperatures() -> Table:
    head = ("Temperature of the tire", "of the instrument", "of the air", "Hours side by side", "Instrument")
    return Table("Never taken for 68 degF: what is not written is not known", head, (("",) * 5,), boxes=True)


def _looks(looks: Iterable[Ask]) -> Section:
    rows = tuple((ask.question.title, "", "", ask.question.how) for ask in looks)
    tables = (Table("A blank is never read as good", ("Look for", "looked, not seen", "SEEN: where, size", "How"), rows,
                    boxes=True),) if rows else ()  # fmt: skip
    return Section("Look for", tables=tables)


def _circumstances(book: Book) -> Section:
    reasons = ", ".join(book.vocabulary.reasons_not_measured)
    rows = (("Measured by", "", "Date and hour", ""), ("Second reader", "", "Instruments", ""),
            (f"Not measured, where, because ({reasons})", "", "Sheet typed in by, on", ""))  # fmt: skip
    return Section("Who, when, with what", tables=(Table("", ("", "", "", ""), rows, boxes=True),))


def _gaps(tire: Tire) -> Iterator[Gap]:
    if not fields.inner(fields.inner(tire.tree, "ordered"), "bore"):
        yield Gap("what bore was ordered is not on record", "Enter it in the tire's record, ordered: bore.")
    if not tire.for_center:
        yield Gap("which center the tire is for is not on record", "Enter it: ordered: for_center.")
