"""`axlebook pack ENGINE`: a time capsule in one zip, and how one is verified."""

from __future__ import annotations

import os
from pathlib import Path

import click

from . import CannotRun
from .options import AS_OF, AT, FORMAT, LEDGER, options


@click.command()
@click.argument("engine", required=False)
@click.option("--output", "-o", metavar="FILE.zip", help="A new file; else ENGINE-DATE.zip here.")
@click.option("--verify", "capsule", metavar="FILE.zip", help="Look whether a capsule is whole; write nothing.")
@options(FORMAT, AS_OF, AT, LEDGER)
def command(
    engine: str | None, output: str | None, capsule: str | None, shape: str, as_of: str | None, at: str | None,
    ledger: str | None,
) -> int:  # fmt: skip
    """Pack the book of ENGINE into one zip for somebody who opens it in thirty years.

    In it: a page that says in plain words how to read it, the annual summary of the last whole year, the condition
    and the findings of the day as text, every record with its limits, schemas and photos, and a checksum of each file.
    The whole book is packed, for engines share wheels, instruments and limits; the copy is closed on its day. The same
    commit and day give the same bytes. The exit code says only whether it was packed, or whether --verify found it
    whole.

    \b
      axlebook pack 12                            writes e-12-2026-02-28.zip
      axlebook pack --verify e-12-2026-02-28.zip
    """
    if capsule is not None:
        if engine is not None or output is not None:
            raise CannotRun("--verify looks at a file and writes nothing: give it alone.")
        return _verify(capsule, shape)
    if engine is None:
        raise CannotRun("name the engine to pack, or a file to --verify.")
    return _pack(engine, output, shape, as_of, at, ledger)


def _pack(
    engine: str, output: str | None, shape: str, as_of: str | None, at: str | None, ledger: str | None
) -> int:  # fmt: skip
    import hashlib

    from axlebook.reports.unread import LOST, NOT_READ, unread_words
    from axlebook.sources.capsule import TooLarge, packed
    from axlebook.sources.writing import AlreadyThere, write_new

    from . import opened, packing, reported, terminal
    from .engines import engine_named

    found, asked = opened.open_ledger(ledger, (), at), opened.asked_day(as_of)
    outcome = reported.run(found, asked, with_history=True)
    chosen = engine_named(outcome.book, engine)
    name = output if output is not None else f"{chosen.id}-{outcome.book.as_of}.zip"
    if "\0" in name or not name or os.path.lexists(name):
        raise CannotRun(
            f"{opened.quoted(name[:200])} is there already, or is no name for a file; nothing is overwritten."
        )
    report = reported.report_of("pack", outcome, found, asked, with_git=True)
    files, left = packing.files_of(found, outcome, report, chosen)
    try:
        content = packed(files)
        write_new(Path(os.path.abspath(name)), content)
    except TooLarge:
        raise CannotRun("the book is too large for a capsule; its photos are most of it.") from None
    except AlreadyThere:
        raise CannotRun(f"{opened.quoted(name[:200])} is there already; nothing is overwritten.") from None
    except OSError as error:
        raise CannotRun(f"{opened.quoted(name[:200])} cannot be written ({error.strerror}).") from None
    sha256 = hashlib.sha256(content).hexdigest()
    if shape == "json":
        from axlebook.reports.as_json import render_report

        result = {"path": name, "files": len(files) + 1, "sha256": sha256, "left_out": list(left)}
        terminal.put(render_report(report, result))
        return 0
    missing = "".join(f"Not packed: {one}.\n" for one in left)
    if unread := unread_words(report.findings):
        missing += f"! {NOT_READ.upper()}{LOST} in it, though packed as it stands: {unread}\n"
    terminal.put(
        f"{len(files) + 1} files are in {opened.quoted(name)}.\n{missing}SHA-256, to keep on paper: {sha256}\n"
    )
    return 0


def _verify(path: str, shape: str) -> int:
    from axlebook.sources.capsule import verify

    from . import opened, reported, terminal

    if "\0" in path or not os.path.isfile(path):
        raise CannotRun(f"there is no file {opened.quoted(path[:200])}.")
    try:
        with open(path, "rb") as file:
            found = verify(file)
    except OSError as error:
        raise CannotRun(f"{opened.quoted(path[:200])} cannot be read ({error.strerror}).") from None
    if shape == "json":
        from axlebook.reports.as_json import render_report

        result = {"path": path, "files": found.files, "as_packed": found.as_packed, "problems": list(found.problems)}
        terminal.put(render_report(reported.without_ledger("pack"), result))
    elif found.problems:
        terminal.put("".join(f"{one[:1].upper()}{one[1:]}.\n" for one in found.problems[:20]))
        terminal.put(f"{opened.quoted(path)} is NOT whole: {_counted(len(found.problems))}.\n")
    else:
        packed = "" if found.as_packed else " The zip itself was packed again by another program."
        terminal.put(f"{found.files} files, all there, none altered, nothing besides.{packed}\n")
    return int(bool(found.problems))


def _counted(problems: int) -> str:
    return "1 problem" if problems == 1 else f"{problems} problems"
