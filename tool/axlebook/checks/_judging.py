"""Judging the condition: every current value by every limit in force, said once, by the limit that weighs most."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from axlebook.findings import SEVERITY_ORDER, Figure, Finding, Severity, Verdict
from axlebook.limits import Applies, FacetReader, Judgement, Limit, Span, applies, judge
from axlebook.records.book import Book
from axlebook.records.condition import Stand, Value, stands
from axlebook.records.derived import values
from axlebook.records.facets import facet
from axlebook.records.instruments import guard_band, plane_of

from ._words import apart, figured, limit_figure, out_words, shown, value_figures

VERDICT_WEIGHT = {Verdict.OUTSIDE: 0, Verdict.UNDECIDED: 1, Verdict.NOT_ASSESSED: 2, Verdict.WITHIN: 3}


@dataclass(frozen=True)
class Assessed:
    """One quantity of one stand, judged: the judgement that weighs most, the value it is of, and all the others."""

    stand: Stand
    quantity: str
    value: Value
    judgement: Judgement
    others: tuple[tuple[Value, Judgement], ...]
    band: Fraction | None = None

    @property
    def verdict(self) -> Verdict:
        """What was decided."""
        return self.judgement.verdict


@dataclass(frozen=True)
class Uncovered:
    """A quantity that was read and that no limit in force could judge, with the nearest reason."""

    stand: Stand
    quantity: str
    value: Value
    cause: str
    next: str
    severity: Severity


def every_stand(book: Book) -> list[Stand]:
    """All stands of the book, worked out once."""
    found = book.__dict__.get("_stands")
    if found is None:
        found = book.__dict__["_stands"] = list(stands(book))
    return list(found)


def reader(book: Book, stand: Stand) -> FacetReader:
    """Facets of a stand, each read once."""
    known: dict[str, object] = {}

    def read(name: str) -> object:
        if name not in known:
            known[name] = facet(book, stand, name)
        return known[name]

    return read  # type: ignore[return-value]


def assess(book: Book, stand: Stand, quantity: str) -> Iterator[Assessed | Uncovered]:
    """Judge the current values of one quantity on one stand."""
    found = values(book, stand, quantity)
    if not found:
        return
    facets = reader(book, stand)
    judged: list[tuple[Value, Judgement]] = []
    reasons: list[tuple[Limit, str]] = []
    silent_sets: dict[str, list[tuple[Limit, str]]] = {}
    covered: set[str] = set()
    for limit in book.limits_on(stand.engine, quantity):
        if len(limit.conditions) > 1 or limit.conditions[0].seen:
            continue  # joint conditions and observations are judged where they were seen
        answer = applies(limit.applies_to, facets)
        fitting = [v for v in found if _plane_fits(book, limit, v)]
        if answer.answer and fitting:
            covered.add(limit.set_id)
            judged += [(v, _judged(book, limit, v, facets)) for v in fitting]
        elif answer.answer is None:
            silent_sets.setdefault(limit.set_id, []).append((limit, _unknown(book, answer)))
        else:
            reasons.append((limit, _refused(limit, answer, facets, found[0])))
    if judged:
        yield _weighed(book, stand, quantity, judged)
    unknown = [pair for id, pairs in silent_sets.items() if id not in covered for pair in pairs]
    if unknown:
        limit, cause = min(unknown, key=lambda pair: SEVERITY_ORDER[pair[0].severity])
        yield Uncovered(
            stand, quantity, found[0], cause, "Write it in the record, with where it is known from.", limit.severity
        )
    elif not judged and quantity in book.vocabulary.quantities and not _judged_otherwise(book, stand, quantity, facets):
        yield _no_limit(book, stand, quantity, found[0], reasons)


def _plane_fits(book: Book, limit: Limit, value: Value) -> bool:
    if not limit.where:
        return True
    return any(plane_of(book, reading) == limit.where for reading in value.readings)


def _judged(book: Book, limit: Limit, value: Value, facets: FacetReader) -> Judgement:
    span = value.span
    if limit.decision == "guard band" and (band := guard_band(book, value.readings)) is not None:
        span = span.widened(band)
    return judge(limit, {limit.conditions[0].quantity: span}, facets)


def _weighed(book: Book, stand: Stand, quantity: str, judged: list[tuple[Value, Judgement]]) -> Assessed:
    value, judgement = min(judged, key=_weight)
    others = tuple(pair for pair in judged if pair[1] is not judgement)
    return Assessed(stand, quantity, value, judgement, others, guard_band(book, value.readings))


def _weight(pair: tuple[Value, Judgement]) -> tuple[int, int, Fraction]:
    """Outside before undecided before the rest; the heavier limit first when outside; then the least margin."""
    judgement = pair[1]
    severity = SEVERITY_ORDER[judgement.limit.severity] if judgement.verdict is Verdict.OUTSIDE else 0
    return (
        VERDICT_WEIGHT[judgement.verdict],
        severity,
        judgement.margin if judgement.margin is not None else Fraction(0),
    )


def _unknown(book: Book, answer: Applies) -> str:
    word = book.vocabulary.facets[answer.facet]
    return f"{word.title} is not on record"


def _refused(limit: Limit, answer: Applies, facets: FacetReader, value: Value) -> str:
    if answer.answer is False:
        asked = f"{answer.facet.replace('_', ' ')} {_facet_text(facets(answer.facet))}"
        return f"{limit.source} has a limit, but not for {asked}"
    return f"{limit.source} judges it {limit.where}, and the reading was not taken there"


def _facet_text(found: object) -> str:
    return figured(found, "length") if isinstance(found, Fraction) else str(found)


def _judged_otherwise(book: Book, stand: Stand, quantity: str, facets: FacetReader) -> bool:
    """Whether a quantity worked out from this one is what a limit judges."""
    for name, word in book.vocabulary.derived.items():
        if quantity in word.comes_from:
            limits = book.limits_on(stand.engine, name)
            if any(applies(limit.applies_to, facets).answer is not False for limit in limits):
                return True
            if not limits and not book.limits_on(stand.engine, quantity):
                return True
    return False


def _no_limit(book: Book, stand: Stand, quantity: str, value: Value, reasons: list[tuple[Limit, str]]) -> Uncovered:
    title = book.vocabulary.quantities[quantity].title
    if not reasons:
        sets = book.limits_for(stand.engine)
        cause = f"no limit on file for {title}" if sets else "no limit set is adopted"
        return Uncovered(stand, quantity, value, cause, "Add the limit with its source, or adopt a set.", Severity.NOTE)
    limit, cause = reasons[0]
    whole = len({reason for _, reason in reasons}) == 1
    told = cause if whole else f"no limit on file covers {title} here: {cause}"
    return Uncovered(stand, quantity, value, told, "Add a limit of your own, with its source.", limit.severity)


# -- findings --------------------------------------------------------------------------------------------------------


def judged(book: Book, check: str, quantities: Iterable[str], next_step: str) -> Iterator[Finding]:
    """The findings of some quantities on every stand; what is within is counted, so it is yielded too."""
    wanted = tuple(quantities)
    for stand in every_stand(book):
        for quantity in wanted:
            for result in assess(book, stand, quantity):
                yield finding(book, check, result, next_step)


def finding(book: Book, check: str, result: Assessed | Uncovered, next_step: str) -> Finding:
    """One judged quantity as a finding."""
    if isinstance(result, Uncovered):
        return _uncovered(book, check, result)
    word = book.vocabulary.find_quantity(result.quantity)
    assert word is not None
    computed = result.quantity in book.vocabulary.derived
    make = partial(
        Finding,
        check,
        result.verdict,
        result.judgement.limit.severity,
        result.stand.name,
        result.value.at,
        figures=value_figures(result.value, word.dimension, computed)
        + limit_figure(result.judgement)
        + _margin(result, word.dimension),
        source=result.judgement.limit.cited,
        quantity=result.quantity,
        where=result.value.position,
    )
    if result.verdict is Verdict.WITHIN:
        return make("")
    if result.verdict is Verdict.NOT_ASSESSED:
        cause = f"{result.judgement.missing.replace('_', ' ')} is not on record for {result.judgement.limit.cited}"
        return make(
            f"{_read(result, word.title, word.dimension, computed)} It has NOT been judged: {cause}.",
            cause=cause,
            next="Add it.",
        )
    return make(_said(result, word.title, word.dimension, computed), next=next_step)


def _read(result: Assessed, title: str, dimension: str, computed: bool) -> str:
    at = f", {result.value.position}" if result.value.position else ""
    span = result.value.span
    if computed and span.low is not None:
        return f"{result.stand.name}, {title}{at}: {figured(span.low, dimension)}, from {result.value.text}."
    return f"{result.stand.name}, {title}{at}: {shown(result.value.text)}."


def _said(result: Assessed, title: str, dimension: str, computed: bool) -> str:
    judgement = result.judgement
    assert judgement.bound is not None
    read = _read(result, title, dimension, computed)
    out = out_words(judgement.bound, judgement.text)
    if result.verdict is Verdict.UNDECIDED:
        return f"{read} Out {out}; the reading cannot tell: {_band(result)}."
    return f"{read} Out {out}{_digits(result, dimension)}.{_uncertain(result)}"


def _digits(result: Assessed, dimension: str) -> str:
    """Enough digits to tell reading and limit apart, where both would print alike."""
    low, limit = result.value.span.low, result.judgement.value
    if dimension != "length" or low is None or limit is None or low == limit or abs(low - limit) > Fraction(1, 10000):
        return ""
    one, other = apart(low, limit, "mm")
    return f" ({one} against {other})"


def _band(result: Assessed) -> str:
    if result.value.span.low != result.value.span.high:
        return "it is known only as an interval"
    return f"guard band {figured(result.band, 'length')}" if result.band else "no uncertainty is on record"


def _uncertain(result: Assessed) -> str:
    margin = result.judgement.margin
    if (
        result.band is None
        or margin is None
        or abs(margin) > result.band
        or result.judgement.limit.decision != "as written"
    ):
        return ""
    return f" Compared as written; the reading itself is good to {figured(result.band, 'length')}."


def _margin(result: Assessed, dimension: str) -> tuple[Figure, ...]:
    margin = result.judgement.margin
    if margin is None or dimension != "length":
        return ()
    number, unit = figured_number(margin)
    return (Figure("margin", number, unit, "computed"),)


def figured_number(exact: Fraction) -> tuple[str, str]:
    """A length in millimetres as the shortest text that reads back to the same double."""
    return repr(float(exact * 1000)), "mm"


def _uncovered(book: Book, check: str, result: Uncovered) -> Finding:
    word = book.vocabulary.find_quantity(result.quantity)
    assert word is not None
    return Finding(
        check,
        Verdict.NOT_ASSESSED,
        result.severity,
        result.stand.name,
        result.value.at,
        f"{result.stand.name}, {word.title}: {shown(result.value.text)}. "
        f"The reading is kept. It has NOT been judged: {result.cause}.",
        figures=value_figures(result.value, word.dimension, False),
        next=result.next,
        quantity=result.quantity,
        where=result.value.position,
        cause=result.cause,
    )


__all__ = ["Assessed", "Span", "Uncovered", "assess", "every_stand", "finding", "judged"]
