"""The back-to-back of a pair is not what its registers and flange backs predict.

What is judged: for every wheelset both of whose tires are on by record and have their flange back to register read,
the mean of the first cold back-to-back readings, less the distance between the registers less (or plus, as the
register's sense says) both flange backs, all at 68 degF. Two tolerances stand beside it: the root of the sum of
squares, for errors that are independent, and all of them at once. Beyond the first it is undecided; beyond the second
too, as long as cooling can have drawn the tires off so far; beyond that metal is not where the records say.

What to do: feel both registers cold, read back-to-back again in the same hold, and the register distance if it can
be reached. A tire that is not home stands out, and the pair reads wide there.

Source: the readings named; the sum is geometry, the bound on the pull is derived from cooling after grip.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.engineering.gauge import stacked_tolerance
from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.fit import TIRE_STEEL, Fit, Missing, Size
from axlebook.records.pair import Predicted, gauged, guard, length, predicted
from axlebook.records.reading import Reading
from axlebook.records.squeeze import Squeeze, find_squeeze, pull_off

from ._by_limit import computed
from ._tire_day import Application, applications, wheelset_of
from ._words import figured

ID = "back-to-back-not-as-predicted"
NEXT = "Feel both registers cold, and read back-to-back again in the same hold."


def check(book: Book) -> Iterator[Finding]:
    """Hold every fitted pair against what its parts predict."""
    pairs: dict[str, list[Application]] = {}
    for app in applications(book):
        if app.tire.located_by != "nothing":
            pairs.setdefault(wheelset_of(book, app.center), []).append(app)
    for wheelset, apps in pairs.items():
        works = [app.session for app in apps]
        cold = gauged(book, book.wheelsets[wheelset], max(works, key=lambda s: s.day.text))[0]
        if len(apps) == 2 and cold:
            yield _compared(book, wheelset, apps, cold)


def _compared(book: Book, wheelset: str, apps: list[Application], cold: list[Reading]) -> Finding:
    found = predicted(book, book.wheelsets[wheelset], [app.session for app in apps])
    first = [r for r in cold if r.day.first == cold[0].day.first]
    read = length(book, "back_to_back", first, TIRE_STEEL)
    for part in (found, read):
        if isinstance(part, Missing):
            return Finding(
                ID, Verdict.NOT_ASSESSED, Severity.WATCH, wheelset, (part.reading or first[0]).at,
                f"{wheelset}: back-to-back is NOT predicted: {part.cause}.", next=part.next, quantity="back_to_back",
                cause=f"back-to-back is not predicted: {part.cause}",
            )  # fmt: skip
    assert isinstance(found, Predicted)
    assert isinstance(read, Size)
    return _judged(book, wheelset, apps, found, read)


def _judged(book: Book, wheelset: str, apps: list[Application], found: Predicted, read: Size) -> Finding:
    tolerance = stacked_tolerance([guard(part) for part in (*found.parts, read)])
    off = read.mean - found.back_to_back
    pull = _pull(book, apps)
    if abs(off) <= tolerance.root_sum_square:
        verdict = Verdict.WITHIN
    else:
        verdict = Verdict.UNDECIDED if abs(off) <= tolerance.worst_case + pull else Verdict.SUSPECT
    why = "more than the readings and cooling can explain"
    if verdict is Verdict.UNDECIDED:
        pulled = abs(off) > tolerance.worst_case
        why = "cooling can have drawn the tires off so far" if pulled else "the readings together may be out so far"
    mm = book.in_mm(apps[0].stand.engine if apps[0].stand else None)
    words = (
        f"{wheelset}: back-to-back reads {figured(Fraction(read.mean), 'length', mm)} at 68 degF, and its registers "
        f"and flange backs predict {figured(Fraction(found.back_to_back), 'length', mm)}: "
        f"{figured(Fraction(abs(off)), 'length', mm)} {'wide' if off > 0 else 'narrow'}, {why}."
    )
    figures = (
        computed("predicted", found.back_to_back), computed("measured", read.mean), computed("difference", off),
        computed("root sum square", tolerance.root_sum_square), computed("worst case", tolerance.worst_case),
        computed("pull off the registers, at most", pull),
        Figure("register distance", repr(found.parts[0].mean * 1000), "mm", found.parts[0].readings[0].source.record),
    )  # fmt: skip
    return Finding(
        ID, verdict, Severity.WATCH, wheelset, read.readings[0].at, "" if verdict is Verdict.WITHIN else words, figures,
        "register and flange backs as read", NEXT, "back_to_back", "68 degF",
    )  # fmt: skip


def _pull(book: Book, apps: list[Application]) -> float:
    """The most that cooling can have drawn both tires off [m]; nothing where it cannot be worked out."""
    found = 0.0
    for app in apps:
        squeeze = find_squeeze(book, app.fit) if isinstance(app.fit, Fit) else None
        if isinstance(app.fit, Fit) and isinstance(squeeze, Squeeze):
            found += pull_off(book, app.fit, squeeze) or 0.0
    return found
