"""What is a record in a ledger: the folders, the names of files, and one entry found there.

The same rules judge a file on disk and a file in a commit, so they touch neither.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from axlebook.sources.refusals import Refusal, shown

LEDGER = "ledger.yaml"
ATTACHMENTS = "attachments"
FOLDERS = (
    "engines", "drivers", "wheelsets", "tires", "inspections", "tire-work", "mountings", "turnings",
    "defects", "service", "instruments", "people", "limits", "plans", "waivers", "corrections",
)
MAX_NESTING = 3  # folders between a record and the top: `inspections/2026/` is two
_ENDING = ".yaml"
_GOOD_FILE = re.compile(r"(?=.{1,60}\.yaml\Z)(?:[a-z]|[12][0-9]{3}-)[a-z0-9-]*\.yaml")
_GOOD_FOLDER = re.compile(r"[a-z0-9-]{1,60}")
_DEVICES = frozenset(
    ["con", "prn", "aux", "nul"] + [f"{port}{number}" for port in ("com", "lpt") for number in range(10)]
)


class Entry(NamedTuple):
    """A file of a ledger. A badly named one may have content and a problem; `path` is always fit to print."""

    path: str
    content: bytes | None
    problem: Refusal | None


def is_ignored(name: str) -> bool:
    """Return whether a name in a record folder is nobody's record: notes for people and dot-files."""
    return name == "README.md" or name.startswith(".")


def is_printable(name: str) -> bool:
    """Return whether a name can be shown and found as it stands."""
    return name.isprintable() and "\\" not in name


def file_problem(name: str) -> Refusal | None:
    """Return what is wrong with the name of a file in a record folder.

    >>> file_problem("2026-01-10-e-12-annual.yaml") is None
    True
    >>> file_problem("T-4471.yaml").kind, file_problem("t-4471.yml").kind
    ('bad-name', 'stray-file')
    """
    if _GOOD_FILE.fullmatch(name) and name.partition(".")[0] not in _DEVICES:
        return None
    if not is_printable(name):
        return Refusal("bad-name", f"The file name `{shown(name)}` holds signs that cannot be typed.",
                       "Rename the file: lower-case letters, digits and hyphens.")
    if not name.endswith(_ENDING):
        return Refusal("stray-file", f"`{shown(name)}` stands among the records and is not read.",
                       "Give a record the ending `.yaml`; move anything else to `attachments/`.")
    stem = name.removesuffix(_ENDING)
    if stem in _DEVICES:
        return Refusal("bad-name", f"Windows keeps the name `{stem}` for itself.", "Choose another id.")
    return Refusal("bad-name", f"`{shown(stem)}` is no id.",
                   f"Rename the file. {number}." if (number := letter_first(stem)) else
                   f"Rename the file{_fitting(stem)}: lower-case letters, digits and hyphens, at most 60, "
                   "starting with a letter or a date.")


def _fitting(stem: str) -> str:
    """The nearest name that is an id; '' where there is none."""
    name = re.sub(r"[^a-z0-9]+", "-", stem[:200].lower()).strip("-") + _ENDING
    fits = _GOOD_FILE.fullmatch(name) and name.partition(".")[0] not in _DEVICES
    return f" {name} if that is meant" if fits else ""


def letter_first(number: str) -> str:
    """Return how a number that is painted on a part becomes its id; '' where a letter alone does not make it one.

    >>> letter_first("99-11"), letter_first("2026-02-30-x"), letter_first("T 4471")
    ('Put a letter before it, such as e-99-11 for an engine, t-99-11 for a tire', '', '')
    """
    fitting = re.sub(r"[^a-z0-9]+", "-", number[:50].lower()).strip("-")
    if not re.match(r"(?![12][0-9]{3}-)[0-9]", fitting):
        return ""
    return f"Put a letter before it, such as e-{fitting} for an engine, t-{fitting} for a tire"


def folder_problem(name: str, nesting: int) -> Refusal | None:
    """Return what is wrong with a folder inside a record folder, `nesting` folders below the top."""
    if nesting > MAX_NESTING:
        return Refusal("too-deep", f"The folder `{shown(name)}` lies too deep; what is in it is not read.",
                       "Keep records in their folder, or in a year below it.")
    if not _GOOD_FOLDER.fullmatch(name):
        return Refusal("bad-name", f"The folder name `{shown(name)}` is not plain.",
                       "Rename the folder: lower-case letters, digits and hyphens; most are a year.")
    return None


def twin_problem(path: str, seen: dict[str, str]) -> Refusal | None:
    """Return a problem where two names differ only in capitals: on many disks they would be one file."""
    other = seen.setdefault(path.casefold(), path)
    if other == path:
        return None
    return Refusal("twin-name", f"This name and `{other}` differ only in capitals.",
                   "Rename one: on many disks the two would be one file.")


def unknown_folder(name: str) -> Refusal:
    """Return the problem of a folder at the top that holds records and is none of ours."""
    return Refusal("unknown-folder", f"The folder `{shown(name)}` holds `.yaml` files and is not read.",
                   f"Move them to one of: {', '.join(FOLDERS)}.")


def is_known_at_top(name: str) -> bool:
    """Return whether a name at the top of a ledger has its own place there, or is nobody's record."""
    return name in (LEDGER, ATTACHMENTS, "schema", *FOLDERS) or is_ignored(name)


def stray_at_top() -> Refusal:
    """Return the problem of a file at the top that looks like a record."""
    return Refusal("stray-file", "This stands at the top of the ledger and is not read.",
                   "Put the record into the folder of its kind.")


def not_a_folder(path: str) -> Refusal:
    """Return the problem of a file where a folder of records belongs."""
    return Refusal("not-a-folder", f"`{path}` must be a folder.", "Make it a folder and put the records in it.")


def module() -> Refusal:
    """Return the problem of a repository inside the book: it has a history of its own, which is not the book's."""
    return Refusal("module", "This folder is a repository of its own (a git submodule), and is not read.",
                   "Put the records themselves here.")


def symlink() -> Refusal:
    """Return the problem of a link: what it points at may lie outside the book, or change without a trace."""
    return Refusal("symlink", "This is a link to another place, and is not followed.",
                   "Put the file itself here.")


def not_a_file() -> Refusal:
    """Return the problem of a pipe, a device and the like."""
    return Refusal("not-a-file", "This is a pipe, a device or the like, not a file.", "Delete it.")
