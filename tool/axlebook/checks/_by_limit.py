"""One computed or counted figure held against every limit set in force, and said as a finding."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from axlebook.findings import SEVERITY_ORDER, Figure, Finding, Place, Severity, Verdict
from axlebook.limits import Judgement, Span, applies, judge, point
from axlebook.records.book import Book
from axlebook.records.condition import Stand
from axlebook.records.unsure import NOT_SURE

from ._bands import GUARD_BAND
from ._judging import DOUBTED, VERDICT_WEIGHT, reader
from ._words import limit_figure, out_words


def decide(book: Book, stand: Stand | None, quantity: str, span: Span, band: Fraction = Fraction(0)) -> Judgement | str:
    """The judgement that weighs most, or why no limit in force judges it."""
    found: list[Judgement] = []
    cause = ""
    facets = reader(book, stand) if stand else (lambda name: None)
    for limit in book.limits_on(stand.engine if stand else None, quantity):
        if len(limit.conditions) > 1 or limit.conditions[0].seen:
            continue
        answer = applies(limit.applies_to, facets)
        if answer.answer:
            seen = span.widened(band) if limit.decision == GUARD_BAND else span
            found.append(judge(limit, {quantity: seen}, facets))
        elif answer.answer is None:
            cause = f"{book.vocabulary.facets[answer.facet].title} is not on record"
    replaced = {id for judgement in found for id in judgement.limit.stands_in_for}
    found = [judgement for judgement in found if judgement.limit.id not in replaced]
    if found:
        return min(found, key=_weight)
    word = book.vocabulary.find_quantity(quantity)
    return cause or f"no limit on file for {word.title if word else quantity}"


def _weight(judgement: Judgement) -> tuple[int, int, Fraction]:
    severity = SEVERITY_ORDER[judgement.limit.severity] if judgement.verdict is Verdict.OUTSIDE else 0
    return VERDICT_WEIGHT[judgement.verdict], severity, judgement.margin or Fraction(0)


def limit_finding(
    book: Book,
    check: str,
    subject: str,
    at: Place,
    judged: Judgement | str,
    quantity: str,
    text: str,
    next_step: str,
    figures: tuple[Figure, ...] = (),
    where: str = "",
) -> Finding:
    """A judged figure as a finding; `text` is what was read, in shop words, without a full stop."""
    if isinstance(judged, str):
        return Finding(
            check, Verdict.NOT_ASSESSED, Severity.NOTE, subject, at,
            f"{subject}: {text}. It has NOT been judged: {judged}.", figures,
            next="Adopt a limit with its source, in a limit set of your own.", quantity=quantity, where=where,
            cause=judged,
        )  # fmt: skip
    limit = judged.limit
    if judged.verdict is Verdict.WITHIN or judged.bound is None:
        return Finding(
            check, judged.verdict, limit.severity, subject, at, "", figures, limit.cited, quantity=quantity, where=where
        )
    unsure = "; the readings cannot tell" if judged.verdict is Verdict.UNDECIDED else ""
    return Finding(
        check, judged.verdict, limit.severity, subject, at,
        f"{subject}: {text}. Out {out_words(judged.bound, judged.text)}{unsure}.", figures + limit_figure(judged),
        limit.cited, next_step, quantity, where,
    )  # fmt: skip


def by_own_limits(
    book: Book, stand: Stand | None, said: Finding, value: float | Fraction, band: float | Fraction, text: str,
    *, unsure: bool = False,
) -> Iterator[Finding]:  # fmt: skip
    """A figure already judged another way, judged by limits too where a set has any on it."""
    if not book.limits_on(stand.engine if stand else None, said.quantity):
        return
    judged = decide(book, stand, said.quantity, point(Fraction(value)), Fraction(band))
    if unsure and not isinstance(judged, str):
        sided = judged._replace(verdict=DOUBTED.get(judged.verdict, judged.verdict))
        judged = NOT_SURE if sided.verdict is Verdict.NOT_ASSESSED else sided
    yield limit_finding(
        book, said.check, said.subject, said.place, judged, said.quantity, text, said.next, said.figures, "by limit"
    )


def banded(value: Fraction, band: Fraction, least: Fraction, most: Fraction) -> Verdict:
    """Within only when all of the band is inside, outside only when all of it is outside, else undecided."""
    if value + band < least or value - band > most:
        return Verdict.OUTSIDE
    return Verdict.WITHIN if least + band <= value <= most - band else Verdict.UNDECIDED


def once(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Findings as they come; of those not assessed for one cause only the first."""
    seen: set[str] = set()
    for finding in findings:
        if finding.verdict is Verdict.NOT_ASSESSED and finding.cause.startswith("no limit on file"):
            if finding.cause in seen:
                continue
            seen.add(finding.cause)
        yield finding


def computed(name: str, metres: float, origin: str = "computed") -> Figure:
    """A worked-out length as a figure, in millimetres."""
    return Figure(name, repr(metres * 1000), "mm", origin)
