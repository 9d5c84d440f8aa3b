"""`axlebook status`: the condition of every wheel now."""

from __future__ import annotations

import os
from pathlib import Path

import click

from .options import ALL, AS_OF, AT, COLOR, FORMAT, LEDGER, STRICT, options


@click.command()
@click.argument("words", nargs=-1, metavar="[ENGINE|PATH]...")
@options(FORMAT, AS_OF, AT, LEDGER, STRICT, ALL, COLOR)
def command(
    words: tuple[str, ...],
    shape: str,
    as_of: str | None,
    at: str | None,
    ledger: str | None,
    strict: bool,
    whole: bool,
    color: bool | None,
) -> int:
    """Tell the condition of every wheel now: reading, limit, margin, when and by whom.

    An engine a screen: a plan from the front to the rear with what weighs most on each wheel, what holds the engine
    back, what is out, what is due, the watch list. With --all every quantity: the latest reading on the part now
    fitted, by the tightest limit on file, and how it wears.
    The exit code is that of `check`.

    \b
      axlebook status                 every engine of the ledger you stand in
      axlebook status a-copy          of the ledger in that folder
      axlebook status e-12 --all      one engine, every quantity
    """
    from axlebook.checks._waiving import held_back
    from axlebook.reports.annual_due import due_of
    from axlebook.reports.condition_view import conditions

    from . import opened, reported, terminal
    from .engines import engine_named

    paths = tuple(word for word in words if os.path.lexists(word))
    found = opened.open_ledger(ledger, paths if at is None else (), at=at)
    asked = opened.asked_day(as_of)
    outcome = reported.run(found, asked, with_history=True)
    report = reported.report_of("status", outcome, found, asked, with_git=shape == "json")
    named = {engine_named(outcome.book, word).id for word in words if word not in paths}
    named |= {Path(path).stem for path in found.only if path.startswith("engines/")}
    engines = conditions(outcome.book, outcome.findings, named)
    held = [one for one in held_back(outcome.book) if not named or one.engine in named]
    due = {engine.engine: due_of(outcome.book, engine.engine) for engine in engines}
    if shape == "json":
        from axlebook.reports.as_json import condition_json, render_report

        terminal.put(render_report(report, condition_json(engines, held, due)))
    else:
        from axlebook.reports.condition_text import render_condition
        from axlebook.reports.of_engine import unread_of

        look = terminal.look(color, opened.named_again(found), opened.day_again(found, as_of))
        unread = unread_of(outcome.book, [one.engine for one in engines], outcome.findings)
        text = render_condition(report, engines, look, whole=whole, held=held, due=due, unread=unread)
        terminal.put(text, color=look.color)
    return int(report.fails(strict=strict))
