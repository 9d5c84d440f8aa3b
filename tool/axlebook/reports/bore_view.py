"""What the order sheet for the machine shop holds: one bore, for one measured center."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from axlebook.findings import Figure
from axlebook.quantities import UNITS, render_value
from axlebook.records import fields
from axlebook.records.book import Book, Thing
from axlebook.records.bore_order import BoreBand, bore_band, center_size, guard_band, tire_on_since, tires_ordered
from axlebook.records.fit import TIRE_STEEL, Missing, Size, expansion_of
from axlebook.records.practice import Adopted, adopted, engine_of, followed_astray, waiting_practice
from axlebook.records.tire import Tire
from axlebook.records.wheelset import Center

from .amounts import Amounts
from .bore_temperatures import temperature_table
from .fit_from_records import practice_figures
from .sheet import Gap, Line, Section, Sheet, Table, computed
from .view import Day

LEAD = (
    "A tire is bored to its own measured center. Work only to this sheet; where something on it cannot be right, ask "
    "before cutting."
)
CAUTIONS = (
    "Not interchangeable: this bore is for this center only. Stamp and tag the tire with the center's id.",
    "No heat, no fitting and no welding in the machine shop: bore, measure, send back.",
    "A tire is heavy and rolls: lift and chuck it by a plan of the shop's own.",
)
ANGLES, PLANES = ("0 deg", "60 deg", "120 deg"), ("inner edge", "middle", "outer edge")
HINT = "Temperatures, dimensions, what to send back: --all, or --format html to print."
RULE = (
    "Bore = center less interference. The band is narrowed by how far the center's readings are good, and rounded "
    "inward; the uncertainty of your own bore reading is not in it: stay away from its ends"
)


@dataclass(frozen=True)
class Order:
    """What an order rests on."""

    center: Center
    size: Size
    practice: Adopted
    band: BoreBand | None
    tires: tuple[Tire, ...]
    show: Amounts


def order_of(book: Book, center: Center) -> Order | Missing:
    """The order for a center; or what it cannot be made without."""
    found = center_size(book, center)
    if isinstance(found, Missing):
        return found
    nominal = center.nominal_diameter or Fraction(found.mean)
    practice = next(adopted(book, center, "interference", nominal), None)
    if practice is None:
        return _no_practice(book, center)
    amounts, band = Amounts(book.in_mm(engine_of(book, center))), None
    if practice.least is not None and practice.most is not None:
        step = step_of(amounts)
        band = bore_band(Fraction(found.mean), practice.least, practice.most, guard_band(found), step)
    return Order(center, found, practice, band, tuple(tires_ordered(book, center)), amounts)


def _no_practice(book: Book, center: Center) -> Missing:
    """Why no practice can be followed, and the lines that would change it."""
    told = "no shrinkage practice on file for this center"
    held, lines = waiting_practice(book, center)
    if held == "in force":
        astray = followed_astray(book, center)
        if astray is not None:
            step = "Write under `follows` the id of one that is, as its set has it."
            return Missing(f"{told}: {astray.id} follows {astray.follows}, which is not on file", step)
        return Missing(f"{told}: the adopted one does not apply to it",
                       "Look at its `applies_to`, and from which diameter to which its table goes: for a center beside "
                       "it, write a practice of your own that covers it, with its source.")  # fmt: skip
    if held:
        return Missing(f"{told} is adopted; limits/{held}.yaml has one", "Say that it is adopted.", write=lines)
    step = "Write one, with its source and tolerance, and adopt it in ledger.yaml."
    return Missing(told, step, write=lines)


def step_of(show: Amounts) -> Fraction:
    """What a bore is ordered in: .001 in, or 0.01 mm."""
    return UNITS["mm"].to_base(Fraction(1, 100)) if show.metric else UNITS["in"].to_base(Fraction(1, 1000))


def bore_sheet(book: Book, order: Order, day: Day) -> Sheet:
    """The order sheet."""
    sections = (
        _bore(order),
        _why(order),
        *_temperatures(book, order),
        _other_dimensions(book, order),
        _finish(),
        _send_back(order),
    )
    return Sheet(
        "bore", f"Bore order for center {order.center.id}", order.center.id, (LEAD,), sections,
        tuple(_gaps(book, order)), cautions=CAUTIONS, day=day, hint=HINT, identity=tuple(_identity(book, order)),
    )  # fmt: skip


def _identity(book: Book, order: Order) -> Iterator[str]:
    center, engine = order.center, engine_of(book, order.center)
    of = f", engine {engine.id}" if engine else ""
    yield f"CENTER {center.id}: {center.wheelset}, {center.first_side}{of}"
    if not order.tires:
        yield "TIRE: id ________ serial ________ heat ________: for this center ONLY"
    for tire in order.tires:
        marks = fields.inner(tire.tree, "marks")
        told = [f"{name} {fields.text(marks, name) or '________'}" for name in ("serial", "heat")]
        yield f"TIRE {tire.id}, {', '.join(told)}: for this center ONLY"


def _exact(name: str, value: Fraction, unit: str) -> Figure:
    return Figure(name, render_value(value, "length", unit, 12).partition(" ")[0], unit, "computed")


def _bore(order: Order) -> Section:
    show, band = order.show, order.band
    unit = "mm" if show.metric else "in"
    if band is None:
        return Section("Bore at 68 degF (20 degC)", (_no_band(order),))
    figures = tuple(
        _exact(name, value, unit)
        for name, value in (("bore_least", band.least), ("bore_aim", band.aim), ("bore_most", band.most))
    )
    least, aim, most = show.worked_to(band.least, band.aim, band.most)
    lines = [
        Line("Bore the tire to", show.span(least, most), figures, "mean of all diameters, tire at 68 degF", main=True),
        Line("Aim at", f"{aim}, the middle of that", main=True),
    ]
    return Section("Bore at 68 degF (20 degC)", (*lines, *_on_order(order, band)))


def _no_band(order: Order) -> Line:
    aim = order.size.mean - float(order.practice.nominal)
    figures = computed("bore_aim", aim, "m")
    if order.practice.least is None:
        at = order.show.length(aim, 3)
        text = f"aim {at}; NO TOLERANCE: the adopted practice gives none. Do not cut until it does"
    else:
        text = _nothing_left(order, order.practice.least, order.practice.most or order.practice.nominal)
    return Line("Bore the tire to", text, figures, main=True, alarm=True)


def _nothing_left(order: Order, least: Fraction, most: Fraction) -> str:
    """Why there is no tolerance to cut to, and what would leave one."""
    show, step, accepted = order.show, step_of(order.show), most - least
    needed = show.length(accepted / 2 - step)
    told = f"NONE: the practice accepts {show.length(accepted)} in all"
    if accepted <= 2 * step:
        return f"{told}, which is no tolerance to cut to: settle the practice first"
    return (
        f"{told}, and the center is good to {show.length(guard_band(order.size))} each way: its readings are too "
        f"uncertain to leave a tolerance. Measure the center again, good to {needed} or better"
    )


def _on_order(order: Order, band: BoreBand) -> Iterator[Line]:
    """What an order already on record asks, held against this."""
    for tire in order.tires:
        asked = fields.inner(fields.inner(tire.tree, "ordered"), "bore")
        least, most = fields.exact(asked, "at_least"), fields.exact(asked, "at_most")
        if least is None or most is None:
            continue
        center, practice = Fraction(order.size.mean), order.practice
        beyond = least < center - (practice.most or 0) or most > center - (practice.least or 0)
        text = f"{fields.text(asked, 'at_least')} to {fields.text(asked, 'at_most')}"
        figures = tuple(
            Figure(name, fields.text(asked, key), "", tire.id)
            for name, key in (("ordered_bore_least", "at_least"), ("ordered_bore_most", "at_most"))
        )
        reaches = "inside the bore above"
        if beyond:
            reaches = "REACHES BEYOND the practice: settle it before cutting"
        elif least < band.least or most > band.most:
            reaches = "wider than the bore above, which allows for the center's uncertainty: keep to that"
        yield Line(f"On order for {tire.id}", f"{text}: {reaches}", figures, tire.path, main=True, alarm=beyond)


def _why(order: Order) -> Section:
    show, size, practice = order.show, order.size, order.practice
    lines = [
        Line(
            "Center, mean at 68 degF", f"{show.length(size.mean)}, good to {show.length(float(guard_band(size)))}",
            (*computed("center_diameter", size.mean, "m"), *computed("guard_band", float(guard_band(size)), "m")),
            f"mean of {len(size.diameters)}", main=True,
        ),
        Line(
            "Shrinkage allowance", _allowance(order), practice_figures(practice), practice.cited, main=True,
        ),
    ]  # fmt: skip
    round_, taper = size.out_of_round(), size.taper()
    if round_:
        lines.append(Line("Center out of round", show.length(round_[0]), computed("out_of_round", round_[0], "m")))
    if taper is not None:
        text = f"{show.length(taper)}, outer less inner: bore to match"
        lines.append(Line("Center taper", text, computed("taper", taper, "m")))
    return Section("What it rests on", tuple(lines), tuple(_readings(order)), (RULE,))


def _allowance(order: Order) -> str:
    show, practice = order.show, order.practice
    aim = show.length(float(practice.nominal))
    if practice.least is None or practice.most is None:
        return f"{aim}, without a tolerance"
    return f"{aim}; accepted {show.length(float(practice.least))} to {show.length(float(practice.most))}"


def _readings(order: Order) -> Iterator[Table]:
    """A table a reading: what it was taken with stands above it once."""
    for reading in order.size.readings:
        told = (
            f"{reading.source.record}, {reading.day.text}, by {', '.join(reading.by) or 'nobody told'}, with "
            f"{reading.instrument or 'an instrument not told'}, center {reading.part_temperature or 'NOT READ'}, "
            f"instrument {reading.instrument_temperature or 'not read'}"
        )
        mine = [d for d in order.size.diameters if d.reading is reading]
        rows = tuple((d.position, d.text, order.show.length_one(d.at_20, 4)) for d in mine)
        yield Table(told, ("Position", "As read", "At 68 degF"), rows)


def _temperatures(book: Book, order: Order) -> Iterator[Section]:
    expansion = expansion_of(book, TIRE_STEEL)
    if order.band is not None and expansion is not None:
        yield temperature_table(order.band, expansion, order.show, step_of(order.show))


def _other_dimensions(book: Book, order: Order) -> Section:
    wheelset, lines = book.wheelsets[order.center.wheelset], []
    lips = fields.text(wheelset.register, "lips")
    distance = fields.text(wheelset.register, "nominal_distance")
    if lips or distance:
        text = f"{lips or 'not told'}, {distance or 'distance not told'}"
        lines.append(Line("Register of the pair", text, note=wheelset.id))
    for tire in order.tires:
        form = fields.inner(tire.tree, "form")
        for key, label in (
            ("located_by", "Located by"), ("nominal_width", "Width"), ("seat_width", "Seat width"),
            ("flange_back_to_register", "Flange back to register"), ("nominal_thickness", "Thickness"),
            ("flange", "Flange"), ("contour", "Contour"), ("fastened_by", "Fastened by"),
        ):  # fmt: skip
            text = fields.text(form, key)
            lines.append(Line(f"{label} ({tire.id})", text or "NOT ON RECORD: ask before cutting"))
    if not order.tires:
        lines.append(Line("Tire", "none on record for this center: width, register and contour are NOT given here"))
    notes = ("Lip corner clear: relieve it, and break no edge of the seat",)
    return Section("Register, width, contour", tuple(lines), notes=notes)


def _finish() -> Section:
    notes = (
        "No finish is on file: agree it in writing, and send back the roughness reached (Rz) with how it was read",
        "The tops of the turned ridges flatten when the tire shrinks on: a coarse bore loses part of its interference",
        "Bore at one setting, round and straight to the center's own taper; no hand dressing of high spots",
    )
    return Section("Finish", notes=notes, own_page=True)


def _send_back(order: Order) -> Section:
    diameters = tuple((angle, *([""] * len(PLANES))) for angle in ANGLES)
    told = (
        "Tire id and serial as stamped", "Center id as tagged", "Date and hour", "Read by", "Second reader",
        "Instrument and certificate", "Temperature of the tire", "Temperature of the instrument",
        "Hours at rest since cutting", "Width", "Seat width", "Flange back to register, three places", "Roughness Rz",
    )  # fmt: skip
    return Section(
        f"Measure and send back: center {order.center.id}",
        tables=(
            Table("Bore as finished, with its unit", ("At", *PLANES), diameters, boxes=True),
            Table("And with it", ("What", "Reading, with its unit"), tuple((name, "") for name in told), boxes=True),
        ),
        notes=("Let the tire come to one temperature first; write the temperature down, never assume 68 degF",),
    )  # fmt: skip


def _gaps(book: Book, order: Order) -> Iterator[Gap]:
    if order.practice.least is None:
        step = "Write a set of your own that `follows` it, as limits/README.md shows, and adopt it in ledger.yaml."
        yield Gap(f"{order.practice.practice.id} has no tolerance", step)
    since = tire_on_since(book, order.center, order.size.readings)
    if since:
        yield Gap(
            f"the center was last measured {since[1].text}, and {since[0]} has been on it since",
            "Measure it again when that tire is off, before any cut.",
        )
    for reading in order.size.unsure:
        yield Gap(f"the center's reading of {reading.day.text} is marked {reading.sure}", "Measure it before any cut.")
    if order.size.doubt:
        yield Gap("a temperature was not read: not taken for 68 degF", "Measure the center again, with temperatures.")
    for told in order.size.not_told:
        yield Gap(f"{told} is not on record", "Enter it in the instrument's record.")
    if not order.tires:
        yield Gap("no tire on record is ordered for this center", "Enter it: tires/ID.yaml, ordered: for_center.")
    if not book.series.get((Thing("wheelset", order.center.wheelset), "register_distance")):
        yield Gap("the register distance of the pair was never measured", "Measure it at three places.")
