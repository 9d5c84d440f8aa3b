"""`axlebook wear`: how fast what wears wears, and when it reaches the limits on file."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import click

from . import CannotRun
from .engines import require_read
from .options import ALL, AS_OF, AT, COLOR, LEDGER, options

if TYPE_CHECKING:
    from axlebook.checks._forecast import Forecast
    from axlebook.records.book import Book

FORMATS = ("text", "json", "markdown", "html", "svg")


@click.command()
@click.argument("part", required=False)
@click.argument("path", required=False)
@click.option("--quantity", metavar="NAME", help="This quantity alone, as the ledger names it: flange_thickness.")
@click.option("--format", "shape", type=click.Choice(FORMATS), default="text", show_default=True, help="How to print.")
@options(AS_OF, AT, LEDGER, ALL, COLOR)
def command(
    part: str | None, path: str | None, quantity: str | None, shape: str, as_of: str | None, at: str | None,
    ledger: str | None, whole: bool, color: bool | None,
) -> int:  # fmt: skip
    """Tell how fast each part wears, with its interval, and when it reaches the limits on file.

    PART is a tire, wheelset, center or engine, or a place ("e-12 driver-1 right"); none: everything. PATH is a file or
    folder of the ledger: then only what was last read there. The rate is the median of all pairs of readings that
    nothing lies between: no turning, no new tire, no other gauge. Below three readings there is no rate, below five no
    interval. The lead times in ledger.yaml give the day to order by.

    The exit code says only whether it could be told; what is outside a limit now, `check` answers.

    \b
      axlebook wear
      axlebook wear t-1212 --all
      axlebook wear "e-12 driver-1 right" --quantity flange_thickness \\
          --format svg > flange.svg
    """
    from axlebook.checks._forecast import forecasts
    from axlebook.records.wear import wearing_words
    from axlebook.reports.of_engine import unread_of
    from axlebook.reports.unread import unread_line
    from axlebook.reports.wear_view import wear_rows

    from . import opened, reported, terminal
    from .wear_printed import printed

    if part is not None and path is None and os.path.exists(part):
        part, path = None, part
    found, day = opened.open_ledger(ledger, (path,) if path else (), at), opened.asked_day(as_of)
    outcome = reported.run(found, day)
    book = outcome.book
    words = [word for word in wearing_words(book) if quantity in (None, word.name)]
    if not words:
        there = ", ".join(word.name for word in wearing_words(book))
        raise CannotRun(f"there is no wearing quantity {quantity!r:.60}. There are: {there}.")
    made = [one for one in forecasts(book, words) if part is None or _is_of(one, part)]
    if part is not None and not made:
        require_read(book, part)
        raise CannotRun(_none_of(book, part))
    made = [one for one in made if _read_in(one, found.only)]
    report = reported.report_of("wear", outcome, found, day, with_git=shape == "json")
    look = terminal.look(color, opened.named_again(found), opened.day_again(found, as_of))
    rows = wear_rows(book, made)
    unread = unread_of(book, {one.site.engine.id for one in made} or book.engines, report.findings)
    terminal.put(printed(shape, report, rows, unread, look, whole=whole, part=part or ""), color=look.color)
    if unread and shape not in ("text", "json"):
        click.echo(unread_line(unread), err=True)
    return 0


def _is_of(one: Forecast, part: str) -> bool:
    """Whether a forecast is of a part, an engine by id or number, or a place."""
    from axlebook.records.condition import Stand

    site = one.site
    names = {site.engine.id, site.engine.number, site.name, one.position.thing.id, one.position.thing.name}
    if isinstance(site, Stand):
        names |= {*site.ids, f"{site.engine.id} {site.line.at}", f"{site.engine.number} {site.line.at}"}
    return part in names - {""}


def _read_in(one: Forecast, only: tuple[str, ...]) -> bool:
    """Whether the last reading stands in one of these files or folders."""
    path = one.position.series.points[-1].origin.source.path
    return not only or any(path == asked or path.startswith(f"{asked}/") for asked in only)


def _none_of(book: Book, part: str) -> str:
    from difflib import get_close_matches

    known = [*book.engines, *book.tires, *book.wheelsets, *book.centers]
    if part in known:
        return f"nothing that wears was read on {part!r}, or it stands on no engine now."
    near = get_close_matches(part, known, n=1)
    hint = f" Did you mean {near[0]}?" if near else ' Name a part by its id, or a place: "ENGINE driver-1 right".'
    return f"there is no part {part[:60]!r}.{hint}"
