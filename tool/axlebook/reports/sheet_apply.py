"""The sheet for the day a tire goes on: what to see to before heat, the heat log, hold points, seating, cold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from axlebook.checks._boxes import Ask
from axlebook.records.book import Book
from axlebook.records.bore_order import center_size, tire_on_since
from axlebook.records.fit import Missing
from axlebook.records.tire import Tire
from axlebook.records.wheelset import Center

from .fit_story import FitStory
from .fit_view import CAUTIONS, fit_sheet
from .sheet import Gap, Section, Sheet, Table
from .view import Day

LEAD = (
    "One tire, one center. Nothing on this sheet is leave to lift, heat or run: it is where the crew writes what it "
    "does, in order. At a HOLD POINT the work stands still until the person named has signed.",
)
HEAT = "Heat"
FIGURES = ("Interference at 68 degF", HEAT, "Proof of grip that the shop can do")
HOLD = ("What", "Value or yes / NO", "By", "Time")
BEFORE = (
    "Marks of tire and center read aloud by two people: they belong together",
    "Center measured again with the old tire off: record, temperature of center, of instrument",
    "Old shims and burrs off; how many shims were found",
    "Bright metal all round: center",
    "Bright metal all round: tire bore",
    "Lip or shoulder corner clear, no dirt, no burr",
    "Filling blocks (divided rim) there and tight, or not applicable",
    "Center looked over for cracks, by dye or magnets: not seen / SEEN, where",
    "Seat and bore dry, no oil",
)
SHIMS = ("Shims now: none, or thickness", "How many thick", "Pieces", "Full round", "Laps")
LIFT = (
    "Job briefing held: who does what, who alone says stop",
    "First means of holding the load, independent of the second",
    "Second means of holding the load",
    "Fire watch, extinguisher, hot-work permit where the site asks for one",
    "Cylinders upright, chained, away from the flame; hoses looked over",
)
READY = (
    "Cold tape of the tread, at the taping line (first reader)",
    "Cold tape of the tread (second reader, on their own)",
    "Temperature of the tire when taped", "Temperature of the tape", "Temperature of the center NOW",
)  # fmt: skip
SEATING = (
    "Time lifted over", "Time seated against the register", "Time it gripped", "Clamps on", "Clamps off (cold)",
    "Quenched: never. If it happened, say so", "Witness mark cut or painted over rim and tire, where",
    "Blows, pry bars, anything that was not smooth",
)  # fmt: skip
COLD = (
    "Tape of the tread, cold, same place, same tape (first reader)", "Tape of the tread (second reader)",
    "Temperature of the tire", "Temperature of the tape", "Growth: cold after less cold before",
)  # fmt: skip
QUARTERS, THIRDS = ("0 deg", "90 deg", "180 deg", "270 deg"), ("0 deg", "120 deg", "240 deg")
LOG_LINES = 8


def apply_sheet(
    book: Book, tire: Tire | None, center: Center, told: FitStory | Missing, asked: Sequence[Ask], day: Day
) -> Sheet:
    """The sheet for one tire and its center; without figures where the fit cannot be worked out."""
    sections = (
        *_figures(told), _before(), _lift(), _heat(told), _seating(asked), _cold(told, asked, center), _who(book),
    )  # fmt: skip
    named = tire.id if tire else "TIRE ____________"
    return Sheet(
        "sheet", f"The day a tire goes on: {named} on {center.id}", f"{named} on {center.id}", LEAD, sections,
        (*(_again(book, center) if isinstance(told, Missing) else ()), *_gaps(told, tire)), cautions=CAUTIONS, day=day,
        identity=(f"TIRE {tire.id}" if tire else named, f"CENTER {center.id}: {center.wheelset}, {center.first_side}"),
    )  # fmt: skip


def _figures(told: FitStory | Missing) -> Iterator[Section]:
    """What the fit's own sheet says in short: interference, heat, growth."""
    if isinstance(told, Missing):
        return
    for section in fit_sheet(told).sections:
        if section.heading in FIGURES:
            lines = tuple(line for line in section.lines if line.main)
            yield Section(section.heading, lines)


def _blank(rows: Sequence[str]) -> tuple[tuple[str, ...], ...]:
    return tuple((what, "", "", "") for what in rows)


def _before() -> Section:
    shims = Table("Shims", SHIMS, (("",) * len(SHIMS),), boxes=True)
    notes = ("HOLD POINT 1: the lead has seen all of this. Name, time: ______________________________",)
    return Section("1. Before any heat", tables=(Table("", HOLD, _blank(BEFORE), boxes=True), shims), notes=notes,
                   own_page=True)  # fmt: skip


def _lift() -> Section:
    told = (("Crew and load", LIFT), ("Cold, before", READY))
    tables = tuple(Table(caption, HOLD, _blank(rows), boxes=True) for caption, rows in told)
    notes = ("HOLD POINT 2: no flame before the lead has signed here. Name, time: ______________________________",)
    return Section("2. Before the flame", tables=tables, notes=notes)


def _heat(told: FitStory | Missing) -> Section:
    inside, tread = (f"inside {at}" for at in QUARTERS), (f"tread {at}" for at in QUARTERS[::2])
    head = ("Time", *inside, *tread, "Center", "With")
    lines = tuple(line for section in _figures(told) if section.heading == HEAT for line in section.lines)[:2]
    notes = (
        "The inside face counts: a tread under the burner reads hotter than the tire is. Crayon: the highest that "
        "melted and the lowest that did not",
        "Heating from ________ until ________. Fuel ______________________",
        "HOLD POINT 3: the coldest of the inside places has reached the least heat, the hottest is under the ceiling, "
        "a rod or gauge proves the clearance. Name, time: ______________________________",
    )
    table = Table("Heat log: every reading with its time", head, (("",) * len(head),) * LOG_LINES, boxes=True)
    return Section("3. Heat", lines, (table,), notes, own_page=True)


def _angles(asked: Sequence[Ask], what: str, otherwise: tuple[str, ...]) -> tuple[str, ...]:
    """The positions that the plan for after the work asks, else the usual ones."""
    return tuple(dict.fromkeys(ask.position for ask in asked if ask.what == what)) or otherwise


def _seating(asked: Sequence[Ask]) -> Section:
    gaps = _angles(asked, "register_gap", QUARTERS)
    rows = (("warm, clamped", *([""] * len(gaps))), ("cold, clamps off", *([""] * len(gaps))))
    feelers = Table(
        "Feelers at the register: what does not enter is under its thickness", ("", *gaps), rows, boxes=True
    )
    notes = ("HOLD POINT 4: home all round, or it comes off again while it is hot. Name, time: ____________________",)
    return Section("4. Seating", tables=(Table("", HOLD, _blank(SEATING), boxes=True), feelers), notes=notes)


def _cold(told: FitStory | Missing, asked: Sequence[Ask], center: Center) -> Section:
    thirds = _angles(asked, "back_to_back", THIRDS)
    last = {ask.position: ask.last for ask in asked if ask.what == "back_to_back" and ask.last}
    before = tuple(f"{last[at].text}, {last[at].day}" if at in last else "no reading here" for at in thirds)
    rows = (("last", *before), ("first reader", *([""] * len(thirds))), ("second reader", *([""] * len(thirds))))
    back = Table(
        f"Back-to-back of {center.wheelset}, cold, at least a night later, held: in the lathe / on blocks / on rail / "
        "under engine", ("", *thirds), rows, boxes=True,
    )  # fmt: skip
    tape = Table("Taped tread, cold", HOLD, _blank(COLD), boxes=True)
    gauge = None if isinstance(told, Missing) else told.gauge
    lines = tuple(line for line in gauge.lines if line.main) if gauge else ()
    return Section("5. Cold, the day after", lines, (tape, back), own_page=True)


def _who(book: Book) -> Section:
    reasons = ", ".join(book.vocabulary.reasons_not_measured)
    rows = (("Crew", "", "Date", ""), ("Instruments", "", "Air temperature", ""),
            (f"Not measured, because ({reasons})", "", "Sheet typed in by, on", ""))  # fmt: skip
    return Section("Who, when, with what", tables=(Table("", ("", "", "", ""), rows, boxes=True),))


def _again(book: Book, center: Center) -> Iterator[Gap]:
    """The center was measured before the tire went on that is to come off; a fit that is told says so itself."""
    found = center_size(book, center)
    since = None if isinstance(found, Missing) else tire_on_since(book, center, found.readings)
    if since is not None:
        yield Gap(
            f"the center was last measured {since[1].text}, and {since[0]} has been on it since",
            "Measure it again when that tire is off, before any heat.",
        )


def _gaps(told: FitStory | Missing, tire: Tire | None) -> Iterator[Gap]:
    if tire is None:
        yield Gap("no tire on record is ordered for this center", "Enter it: tires/ID.yaml, ordered: for_center.")
    if isinstance(told, Missing):
        if told.cause:
            yield Gap(
                f"the fit cannot be worked out: {told.cause}; temperatures and growth are NOT given here", told.next,
                (told.write,) if told.write else (),
            )
        return
    yield from told.missing
