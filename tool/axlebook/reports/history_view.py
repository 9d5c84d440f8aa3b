"""What `history` holds: the positions of a part and the rows of its life, in words, with both times."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from axlebook.findings import Figure
from axlebook.records.book import Book
from axlebook.records.entered import SHORT, Commit, Tag
from axlebook.records.history import NOT_COMMITTED, Event, History, history_of
from axlebook.records.positions import since_words

from .as_json import figure_json

WORDS = {
    "tire-applied": "tire put on",
    "tire-removed": "tire taken off",
    "tire-found": "tire found on",
    "entered": "entered",
    "altered": "record altered",
    "deleted": "record deleted",
}
SIGNATURE = "the commit carries a signature, which was not verified"


@dataclass(frozen=True)
class Row:
    """One event: when it was, when it was entered, what, by whom, signed by whom, in which record."""

    measured: str
    entered: str
    what: str
    words: str
    by: str
    signed: str
    record: str
    event: Event
    carries_signature: bool

    @property
    def people(self) -> str:
        """Who made it and who signed it."""
        return "; ".join(filter(None, (f"by {self.by}" if self.by else "", self.signed)))


@dataclass(frozen=True)
class HistoryView:
    """The history of one id."""

    id: str
    kind: str
    title: str
    positions: tuple[tuple[str, str, str], ...]  # time, where, record
    rows: tuple[Row, ...]
    unknown: str
    shallow: bool
    tags: tuple[Tag, ...]
    history: History
    not_read: str = ""  # files that could not be read: what they tell is missing


def commits_of(found: History) -> list[str]:
    """The commits that a history names."""
    return list(dict.fromkeys(event.entered.hash for event in found.events if event.entered))


def find_history(book: Book, id: str) -> History | None:
    """The history of an id."""
    return history_of(book, id)


def view_of(book: Book, found: History, carrying: Collection[str] = ()) -> HistoryView:
    """The view of a history; `carrying` are the commits that carry a signature."""
    places = tuple((since_words(p.start, p.until), p.where, p.record) for p in found.positions)
    known = book.entered if not found.unknown else None
    return HistoryView(
        found.id, found.kind, found.title, places, tuple(_rows(found.events, carrying)), found.unknown,
        known.shallow if known else False, _tags(found.id, known.tags if known else ()), found,
    )  # fmt: skip


def _tags(id: str, tags: Iterable[Tag]) -> tuple[Tag, ...]:
    """The tags that bear the id of an engine in their name."""
    return tuple(tag for tag in tags if id in tag.name)


def _rows(events: Iterable[Event], carrying: Collection[str]) -> Iterator[Row]:
    for event in events:
        git_only = event.what in ("entered", "altered", "deleted")
        yield Row(
            "" if git_only else event.day.text,
            NOT_COMMITTED.text if event.day is NOT_COMMITTED else entered_words(event.entered),
            WORDS.get(event.what, event.what),
            event.words,
            ", ".join(event.by),
            _signed(event),
            event.record,
            event,
            event.entered is not None and event.entered.hash in carrying,
        )


def entered_words(commit: Commit | None) -> str:
    """When something was entered, by whom, in which commit."""
    return f"{commit.on} by {commit.author} in {commit.hash[:SHORT]}" if commit else ""


def _signed(event: Event) -> str:
    if not event.signed_by:
        return ""
    witness = f", witness {event.witness}" if event.witness else ""
    return f"signed by {event.signed_by}{witness}"


def history_json(view: HistoryView) -> dict[str, Any]:
    """The result of `history`."""
    return {
        "id": view.id,
        "kind": view.kind,
        "title": view.title,
        "entered_unknown": view.unknown,
        "shallow": view.shallow,
        "positions": [
            {"from": _day(p.start), "until": _day(p.until), "where": p.where, "record": p.record}
            for p in view.history.positions
        ],
        "rows": [_row(row) for row in view.rows],
        "tags": [{"name": tag.name, "commit": tag.commit, "carries_signature": tag.signature} for tag in view.tags],
    }


def _day(day: object) -> str | None:
    return str(day) if day else None


def _row(row: Row) -> dict[str, Any]:
    event, figures = row.event, [figure_json(figure) for figure in _figures(row.event)]
    return {
        "measured_on": row.measured or None,
        "what": event.what,
        "words": event.words,
        "record": event.record,
        "by": list(event.by),
        "signed_by": event.signed_by,
        "witness": event.witness,
        "entered": None if event.entered is None else {
            "on": event.entered.on.isoformat(),
            "author": event.entered.author,
            "commit": event.entered.hash,
            "carries_signature": row.carries_signature,
        },
        "figures": figures,
    }  # fmt: skip


def _figures(event: Event) -> tuple[Figure, ...]:
    return event.figures
