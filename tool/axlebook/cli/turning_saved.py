"""Printing the what-if of a turning, and keeping it as a draft record."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from . import CannotRun

if TYPE_CHECKING:
    from axlebook.records.turning_case import Case
    from axlebook.reports.sheet import Sheet
    from axlebook.reports.view import Report


def put(sheet: Sheet, case: Case, report: Report, shape: str, *, color: bool | None, whole: bool) -> None:
    """Print it; findings of the book stand in the JSON only, they are `check`'s to tell."""

    from . import terminal
    from .sheet_printed import put_sheet

    if shape == "json":
        from axlebook.reports.as_json import render_report
        from axlebook.reports.turning_json import turning_result

        terminal.put(render_report(report, turning_result(sheet, case)))
        return
    put_sheet(sheet, report._replace(findings=()), shape, color=color, whole=whole)


def require_id(id: str) -> None:
    """Refuse what is no id of a turning: it begins with its date."""
    from axlebook.records.forms import is_id
    from axlebook.reports.prefilled import date_is_missing

    if not is_id(id) or date_is_missing("turning", id):
        raise CannotRun(f"--save: {id[:60]!r} is no id of a turning: begin with its date, such as 2026-04-01-what-if.")


def _otherwise(case: Case) -> str:
    """What to add where new tires leave the others no size: the others, turned with them."""
    axle, asked = case.asked.re_tire, case.asked
    others = dict.fromkeys(wheel.axle for wheel in case.wheels if wheel.axle != axle)
    if not axle or asked.only or not others:
        return ""
    return f" To turn the others too, add: {' '.join(f'--only {one}' for one in others)}"


def save(root: Path, id: str, case: Case) -> None:
    """Write the way told as a new draft record; never over another."""
    from axlebook.records.turning_draft import draft_tree
    from axlebook.sources.new_ledger import modeline
    from axlebook.sources.writing import AlreadyThere, write_new

    from . import say

    plan = case.chosen
    if not plan.diameters:
        raise CannotRun(f"nothing was saved: {plan.name} is not possible ({plan.why}).{_otherwise(case)}")
    if not any(wheel.tire for wheel in plan.wheels if wheel.name in plan.turned):
        raise CannotRun("nothing was saved: no tire that is turned has a record.")
    if id in case.book.paths:
        raise CannotRun(f"there is a record {id} already: {case.book.paths[id]}. An id is used once in a ledger.")
    path = f"turnings/{id[:4]}/{id}.yaml"
    lines = [modeline(root, path, "turning").rstrip("\n"), *_yaml(draft_tree(case, id[:10]))]
    try:
        write_new(root / path, ("\n".join(line for line in lines if line) + "\n").encode())
    except AlreadyThere:
        raise CannotRun(f"{path} is there already; nothing was written.") from None
    except OSError as refused:
        raise CannotRun(f"{path} could not be written ({refused.strerror}).") from None
    say(f"Saved as a draft: {path}. It is not work that was done.")


def _yaml(tree: Mapping[str, Any]) -> Iterator[str]:
    """A tree of texts as YAML; texts in quotes, so that none can be read as anything else."""
    for key, value in tree.items():
        if isinstance(value, str):
            yield f"{key}: {_quoted(value)}"
            continue
        yield f"{key}:"
        if isinstance(value, Mapping):
            yield from (f"  {name}: {_quoted(text)}" for name, text in value.items())
        else:
            yield from (f"  - {_quoted(text)}" for text in value)


def _quoted(text: str) -> str:
    from axlebook.reports.cleaning import clean

    plain = clean(text)
    words = plain.replace("-", "").replace(" ", "")
    if words.isascii() and words.isalnum() and plain[0].isalpha() and plain not in ("yes", "no", "on", "off", "null"):
        return plain
    return plain if plain in ("yes",) else json.dumps(plain, ensure_ascii=False)
