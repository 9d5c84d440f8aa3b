"""Slips of what is left out: who, when, with what, how warm, how held, and blanks read as good."""

from __future__ import annotations

from collections.abc import Iterable

from .answer import Answer
from .ground import Ground, Slip, Slips
from .written import Edit, Written

NEED_TEMPERATURE = frozenset({"tire_bore", "center_diameter", "register_distance", "hub_bore"})
_SESSIONS = ("inspection", "tire-applied", "turning")


def _subject(record: Written) -> str:
    return str(record.tree.get("engine") or record.tree.get("tire") or record.id)


def _left_out(
    kind: str,
    record: Written,
    pointers: tuple[str, ...],
    edits: Iterable[Edit],
    why: str,
    subject: str = "",
    after: str = "",
) -> Slip:
    answer = Answer(
        kind, record.path, pointers, str(record.at(pointers[0])), after, subject or _subject(record), why
    )
    return Slip(answer, tuple(edits), tuple((record.path, pointer) for pointer in pointers))


def _with_readings(ground: Ground, *kinds: str) -> list[Written]:
    paths = {one.path for one in ground.readings}
    return [one for one in ground.of_kind(*kinds) if one.path in paths]


def no_who(ground: Ground) -> Slips:
    """Nobody is named who measured or did the work."""
    for record in _with_readings(ground, *_SESSIONS):
        if "by" in record.tree:
            yield _left_out(
                "no-who", record, ("/by",), [record.without("/by")], "nobody is named who measured"
            )


def no_when(ground: Ground) -> Slips:
    """The day is left out, or written as unknown, in a record that is no old card."""
    for record in _with_readings(ground, "inspection"):
        if ground.rng.random() < 0.5:
            edit, after = record.without("/measured_on"), ""
        else:
            edit, after = record.instead("/measured_on", "unknown"), "unknown"
        slip = _left_out("no-when", record, ("/measured_on",), [edit], "no day, and no old card", after=after)
        yield Slip(slip.answer, slip.edits, ((record.path, ""),))


def no_instrument(ground: Ground) -> Slips:
    """A reading does not say with what it was measured."""
    for reading in ground.drawn():
        record, pointer = ground.records[reading.path], f"{reading.pointer}/with"
        slip = _left_out(
            "no-instrument",
            record,
            (pointer,),
            [record.without(pointer)],
            "what it was measured with is not said, so nothing is known of how well",
            reading.words,
        )
        yield Slip(slip.answer, slip.edits, ((reading.path, reading.pointer),))


def no_temperature(ground: Ground) -> Slips:
    """A bore, a center or a register distance without the temperature that takes it to 68 degF."""
    for reading in ground.drawn(*NEED_TEMPERATURE):
        record = ground.records[reading.path]
        for holder in (reading.pointer, "/setup"):
            pointer = f"{holder}/part_temperature"
            if record.at(pointer) is not None and not (
                holder != "/setup" and record.at("/setup/part_temperature")
            ):
                yield _left_out(
                    "no-temperature",
                    record,
                    (pointer, reading.pointer),
                    [record.without(pointer)],
                    "cannot be taken to 68 degF without the temperature of the part",
                    reading.words,
                )
                break


def no_hold(ground: Ground) -> Slips:
    """A back-to-back that does not say how the wheelset was held."""
    for reading in ground.drawn("back_to_back"):
        record = ground.records[reading.path]
        if record.at("/setup/hold") is None or record.at(f"{reading.pointer}/hold") is not None:
            continue
        pointers = (
            "/setup/hold",
            *(
                f"/readings/{n}"
                for n, one in enumerate(record.tree["readings"])
                if one["quantity"] == "back_to_back"
            ),
        )
        slip = _left_out(
            "no-hold",
            record,
            pointers,
            [record.without("/setup/hold")],
            "back-to-back changes with the load on the wheels: how it was held must be known",
        )
        yield Slip(slip.answer, slip.edits, ((record.path, "/setup/hold"),))


def blank_read_as_good(ground: Ground) -> Slips:
    """What was asked is not there; an empty box; an answer on what could not be looked at."""
    ways = ground.shuffled([_not_read(ground), _empty_box(ground), _not_looked_at(ground)])
    for way in ways:
        yield from way


def _not_read(ground: Ground) -> Slips:
    for reading in ground.drawn("tire_thickness", "flange_thickness", "flange_height", "back_to_back"):
        record = ground.records[reading.path]
        if record.tree.get("purpose") != "annual" or not reading.place.startswith("driver"):
            continue
        answer = Answer(
            "blank-read-as-good",
            record.path,
            ("/readings", ""),
            reading.quantity,
            "",
            reading.words,
            f"the annual asks for {reading.quantity} here; it is not there, and nobody says why",
        )
        yield Slip(answer, (record.without(reading.pointer),), ((record.path, ""),))


def _empty_box(ground: Ground) -> Slips:
    for reading in ground.drawn("tire_thickness", "flange_thickness", "flange_height", "back_to_back"):
        record = ground.records[reading.path]
        spot = ground.rng.choice(reading.spots)
        if record.tree.get("purpose") == "annual":
            answer = Answer(
                "blank-read-as-good",
                record.path,
                (spot.pointer,),
                spot.text,
                "",
                reading.words,
                "the box is empty: no reading, and not a good one",
            )
            yield Slip(answer, (record.instead(spot.pointer, '""'),), ((record.path, reading.pointer),))


def _not_looked_at(ground: Ground) -> Slips:
    for record in ground.of_kind("inspection"):
        seen = [
            (n, one)
            for n, one in enumerate(record.tree.get("observations", ()))
            if one.get("answer") == "not seen" and one.get("place")
        ]
        if not seen or "not_measured" in record.tree or "signed" not in record.tree:
            continue
        number, one = ground.rng.choice(seen)
        lines = (
            "not_measured:\n",
            f"  - looked_for: {one['looked_for']}\n",
            "    places:\n",
            f"      - {one['place']}\n",
            "    because: no access\n",
        )
        place = f"{record.tree.get('engine', '')} {one['place']}".strip()
        answer = Answer(
            "blank-read-as-good",
            record.path,
            (f"/observations/{number}", "/not_measured"),
            "not seen",
            "not seen, and no access",
            place,
            f"{one['looked_for']} is answered here though the same sheet says that nobody could look",
        )
        yield Slip(
            answer, (record.before("/signed", "".join(lines)),), ((record.path, f"/observations/{number}"),)
        )
