"""Ledger text in, verdict and place and figures out: how a case of a check is written and run.

A case is a YAML file in the folder named after the check's id:

    about: one sentence
    base: one-engine            # a folder of bases/; default one-engine
    as_of: 2026-02-28           # optional; default the base's closed_on
    today: 2026-03-01           # optional
    on_disk: yes                # optional: write the files into a folder and read that, names and all
    ledger:                     # files added to the base, or in place of its own; null takes one out
      inspections/2026/2026-01-10-a.yaml: |
        kind: inspection
        ...
    change:                     # optional: words of the base's files, each standing there once, put otherwise
      tires/t-1.yaml:
      - [500 degF, 400 degF]
    files:                      # optional, with on_disk: other files, such as photos, with their text
      attachments/2026/a.jpg: not a picture
    history: [...]              # optional: a repository in which these steps were taken; histories.py says how
    expect:                     # every finding of this check, worst first; what is within is not listed
    - verdict: outside
      severity: condemning
      subject: e-1 driver-2 right
      at: inspections/2026/2026-01-10-a.yaml:9:20
      figures: {flange_thickness worst: 15/16 in}
      says: [15/16 in, 230.113(g)]       # words that must stand in message, source or next
    within: 1                   # optional: how many judgements of this check are within
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import yaml

from axlebook.findings import Finding
from axlebook.read import Known
from axlebook.run import Outcome, run_entries, run_folder
from axlebook.sources.names import Entry

from .histories import run_with_history

HERE = Path(__file__).parent
NO_CHECKS = ("bases", "rows", "__pycache__")
TOP = HERE.parents[1]


@lru_cache
def base_files(name: str) -> dict[str, bytes]:
    """The files of a base ledger, and the limit sets and plans that ship."""
    root = HERE / "bases" / name
    found = {str(p.relative_to(root).as_posix()): p.read_bytes() for p in sorted(root.rglob("*.yaml"))}
    shipped = {
        f"{folder}/{p.name}": p.read_bytes()
        for folder in ("limits", "plans")
        for p in sorted((TOP / "ledger" / folder).glob("*.yaml"))
    }
    return {**shipped, **found}


def entries(base: str, files: dict[str, str | None]) -> list[Entry]:
    """The entries of a base ledger with some files added, replaced or taken out."""
    all_files: dict[str, bytes] = dict(base_files(base))
    for path, text in files.items():
        if text is None:
            all_files.pop(path, None)
        else:
            all_files[path] = text.encode()
    return [Entry(path, content, None) for path, content in sorted(all_files.items())]


def run_case(case: dict[str, Any]) -> Outcome:
    """Run one case."""
    as_of = date.fromisoformat(case["as_of"]) if "as_of" in case else None
    today = date.fromisoformat(case.get("today", "2026-03-01"))
    base, files = case.get("base", "one-engine"), dict(case.get("ledger") or {})
    for path, pairs in (case.get("change") or {}).items():
        files[path] = changed(path, files.get(path) or base_files(base)[path].decode(), pairs)
    found = entries(base, files)
    if "history" in case:
        return run_with_history(found, case["history"], as_of, today)
    if "on_disk" in case:
        return run_on_disk(found, as_of, today, case.get("files") or {})
    return run_entries(found, as_of=as_of, today=today, known=_read_once(base))


@lru_cache
def _base_read(name: str) -> Known:
    known = Known()
    run_entries(entries(name, {}), as_of=None, today=date(2026, 3, 1), known=known)
    return known


def _read_once(base: str) -> Known:
    """What is known of a base ledger's files, which most cases leave as they are; a case adds to a copy."""
    known = _base_read(base)
    return Known(dict(known.trees), dict(known.sound), dict(known.built))


def changed(path: str, text: str, pairs: list[list[str]]) -> str:
    """A text with some words put otherwise; words that do not stand there exactly once are a slip of the case."""
    for old, new in pairs:
        assert text.count(old) == 1, f"{path}: {old!r} stands there {text.count(old)} times"
        text = text.replace(old, new)
    return text


def run_on_disk(found: list[Entry], as_of: date | None, today: date, files: dict[str, str] | None = None) -> Outcome:
    """Run over a folder that holds these entries, and some files that are no records."""
    others = {path: text.encode() for path, text in (files or {}).items()}
    with TemporaryDirectory() as folder:
        for name, content in {**{entry.path: entry.content or b"" for entry in found}, **others}.items():
            path = Path(folder, name)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        return run_folder(Path(folder), as_of=as_of, today=today)


def read_cases() -> Iterator[tuple[str, Path, dict[str, Any]]]:
    """Every case: the check's id, its file, its content; all scalars are text, `~` is nothing."""
    for path in sorted(HERE.glob("*/*.yaml")):
        if path.parent.name in NO_CHECKS:
            continue
        case = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CBaseLoader)
        case["ledger"] = {k: (None if v in ("", "~", "null") else v) for k, v in (case.get("ledger") or {}).items()}
        yield path.parent.name, path, case


def said(finding: Finding) -> str:
    """All words of a finding."""
    return f"{finding.message} {finding.source} {finding.next} {finding.cause}"


def differences(finding: Finding, wanted: dict[str, Any]) -> list[str]:
    """How a finding differs from what a case expects of it."""
    here = {
        "verdict": str(finding.verdict),
        "severity": str(finding.severity),
        "subject": finding.subject,
        "at": f"{finding.place.path}:{finding.line}:{finding.column}",
        "path": finding.place.path,
        "quantity": finding.quantity,
        "where": finding.where,
    }
    unlike = [key for key in here if key in wanted and here[key] != wanted[key]]
    found = [f"{key}: {here[key]!r} instead of {wanted[key]!r}" for key in unlike]
    figures = {figure.name: figure.value for figure in finding.figures}
    for name, value in (wanted.get("figures") or {}).items():
        if figures.get(name) != value:
            found.append(f"figure {name}: {figures.get(name)!r} instead of {value!r}; there are {figures}")
    words = wanted.get("says") or []
    words = [words] if isinstance(words, str) else words
    found += [f"does not say {word!r}: {said(finding)}" for word in words if word not in said(finding)]
    return found
