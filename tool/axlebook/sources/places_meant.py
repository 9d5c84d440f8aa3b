"""Which place on an engine, or position round a wheel, a person most likely meant by a text that names none."""

from __future__ import annotations

import difflib
import re

from axlebook.records.forms import PLANES, POSITION_WORDS, SIDES, parse_place, parse_position

ROLES = {
    "driver": ("driver", "drivers", "d", "dr", "drv", "driving", "axle", "wheel", "pair"),
    "engine-truck": ("engine-truck", "enginetruck", "et", "pony", "pony-truck", "leading-truck", "leading", "bogie"),
    "trailing-truck": ("trailing-truck", "trailingtruck", "tt", "trailing", "trailer"),
    "tender": ("tender", "tender-truck", "tdr", "tw"),
}
SIDE_WORDS = {"l": "left", "left": "left", "lh": "left", "r": "right", "right": "right", "rh": "right"}
SIDES_TOLD = "Left and right are seen from the cab, facing forward."
LONGEST = 40
_TOKEN = re.compile(r"[a-z]+|[0-9]+")
USUAL = 15  # degrees between the angles that people read at
_BARE_ANGLE = re.compile(r"[0-9]{1,3}(?:\.[0-9]{1,3})?")
_DEGREES = re.compile(
    r"([0-9]{1,3}(?:\.[0-9]{1,3})?) *(?:degrees?|degs?\.?|d|°|o) *(inner|middle|outer)?", re.IGNORECASE
)


def place_hint(text: str) -> str:
    """What to write in place of a text that names no place.

    >>> place_hint("R1")
    'Write driver-1 right if that is meant. Left and right are seen from the cab, facing forward.'
    """
    meant = place_meant(text)
    if not meant:
        return f"Write it such as driver-2 right, engine-truck-1, tender-3 left, or crosshead left. {SIDES_TOLD}"
    if meant.rpartition(" ")[2] in SIDES:
        return f"Write {meant} if that is meant. {SIDES_TOLD}"
    return f"Write {meant} right or {meant} left for a wheel, {meant} for the pair. {SIDES_TOLD}"


def place_meant(text: str) -> str:
    """The place on an engine that a short or otherwise written text means; empty where nothing is near.

    >>> [place_meant(text) for text in ("R1", "driver 1", "driver-1 R", "L. Tender 3", "ET1 left", "Crosshead Left")]
    ['driver-1 right', 'driver-1', 'driver-1 right', 'tender-3 left', 'engine-truck-1 left', 'crosshead left']
    """
    lowered = " ".join(text.lower().replace("_", "-").split())[:LONGEST]
    if parse_place(lowered):
        return lowered
    tokens = _TOKEN.findall(lowered)
    sides = [SIDE_WORDS[token] for token in tokens if token in SIDE_WORDS]
    numbers = [str(int(token)) for token in tokens if token.isdecimal()]
    named = "-".join(token for token in tokens if token not in SIDE_WORDS and not token.isdecimal())
    role = _role(named)
    if not role or len(numbers) != 1 or len(sides) > 1 or not 1 <= int(numbers[0]) <= 99:
        return ""
    return f"{role}-{numbers[0]} {sides[0] if sides else ''}".strip()


def _role(named: str) -> str:
    """The role that a word stands for; a wheel that says none is a driver."""
    if not named:
        return "driver"
    if known := next((role for role, words in ROLES.items() if named in words), ""):
        return known
    near = difflib.get_close_matches(named, ROLES, n=1, cutoff=0.8)
    return near[0] if near else ""


def position_hint(text: str) -> str:
    """What to write in place of a text that is no position.

    >>> position_hint("90 degrees outer"), position_hint("Worst")
    ('Write 90 deg outer if that is meant.', 'Write worst if that is meant.')
    >>> position_hint("4")
    'Write 4 deg if that is meant. If a figure was cut at its comma, write a point: 25.4, not 25,4.'
    """
    meant = position_meant(text[:LONGEST].strip())
    if meant:
        return f"Write {meant} if that is meant.{_comma_hint(text.strip())}"
    return ("Write an angle from 0 deg to under 360 deg, with inner, middle or outer where it matters; or worst, "
            "all round, front, rear, top, bottom.")  # fmt: skip


def _comma_hint(text: str) -> str:
    """What is said of digits that are no usual angle: in braces a comma ends a figure, so that 25,4 leaves a 4."""
    if not (text.isascii() and text.isdigit()) or int(text) % USUAL == 0:
        return ""
    return f" If a figure was cut at its comma, write a point: 25.{text}, not 25,{text}."


def position_meant(text: str) -> str:
    """The position that a text means; empty where nothing is near."""
    found = ""
    if _BARE_ANGLE.fullmatch(text):
        found = f"{text} deg"
    elif match := _DEGREES.fullmatch(text):
        found = f"{match[1]} deg {(match[2] or '').lower()}".strip()
    else:
        folded = " ".join(re.split(r"[\s_-]+", text.lower()))
        near = difflib.get_close_matches(folded, (*POSITION_WORDS, *PLANES), n=1, cutoff=0.75)
        found = near[0] if near else ""
    return found if found and parse_position(found) else ""
