"""From a judgement to a finding: what was read, what it was compared with, where that comes from, what to do now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import partial

from axlebook.findings import Figure, Finding, Verdict
from axlebook.records.book import Book
from axlebook.records.condition import Site, Stand
from axlebook.records.unsure import NO_BAND, NO_PLANE, NO_SIZE, NOT_SURE, TOO_LARGE, WRONG_UNIT
from axlebook.records.vocabulary import Word

from ._judging import Assessed, Uncovered, assess, reader, sites_told
from ._not_known import write_facets
from ._repeats import BOTH_SIDES
from ._seen import assess_seen
from ._words import apart, figured, limit_figure, out_words, shown, value_figures

UNSURE = (NO_BAND, NO_PLANE, NO_SIZE, NOT_SURE, TOO_LARGE, WRONG_UNIT)


def judged(book: Book, check: str, quantities: Iterable[str], next_step: str) -> Iterator[Finding]:
    """The findings of some quantities on every thing; what is within is counted, so it is yielded too."""
    for quantity in quantities:
        for site in sites_told(book, quantity):
            for result in assess(book, site, quantity):
                yield finding(book, check, result, next_step)


def judged_seen(book: Book, check: str, looked_for: Iterable[str], next_step: str) -> Iterator[Finding]:
    """The findings of some things looked for, on every thing."""
    for name in looked_for:
        for site in sites_told(book, name):
            for result in assess_seen(book, site, name):
                yield finding(book, check, result, next_step)


def finding(book: Book, check: str, result: Assessed | Uncovered, next_step: str) -> Finding:
    """One judged quantity as a finding."""
    if isinstance(result, Uncovered):
        return _uncovered(book, check, result)
    word, judgement = _word(book, result.quantity), result.judgement
    computed = _computed(book, result.quantity)
    make = partial(
        Finding,
        check,
        result.verdict,
        judgement.limit.severity,
        result.stand.name,
        result.value.at,
        figures=(
            *(f for v in result.parts or (result.value,) for f in value_figures(v, word.dimension, computed)),
            *limit_figure(judgement),
            *_margin(result, word.dimension),
        ),
        source=judgement.limit.cited,
        quantity=result.quantity,
        where=result.value.position,
    )
    if result.verdict is Verdict.WITHIN:
        return make("")
    mm = book.in_mm(result.stand.engine)
    if result.verdict is Verdict.NOT_ASSESSED:
        cause = _missing(book, result, mm)
        step = _step(book, result.stand, judgement.missing)
        return make(f"{_read(result, word, mm)} It has NOT been judged: {cause}.", cause=cause, next=step)
    return make(_said(result, word, mm), next=next_step)


def _word(book: Book, name: str) -> Word:
    found = book.vocabulary.find_word(name)
    assert found is not None
    return found


def _computed(book: Book, name: str) -> bool:
    return name in book.vocabulary.derived


def _missing(book: Book, result: Assessed, mm: bool) -> str:
    """What kept a limit from judging: a size, a facet, or a row of its table."""
    judgement = result.judgement
    if judgement.missing in UNSURE:
        return judgement.missing
    if judgement.missing == "a row of the table" and judgement.limit.table is not None:
        facets = reader(book, result.stand)
        here = [
            f"{book.vocabulary.facets[name].title} {figured(value, book.vocabulary.facets[name].dimension, mm)}"
            for name in judgement.limit.table.facets
            if isinstance(value := facets(name), Fraction)
        ]
        return f"{judgement.limit.cited} has no row for {' and '.join(here)}"
    known = book.vocabulary.facets.get(judgement.missing) or book.vocabulary.find_word(judgement.missing)
    title = known.title if known else judgement.missing.replace("_", " ")
    return f"{title} is not on record, which {judgement.limit.cited} asks for"


def _step(book: Book, site: Site, missing: str) -> str:
    """Where to write what a limit asks for; the load of a driver goes by its engine's weight on drivers."""
    if missing == NO_BAND:
        return "Name the instrument, and write `expanded_uncertainty` in its record, or beside the reading."
    if missing in UNSURE:
        return "Measure it again."
    if missing in ("a row of the table", "table"):
        return "Add a limit of your own, with its source."
    if missing not in book.vocabulary.facets:
        return "Measure it."
    step = write_facets(book, [missing])
    if missing == "axle_load" and isinstance(site, Stand) and site.wheelset.driver and site.wheelset.axle_load:
        return f"{step.removesuffix('.')}. The axle_load of the driver itself is not counted."
    return step


def _read(result: Assessed, word: Word, mm: bool) -> str:
    value = result.value
    at = f", {value.position}" if value.position else ""
    low, high = value.span.low, value.span.high
    if word.comes_from and low is not None:
        worked_out = figured(low, word.dimension, mm)
        if high is None:
            worked_out = f"at least {worked_out}"
        elif high != low:
            worked_out = f"{worked_out} to {figured(high, word.dimension, mm)}"
        return f"{result.stand.name}, {word.title}{at}: {worked_out}, from {value.text}."
    return f"{result.stand.name}, {word.title}{at}: {shown(value.text)}."


def _said(result: Assessed, word: Word, mm: bool) -> str:
    judgement = result.judgement
    read = _read(result, word, mm)
    if judgement.bound is None:
        told = f" But {judgement.missing}." if judgement.missing in UNSURE else ""
        return f"{read} Out when seen.{told}{_still(result)}{_also(result)}"
    out = out_words(judgement.bound, judgement.text)
    if result.verdict is Verdict.UNDECIDED:
        return f"{read} Out {out}; the reading cannot tell: {_band(result, mm)}."
    return f"{read} Out {out}{_digits(result, word.dimension)}.{_still(result)}{_also(result)}{_uncertain(result, mm)}"


def _still(result: Assessed) -> str:
    return f" {result.still}" if result.still else ""


def _also(result: Assessed) -> str:
    """Other sources by which it is outside too."""
    cited = dict.fromkeys(
        other.limit.cited
        for _, other in result.others
        if other.verdict is Verdict.OUTSIDE and other.limit.set_id != result.judgement.limit.set_id
    )
    return f" Outside {'; '.join(cited)} as well." if cited else ""


def _digits(result: Assessed, dimension: str) -> str:
    """Enough digits to tell reading and limit apart, where both would print alike."""
    low, limit = result.value.span.low, result.judgement.value
    if dimension != "length" or low is None or limit is None or low == limit or abs(low - limit) > Fraction(1, 10000):
        return ""
    one, other = apart(low, limit, "mm")
    return f" ({one} against {other})"


def _band(result: Assessed, mm: bool) -> str:
    if result.judgement.missing in (*UNSURE, BOTH_SIDES):
        return result.judgement.missing
    if result.value.span.low != result.value.span.high:
        return "it is known only as an interval"
    return f"guard band {figured(result.band, 'length', mm)}" if result.band else "no uncertainty is on record"


def _uncertain(result: Assessed, mm: bool) -> str:
    margin, band = result.judgement.margin, result.band
    near = band is not None and margin is not None and abs(margin) <= band
    if band is None or not near or result.judgement.limit.decision != "as written":
        return ""
    return f" Compared as written; the reading itself is good to {figured(band, 'length', mm)}."


def _margin(result: Assessed, dimension: str) -> tuple[Figure, ...]:
    """The margin in millimetres, as the shortest text that reads back to the same double."""
    margin = result.judgement.margin
    if margin is None or dimension != "length":
        return ()
    return (Figure("margin", repr(float(margin * 1000)), "mm", "computed"),)


def _uncovered(book: Book, check: str, result: Uncovered) -> Finding:
    word = _word(book, result.quantity)
    assessed = result.verdict is not Verdict.NOT_ASSESSED
    left = f"There is {result.cause}" if assessed else f"It has NOT been judged: {result.cause}"
    return Finding(
        check,
        result.verdict,
        result.severity,
        result.stand.name,
        result.value.at,
        f"{result.stand.name}, {word.title}: {shown(result.value.text)}. It is kept as read. {left}.",
        figures=value_figures(result.value, word.dimension, _computed(book, result.quantity)),
        next=result.next,
        quantity=result.quantity,
        where=result.value.position,
        cause="" if assessed else result.cause,
    )
