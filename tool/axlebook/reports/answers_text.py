"""The slips of a practice copy, told to the person who looked for them: what was read, what stands there now, where."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from .page import BLANK, Look, Page, Paragraph, joined, paragraph
from .text import sentence

MOST_VALUES = 4  # of one slip that are shown; how many more there are is said
SEEN = "These can be seen: a check names each of them, or a person who compares."
UNSEEN = "These are too small to be seen among what rules and gauges scatter: nobody could have found them."


def render_answers(found: Mapping[str, Any], look: Look) -> str:
    """The answers of a practice copy, those that can be seen first."""
    seen, unseen = (_listed(found.get(name)) for name in ("answers", "unseen"))
    lines = [
        paragraph(f"Slips planted with the seed {found.get('seed')}: {len(seen)} that can be seen, {len(unseen)} not.",
                  "bold"),
        BLANK,
        paragraph(SEEN),
        *(line for number, one in enumerate(seen, 1) for line in _told(number, one, why=True)),
    ]  # fmt: skip
    if unseen:
        lines += [BLANK, paragraph(UNSEEN)]
        lines += [line for number, one in enumerate(unseen, 1) for line in _told(number, one, why=False)]
    return joined(Page(look).lines(lines))


def _listed(found: Any) -> list[Mapping[str, Any]]:
    return [one for one in found if isinstance(one, Mapping)] if isinstance(found, list) else []


def _told(number: int, one: Mapping[str, Any], *, why: bool) -> Iterator[Paragraph]:
    kind = str(one.get("kind", "")).replace("-", " ")
    yield BLANK
    yield paragraph(f"{number}. {kind[:1].upper()}{kind[1:]}: {one.get('subject', '')}", "bold", hang=4)
    yield paragraph(_change(str(one.get("before", "")), str(one.get("after", ""))), indent=4)
    if why:
        yield paragraph(f"Why it shows: {sentence(str(one.get('why', '')))}", indent=4)
    pointers = one.get("pointers")
    places = _places(map(str, pointers if isinstance(pointers, list) else ()))
    yield paragraph(f"{one.get('path', '')}{f', {places}' if places else ''}", "dim", indent=4)


def _change(before: str, after: str) -> str:
    """What stood there and what stands there now.

    >>> _change("55 degF", ""), _change("", "3-9/32 in")
    ('There stood 55 degF; it was left out.', 'There stood nothing; now it is 3-9/32 in.')
    """
    now = f"now it is {_values(after)}" if after else "it was left out"
    return sentence(f"There stood {_values(before) if before else 'nothing'}; {now}")


def _values(text: str) -> str:
    """The values of several positions, the first few and how many more.

    >>> _values("43.951 in; 43.950 in; 43.951 in; 43.949 in; 43.949 in")
    '43.951 in, 43.950 in, 43.951 in, 43.949 in and 1 more'
    """
    many = text.split("; ")
    rest = len(many) - MOST_VALUES
    return f"{', '.join(many[:MOST_VALUES])} and {rest} more" if rest > 0 else ", ".join(many)


def _places(pointers: Iterable[str]) -> str:
    """Where in a record, in words; positions of one reading are told together.

    >>> _places(["/readings/22/values/0 deg", "/readings/22/values/120 deg", "/setup/part_temperature"])
    'entry 23 of readings at 0 deg, 120 deg; part_temperature of setup'
    """
    found: dict[str, list[str]] = {}
    for pointer in pointers:
        steps = [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]
        entry = ""
        if len(steps) > 1 and steps[1].isdecimal():
            entry, steps = f"entry {int(steps[1]) + 1} of {steps[0]}", steps[2:]
        at = steps[1] if steps[:1] == ["values"] and len(steps) > 1 else " of ".join(reversed(steps))
        found.setdefault(entry, []).append(at)
    return "; ".join(_place(entry, [at for at in ats if at]) for entry, ats in found.items())


def _place(entry: str, ats: list[str]) -> str:
    if not entry:
        return ", ".join(ats)
    return f"{entry} at {', '.join(ats)}" if ats else entry
