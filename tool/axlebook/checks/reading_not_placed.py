"""A reading or sighting cannot be laid to a part, and so no limit judges it.

What is judged: everything read or seen at a place of an engine, against what stood there that day. It is kept, and
said here, where the day is not known, where no wheelset stood at that place that day, where the engine's line does
not say on which side the stamped end of a truck wheelset stood (`a_end`), or where no record tells which tire or
center was on that side. Likewise where one wheelset or tire made way for another on that day, or in the month that
alone is known: which of the two was read is told by `when: before` or `when: after`, or by the part, never by the order
of lines. An examination of such a day counts for neither.

What to do: add what is missing: the day as near as it is known, the line of the engine with its dates, `a_end: left`
or `right`, a `tire-found` for the tire that is on, `when` on the day of a change. A reading by part (`part: t-4471`,
`part: tw-1 A`) needs none of these.

Source: the dated lines of the engine's record, and the tire work.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.reading import Examination, Observation, Reading

ID = "reading-not-placed"
NO_DAY = "the day it was read is not known"
NOBODY = "no wheelset stood at that place that day"
NO_END = "the engine's line does not say on which side end A stood"
NO_TIRE = "no record tells which tire was on that wheel"
BOTH = "{which} can both have been there, {day}, and which of them it was is not told"
NEXT = {
    NO_DAY: "Write the day as near as it is known, or name the part.",
    NOBODY: "Give the engine's line the days that the wheelset stood there.",
    NO_END: "Write `a_end: left` or `a_end: right` in the engine's line.",
    NO_TIRE: "Write a `tire-found` for the tire that is on.",
}
NEXT_WHICH = "Name the one that was read with `part:`, or write `when: before` or `when: after`."


def check(book: Book) -> Iterator[Finding]:
    """Tell every reading, sighting and examination of which the records do not say what it was of."""
    # What stands in a series is placed, as nearly all is. It is known by which object it is: to hash one takes long.
    known = book.vocabulary.quantities
    placed = {id(reading) for (_, name), many in book.series.items() if name in known for reading in many}
    everything: list[Reading | Observation] = [one for one in book.readings if id(one) not in placed]
    for one in (*everything, *(o for o in book.observations if o.answer == "seen")):
        name = one.quantity if isinstance(one, Reading) else one.looked_for
        word = book.vocabulary.find_word(name)
        if not one.place or word is None:
            continue
        cause = "" if book.thing_of(word.of, one) else _why(book, word.of, one)
        if cause:
            words = f"{one.named}, {word.title}: kept, and NOT judged: {cause}."
            yield _finding(one, words, NEXT.get(cause, NEXT_WHICH), cause, name)
    for examination in (one for session in book.past_sessions for one in session.examinations if one.place):
        wheelsets = list(dict.fromkeys(line.wheelset for line in book.lines_read_at(examination)))
        if len(wheelsets) > 1:  # it answers no interval of either
            cause = BOTH.format(which=" and ".join(wheelsets), day=examination.day.text)
            words = f"{examination.named}, examination: kept, and counted for NEITHER: {cause}."
            yield _finding(examination, words, "Name the one that was examined with `part:`.", cause)


def _finding(
    one: Reading | Observation | Examination, words: str, step: str, cause: str, quantity: str = ""
) -> Finding:
    return Finding(
        ID, Verdict.NOT_ASSESSED, Severity.DATA, one.named, one.at.below("place"), words, source=one.source.path,
        next=step, quantity=quantity, where=one.pointer, cause=cause,
    )  # fmt: skip


def _why(book: Book, of: str, one: Reading | Observation) -> str:
    """What is missing; '' where another check tells it: an unknown place, a missing side, a part it cannot have."""
    place, _, side = one.place.partition(" ")
    if (one.source.engine, place) not in book.standing.lines or not (side or of == "wheelset"):
        return ""
    if one.day.first is None:
        return NO_DAY
    can = book.could_be(of, one)
    if len(can) > 1:
        return BOTH.format(which=" and ".join(thing.name for thing in can), day=one.day.text)
    lines = book.lines_read_at(one)
    if not lines:
        return NOBODY
    wheelset = book.wheelsets.get(lines[0].wheelset)
    if wheelset is None:
        return ""
    if not wheelset.driver and not lines[0].a_end:
        return NO_END
    return NO_TIRE if of == "tire" and wheelset.made == "tired" else ""
