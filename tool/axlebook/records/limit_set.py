"""A limit set's record to the values that judge."""

from __future__ import annotations

from fractions import Fraction

from axlebook.findings import Place
from axlebook.limits import (
    AfterEvent,
    Between,
    Bound,
    Condition,
    FacetTest,
    Interval,
    Limit,
    LimitSet,
    Paperwork,
    Practice,
    Table,
    Watch,
    WatchSign,
)
from axlebook.quantities import NotAMeasure, Quantity, parse_measure

from . import fields
from .limit_tables import find_faults
from .planes import plane_named

WORDS = ("under", "at_most", "over", "at_least")
SIGN_WORDS = ("under_practice", "under_share", "moved_by")


def _figure(text: str) -> Fraction | None:
    try:
        found = parse_measure(text)
    except NotAMeasure:
        return None
    return found.exact if isinstance(found, Quantity) else None


def _bounds(tree: fields.Tree) -> tuple[Bound, ...]:
    return tuple(
        Bound(word, None if tree[word] == "table" else _figure(tree[word]), tree[word])
        for word in WORDS
        if word in tree
    )


def build_tests(tree: fields.Tree) -> tuple[FacetTest, ...]:
    """Facet tests: a text or list of words, or bounds."""
    return tuple(
        FacetTest(facet, bounds=_bounds(asked)) if isinstance(asked, dict) else _words(facet, fields.texts(tree, facet))
        for facet, asked in tree.items()
    )


def _words(facet: str, words: tuple[str, ...]) -> FacetTest:
    figures = (_figure(word) for word in words)
    return FacetTest(facet, words, figures=tuple(figure for figure in figures if figure is not None))


def _condition(quantity: str, tree: fields.Tree) -> Condition:
    seen = fields.text(tree, "seen")
    return Condition(quantity or seen, _bounds(tree), seen)


def _conditions(limit: fields.Tree) -> tuple[Condition, ...]:
    together = fields.inner(limit, "out_when_all")
    if together:
        return tuple(_condition(quantity, asked) for quantity, asked in together.items())
    return (_condition(fields.text(limit, "quantity"), fields.inner(limit, "out_when")),)


def build_table(tree: fields.Tree) -> Table | None:
    """A table of figures, rising however it is written; `above` is an open end. One that has a fault has no row."""
    if not tree:
        return None
    sound = not find_faults(tree)
    rows = [(tuple(_figure(cell) for cell in row), row[-1]) for row in fields.items(tree, "rows") if row and sound]
    rows.sort(key=lambda row: [(cell is None, cell or 0) for cell in row[0][:-1]])  # the first that serves is taken
    between = Between(fields.text(tree, "between_rows"))
    return Table(fields.texts(tree, "columns"), between, tuple(row for row, _ in rows), tuple(text for _, text in rows))


class _Common:
    """What every entry of one set shares."""

    def __init__(self, id: str, path: str, tree: fields.Tree) -> None:
        source = fields.inner(tree, "source")
        self.id, self.path = id, path
        self.decision = fields.text(tree, "decision")
        self.tests = build_tests(fields.inner(tree, "applies_to"))
        self.source = ", ".join(filter(None, (fields.text(source, "title"), fields.text(source, "edition"))))

    def name(self, entry: fields.Tree) -> str:
        return f"{self.id}/{entry['id']}"

    def at(self, section: str, index: int) -> Place:
        return Place(self.path, f"/{section}/{index}")

    def asks(self, entry: fields.Tree) -> tuple[FacetTest, ...]:
        return self.tests + build_tests(fields.inner(entry, "applies_to"))


def _limit(common: _Common, index: int, entry: fields.Tree) -> Limit:
    return Limit(
        common.name(entry),
        common.id,
        _conditions(entry),
        entry["stage"],
        entry["clause"],
        common.decision,
        common.source,
        common.at("limits", index),
        plane_named(fields.text(entry, "where")),
        common.asks(entry),
        build_table(fields.inner(entry, "table")),
        fields.text(entry, "title"),
        fields.text(entry, "note"),
        fields.day(entry, "expires_on").exact,
        fields.text(entry, "docket"),
        fields.texts(entry, "replaces"),
    )


def _interval(common: _Common, index: int, entry: fields.Tree) -> Interval:
    return Interval(
        entry["id"],
        common.id,
        fields.text(entry, "title") or entry["id"],
        fields.counted(entry, "every"),
        fields.counted(entry, "or"),
        fields.texts(entry, "satisfies"),
        fields.text(entry, "with_each"),
        fields.whole(entry, "nth") or 1,
        fields.texts(entry, "starts"),
        fields.counted(entry, "start_delay"),
        fields.counted(entry, "report_within"),
        fields.counted(entry, "notice"),
        fields.text(entry, "each_year_by"),
        fields.text(entry, "of"),
        entry["stage"],
        entry["clause"],
        common.source,
        common.at("intervals", index),
        common.asks(entry),
        fields.text(entry, "note"),
        fields.text(entry, "which") or "first",
    )


def _practice(common: _Common, index: int, entry: fields.Tree) -> Practice:
    tolerance = fields.inner(entry, "tolerance")
    return Practice(
        common.name(entry),
        common.id,
        entry["quantity"],
        build_table(fields.inner(entry, "table")),
        fields.number(entry, "share"),
        fields.exact(entry, "value"),
        fields.text(entry, "follows"),
        fields.exact(tolerance, "minus"),
        fields.exact(tolerance, "plus"),
        entry["stage"],
        entry["clause"],
        common.source,
        common.decision,
        common.at("practices", index),
        common.asks(entry),
        fields.exact(entry, "per"),
        _figures(entry, tolerance),
    )


def _figures(entry: fields.Tree, tolerance: fields.Tree) -> str:
    """The figures of a practice as they are written, its table left out."""
    value, per, share = (fields.text(entry, key) for key in ("value", "per", "share"))
    told = [f"{value}{f' for each {per}' if per else ''}"] if value else []
    told += [f"{share} of the diameter"] if share else []
    told += [f"as {follows}"] if (follows := fields.text(entry, "follows")) else []
    told += [f"at most {text} {way}" for key, way in (("minus", "less"), ("plus", "more"))
             if (text := fields.text(tolerance, key))]  # fmt: skip
    return "; ".join(told)


def _after(common: _Common, index: int, entry: fields.Tree) -> AfterEvent:
    return AfterEvent(
        common.name(entry),
        common.id,
        entry["event"],
        fields.texts(entry, "asks"),
        fields.texts(entry, "quantities"),
        fields.counted(entry, "within"),
        entry["stage"],
        entry["clause"],
        common.source,
        common.at("after", index),
    )


def _paperwork(common: _Common, index: int, entry: fields.Tree) -> Paperwork:
    return Paperwork(
        common.name(entry),
        common.id,
        entry["of"],
        fields.texts(entry, "asks"),
        entry["stage"],
        entry["clause"],
        common.source,
        common.at("paperwork", index),
        common.asks(entry),
    )


def _sign(entry: fields.Tree) -> WatchSign:
    seen = fields.text(entry, "seen")
    by = "seen" if seen else next((word for word in SIGN_WORDS if word in entry), "bounds")
    return WatchSign(
        seen or fields.text(entry, "quantity"),
        entry["weight"],
        by.removeprefix("under_").removesuffix("_by"),
        _bounds(fields.inner(entry, "out_when")),
        fields.number(entry, "under_share") or fields.number(entry, "moved_by"),
        fields.text(entry, "counts_as"),
        fields.yes(entry, "stays") is True,
    )


def _watch(common: _Common, index: int, entry: fields.Tree) -> Watch:
    return Watch(
        common.name(entry),
        common.id,
        fields.text(entry, "title") or entry["id"],
        tuple(_sign(sign) for sign in fields.items(entry, "signs") if sign),
        entry["stage"],
        entry["clause"],
        common.source,
        common.at("watch", index),
        common.asks(entry),
    )


def build_limit_set(id: str, path: str, tree: fields.Tree) -> LimitSet:
    """A limit set from its tree."""
    common, source = _Common(id, path, tree), fields.inner(tree, "source")

    def entries(section: str) -> list[tuple[int, fields.Tree]]:
        return [(index, entry) for index, entry in enumerate(fields.items(tree, section)) if entry]

    return LimitSet(
        id,
        fields.text(source, "title"),
        fields.text(source, "edition"),
        fields.text(source, "seen_on"),
        common.decision,
        Place(path),
        fields.yes(tree, "historic") is True,
        fields.texts(tree, "tightens"),
        tuple(_limit(common, index, entry) for index, entry in entries("limits")),
        tuple(_interval(common, index, entry) for index, entry in entries("intervals")),
        tuple(_practice(common, index, entry) for index, entry in entries("practices")),
        tuple(_after(common, index, entry) for index, entry in entries("after")),
        tuple(_watch(common, index, entry) for index, entry in entries("watch")),
        tuple(_paperwork(common, index, entry) for index, entry in entries("paperwork")),
        tree,
    )
