"""Which engine a finding is laid to: by its subject, by the parts it names, else by the record it stands in.

What can be laid to no engine, a record nobody can read among it, counts for every engine: silence is never a pass.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache

from axlebook.findings import Finding
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.session import Session

from .unread import FEW, unread_in, unread_words


def of_engine(book: Book, engine: str, findings: Iterable[Finding]) -> list[Finding]:
    """The findings of one engine, and those that can be laid to none."""
    laid = engines_of(book)
    return [finding for finding in findings if not (found := laid.finding(finding)) or engine in found]


def unread_of(book: Book, engines: Iterable[str], findings: Iterable[Finding]) -> list[Finding]:
    """What could not be read of some engines, or can be laid to none."""
    laid, asked = engines_of(book), set(engines)
    return [one for one in unread_in(findings) if not (found := laid.finding(one)) or asked & found]


def unread_words_of(book: Book, ids: Iterable[str], findings: Iterable[Finding], *, whole: bool) -> str:
    """The words for what could not be read of the engines that some parts or records are of, or of none."""
    engines = set().union(*map(engines_of(book).record, ids))
    return unread_words(unread_of(book, engines, findings), most=0 if whole else FEW)


def record_years(book: Book, engine: str) -> set[int]:
    """The years that records of an engine are of, later ones than the book is read at among them."""
    days = [session.day.first for session in book.sessions if session.engine == engine]
    days += [service.period.first for service in book.service_of.get(engine, ())]
    days += [line.start.first for line in book.engines[engine].lines]
    return {day.year for day in days if day is not None}


def engines_of(book: Book) -> Laid:
    """What lays findings and parts to engines, made once."""
    found = book.__dict__.get("_laid")
    if not isinstance(found, Laid):
        found = book.__dict__["_laid"] = Laid(book)
    return found


class Laid:
    """The engines of parts, records and instruments of a book."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._used: dict[str, set[str]] = {}
        self.part = cache(self._part)

    def finding(self, finding: Finding) -> set[str]:
        """The engines a finding is laid to; none where nothing tells."""
        words = re.split(r"[\s,()]+", finding.subject)
        named = {word for word in words if word in self._book.engines}
        if named:
            return named
        by_parts = set().union(*(self.part(word) for word in words))
        return by_parts or self.record(finding.record)

    def record(self, id: str) -> set[str]:
        """The engines a record is about."""
        book = self._book
        session = book.session_by_id.get(id)
        if session is not None:
            return {session.engine} if session.engine else set().union(*map(self.part, _parts_in(session.tree)))
        if id in book.services:
            return {book.services[id].engine}
        if id in book.plain:
            tree = book.plain[id].tree
            about = {fields.text(tree, "engine")} & book.engines.keys() or self.part(_bare(tree))
            return about or (self.record(fields.text(tree, "record")) if "record" in tree else set())
        if id in book.engines:
            return {id}
        return self.instrument(id) if id in book.instruments else self.part(id)

    def instrument(self, id: str) -> set[str]:
        """The engines that something was measured on with an instrument."""
        if not self._used:
            for session in self._book.past_sessions:
                for name in _instruments(session):
                    self._used.setdefault(name, set()).update(self.record(session.id))
        return self._used.get(id, set())

    def _part(self, id: str) -> set[str]:
        """The engines that a wheelset, a center or a tire stands on, stood on, or is ordered for."""
        book, standing = self._book, self._book.standing
        if id in book.wheelsets:
            return {line.engine for line in standing.lines_of.get(id, ())}
        if id in book.centers:
            on = {wheelset for wheelset, _, _ in standing.sides_of.get(id, ())} | {book.centers[id].wheelset}
            return set().union(*(self.part(wheelset) for wheelset in on))
        if id in book.tires:
            centers = {center for center, _ in standing.centers_of.get(id, ())} or {book.tires[id].for_center}
            return set().union(*(self.part(center) for center in centers if center in book.centers))
        return set()


def _instruments(session: Session) -> set[str]:
    """The instruments of a record: of its readings, of its heat log, and those it names."""
    named = {reading.instrument for reading in session.readings} | set(fields.texts(session.tree, "instruments"))
    heat = {fields.text(line, "with") for line in fields.items(session.tree, "heat") if line}
    return (named | heat) - {""}


def _bare(tree: fields.Tree) -> str:
    """The part a record is about, without its side."""
    return fields.text(tree, "part").partition(" ")[0]


def _parts_in(tree: fields.Tree) -> Iterator[str]:
    """The parts that a record names: its tire, center, wheelsets, and what was read on them."""
    for key in ("tire", "center", "wheelset", "tires", "wheelsets"):
        yield from fields.texts(tree, key)
    for key in ("readings", "observations", "examinations"):
        yield from (_bare(item) for item in fields.items(tree, key) if item)
