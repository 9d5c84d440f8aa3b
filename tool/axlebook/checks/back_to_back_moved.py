"""Back-to-back has changed, though nothing was done to the pair: a tire, or a wheel, may have moved.

What is judged: for every wheelset on an engine, the last cold reading in each hold and clock position against the one
before and against the first since the last tire work or pressing, position by position, both taken to 68 degF. It
counts when it is beyond the combined standard uncertainty of the two readings, times the figure that the watch list in
force gives (`moved_by`). Steel of the axle is taken to expand as the ledger's tire steel does. A temperature that
nobody read is never taken for 68 degF: where it could turn the answer, that is undecided.

Load alone moves back-to-back (engineering: by 1/32 in and more at the rail), so readings in unlike holds are not
compared: where the last one has no fellow in its own hold, a note asks for a reading like the one before.

What to do: until disproved this is a moved tire, not a slip of the pen. Read it again in the same hold at the same
marks with the same instrument, by a second person; look at the witness marks; then tell the mechanical lead.

Source: the watch list named in the finding; that it cannot change by itself is geometry.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Place, Severity, Verdict
from axlebook.limits import Watch, WatchSign
from axlebook.records.book import Book, Thing
from axlebook.records.change import Change, changes, unlike, worst
from axlebook.records.condition import Stand, stands
from axlebook.records.fit import Missing
from axlebook.records.watch import watches_for
from axlebook.records.watch_signs import inches

ID = "back-to-back-moved"
QUANTITY = "back_to_back"
NEXT = "Read it again in the same hold at the same marks, by a second person; look at the witness marks of both tires."


def check(book: Book) -> Iterator[Finding]:
    """Judge the change of back-to-back of every wheelset on an engine."""
    for stand in stands(book):
        thing = Thing("wheelset", stand.wheelset.id)
        if stand.side or (thing, QUANTITY) not in book.series:
            continue
        found = next(_rules(book, stand), None)
        if found is None:
            cause = "no list in force says how large a change of back-to-back counts"
            step = "Adopt loose-tire-practice in ledger.yaml, or a set of your own with a `watch`."
            at = book.series[thing, QUANTITY][-1].at
            yield _open(stand, at, cause, step, Severity.WATCH, "no list")
            continue
        for group in changes(book, thing, QUANTITY):
            yield from _group(stand, group, *found)
        yield from _other_hold(book, stand, thing)


def _rules(book: Book, stand: Stand) -> Iterator[tuple[Watch, WatchSign]]:
    for watch in watches_for(book, stand):
        for word in watch.signs:
            if word.sign == QUANTITY and word.by == "moved" and word.figure:
                yield watch, word


def _group(stand: Stand, group: list[Change | Missing], watch: Watch, word: WatchSign) -> Iterator[Finding]:
    times = float(word.figure or 0)
    change = worst(group, times)
    missing = next((m for m in group if isinstance(m, Missing)), None)
    if change is not None:
        yield _judged(stand, change, times, watch)
    elif missing is not None and missing.reading is not None:
        yield _open(stand, missing.reading.at, missing.cause, missing.next, Severity.WATCH, missing.reading.hold)


def _judged(stand: Stand, change: Change, times: float, watch: Watch) -> Finding:
    after, before = change.after.origin, change.before.origin
    answer = change.beyond(times)
    verdict = {True: Verdict.SUSPECT, False: Verdict.WITHIN, None: Verdict.UNDECIDED}[answer]
    words = "" if answer is False else _words(stand, change, times, certain=answer is True)
    return Finding(
        ID, verdict, Severity.WATCH, stand.name, after.at.below("values", change.position), words,
        (
            Figure(f"{QUANTITY} {change.position}", change.before.text, "", before.source.record),
            Figure(f"{QUANTITY} {change.position} now", change.after.text, "", after.source.record),
            Figure("change at 68 degF", repr(change.size * 1000), "mm", "computed"),
            Figure("uncertainty, expanded", repr(times * change.uncertainty * 1000), "mm", "computed"),
        ),
        watch.cited, NEXT, QUANTITY, f"{after.hold}, {after.clock}",
    )  # fmt: skip


def _words(stand: Stand, change: Change, times: float, *, certain: bool) -> str:
    after, way = change.after.origin, "wider" if change.size > 0 else "narrower"
    end = "A pair does not change by itself." if certain else "A temperature that nobody wrote down could explain it."
    return (
        f"{stand.name}, back-to-back at {change.position}: {change.after.text}, {inches(abs(change.size))} {way} than "
        f"on {change.before.day} ({change.before.text}), both {after.hold} at {after.clock}. The two readings together "
        f"are good to {inches(times * change.uncertainty)}, and no tire work lies between. {end}"
    )


def _other_hold(book: Book, stand: Stand, thing: Thing) -> Iterator[Finding]:
    found = unlike(book, thing, QUANTITY)
    if found is not None:
        before, after = found.before.origin, found.after.origin
        cause = "back-to-back was last read in another hold than ever before, which load alone can change"
        step = f"Read it once more {before.hold} at {before.clock}, as on {found.before.day}."
        yield _open(stand, after.at, cause, step, Severity.NOTE, "another hold")


def _open(stand: Stand, at: Place, cause: str, step: str, severity: Severity, where: str) -> Finding:
    words = f"{stand.name}: a change of back-to-back is NOT judged: {cause}."
    return Finding(
        ID, Verdict.NOT_ASSESSED, severity, stand.name, at, words, next=step, quantity=QUANTITY, where=where,
        cause=cause,
    )  # fmt: skip
