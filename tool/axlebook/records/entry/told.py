"""What is said of an answer once everything was worked out anew: unlikely, outside, undecided, within, not judged."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from axlebook.findings import Finding, Severity, Verdict

from .question import Question, Slot
from .state import State, apply
from .walk import Setting, candidates, draft_of, number_of

Key = tuple[str, ...]
UNNAMED = "instrument-not-told"
_PLANE = re.compile(r"write `where: ([^`]+)`\.")


@dataclass(frozen=True)
class Said:
    """One thing said; the kind is also its first word, so that nothing depends on color."""

    kind: str  # echo, unlikely, outside, undecided, within, not judged, note, no, help
    text: str


@dataclass(frozen=True)
class News:
    """Findings that an answer brought."""

    unlikely: tuple[Finding, ...]
    others: tuple[Finding, ...]
    refused: tuple[Finding, ...]  # the figure cannot be written so


def news(setting: Setting, before: State, after: State) -> News:
    """What an answer brought: the findings of the record with it that the one without it has not got."""
    known = {_key(finding) for finding in _findings(setting, before)}
    new = [f for f in _findings(setting, after) if _key(f) not in known and _is_said(f)]
    unlikely = [f for f in new if _is_unlikely(f, setting)] or _unlikely_with_the_usual(setting, before, after)
    refused = [f for f in new if f.verdict is Verdict.UNREADABLE]
    others = [f for f in new if f not in unlikely and f not in refused]
    return News(tuple(unlikely), tuple(others), tuple(refused))


def _findings(setting: Setting, state: State) -> Sequence[Finding]:
    draft = draft_of(setting, state)
    return () if draft.is_empty else setting.judge(draft.tree)


def _is_unlikely(finding: Finding, setting: Setting) -> bool:
    return finding.check in setting.stopping and finding.verdict is Verdict.SUSPECT and _counts(finding)


def _unlikely_with_the_usual(setting: Setting, before: State, after: State) -> list[Finding]:
    """What is unlikely where a reading that names no instrument was taken with the usual one.

    What may be off without a named instrument is so much that next to nothing would be asked about, and the range
    that the prompt tells is that of the usual one. Of the instrument itself nothing is said: nobody named it.
    """
    then, now = (with_the_usual(setting, state) for state in (before, after))
    if now == draft_of(setting, after).tree:
        return []
    doubt = setting.doubt or setting.judge
    known = {_key(finding) for finding in doubt(then)} if draft_of(setting, before).readings else set()
    found = [f for f in doubt(now) if _key(f) not in known and _is_said(f)]
    return [f for f in found if _is_unlikely(f, setting) and f.check != "instrument-out-of-range"]


def with_the_usual(setting: Setting, state: State) -> Mapping[str, Any]:
    """The record, each reading without an instrument as one with that by which the prompt tells what to expect."""
    draft = draft_of(setting, state)
    usual = {
        Slot(question.what, question.where, one.position): one.instrument
        for question in setting.questions(state.header)
        for one in question.expected
        if one.instrument
    }
    readings = []
    for index, reading in enumerate(draft.readings):
        told = next((usual[slot] for slot in draft.where[f"/readings/{index}"] if slot in usual), "")
        readings.append({"with": told} | reading if told else reading)
    return {**draft.tree, "readings": readings} if readings else draft.tree


def _counts(finding: Finding) -> bool:
    return finding.severity is not Severity.NOTE


def _key(finding: Finding) -> Key:
    """What makes a finding the same as before: of what only needs a word in the record, the check alone."""
    if finding.verdict is Verdict.NOT_ASSESSED:
        return finding.check, finding.cause
    if finding.severity in (Severity.DATA, Severity.NOTE) and not finding.figures:
        return finding.check, finding.quantity
    return finding.check, finding.subject, finding.quantity, finding.where, finding.message


def _is_said(finding: Finding) -> bool:
    """Whether it is of a reading or a look, and not of a record that is not finished yet."""
    return finding.place.pointer.startswith(("/readings/", "/observations/"))


def told_at_once(found: News) -> list[Said]:
    """What is said right after an answer; a note on a reading that is in doubt waits until it stands."""
    said = [Said("unlikely", f"{f.message} {f.next}") for f in found.unlikely]
    for finding in found.others:
        if finding.verdict in (Verdict.OUTSIDE, Verdict.UNDECIDED):
            source = f" ({finding.source})" if finding.source else ""
            said.append(Said(str(finding.verdict), f"{finding.message}{source} {finding.next}"))
        elif finding.verdict is Verdict.SUSPECT and not found.unlikely:
            said.append(Said("note", f"{finding.message} {finding.next}"))
    return said


def told_once_kept(setting: Setting, before: State, doubted: News, kept: State) -> list[Said]:
    """What is said once a reading stands in spite of doubt: all but what was said when it was typed."""
    told = {one.text for one in told_at_once(doubted)}
    found = replace(news(setting, before, kept), unlikely=())
    return [one for one in told_at_once(found) if one.text not in told]


def told_at_end(setting: Setting, state: State, question: Question) -> list[Said]:
    """What is said once all boxes of a question are filled: within what, and what was not judged."""
    draft = draft_of(setting, state)
    own = [
        finding
        for finding in setting.judge(draft.tree)
        if {(s.what, s.where) for s in draft.slots_at(finding.place.pointer)} == {(question.what, question.where)}
    ]
    return [*_within(own), *_not_judged(setting, state, question, own)]


def _within(own: Iterable[Finding]) -> list[Said]:
    sources = dict.fromkeys(f.source for f in own if f.verdict is Verdict.WITHIN and f.source)
    if not sources:
        return []
    more = f" and {len(sources) - 1} more" if len(sources) > 1 else ""
    return [Said("within", f"Within the limits on file: {next(iter(sources))}{more}.")]


def _not_judged(setting: Setting, state: State, question: Question, own: Iterable[Finding]) -> list[Said]:
    before = state
    for slot in question.slots:
        before = apply(before, {"open": list(slot)})
    known = {_key(finding) for finding in _findings(setting, before)}
    found = {f.cause: f for f in own if f.verdict is Verdict.NOT_ASSESSED and f.cause and _key(f) not in known}
    return [
        Said("not judged", f"{_capital(f.cause)}. The reading is kept. {_step(setting, state, question, f)}")
        for f in found.values()
    ]


def _step(setting: Setting, state: State, question: Question, found: Finding) -> str:
    """What to do next, at the wheel: instrument and plane are told by `w` here, and by no line that could be typed."""
    plane = _PLANE.search(found.next)
    if plane is None and found.check != UNNAMED:
        return found.next
    known = setting.known
    able = candidates(setting, state, question) if plane is None else [
        id for id in known.instruments_for(question.what) if known.planes.get(id) == plane[1]]
    if not able:
        later = "once the record is written, add"
        return f"O{later[1:]} `with:` and the instrument's id there." if plane is None else (
            f"Read it there; where it was read there already, {later} `where: {plane[1]}` there.")
    boxes = " and ".join(f"r {number_of(setting, state, slot)}" for slot in question.slots if state.boxes[slot].value)
    if plane is None:
        return f"Name it here: w {able[0]}, then {boxes}."
    return f"Read it there. Where it was read there already, with {able[0]}: w {able[0]}, then {boxes}."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def boxes_of(setting: Setting, state: State, found: Iterable[Finding], slot: Slot) -> list[Slot]:
    """The boxes that some findings speak of, the one just filled first."""
    return list(dict.fromkeys([slot, *named(setting, state, found)]))


def named(setting: Setting, state: State, found: Iterable[Finding]) -> list[Slot]:
    """The boxes that some findings speak of."""
    draft = draft_of(setting, state)
    return list(dict.fromkeys(one for finding in found for one in draft.slots_at(finding.place.pointer)))
