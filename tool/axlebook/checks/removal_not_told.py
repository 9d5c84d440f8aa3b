"""A tire came off, and what it told was not written down or does not go with how it went on.

What is judged: every tire taken off: whether the record says that it came off tight or loose, which shims were found,
and whether those are the shims it went on with, where that day is on record too. The bore of a tire that was not cut
off is asked for, cold: with the center's diameter it tells how much of the fit was left. A record that names its tire
or center as the template does is told as that alone.

What to do: look at the shims that lie in the scrap box, and correct the record that is wrong. Measure the bore before
the tire is cut up: it is the only way to learn what the years took from the fit.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book, Thing
from axlebook.records.session import Session

from ._words import figured

ID = "removal-not-told"
NOT_TOLD = "not written down when a tire came off"
ASK = "Ask those who were there and write it down; what nobody remembers is `unknown`."


def check(book: Book) -> Iterator[Finding]:
    """Look at every removal."""
    for session in book.past_sessions:
        if session.kind == "tire-removed" and not session.unfilled:  # which it is, unknown-reference asks
            yield _came_off(session)
            yield _shims(book, session)
            if fields.text(session.tree, "how") != "cut" and session.tire in book.tires:
                yield _bore(book, session)


def _subject(session: Session) -> str:
    return f"{session.tire} off {session.center}"


def _finding(session: Session, verdict: Verdict, key: str, words: str, figures: tuple[Figure, ...] = ()) -> Finding:
    untold = verdict is Verdict.NOT_ASSESSED
    return Finding(
        ID, verdict, Severity.NOTE if untold else Severity.DATA, _subject(session), session.place.below(key),
        f"{_subject(session)}: {words}." if words else "", figures, "common practice, no source",
        ASK if untold else "Look at the shims themselves, and correct the record that is wrong.", key,
        cause=NOT_TOLD if untold else "",
    )  # fmt: skip


def _came_off(session: Session) -> Finding:
    if fields.text(session.tree, "came_off") in ("tight", "loose"):
        return _finding(session, Verdict.WITHIN, "came_off", "")
    return _finding(session, Verdict.NOT_ASSESSED, "came_off", "whether it came off tight or loose is not written down")


def _thickness(told: object) -> Fraction | None:
    """All shims together; 0 for none, None where nothing tells."""
    if told == "none":
        return Fraction(0)
    if not isinstance(told, list):
        return None
    thick = [fields.exact(shim, "thickness") for shim in told if shim]
    return None if None in thick else sum((t for t in thick if t is not None), Fraction(0))


def _shims(book: Book, session: Session) -> Finding:
    found = _thickness(session.tree.get("shims_found"))
    if found is None:
        return _finding(session, Verdict.NOT_ASSESSED, "shims_found", "what shims were found is not written down")
    before = [w for w in book.work_on.get(session.tire, ()) if w.kind in ("tire-applied", "tire-found")]
    put = [w for w in before if w.center == session.center and (w.day.text <= session.day.text)]
    gone_in = _thickness(put[-1].tree.get("shims")) if put else None
    if gone_in is None or gone_in == found:
        return _finding(session, Verdict.WITHIN, "shims_found", "")
    thick, thick_before = (figured(all, "length", book.in_mm()) for all in (found, gone_in))
    words = f"shims of {thick} were found, and it went on with {thick_before}"
    figures = (
        Figure("shims found", repr(float(found) * 1000), "mm", session.id),
        Figure("shims it went on with", repr(float(gone_in) * 1000), "mm", put[-1].id),
    )
    return _finding(session, Verdict.SUSPECT, "shims_found", words, figures)


def _bore(book: Book, session: Session) -> Finding:
    readings = book.series.get((Thing("tire", session.tire), "tire_bore"), ())
    day = session.day.first
    excused = any(n.what == "tire_bore" for n in session.not_measured)  # said, and why
    if excused or any(r.day.first is not None and day is not None and r.day.first >= day for r in readings):
        return _finding(session, Verdict.WITHIN, "readings", "")
    return _finding(session, Verdict.NOT_ASSESSED, "readings", "its bore was not measured cold after it came off")
