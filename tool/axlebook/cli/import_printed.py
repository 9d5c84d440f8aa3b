"""What an import says: on paper for a person, or as JSON."""

from __future__ import annotations

import re
import shlex
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from axlebook.findings import Finding
    from axlebook.records.rows.table import Wrong
    from axlebook.reports.page import Paragraph

    from .import_made import Made, Planned
    from .opened import Opened

_FIGURES = re.compile(r"^\S+(?= is no )|[0-9][0-9 ./-]*", re.ASCII)
FEW, WORST = 6, 3  # refused rows and records, and findings, told where not all are asked for


def put(
    found: Opened, file: str, made: Made, written: list[str], shape: str, *, whole: bool, color: bool | None
) -> None:
    """Print it."""
    from . import terminal
    from .opened import named_again

    if shape == "json":
        terminal.put(_json(found, file, made, written))
        return
    from axlebook.reports.page import Page

    look = terminal.look(color, named_again(found))
    paragraphs = _paragraphs(found, file, made, written, len(made.wrong) + 10**6 if whole else FEW, whole=whole)
    terminal.put("\n".join(Page(look).lines(paragraphs)) + "\n", color=look.color)


def _paragraphs(found: Opened, file: str, made: Made, written: list[str], most: int, *, whole: bool) -> list[Paragraph]:
    from axlebook.reports.page import paragraph

    page = [paragraph(f"{file}: {made.words}. {_counted(made)}", hang=2)]
    if made.wrong:
        stands = (
            "place cannot be taken as it stands" if len(made.wrong) == 1 else "places cannot be taken as they stand"
        )
        page.append(paragraph(f"Nothing was written: {len(made.wrong)} {stands}.", "bold"))
        alike = [[one] for one in made.wrong] if whole else _alike(made.wrong)
        page += [paragraph(_refused(many), indent=2, hang=2) for many in alike[:most]]
        told = sum(map(len, alike[:most]))
        return page + _more(len(made.wrong), told)
    if not made.records:
        on = sorted({record for _, record in made.compared.on_record})
        others = f" and {len(on) - most} more records" if len(on) > most else ""
        page.append(paragraph(f"Nothing to add: all of it stands in {', '.join(on[:most])}{others}." if on else
                              "Nothing to add: no row has a value, an answer or a reason."))  # fmt: skip
        return page
    worst = most if whole else WORST
    page.append(paragraph("Written:" if written else "Would be written (nothing is yet):", "bold"))
    page += [paragraph(f"{found.beside}{one.path}  {_holds(one)}", indent=2, hang=2) for one in made.records[:most]]
    page += _more(len(made.records), most)
    if whole and not written:
        page += [paragraph(line, indent=4, whole=True) for one in made.records for line in one.text.splitlines()]
    if made.findings:
        page.append(paragraph("Look at these first:", "bold"))
        page += [paragraph(f"row {row}: {one.message} {one.next}", indent=2, hang=2)
                 for row, one in _slips_first(made.findings)[:worst]]  # fmt: skip
        page += _more(len(made.findings), worst)
    page.append(paragraph(_next(found, written, whole=whole), hang=2))
    return page


def _slips_first(worst_first: list[tuple[int, Finding]]) -> list[tuple[int, Finding]]:
    """What makes a figure unlikely before the worst that would follow from it in its row; else as they are."""
    from axlebook.checks._one_more import STOPPING

    first: dict[int, int] = {}
    for rank, (row, _) in enumerate(worst_first):
        first.setdefault(row, rank)
    ranked = [
        ((first[row], False) if one.check in STOPPING else (rank, True), (row, one))
        for rank, (row, one) in enumerate(worst_first)
    ]
    return [told for _, told in sorted(ranked, key=lambda one: one[0])]


def _alike(wrong: list[Wrong]) -> list[list[Wrong]]:
    """What is wrong, those of one column that differ in their figures alone together, in the order of the first."""
    found: dict[tuple[str, str, str], list[Wrong]] = {}
    for one in wrong:
        found.setdefault((one.column, _FIGURES.sub("#", one.why), _FIGURES.sub("#", one.then)), []).append(one)
    return list(found.values())


def _refused(many: list[Wrong]) -> str:
    """What is wrong with a row, and which more have the same."""
    from axlebook.records.entry.words import in_runs

    first, *rest = many
    told = f"{first.at}: {first.why} {first.then}"
    if not rest:
        return told
    runs = in_runs(one.row for one in rest).split(", ")
    rows = ", ".join(runs[:FEW]) + (" and on" if len(runs) > FEW else "")
    return f"{told} The same in {_many(len(rest), 'more row')}: {rows}."


def _more(many: int, most: int) -> list[Paragraph]:
    from axlebook.reports.page import paragraph

    return [paragraph(f"and {many - most} more: --all", indent=2)] if many > most else []


def _many(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _counted(made: Made) -> str:
    told = [_many(len(made.compared.new), "row") + " new"]
    if made.compared.on_record:
        told.append(f"{len(made.compared.on_record)} on record already")
    told += [f"{made.compared.again} said twice"] if made.compared.again else []
    told.append(f"{made.sheet.blank} empty" + (" (not read as anything)" if made.sheet.blank else ""))
    return ", ".join(told) + "."


def _holds(one: Planned) -> str:
    counts = ((one.new.count("reading"), "reading"), (one.new.count("look"), "look"))
    told = [_many(count, noun) for count, noun in counts if count]
    excused = one.new.count("excuse")
    by = one.new.tree.get("by")
    told += [f"{excused} not measured"] if excused else []
    return f"({', '.join(told)}; by {', '.join(by)})" if by else f"({', '.join(told)}; nobody named)"


def _next(found: Opened, written: list[str], *, whole: bool) -> str:
    if not written:
        more = "" if whole else " To read the records in full first: --all."
        return f"To write: the same call with --write.{more}"
    from axlebook.sources.git import state_of

    if state_of(found.root).root is None:
        return "Each record is whole and safe on this disk. This folder is not under version control."
    names = " ".join(shlex.quote(path) for path in written)
    return f"Each record is whole and safe on this disk. To keep its history too: git add {names}"


def _json(found: Opened, file: str, made: Made, written: list[str]) -> str:

    from axlebook.reports.as_json import render_report
    from axlebook.reports.view import NOTHING_COUNTED, Report

    from .opened import day_told
    from .reported import standing

    counts = dict(NOTHING_COUNTED) | {"read": made.book.read}
    findings = tuple(finding for _, finding in made.findings)
    for finding in findings:
        counts[str(finding.verdict).replace(" ", "_")] += 1
    day = day_told(made.book.as_of, None, made.book.ledger.closed_on)
    report = Report("import", day, counts, findings, revision=standing(found))
    return render_report(report, _result(file, made, written))


def _result(file: str, made: Made, written: list[str]) -> dict[str, Any]:
    return {
        "file": file,
        "read_as": made.words,
        "rows": {"new": len(made.compared.new), "on_record": len(made.compared.on_record), "empty": made.sheet.blank,
                 "said_twice": made.compared.again},
        "records": [
            {"id": one.id, "path": one.path, "readings": one.new.count("reading"), "looks": one.new.count("look"),
             "not_measured": one.new.count("excuse"), "written": one.path in written}
            for one in ([] if made.wrong else made.records)
        ],
        "refused": [{"row": one.row, "column": one.column, "why": one.why, "next": one.then} for one in made.wrong],
        "found_in_rows": [row for row, _ in made.findings],
    }  # fmt: skip
