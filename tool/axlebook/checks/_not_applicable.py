"""What is told as not applicable to a part of which the book says that it has it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.book import Book, Thing
from axlebook.records.condition import Stand
from axlebook.records.reading import NotMeasured

from ._judging import every_stand, reader, sort_limits
from ._records import some, title
from ._things import OF_FLANGES

NOT_APPLICABLE = "not applicable"

JOURNALS = frozenset({"journal_diameter"})  # of which a roller bearing leaves nothing to be measured
# What no wheel or axle is without, as long as a limit in force surely judges it there; a flange only where it is known.
SIZES = OF_FLANGES | {"tire_thickness", "rim_thickness", "tread_diameter", "back_to_back"} | JOURNALS
SIGHTS = frozenset({"crack", "flat", "shelled_spot", "bent_axle", "axle_crack"})


class Has(NamedTuple):
    """A place, and why what is told as not applicable there is there."""

    place: str
    why: str


def told_all_the_same(book: Book, check: str, one: NotMeasured) -> Iterator[Finding]:
    """The finding for an entry that says so of parts that have it."""
    found = list(_there(book, one))
    if found:
        where = some([has.place for has in found], 4)
        yield Finding(
            check,
            Verdict.SUSPECT,
            Severity.DATA,
            f"{one.source.engine} {title(book, one.what)}".strip(),
            Place(one.source.path, one.pointer),
            f"{title(book, one.what)} is told as not applicable at {where} on {one.source.day.text}, but "
            f"{found[0].why}.",
            source=f"the record {one.source.record}",
            next="Measure it or look, or give the reason why not; if the part has none, put the part's record right.",
            quantity=one.what,
            where=where,
        )


def _there(book: Book, one: NotMeasured) -> Iterator[Has]:
    """The places of an entry at which the part, which stands there still, has what the entry says does not apply."""
    word, day = book.vocabulary.find_word(one.what), one.source.day.first
    if word is None or day is None or one.positions:
        return
    for stand in every_stand(book):
        if stand.engine.id != one.source.engine or not _is_named(stand, one.places) or not _stood(book, stand, day):
            continue
        if thing := stand.thing(word.of):
            why = _read_before(book, thing, one) or _by_its_nature(book, stand, one.what)
            if why:
                yield Has(f"{stand.line.at} {stand.side}".strip(), why)


def _stood(book: Book, stand: Stand, day: date) -> bool:
    """Whether what stands there now stood there on a day."""
    begun = stand.line.start.first
    if begun is None or begun > day or not stand.side or stand.center is None:
        return begun is not None and begun <= day
    tire = stand.tire.id if stand.tire else ""
    standing = book.standing
    return standing.center_on(stand.wheelset.id, stand.end, day) == stand.center.id and (
        (standing.tire_on(stand.center.id, day) or "") == tire
    )


def _is_named(stand: Stand, places: tuple[str, ...]) -> bool:
    names = {stand.line.at, f"{stand.line.at} {stand.side}".strip(), *stand.ids}
    return not places or not names.isdisjoint(places)


def _read_before(book: Book, thing: Thing, one: NotMeasured) -> str:
    """When it was read on the same part before."""
    read = book.series.get((thing, one.what), ())
    days = [reading.day.text for reading in read if reading.source.record != one.source.record]
    return f"it was read there on {days[-1]}" if days else ""


def _by_its_nature(book: Book, stand: Stand, what: str) -> str:
    if what in SIGHTS:
        return "nothing is made so that it cannot be there"
    if what not in SIZES:
        return ""
    facets, word = reader(book, stand), book.vocabulary.derived
    if (what in OF_FLANGES and facets("flange") != "flanged") or (what in JOURNALS and facets("bearings") != "plain"):
        return ""
    names = (what, *(name for name, one in word.items() if what in one.speaks_for))
    sure = [limit for name in names for limit in sort_limits(book.limits_on(stand.engine, name), facets).sure]
    return f"{sure[0].cited} judges it there" if sure else ""
