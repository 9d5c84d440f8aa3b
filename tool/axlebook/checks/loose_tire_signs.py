"""Signs on one tire add up to a suspicion that it is loose.

What is judged: every tire now fitted, by the watch list of the limit sets in force for its engine. Such a list names
the signs (a moved witness mark, a dull ring, a rust line, a feeler that enters, a gap at the register, a change of
back-to-back within one hold, brake heat, a thin tire, a small fit) and how much each says: `alone` is enough by
itself; `with another` needs a second; `beside a sign` is no sign of its own, but counts as the second beside one. Signs
that `counts_as` one thing count once. A railway changes all of that in its own set: `watch` in limits/.

A sign is closed by tire work on that tire, or by a later look for the same sign that says `not seen`; a witness mark
that moved stays so until tire work, or until a look that says `mark_made_anew: yes`. A sign that nobody looked for is
no pass: it is not assessed. What would only weigh beside a sign, and is not on record, is told as a note, and so is
one weak sign alone.

What to do: before the engine runs, look for all the other signs on that tire: witness mark, hammer all round, feelers
at three places and more, back-to-back in the same hold; a second person; then tell the mechanical lead. No limit says
that it is loose, so nothing here says so either.

Source: the watch list named in the finding, common practice unless it says otherwise.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Place, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.watch import Sign, WatchItem, watch_list

ID = "loose-tire-signs"
NEXT = (
    "Before it runs: witness mark, hammer all round, feelers, back-to-back in the same hold; a second person; "
    "then tell the mechanical lead."
)
NEXT_ALONE = "Look for the other signs on this tire: witness mark, hammer, feelers, back-to-back in the same hold."
NO_WATCH = "no list of loose-tire signs is adopted"
ADOPT = "Adopt loose-tire-practice in ledger.yaml, or a set of your own with a `watch`."


def check(book: Book) -> Iterator[Finding]:
    """Judge the signs on every tire now fitted."""
    for item in watch_list(book):
        if not item.watches:
            yield _not_assessed(item, _tire_place(book, item), NO_WATCH, ADOPT, "no list", Severity.WATCH)
            continue
        if item.suspect or item.hint:
            yield _suspect(book, item)
        if item.not_recorded:
            cause = f"what would weigh beside a sign of a loose tire is not on record: {', '.join(item.not_recorded)}"
            at, step = _tire_place(book, item), "Measure the thickness now; bore, center and tread when it is off."
            yield _not_assessed(item, at, cause, step, "not on record", Severity.NOTE)
        if item.not_looked:
            cause = f"signs of a loose tire that nobody looked for: {', '.join(item.not_looked)}"
            step = "Look for them at the next inspection, and write `not seen` where there is nothing."
            yield _not_assessed(item, _tire_place(book, item), cause, step, "not looked for", Severity.WATCH)
        elif not item.suspect and not item.hint:
            yield Finding(ID, Verdict.WITHIN, Severity.WATCH, item.stand.name, _tire_place(book, item), "")


def _tire_place(book: Book, item: WatchItem) -> Place:
    return book.place(item.stand.tire.id if item.stand.tire else item.stand.engine.id)


def _suspect(book: Book, item: WatchItem) -> Finding:
    latest = max(item.signs, key=lambda s: (s.word.weight != "beside a sign", s.day.text))
    tire = item.stand.tire.id if item.stand.tire else ""
    told = "; ".join(f"{sign.title}: {sign.text}" for sign in item.signs)
    lead = "signs add up to a suspicion that it is loose" if item.suspect else "one weak sign, which says little alone"
    end = "No limit says so; metal may have moved." if item.suspect else "Nothing is beside it yet."
    return Finding(
        ID, Verdict.SUSPECT, Severity.WATCH if item.suspect else Severity.NOTE, item.stand.name, latest.at,
        f"{item.stand.name}, tire {tire}: {lead}: {told}. {end}",
        tuple(_figure(sign) for sign in item.signs), item.cited, NEXT if item.suspect else NEXT_ALONE,
        "loose_tire", "signs",
    )  # fmt: skip


def _figure(sign: Sign) -> Figure:
    return Figure(sign.word.sign, sign.text, "", sign.record)


def _not_assessed(item: WatchItem, at: Place, cause: str, step: str, where: str, severity: Severity) -> Finding:
    words = f"{item.stand.name}: NOT judged in full: {cause}."
    return Finding(
        ID, Verdict.NOT_ASSESSED, severity, item.stand.name, at, words, source=item.cited, next=step,
        quantity="loose_tire", where=where, cause=cause,
    )  # fmt: skip
