"""Judging the condition: every current value by every limit in force, said once, by the limit that weighs most."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import SEVERITY_ORDER, Severity, Verdict
from axlebook.limits import Applies, Condition, FacetReader, Judgement, Limit, Span, applies, judge
from axlebook.records.book import Book, Thing
from axlebook.records.condition import EnginePlace, Lack, Site, Stale, Stand, Value, engine_places, stands, values_of
from axlebook.records.derived import find_values, values
from axlebook.records.facets import facet
from axlebook.records.instruments import guard_band, temperature
from axlebook.records.observed import SHIM_WORDS
from axlebook.records.unsure import NO_BAND, NO_PLANE, NO_SIZE, unsure_of

from ._bands import has_no_band, widened
from ._not_known import not_on_record
from ._repeats import by_each_repeat
from ._words import again, figured, since_words

VERDICT_WEIGHT = {Verdict.OUTSIDE: 0, Verdict.UNDECIDED: 1, Verdict.NOT_ASSESSED: 2, Verdict.WITHIN: 3}
WRITE_IT = "Write it in the record, with where it is known from."
TOLD_ELSEWHERE = frozenset({"shim_thicknesses", *SHIM_WORDS})  # the record of the tire's fitting tells of these too
DOUBTED = {Verdict.OUTSIDE: Verdict.UNDECIDED, Verdict.WITHIN: Verdict.NOT_ASSESSED}
Judged = tuple[Value, Judgement]


class Assessed(NamedTuple):
    """One quantity of one thing, judged: the judgement that weighs most, the value it is of, and all the others."""

    stand: Site
    quantity: str
    value: Value
    judgement: Judgement
    others: tuple[Judged, ...] = ()
    band: Fraction | None = None
    parts: tuple[Value, ...] = ()  # what was judged together
    still: str = ""  # why it holds, though it was looked for again and not seen

    @property
    def verdict(self) -> Verdict:
        """What was decided."""
        return self.judgement.verdict


class Uncovered(NamedTuple):
    """A quantity that was read and that no limit in force could judge, with the nearest reason."""

    stand: Site
    quantity: str
    value: Value
    cause: str
    next: str
    severity: Severity
    verdict: Verdict = Verdict.NOT_ASSESSED
    no_limit: bool = False  # nothing in force is for it: no record and no reading would let it be judged


def every_stand(book: Book) -> list[Stand]:
    """All stands of the book, worked out once."""
    found = book.__dict__.get("_stands")
    if found is None:
        found = book.__dict__["_stands"] = list(stands(book))
    return list(found)


def every_place(book: Book) -> list[EnginePlace]:
    """All places of engines that are no wheelset, worked out once."""
    found = book.__dict__.get("_places")
    if found is None:
        found = book.__dict__["_places"] = list(engine_places(book))
    return list(found)


def sites(book: Book, name: str) -> list[Stand] | list[EnginePlace]:
    """Where a quantity or observation can stand: places of engines, or wheelsets and their wheels."""
    word = book.vocabulary.find_word(name)
    on_engine = word is not None and word.of == "engine" and name not in book.vocabulary.derived
    return every_place(book) if on_engine else every_stand(book)


def sites_told(book: Book, name: str) -> list[Stand] | list[EnginePlace]:
    """The same, left out where nothing was ever read or seen on what is there: most places, for most of the words."""
    word = book.vocabulary.find_word(name)
    if word is None or name in book.vocabulary.derived or name in TOLD_ELSEWHERE:
        return sites(book, name)
    told: dict[str, set[Thing]] | None = book.__dict__.get("_told")
    if told is None:
        told = book.__dict__["_told"] = {}
        for thing, what in (*book.series, *book.seen):
            told.setdefault(what, set()).add(thing)
    things = told.get(name)
    return [site for thing, site in _by_thing(book, name, word.of) if thing in things] if things else []  # type: ignore[return-value]


def _by_thing(book: Book, name: str, of: str) -> list[tuple[Thing, Site]]:
    """The sites of words that are of one kind of thing, each with that thing, worked out once."""
    known: dict[str, list[tuple[Thing, Site]]] = book.__dict__.setdefault("_by_thing", {})
    if of not in known:
        known[of] = [(thing, site) for site in sites(book, name) if (thing := site.thing(of)) is not None]
    return known[of]


def reader(book: Book, site: Site) -> FacetReader:
    """Facets of a thing, each read once; a wheel of which the tire is left out is another thing."""
    key = (site.name, *(site.ids if isinstance(site, Stand) else ()))
    known = book.__dict__.setdefault("_facets", {}).setdefault(key, {})

    def read(name: str) -> object:
        if name not in known:
            known[name] = facet(book, site, name)
        return known[name]

    return read  # type: ignore[return-value]


# -- which limits are for this thing ---------------------------------------------------------------------------------


class Sorted(NamedTuple):
    """Limits by whether they are for a thing: for certain, perhaps, not; and all facets that are not known."""

    sure: list[Limit]
    perhaps: list[Limit]
    refused: list[tuple[Limit, Applies]]


def sort_limits(limits: Iterable[Limit], facets: FacetReader) -> Sorted:
    """Sort limits by whether they are for a thing; those that an authority's waiver stands in for are left out."""
    found = Sorted([], [], [])
    for limit in limits:
        answer = applies(limit.applies_to, facets)
        if answer.answer is False:
            found.refused.append((limit, answer))
        else:
            (found.sure if answer.answer else found.perhaps).append(limit)
    replaced = {id for limit in found.sure for id in limit.stands_in_for}
    if not replaced:
        return found
    sure, perhaps = ([x for x in many if x.id not in replaced] for many in (found.sure, found.perhaps))
    return Sorted(sure, perhaps, found.refused)


# -- one quantity of one thing ---------------------------------------------------------------------------------------


def assess(book: Book, site: Site, quantity: str) -> Iterator[Assessed | Uncovered]:
    """Judge the current values of one quantity on one thing."""
    found = find_values(book, site, quantity)
    if not found:
        return
    facets = reader(book, site)
    limits = sort_limits((x for x in book.limits_on(site.engine, quantity) if _here(book, site, x, quantity)), facets)
    if isinstance(found, (Stale, Lack)):
        yield from _without(book, site, quantity, found, limits)
        return
    apart = _not_at_reference(book, quantity, found)
    if apart and limits.sure + limits.perhaps:
        yield _off_reference(site, quantity, apart[0], limits.sure + limits.perhaps)
        found = [v for v in found if v not in apart]
    judged: list[Judged] = []
    for limit in limits.sure:
        fitting = [v for v in found if not limit.where or v.where == limit.where]
        judged += [(v, _judged(book, site, limit, v, facets)) for v in fitting]
        nowhere = [v for v in found if limit.where and not v.where]
        told = [(v, doubted(_judged(book, site, limit, v, facets), NO_PLANE)) for v in nowhere]
        judged += [(v, j._replace(missing=NO_PLANE)) for v, j in told if j.verdict is Verdict.UNDECIDED]  # past it
    if judged:
        yield _weighed(book, site, quantity, judged)
    open_limits = _open(book, site, found, judged, limits.perhaps, facets)
    if open_limits:
        yield _not_known(book, site, quantity, found[0], open_limits, facets)
    reached = {id(v) for v, _ in judged}
    reached |= {id(v) for limit in open_limits for v in found if not limit.where or v.where == limit.where}
    left = [v for v in found if id(v) not in reached]
    if not found or quantity not in book.vocabulary.quantities:
        return  # what it is worked out from is told of itself
    if left and not _judged_otherwise(book, site, quantity, facets):
        yield _no_limit(book, site, quantity, left[0], limits, facets)
    elif elsewhere := _in_other_planes(limits.sure, judged):
        yield _no_limit(book, site, quantity, found[0], Sorted(elsewhere, [], []), facets)


def _in_other_planes(sure: list[Limit], judged: list[Judged]) -> list[Limit]:
    """Limits for a plane in which nothing was read, of sets that judged nothing: no other judges for them."""
    covered = {judgement.limit.set_id for _, judgement in judged}
    found = [limit for limit in sure if limit.where and limit.set_id not in covered]
    return sorted(found, key=lambda limit: SEVERITY_ORDER[limit.severity])


def _not_at_reference(book: Book, quantity: str, found: list[Value]) -> list[Value]:
    """Values whose size goes with temperature and that were not read at the ledger's reference temperature."""
    word = book.vocabulary.quantities.get(quantity)
    if word is None or not word.needs_temperature:
        return []
    reference = book.ledger.reference_temperature
    return [
        v for v in found if reference is None or any(temperature(r.part_temperature) != reference for r in v.readings)
    ]


def _off_reference(site: Site, quantity: str, value: Value, limits: list[Limit]) -> Uncovered:
    """What is said of such a value: a missing temperature is never the reference temperature."""
    told = any(r.part_temperature for r in value.readings)
    cause = "it was not read at the reference temperature" if told else "the part's temperature is not on record"
    severity = min((limit.severity for limit in limits), key=lambda s: SEVERITY_ORDER[s])
    step = "Read it again with the part at the reference temperature."
    return Uncovered(site, quantity, value, cause, step, severity)


def _here(book: Book, site: Site, limit: Limit, quantity: str) -> bool:
    """Whether a limit is judged with this quantity, the first of its own that was read; not what was only seen."""
    if any(c.seen or not _is_read(book, c.quantity) for c in limit.conditions):
        return False
    return quantity == next(n for n in limit.quantities if n == quantity or values(book, site, n))


def _is_read(book: Book, quantity: str) -> bool:
    return quantity in book.vocabulary.quantities or quantity in book.vocabulary.derived


def _judged(book: Book, site: Site, limit: Limit, value: Value, facets: FacetReader) -> Judgement:
    name = value.quantity
    found = {name: widened(book, limit, value)}
    unsure = unsure_of(book, value)
    for condition in limit.conditions:
        other = worst_for(condition, values(book, site, condition.quantity)) if condition.quantity != name else None
        if other is not None:
            found[condition.quantity] = widened(book, limit, other)
            unsure = unsure or unsure_of(book, other)
    judgement = by_each_repeat(
        judge(limit, found, facets), value, lambda one: judge(limit, found | {name: one}, facets)
    )
    if not unsure and judgement.verdict is Verdict.WITHIN and has_no_band(book, limit, value):
        unsure = NO_BAND
    return doubted(judgement, unsure)


def doubted(judgement: Judgement, unsure: str) -> Judgement:
    """A judgement on what is not sure: outside decides nothing, but of what is no size; and within is never a pass."""
    if not unsure or judgement.verdict not in DOUBTED or (unsure, judgement.verdict) == (NO_SIZE, Verdict.OUTSIDE):
        return judgement
    return judgement._replace(verdict=DOUBTED[judgement.verdict], missing=unsure)


def worst_for(condition: Condition, found: list[Value]) -> Value | None:
    """Of several values the one that a condition holds for soonest: for certain, else perhaps."""
    if not condition.bounds:
        return found[0] if found else None
    return min(found, key=lambda v: _soonest(condition, v.span), default=None)


def _soonest(condition: Condition, span: Span) -> tuple[int, bool, Fraction]:
    holds = {bound.holds(span, bound.value) for bound in condition.bounds if bound.value is not None}
    below = condition.bounds[0].word in ("under", "at_most")
    end = span.low if below else span.high
    nearest = (end or Fraction(0)) * (1 if below else -1)
    return 0 if True in holds else 1 if None in holds else 2, end is not None, nearest


def _weighed(book: Book, site: Site, quantity: str, judged: list[Judged]) -> Assessed:
    value, judgement = min(judged, key=weight)
    others = tuple(pair for pair in judged if pair[1] is not judgement)
    band = guard_band(book, value.readings) if value.readings else None
    return Assessed(site, quantity, value, judgement, others, band)


def weight(pair: Judged) -> tuple[int, int, Fraction]:
    """Outside before undecided before the rest; the heavier limit first when outside; then the least margin."""
    judgement = pair[1]
    severity = 0 if judgement.verdict is Verdict.WITHIN else SEVERITY_ORDER[judgement.limit.severity]
    margin = judgement.margin if judgement.margin is not None else Fraction(0)
    return VERDICT_WEIGHT[judgement.verdict], severity, margin


def _open(
    book: Book, site: Site, found: list[Value], judged: list[Judged], perhaps: list[Limit], facets: FacetReader
) -> list[Limit]:
    """Limits that a facet not on record keeps from being judged, and that could change what was said."""
    covered = {judgement.limit.set_id for _, judgement in judged}
    kept = []
    for limit in perhaps:
        fitting = [v for v in found if not limit.where or v.where == limit.where]
        harmless = limit.set_id in covered and all(
            _judged(book, site, limit, v, facets).verdict is Verdict.WITHIN for v in fitting
        )
        if fitting and not harmless:
            kept.append(limit)
    return kept


def _not_known(
    book: Book, site: Site, quantity: str, value: Value, limits: list[Limit], facets: FacetReader
) -> Uncovered:
    heaviest = min((limit.severity for limit in limits), key=lambda s: SEVERITY_ORDER[s])
    cause, step = not_on_record(book, limits, facets)
    return Uncovered(site, quantity, value, cause, step, heaviest)


def _without(book: Book, site: Site, quantity: str, found: Stale | Lack, limits: Sorted) -> Iterator[Uncovered]:
    """What is said where a quantity is stale or cannot be worked out, and a limit would judge it."""
    judging = limits.sure + limits.perhaps
    if isinstance(found, Stale) and not judging:
        judging = _speaking(book, site, quantity, reader(book, site))
    if not judging:
        return
    severity = min((limit.severity for limit in judging), key=lambda s: SEVERITY_ORDER[s])
    if isinstance(found, Lack):
        yield Uncovered(site, quantity, found.value, f"{found.what} is not on record", WRITE_IT, severity)
        return
    cause = f"not measured {since_words(found.last.day, found.since)}"
    value = values_of(book, [found.last])[-1]  # type: ignore[list-item]
    yield Uncovered(site, quantity, value, cause, again(found.since, "Measure it again."), severity)


def _speaking(book: Book, site: Site, quantity: str, facets: FacetReader) -> list[Limit]:
    """Limits on what is worked out from a quantity and speaks for it, that are for this thing or may be."""
    return [
        limit
        for name, word in book.vocabulary.derived.items()
        if quantity in word.speaks_for
        for limit in book.limits_on(site.engine, name)
        if applies(limit.applies_to, facets).answer is not False
    ]


def _judged_otherwise(book: Book, site: Site, quantity: str, facets: FacetReader) -> bool:
    """Whether a quantity worked out from this one, or this one together with another, is what is judged."""
    limits = book.limits_on(site.engine, quantity)
    if any(len(limit.conditions) > 1 for limit in limits):
        return True
    if not limits and book.vocabulary.quantities[quantity].serves:
        return True
    speaks = [name for name, word in book.vocabulary.derived.items() if quantity in word.speaks_for]
    if any(p.quantity in speaks for limit_set in book.limits_for(site.engine) for p in limit_set.practices):
        return True
    return bool(_speaking(book, site, quantity, facets))


def _no_limit(book: Book, site: Site, quantity: str, value: Value, limits: Sorted, facets: FacetReader) -> Uncovered:
    """The nearest reason why no limit judges a value: a plane, a facet that said no, or no limit at all."""
    title = book.vocabulary.quantities[quantity].title
    planes = [limit for limit in limits.sure + limits.perhaps if limit.where and limit.where != value.where]
    if planes:
        where = planes[0].where
        told = f"was taken `{value.where}`" if value.where else "does not say where it was taken"
        cause = f"{planes[0].source} judges {title} `{where}`, and the reading {told}"
        step = f"Read it there; where it was read there already, write `where: {where}`."
        return Uncovered(site, quantity, value, cause, step, planes[0].severity)
    refused = limits.refused or [
        (limit, applies(limit.applies_to, facets))
        for name, word in book.vocabulary.derived.items()
        if quantity in word.speaks_for
        for limit in book.limits_on(site.engine, name)
    ]
    if refused:
        limit, answer = refused[0]
        here = _facet_words(book, answer.facet, facets)
        cause = f"{limit.source} has a limit for {title}, but none that applies here ({here})"
        step = "Add a limit of your own, with its source."
        return Uncovered(site, quantity, value, cause, step, limit.severity, no_limit=True)
    none = "no adopted limit set is in force" if book.adoptions(site.engine) else "no limit set is adopted"
    cause = f"no limit on file for {title}" if book.limits_for(site.engine) else none
    step = "Add the limit with its source, or adopt a set."
    return Uncovered(site, quantity, value, cause, step, Severity.NOTE, no_limit=True)


def _facet_words(book: Book, name: str, facets: FacetReader) -> str:
    found, word = facets(name), book.vocabulary.facets[name]
    return f"{word.title}: {figured(found, word.dimension, book.in_mm()) if isinstance(found, Fraction) else found}"
