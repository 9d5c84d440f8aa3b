"""The manual pages: what a check judges, in the words it was written with, and what a limit on file says."""

from __future__ import annotations

import inspect
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from axlebook.checks import Check
from axlebook.limits import Between, Condition, FacetTest, Interval, Limit, LimitSet, Practice, Table
from axlebook.records.vocabulary import Vocabulary


@dataclass(frozen=True)
class Explained:
    """One manual page."""

    id: str
    title: str
    paragraphs: tuple[str, ...]


OUT = {"under": "under", "at_most": "at or under", "over": "over", "at_least": "at or over"}


def explained_check(check: Check) -> Explained:
    """The manual page of a check: its docstring, paragraphs unwrapped."""
    first, *rest = _paragraphs(inspect.cleandoc(check.__doc__ or check.ID))
    return Explained(check.ID, first, tuple(rest))


def _paragraphs(text: str) -> Iterator[str]:
    """Paragraphs and items of lists, each as one line."""
    for block in text.split("\n\n"):
        lines: list[str] = []
        for line in block.splitlines():
            if not lines or line.lstrip().startswith(("- ", "* ")):
                lines.append(line.strip())
            else:
                lines[-1] += " " + line.strip()
        yield from lines


def explained_entry(found: Limit | Interval | Practice, vocabulary: Vocabulary) -> Explained:
    """The page of one entry of a limit set."""
    if isinstance(found, Limit):
        return _limit(found, vocabulary)
    if isinstance(found, Interval):
        return _interval(found)
    return _practice(found, vocabulary)


def explained_set(found: LimitSet, vocabulary: Vocabulary) -> Explained:
    """The page of a limit set: where it is from, and what it holds, each with its figure."""
    held = [f"- {found.id}/{entry.id.rpartition('/')[2]}: {_short(entry, vocabulary)}" for entry in entries(found)]
    told = [f"Decides {found.decision}. Edition: {found.edition or 'not said'}. Seen: {found.seen_on or 'not said'}."]
    if found.historic:
        told.append("It is historic, and judges nothing today.")
    return Explained(found.id, found.title, (*told, *held))


def entries(found: LimitSet) -> list[Limit | Interval | Practice]:
    """Everything of a set that has an id of its own."""
    return [*found.limits, *found.intervals, *found.practices]


def _short(entry: Limit | Interval | Practice, vocabulary: Vocabulary) -> str:
    """An entry in a line: when it is outside, how often, or what is worked to; and the clause."""
    if isinstance(entry, Limit):
        of_table = f" ({_column(entry.table)})" if entry.table else ""
        return f"outside when {_conditions(entry, vocabulary)}{of_table}, {entry.clause}"
    if isinstance(entry, Interval):
        every = " or ".join(_every(entry))
        return f"{entry.title or 'interval'}{f', every {every}' if every else ''}, {entry.clause}"
    return "; ".join(filter(None, (_title(vocabulary, entry.quantity), _worked_to(entry), entry.clause)))


def _conditions(limit: Limit, vocabulary: Vocabulary) -> str:
    return " and ".join(_condition(condition, vocabulary) for condition in limit.conditions)


def _column(table: Table) -> str:
    """The figures of a table, from the first row to the last."""
    return table.texts[0] if len(table.rows) == 1 else f"{table.texts[0]} to {table.texts[-1]}"


def _every(interval: Interval) -> list[str]:
    return [f"{count} {unit}s" for count, unit in (one for one in (interval.every, interval.alternative) if one)]


def _worked_to(practice: Practice) -> str:
    """The figures of a practice, as they are written."""
    of_table = f"by a table: {_column(practice.table)}" if practice.table else ""
    return "; ".join(filter(None, (of_table, practice.figures)))


def _limit(limit: Limit, vocabulary: Vocabulary) -> Explained:
    told = [f"Outside when {_conditions(limit, vocabulary)}."]
    if limit.table is not None:
        told += _table(limit.table, limit.place.path)
    if limit.where:
        told.append(f"Judges only what was read {limit.where}.")
    told += _applies(limit.applies_to)
    told.append(f"Stage: {limit.stage}. Decides {limit.decision}.")
    if limit.expires_on:
        told.append(f"Expires on {limit.expires_on}.")
    told.append(f"Source: {limit.cited}.")
    return Explained(limit.id, limit.title or _title(vocabulary, limit.quantities[0]), (*told, *_note(limit.note)))


def _condition(condition: Condition, vocabulary: Vocabulary) -> str:
    title = _title(vocabulary, condition.quantity)
    if condition.seen:
        return f"{_title(vocabulary, condition.seen)} is seen"
    bounds = " or ".join(f"{OUT[bound.word]} {_bound_text(bound.text)}" for bound in condition.bounds)
    return f"{title} is {bounds}"


def _bound_text(text: str) -> str:
    return "the figure of the table" if text == "table" else text


def _title(vocabulary: Vocabulary, name: str) -> str:
    word = vocabulary.find_word(name)
    return word.title if word else name.replace("_", " ")


def _table(table: Table, path: str) -> list[str]:
    heads = ", ".join(name.replace("_", " ") for name in table.facets)
    between = "a straight line" if table.between is Between.STRAIGHT_LINE else "the next row"
    return [f"The table has {len(table.rows)} rows, by {heads}; between rows: {between}. It stands in {path}."]


def _applies(tests: Iterable[FacetTest]) -> list[str]:
    found = [f"{test.facet.replace('_', ' ')} {_asked(test)}" for test in tests]
    return [f"Applies to: {'; '.join(found)}."] if found else []


def _asked(test: FacetTest) -> str:
    return " or ".join(test.words) if test.words else " and ".join(f"{OUT[b.word]} {b.text}" for b in test.bounds)


def _interval(interval: Interval) -> Explained:
    every = _every(interval)
    told = [f"Due every {' or '.join(every)}, whichever comes first."] if len(every) > 1 else []
    told = told or [f"Due every {words}." for words in every]
    told += _applies(interval.applies_to)
    told.append(f"Source: {interval.source}, {interval.clause}.")
    return Explained(interval.id, interval.title or interval.id, (*told, *_note(interval.note)))


def _practice(practice: Practice, vocabulary: Vocabulary) -> Explained:
    told = [f"Worked to: {_worked_to(practice) or 'no figure is told'}."]
    if practice.table is not None:
        told += _table(practice.table, practice.place.path)
    told += _applies(practice.applies_to)
    told.append(f"Source: {practice.source}, {practice.clause}. Decides {practice.decision}.")
    return Explained(practice.id, _title(vocabulary, practice.quantity), tuple(told))


def _note(text: str) -> tuple[str, ...]:
    return (f"Note: {text}",) if text else ()
