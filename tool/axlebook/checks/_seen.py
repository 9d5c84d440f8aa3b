"""Judging what was looked for: by limits on its being seen, on its sizes, and on several of these together."""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import SEVERITY_ORDER, Severity, Verdict
from axlebook.limits import NOT_SEEN, SEEN, FacetReader, Judgement, Limit, Span, applies, judge
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.condition import EnginePlace, Site, Stale, Value, span_of
from axlebook.records.derived import values
from axlebook.records.observed import held_open, last_looked, observed, seen_now
from axlebook.records.reading import Observation
from axlebook.records.unsure import NO_SIZE, NOT_SURE

from ._judging import Assessed, Judged, Uncovered, doubted, reader, sort_limits, weight, worst_for
from ._not_known import not_on_record
from ._words import again, since_words

FEELER = "feeler"  # of one that does not enter it is the thickness


def assess_seen(book: Book, site: Site, looked_for: str) -> Iterator[Assessed | Uncovered]:
    """Judge what was looked for on one thing, by the observations of the last day."""
    found = last_looked(book, site, looked_for)
    if not found:
        return
    facets = reader(book, site)
    limits = sort_limits(_limits(book, site, looked_for), facets)
    heaviest = min((x.severity for x in limits.sure + limits.perhaps), key=lambda s: SEVERITY_ORDER[s], default=None)
    if isinstance(found, Stale):
        if heaviest is not None and isinstance(found.last, Observation):
            cause = f"not looked at {since_words(found.last.day, found.since)}"
            step = again(found.since, "Look again.")
            yield Uncovered(site, looked_for, _told(looked_for, found.last), cause, step, heaviest)
        return
    seen = [o for o in found if o.answer == "seen"]
    unsure = [o for o in found if o.answer == "unknown" or (o.answer == "not seen" and o.doubtful)]
    if seen:
        still = _still(book, site, seen[-1])
        for result in _judge_seen(book, site, looked_for, seen, limits.sure, limits.perhaps, facets):
            yield result._replace(still=still) if isinstance(result, Assessed) else result
    elif unsure and heaviest is not None:
        told = "the answer is `unknown`" if unsure[0].answer == "unknown" else "the card is not sure of the answer"
        cause = f"looked for, and {told}: {book.vocabulary.observations[looked_for].title}"
        yield Uncovered(site, looked_for, _told(looked_for, unsure[0]), cause, "Look again.", heaviest)
    elif not unsure and limits.sure:
        value = _told(looked_for, found[-1])._replace(span=NOT_SEEN)
        yield Assessed(site, looked_for, value, Judgement(limits.sure[0], Verdict.WITHIN))


def condemned(book: Book, site: Site, looked_for: str, seen: Observation) -> Assessed | None:
    """How one sighting is outside a condemning limit in force, if it is."""
    facets = reader(book, site)
    sure = sort_limits(_limits(book, site, looked_for), facets).sure
    judged = _judge_seen(book, site, looked_for, [seen], sure, [], facets)
    found = next((one for one in judged if isinstance(one, Assessed) and one.verdict is Verdict.OUTSIDE), None)
    return found if found is not None and found.judgement.limit.severity is Severity.CONDEMNING else None


def _still(book: Book, site: Site, seen: Observation) -> str:
    """Why what was seen holds still, where a later look did not see it."""
    thing = site.thing(book.vocabulary.observations[seen.looked_for].of)
    last = book.seen[thing, seen.looked_for][-1] if thing and (thing, seen.looked_for) in book.seen else seen
    if last.day == seen.day or last.answer == "seen":
        return ""
    if "angle" in last.tree and "angle" in seen.tree:
        return f"Looked for again on {last.day.text} at {last.tree['angle']}, and nothing is told of this one since."
    defect = held_open(book, site, seen)
    if defect is not None:
        why = f"; but {defect.id} is open"
    else:
        why = "" if last.answer == "unknown" else "; but which was last is not told"
    return f"Looked for again on {last.day.text}, {last.answer}{why}."


def _limits(book: Book, site: Site, looked_for: str) -> list[Limit]:
    """Limits on this being seen, and on its sizes; each once."""
    names = (looked_for, *book.vocabulary.observations[looked_for].sizes)
    found = {limit.id: limit for name in names for limit in book.limits_on(site.engine, name)}
    return [limit for limit in found.values() if limit.conditions[0].quantity in names]


def _told(looked_for: str, observation: Observation) -> Value:
    return observed(looked_for, SEEN, observation.answer, observation)


def _judge_seen(
    book: Book,
    site: Site,
    looked_for: str,
    seen: list[Observation],
    sure: list[Limit],
    perhaps: list[Limit],
    facets: FacetReader,
) -> Iterator[Assessed | Uncovered]:
    judged = [(_judged(book, site, limit, o, looked_for, facets), o) for limit in sure for o in seen]
    if judged:
        (value, judgement), observation = min(judged, key=lambda pair: weight(pair[0]))
        others = tuple(pair for pair, _ in judged if pair[1] is not judgement)
        parts = tuple(_sizes(book, judgement.limit, observation)) if len(judgement.limit.conditions) > 1 else ()
        yield Assessed(site, value.quantity, value, judgement, others, parts=parts)
    first = _told(looked_for, seen[0])
    open_limits = [
        limit
        for limit in perhaps
        if any(_judged(book, site, limit, o, looked_for, facets)[1].verdict is not Verdict.WITHIN for o in seen)
    ]
    if open_limits:
        heaviest = min((limit.severity for limit in open_limits), key=lambda s: SEVERITY_ORDER[s])
        cause, step = not_on_record(book, open_limits, facets)
        yield Uncovered(site, looked_for, first, cause, step, heaviest)
    elif not judged and not perhaps and not spoken_for(book, site, looked_for, facets):
        yield _no_limit(book, site, looked_for, first)


def _no_limit(book: Book, site: Site, looked_for: str, told: Value) -> Uncovered:
    """What no limit speaks of: on a part, a thing to watch; on the whole engine, an event that asks for other looks."""
    cause = f"no limit on file for {book.vocabulary.observations[looked_for].title}"
    if isinstance(site, EnginePlace):
        return Uncovered(site, looked_for, told, cause, "See what it asks to be looked at again.", Severity.NOTE)
    step = "Have a person look; add a limit of your own, with its source."
    return Uncovered(site, looked_for, told, cause, step, Severity.WATCH, Verdict.SUSPECT)


def spoken_for(book: Book, site: Site, looked_for: str, facets: FacetReader) -> bool:
    """Whether something worked out from this observation is what a limit judges, or a watch list counts it."""
    if any(looked_for == sign.sign for x in book.limits_for(site.engine) for w in x.watch for sign in w.signs):
        return True
    return any(
        applies(limit.applies_to, facets).answer is not False
        for name, word in book.vocabulary.derived.items()
        if looked_for in word.speaks_for
        for limit in book.limits_on(site.engine, name)
    )


def seen_here(book: Book, site: Site, looked_for: str) -> list[Observation]:
    """The observations by which something is seen now."""
    return [o for o in seen_now(book, site, looked_for) if o.answer == "seen"]


def nothing_condemns(book: Book, site: Site, looked_for: str, facets: FacetReader) -> bool:
    """Whether no limit on this being seen is for this thing, nor may be."""
    limits = sort_limits(_limits(book, site, looked_for), facets)
    return not limits.sure and not limits.perhaps


def _judged(
    book: Book, site: Site, limit: Limit, observation: Observation, looked_for: str, facets: FacetReader
) -> Judged:
    """One observation by one limit, with the value that stands for it: a size where the limit names one."""
    sizes = book.vocabulary.observations[looked_for].sizes
    named = _sizes(book, limit, observation)
    known: dict[str, Span] = {looked_for: SEEN} | {value.quantity: value.span for value in named}
    for condition in limit.conditions:
        if condition.quantity not in known and condition.quantity not in sizes and not condition.seen:
            other = worst_for(condition, values(book, site, condition.quantity))
            if other is not None:
                known[condition.quantity] = other.span
    unsure = NOT_SURE if observation.doubtful else NO_SIZE if any(v.text[:1] == "-" for v in named) else ""
    judgement = doubted(judge(limit, known, facets), unsure)
    if len(limit.conditions) == 1 and named:
        return named[0], judgement
    told = _told(looked_for, observation)
    return told._replace(text=" by ".join(value.text for value in named) or told.text), judgement


def _sizes(book: Book, limit: Limit, observation: Observation) -> list[Value]:
    """The sizes of an observation that a limit names and that were written."""
    names = book.vocabulary.observations[observation.looked_for].sizes
    found = (_size(book, c.quantity, observation) for c in limit.conditions if c.quantity in names)
    return [value for value in found if value is not None]


def _size(book: Book, name: str, observation: Observation) -> Value | None:
    """A size of an observation as a value; None where it was not written."""
    key = book.vocabulary.sizes[name].key
    measure = fields.measure(observation.tree, key)
    if measure is None:
        return None
    return observed(name, span_of(measure), measure.text, observation)._replace(at=observation.at.below(key))


def sizes_told(book: Book, one: Observation) -> list[str]:
    """What an observation tells of how large it is, where a limit is for that or for its being seen; and of spokes."""
    engine, found = book.engines.get(one.source.engine), []
    for name in book.vocabulary.observations[one.looked_for].sizes:
        size = fields.measure(one.tree, book.vocabulary.sizes[name].key)
        judged = book.limits_on(engine, name) or (name != FEELER and book.limits_on(engine, one.looked_for))
        if size is not None and span_of(size) != NOT_SEEN and judged:
            found.append(f"its size is {size.text}")
    spokes = fields.texts(one.tree, "spokes")
    return [*found, f"its spokes are {', '.join(spokes)}"] if spokes else found
