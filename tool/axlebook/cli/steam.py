"""`axlebook steam ENGINE [DATE]`: one more service day."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import click

from . import CannotRun
from .options import FORMAT, LEDGER, options

if TYPE_CHECKING:
    from axlebook.records.book import Book

    from .opened import Opened

Entry = dict[str, "str | list[str]"]


@click.command()
@click.argument("engine")
@click.argument("day", metavar="[DATE]", required=False)
@click.option("--until", metavar="DATE", help="Last day of a run of service days.")
@click.option("--miles", metavar="MILES", help="How far it ran, over all these days: 34, '34 mile' or '55 km'.")
@click.option("--by", multiple=True, metavar="PERSON", help="Who writes it down; may be given again.")
@click.option("--note", metavar="TEXT", help="Anything a reader should know of the day.")
@options(FORMAT, LEDGER)
def command(
    engine: str, day: str | None, until: str | None, miles: str | None, by: tuple[str, ...], note: str | None,
    shape: str, ledger: str | None,
) -> int:  # fmt: skip
    """Write down one more service day of ENGINE: today, or DATE.

    The day is put into the month's file in service/ at its place by date; what else stands in that file stays as it
    is. The first day of a month begins the file.

    \b
      axlebook steam e-12
      axlebook steam e-12 2026-05-02 --miles 34
      axlebook steam e-12 2026-05-08 --until 2026-05-10 \\
          --note "three days at the fair"
    """
    from axlebook.records.service_day import month_id, why_not

    from .engines import engine_named
    from .opened import open_ledger, today

    found = open_ledger(ledger)
    now = today()
    first = _day(day, "DATE") or now
    last = _day(until, "--until") or first
    book, contents = _read(found, now)
    named = engine_named(book, engine)
    refused = why_not(book, named, first, last)
    if refused:
        raise CannotRun(f"nothing was written: {refused}")
    entry = _entry(book, first, last, miles, by, note)
    id = month_id(named.id, first)
    path = book.paths.get(id, f"service/{id}.yaml")
    _write(found, book, contents, path, named.id, entry)
    _tell(found, path, entry, shape)
    return 0


def _day(text: str | None, name: str) -> date | None:
    if text is None:
        return None
    from axlebook.records.forms import parse_day

    from .opened import no_day

    day = parse_day(text)
    if day is None:
        raise no_day(f"{name}:", text, "2026-05-02")
    return day


def _read(found: Opened, now: date) -> tuple[Book, dict[str, bytes]]:
    """The whole book, days to come included: what is written for them counts as there."""
    from axlebook.run import read_book
    from axlebook.sources.folder import read_folder

    contents: dict[str, bytes] = {}
    return read_book(read_folder(found.root), as_of=None, today=now, contents=contents), contents


def _entry(
    book: Book, first: date, last: date, miles: str | None, by: tuple[str, ...], note: str | None
) -> Entry:  # fmt: skip
    from axlebook.reports.cleaning import clean

    entry: Entry = {"day": first.isoformat()}
    if last != first:
        entry["until"] = last.isoformat()
    if miles is not None:
        entry["miles"] = _miles(miles)
    for person in by:
        if person not in book.plain or book.plain[person].kind != "person":
            raise CannotRun(f"--by: there is no person {person[:60]!r} in people/. `axlebook new person ID` adds one.")
    if by:
        entry["by"] = list(dict.fromkeys(by))
    if note and note.strip():
        entry["note"] = clean(note.strip())
    return entry


def _miles(text: str) -> str:
    """A distance as it is written: the option names the unit that a bare number is in."""
    from axlebook.quantities import NotAMeasure, parse_quantity

    plain = text.strip()
    whole = f"{plain} mile" if plain.replace(".", "", 1).isdecimal() else plain
    try:
        measure = parse_quantity(whole, "length")
    except NotAMeasure as refused:
        raise CannotRun(f"--miles: {refused}") from None
    if measure.unit not in ("mile", "km"):
        raise CannotRun(f"--miles: {plain[:40]!r} is no distance run. Write 34, 34 mile or 55 km.")
    if measure.exact < 0:
        raise CannotRun("--miles: an engine does not run less than nothing.")
    return whole


def _write(found: Opened, book: Book, contents: dict[str, bytes], path: str, engine: str, entry: Entry) -> None:
    from axlebook.sources.new_ledger import modeline
    from axlebook.sources.refusals import Refusal
    from axlebook.sources.service_text import new_month, with_day
    from axlebook.sources.writing import AlreadyThere, Changed, rewrite, write_new

    from .opened import path_again

    target = found.root / path
    was = contents.get(path)
    try:
        if was is None:
            write_new(target, new_month(modeline(found.root, path, "service"), engine, str(entry["day"])[:7], entry))
            return
        _require_sound(found, book, path, engine, str(entry["day"])[:7])
        rewrite(target, was, with_day(was, entry))
    except AlreadyThere:
        raise CannotRun(
            f"there is a file {path} that cannot be read; nothing was written. axlebook check {path_again(found, path)}"
        ) from None
    except Changed:
        raise CannotRun(f"someone else is writing to {path} right now; nothing was written. Do it again.") from None
    except Refusal as refusal:
        raise CannotRun(f"nothing was written to {path}: {refusal.reason} {refusal.hint}") from None
    except OSError as error:
        raise CannotRun(f"{path} cannot be written ({error.strerror}).") from None


def _require_sound(found: Opened, book: Book, path: str, engine: str, month: str) -> None:
    """Refuse a file that has a fault, or that is another engine's or month's by its own words."""
    from .opened import path_again

    faults = [problem for problem in book.problems if problem.place.path == path]
    if faults:
        again = path_again(found, path)
        raise CannotRun(f"nothing was written: {path} is at fault ({faults[0].message}). First: axlebook check {again}")
    service = next((one for one in book.services.values() if one.path == path), None)
    if service is None:
        raise CannotRun(f"nothing was written: {path} is no month of service days.")
    if service.engine != engine:
        raise CannotRun(f"nothing was written: {path} says that it is of {service.engine}, not of {engine}.")
    if service.period.text != month:
        raise CannotRun(f"nothing was written: {path} says that it is of {service.period.text}, not of {month}.")


def _tell(found: Opened, path: str, entry: Entry, shape: str) -> None:
    from axlebook.reports.cleaning import clean

    from . import terminal

    if shape == "json":
        from axlebook.reports.as_json import render_report

        from .reported import without_ledger

        terminal.put(render_report(without_ledger("steam"), {"path": path, "day": str(entry["day"])}))
        return
    days = str(entry["day"]) + (f" to {entry['until']}" if "until" in entry else "")
    miles = f", {entry['miles']}" if "miles" in entry else ""
    terminal.put(f"{days}{miles}: written to {clean(found.beside)}{path}\n")
