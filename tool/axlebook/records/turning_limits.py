"""The limits in force for wheels as they would stand after a turning: which apply, what they allow, what they say."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import NamedTuple

from axlebook.engineering.turning import MatchLimits
from axlebook.findings import Verdict
from axlebook.limits import Condition, FacetReader, FacetValue, Judgement, Limit, applies, judge, point

from .book import Book
from .condition import Site, Stand
from .facets import facet

# How far a plan stays clear of a figure that is itself out (`at least`): a thousandth of an inch, or 0.01 mm.
CLEAR_INCH, CLEAR_MM = Fraction(254, 10**7), Fraction(1, 10**5)
ON_AXLE, IN_SET = "diameter_difference_on_axle", "diameter_difference_in_set"
OPPOSITE, AVERAGE = "diameter_less_opposite", "diameter_less_base_average"


class Judged(NamedTuple):
    """One figure after the turning, judged by one limit."""

    where: str
    quantity: str
    value: Fraction
    judgement: Judgement

    @property
    def outside(self) -> bool:
        """Whether the limit says so."""
        return self.judgement.verdict is Verdict.OUTSIDE


class Bounds(NamedTuple):
    """How far a figure may go by one limit: no lower, or no higher, than this; the figure as it is written."""

    limit: Limit
    low: Fraction | None
    high: Fraction | None
    text: str


def facets_of(book: Book, site: Site) -> FacetReader:
    """The facets of a place as they are."""
    return lambda name: facet(book, site, name)


def facets_after(book: Book, stand: Site, case: str | None, diameter: Fraction | None = None) -> FacetReader:
    """The facets of a stand as they would be: what was turned is known, and the diameter is the new one."""
    known: dict[str, FacetValue | None] = {"set_case": case, "turned_or_new": _yes_no(case)}
    if diameter is not None:
        known["wheel_diameter"] = diameter
    return lambda name: known[name] if name in known else facet(book, stand, name)


def _yes_no(case: str | None) -> str | None:
    return None if case is None else "no" if case == "none" else "yes"


def limits_for(
    book: Book, stand: Site, quantity: str, facets: FacetReader, where: str = ""
) -> tuple[list[Limit], list[Limit]]:
    """The limits on a quantity that are for this stand, and those of which that is not known.

    Left out: those an authority's waiver stands in for, those of another plane, those that need something seen.
    """
    sure: list[Limit] = []
    perhaps: list[Limit] = []
    for limit in book.limits_on(stand.engine, quantity):
        if len(limit.conditions) > 1 or limit.conditions[0].seen or (limit.where and limit.where != where):
            continue
        answer = applies(limit.applies_to, facets).answer
        if answer is not False:
            (sure if answer else perhaps).append(limit)
    replaced = {id for limit in sure if limit.docket and limit.expires_on for id in limit.replaces}
    return [x for x in sure if x.id not in replaced], [x for x in perhaps if x.id not in replaced]


def judged(
    book: Book, stand: Site, where: str, quantity: str, value: Fraction, facets: FacetReader, plane: str = ""
) -> Iterator[Judged]:
    """A figure judged by every limit that is for it, or may be."""
    sure, perhaps = limits_for(book, stand, quantity, facets, plane)
    for limit in sure:
        yield Judged(where, quantity, value, judge(limit, {quantity: point(value)}, facets))
    for limit in perhaps:
        missing = next((test.facet for test in limit.applies_to if facets(test.facet) is None), "")
        yield Judged(where, quantity, value, Judgement(limit, Verdict.NOT_ASSESSED, missing=missing))


def bounds_on(book: Book, stand: Stand, quantity: str, facets: FacetReader, plane: str = "") -> list[Bounds]:
    """How far a figure may go by each limit that is for it."""
    sure, _ = limits_for(book, stand, quantity, facets, plane)
    return [bound for limit in sure for bound in _bounds(limit, quantity, facets)]


def _bounds(limit: Limit, quantity: str, facets: FacetReader) -> Iterator[Bounds]:
    for bound in limit.conditions[0].bounds:
        alone = limit._replace(conditions=(Condition(quantity, (bound,)),))
        found = judge(alone, {quantity: point(Fraction(0))}, facets)  # a table tells its figure by judging
        if found.value is None:
            continue
        clear = CLEAR_MM if found.text.endswith("mm") else CLEAR_INCH
        match bound.word:
            case "under":
                yield Bounds(limit, found.value, None, found.text)
            case "at_most":
                yield Bounds(limit, found.value + clear, None, found.text)
            case "over":
                yield Bounds(limit, None, found.value, found.text)
            case "at_least":
                yield Bounds(limit, None, found.value - clear, found.text)


def match_limits(
    book: Book, axles: Mapping[str, Stand], readers: Mapping[str, FacetReader], tolerance: Fraction
) -> MatchLimits:
    """The limits on the match as the planner takes them: the tightest of all sets, less a tolerance each way.

    Of a limit with two sides the tighter counts for both, so that a plan is never out at the other.
    """

    def tightest(quantity: str) -> Fraction | None:
        sizes = [
            size
            for axle, stand in axles.items()
            for bound in bounds_on(book, stand, quantity, readers[axle])
            for size in (bound.high, -bound.low if bound.low is not None else None)
            if size is not None
        ]
        return max(min(sizes) - 2 * tolerance, Fraction(0)) if sizes else None

    found: dict[str, Fraction | None] = {
        "across_axle": tightest(ON_AXLE),
        "within_set": tightest(IN_SET),
        "single_tire_to_opposite": tightest(OPPOSITE),
        "single_pair_to_average": tightest(AVERAGE),
    }
    return MatchLimits(**found)  # type: ignore[arg-type]  # exact rationals, which the planner keeps


def set_case(turned: Iterable[str], fresh: Iterable[str], wheels: Mapping[str, str]) -> str:
    """What is turned or renewed and has not run: in the words of the facet; `wheels` is the axle of each wheel."""
    changed = set(turned) | set(fresh)
    if not changed:
        return "none"
    if changed >= set(wheels):
        return "all"
    if len(changed) == 1:
        return "single tire"
    return "single pair" if len(changed) == 2 and len({wheels[name] for name in changed}) == 1 else "several"


class Match(NamedTuple):
    """A figure of the match, the axle whose limits judge it, and where it is."""

    where: str
    axle: str
    quantity: str
    value: Fraction


def match_values(diameters: Mapping[str, Fraction], axles: Mapping[str, str]) -> list[Match]:
    """The figures of the match, as the derived quantities are worked out from readings."""
    found = []
    for axle in dict.fromkeys(axles.values()):
        pair = [name for name in axles if axles[name] == axle]
        if len(pair) == 2:
            found.append(Match(axle, axle, ON_AXLE, abs(diameters[pair[0]] - diameters[pair[1]])))
    if len(diameters) > 1:
        first = next(iter(axles.values()))
        found.append(Match("the set", first, IN_SET, max(diameters.values()) - min(diameters.values())))
    return found


def single_values(diameters: Mapping[str, Fraction], axles: Mapping[str, str], changed: Iterable[str]) -> list[Match]:
    """The figures of a single tire or a single pair that was turned or renewed; none in the other cases."""
    names = list(changed)
    mates = {name: [other for other in axles if axles[other] == axles[name] and other != name] for name in names}
    if len(names) == 1 and mates[names[0]]:
        apart = diameters[names[0]] - diameters[mates[names[0]][0]]
        return [Match(names[0], axles[names[0]], OPPOSITE, apart)]
    if len(names) == 2 and axles[names[0]] == axles[names[1]]:
        average = sum(diameters.values(), Fraction(0)) / len(diameters)
        return [Match(name, axles[name], AVERAGE, diameters[name] - average) for name in names]
    return []
