"""Back-to-back has changed, though nothing was done to the pair: a tire, or a wheel, may have moved.

What is judged: for every wheelset on an engine, the last cold reading in each hold and clock position against the one
before and against the first since the last tire work or pressing, position by position, both taken to 68 degF. It
counts when it is beyond the combined standard uncertainty of the two readings, times the figure that the watch list in
force gives (`moved_by`). Steel of the axle is taken to expand as the ledger's tire steel does. A temperature that
nobody read is never taken for 68 degF: where it could turn the answer, that is undecided. Where the uncertainty of an
instrument is not on record either, or nothing bounds a temperature, the change is not judged; but one so large that
not even a coarse rule in any weather explains it is undecided, and told.

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
from axlebook.records.watch import watches_for

from ._moved import QUANTITY, figures_of, words_of

ID = "back-to-back-moved"
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
            yield from _group(book, stand, group, *found)
        yield from _other_hold(book, stand, thing)


def _rules(book: Book, stand: Stand) -> Iterator[tuple[Watch, WatchSign]]:
    for watch in watches_for(book, stand):
        for word in watch.signs:
            if word.sign == QUANTITY and word.by == "moved" and word.figure:
                yield watch, word


def _group(book: Book, stand: Stand, group: list[Change], watch: Watch, word: WatchSign) -> Iterator[Finding]:
    times = float(word.figure or 0)
    change = worst(group, times)
    if change is not None:
        yield _judged(book, stand, change, times, watch)
        return
    change, lack = next((change, change.lack) for change in group if change.lack is not None)
    at = lack.reading or change.after.origin
    figures = figures_of(change.before, change.after, change.position)
    yield _open(stand, at.at, lack.cause, lack.next, Severity.WATCH, at.hold, figures)


def _judged(book: Book, stand: Stand, change: Change, times: float, watch: Watch) -> Finding:
    after = change.after.origin
    answer = change.beyond(times)
    verdict = {True: Verdict.SUSPECT, False: Verdict.WITHIN, None: Verdict.UNDECIDED}[answer]
    words = "" if answer is False else words_of(stand, change, times, book.in_mm(stand.engine))
    figures = figures_of(change.before, change.after, change.position)
    if change.lack is None:
        figures += (
            Figure("change at 68 degF", repr(change.size * 1000), "mm", "computed"),
            Figure("uncertainty, expanded", repr(times * change.uncertainty * 1000), "mm", "computed"),
        )
    return Finding(
        ID, verdict, Severity.WATCH, stand.name, after.value_at(change.position), words, figures,
        watch.cited, NEXT, QUANTITY, f"{after.hold}, {after.clock}",
    )  # fmt: skip


def _other_hold(book: Book, stand: Stand, thing: Thing) -> Iterator[Finding]:
    found = unlike(book, thing, QUANTITY)
    if found is not None:
        before, after = found.before.origin, found.after.origin
        cause = "back-to-back was last read in another hold than ever before, which load alone can change"
        step = f"Read it once more {before.hold} at {before.clock}, as on {found.before.day}."
        figures = figures_of(found.before, found.after)
        yield _open(stand, after.at, cause, step, Severity.NOTE, "another hold", figures)


def _open(
    stand: Stand, at: Place, cause: str, step: str, severity: Severity, where: str, figures: tuple[Figure, ...] = ()
) -> Finding:
    words = f"{stand.name}: a change of back-to-back is NOT judged: {cause}."
    return Finding(
        ID, Verdict.NOT_ASSESSED, severity, stand.name, at, words, figures, next=step, quantity=QUANTITY, where=where,
        cause=cause,
    )  # fmt: skip
