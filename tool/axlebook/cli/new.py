"""`axlebook new KIND ID`: a commented template of a record, in the folder of its kind."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path

import click

from . import CannotRun
from .options import FORMAT, LEDGER, options


@click.command()
@click.argument("kind")
@click.argument("id", metavar="ID")
@options(FORMAT, LEDGER)
def command(kind: str, id: str, shape: str, ledger: str | None) -> int:
    """Write a commented template of a record to fill in, and say where it is.

    ID is the name of its file: lower-case letters, digits and hyphens. What has a date begins with it.

    KIND is one of engine, driver, wheelset, tire, inspection, tire-applied, tire-removed, tire-found, mounting,
    turning, defect, service, instrument, person, limit-set, plan, waiver, correction.

    \b
      axlebook new engine e-12
      axlebook new tire t-4471
      axlebook new inspection 2026-01-10-e-12-annual
    """
    from axlebook.reports.addressed import addressed
    from axlebook.reports.cleaning import clean
    from axlebook.sources.writing import AlreadyThere, write_new

    from . import opened, terminal

    _require_kind(kind)
    _require_id(kind, id)
    found = opened.open_ledger(ledger)
    known = _records(found.root)
    if id in known:
        raise CannotRun(f"there is a record {id} already: {known[id]}. An id is used once in a ledger.")
    path = _path(kind, id)
    try:
        write_new(found.root / path, _template(kind, id, found.root, path, known).encode())
    except AlreadyThere:
        raise CannotRun(f"there is a file {path} already; nothing was written.") from None
    except OSError as error:
        raise CannotRun(f"{path} cannot be written ({error.strerror}).") from None
    if shape == "json":
        from axlebook.reports.as_json import render_report

        from .reported import without_ledger

        terminal.put(render_report(without_ledger("new"), {"path": path}))
    else:
        check = addressed("axlebook check", opened.named_again(found))
        terminal.put(f"{clean(found.beside)}{path}\nFill it in, then: {clean(check)}\n")
    return 0


def _require_kind(kind: str) -> None:
    from axlebook.sources.schema_problems import nearest
    from axlebook.sources.schemas import FOLDERS

    if kind == "ledger":
        raise CannotRun("a ledger's own record is written by: axlebook init DIR")
    if kind not in FOLDERS:
        near = nearest(kind, FOLDERS)
        kinds = ", ".join(name for name in FOLDERS if name != "ledger")
        raise CannotRun(
            f"there is no kind of record {_quoted(kind)}. " + (f"Did you mean {near}?" if near else f"Kinds: {kinds}.")
        )


def _require_id(kind: str, id: str) -> None:
    from axlebook.records.forms import is_id
    from axlebook.reports.prefilled import date_is_missing
    from axlebook.sources.names import letter_first
    from axlebook.sources.schema_problems import format_wording

    if not is_id(id):
        wording, number = format_wording("id", id), letter_first(id)
        step = f"{number}." if number else wording.next if id[:1].isalpha() else ""
        raise CannotRun(f"{wording.message} {step}".strip())
    if date_is_missing(kind, id):
        words = id.lstrip("0123456789-") or "e-12"
        raise CannotRun(f"such an id begins with its date, such as 2026-01-10-{words[:40]}.")


def _quoted(text: str) -> str:
    from .opened import quoted

    return quoted(text[:60])


def _records(root: Path) -> dict[str, str]:
    """Where every record stands, by id: looked for by name alone, so that an unreadable one counts too."""
    from axlebook.sources.names import FOLDERS

    return {
        name.removesuffix(".yaml"): Path(folder, name).relative_to(root).as_posix()
        for top in FOLDERS
        for folder, _, names in os.walk(root / top)
        for name in names
        if name.endswith(".yaml")
    }


def _path(kind: str, id: str) -> str:
    from axlebook.reports.prefilled import DATE_KEYS
    from axlebook.sources.schemas import FOLDERS

    year = f"{id[:4]}/" if kind in DATE_KEYS else ""
    return f"{FOLDERS[kind]}/{year}{id}.yaml"


def _template(kind: str, id: str, root: Path, path: str, known: dict[str, str]) -> str:
    from axlebook.records.forms import parse_day
    from axlebook.reports.metric_sample import in_metric
    from axlebook.reports.prefilled import prefilled
    from axlebook.reports.template import render_template
    from axlebook.sources.named_files import shows_mm
    from axlebook.sources.new_ledger import modeline
    from axlebook.sources.schema_files import read_schemas

    from .opened import today

    filled = prefilled(kind, id, {name: at.partition("/")[0] for name, at in known.items()})
    day: date = parse_day(id[:10]) or today()
    text = render_template(kind, read_schemas()[kind], filled, modeline(root, path, kind), day)
    return in_metric(text) if shows_mm(root, known.get(filled.get("engine", ""), "")) else text
