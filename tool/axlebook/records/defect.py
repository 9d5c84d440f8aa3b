"""A defect, from the day it was found to its disposition."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from axlebook.findings import Finding, Place
from axlebook.limits import Limit

from . import fields
from .approval import Approval, approval
from .book import Book
from .dates import Day
from .defect_metal import whereabouts, written_at
from .plain import Plain
from .where_stands import Whereabouts

OPEN = "open"
REPAIRED = "repaired"


class Defect(NamedTuple):
    """One defect as its record tells it."""

    id: str
    place: Place
    found_on: Day
    engine: str
    at: str  # driver-1 right, or ''
    part: str
    what: str
    limit: str  # SET/ID, or ''
    tag: fields.Tree
    restriction: fields.Tree
    repair: fields.Tree
    approved: Approval | None  # None where nothing is written of an approval
    disposition: str  # open where not said
    closed_on: Day
    tree: fields.Tree
    now: tuple[Whereabouts, ...]  # where the metal it is of stands on the day the book is read at

    @property
    def subject(self) -> str:
        """What it is of, in shop words: where that stands now."""
        return self.now[0].name or self.id

    @property
    def moved_from(self) -> str:
        """Where it was found, in shop words, where what it is of stands elsewhere now; else ''."""
        return "" if self.part or self.subject == written_at(self.tree) else written_at(self.tree)

    @property
    def engines(self) -> tuple[str, ...]:
        """The engines under which what it is of stands now."""
        return tuple(dict.fromkeys(here.engine for here in self.now if here.engine))

    @property
    def done_on(self) -> Day:
        """The day from which it is put right: of the repair, else of its closing."""
        repaired = fields.day(self.repair, "done_on")
        return repaired if repaired.first else self.closed_on

    def found_by(self, on: date) -> bool:
        """Whether it was found by the day."""
        return self.found_on.first is None or self.found_on.first <= on

    def is_open(self, on: date) -> bool:
        """Whether it was found by the day and not yet closed on it."""
        later = self.closed_on.first is not None and self.closed_on.first > on
        return self.found_by(on) and (self.disposition == OPEN or later)

    def restricted(self, on: date) -> bool:
        """Whether its restriction holds on the day: from its first to its last, where they are written."""
        start, until = fields.day(self.restriction, "from").first, fields.day(self.restriction, "until").last
        return bool(self.restriction) and (start is None or start <= on) and (until is None or on <= until)

    def is_of(self, finding: Finding) -> bool:
        """Whether a finding is of the same thing: its place, the wheelset there or one of its wheels, or its part."""
        return self.names(finding.subject)

    def names(self, subject: str, *parts: str) -> bool:
        """The same of a thing by its name in shop words, and by the parts that are there."""
        words = subject.split()
        if self.part and self.part.split()[0] in (*words, *parts):
            return True
        places = (here.name.split() for here in self.now if here.name != here.engine)
        return any(words[: len(mine)] == mine or (mine[: len(words)] == words and len(words) > 1) for mine in places)

    def by_its_limit(self, finding: Finding) -> bool:
        """Whether the limit it names is what the finding was judged by."""
        return any(figure.origin == self.limit for figure in finding.figures)


def build_defect(book: Book, record: Plain) -> Defect:
    """A defect from its record."""
    tree = record.tree
    told = fields.inner(tree, "approved")
    return Defect(
        record.id,
        record.place,
        fields.day(tree, "found_on"),
        fields.text(tree, "engine"),
        fields.text(tree, "place"),
        fields.text(tree, "part"),
        fields.text(tree, "what"),
        fields.text(tree, "limit"),
        fields.inner(tree, "tag"),
        fields.inner(tree, "restriction"),
        fields.inner(tree, "repair"),
        approval(book, fields.text(told, "by"), fields.day(told, "approved_on")) if told else None,
        fields.text(tree, "disposition") or OPEN,
        fields.day(tree, "closed_on"),
        tree,
        whereabouts(book, tree),
    )


def defects(book: Book) -> list[Defect]:
    """Every defect found by the day the book is read at, in order of its id; worked out once."""
    found: list[Defect] | None = book.__dict__.get("_defects")
    if found is None:
        records = sorted(book.of_kind("defect"), key=lambda record: record.id)
        all_of_them = [build_defect(book, record) for record in records]
        found = book.__dict__["_defects"] = [defect for defect in all_of_them if defect.found_by(book.as_of)]
    return found


def limit_of(book: Book, defect: Defect) -> Limit | None:
    """The limit that a defect names, where it is on file."""
    limit_set = book.limit_sets.get(defect.limit.partition("/")[0])
    return next((x for x in limit_set.limits if x.id == defect.limit), None) if limit_set else None
