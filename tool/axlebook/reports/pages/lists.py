"""The pages that list: engines, findings, what is due, people and instruments, and everything from A to Z."""

from __future__ import annotations

from axlebook.findings import Finding, Verdict
from axlebook.records import fields
from axlebook.records.history import history_of

from ..annual_defects import HOLDS
from ..annual_due import due_of, due_part, late_in_year
from ..annual_findings import findings_part
from ..annual_parts import Listed, Part, listed
from ..condition_view import EngineCondition
from ..due_view import due_list
from ..item import Item
from ..of_engine import of_engine
from ..text import counts_words, sentence
from ..unread import unread_item
from ..view import WHO_DECIDES
from .ground import Ground
from .links import file_name
from .page import Page

VERDICTS = (Verdict.OUTSIDE, Verdict.SUSPECT, Verdict.UNDECIDED, Verdict.NOT_ASSESSED, Verdict.UNREADABLE)


def index_page(ground: Ground) -> Page:
    """Every engine with its counts, and where to go on."""
    head = ("Engine", "Number", *(str(verdict) for verdict in VERDICTS), "Overdue", "Held back")
    rows = tuple((_engine_cells(ground, one), None) for one in ground.conditions)
    tables = (Listed("Findings by engine; what can be laid to no engine counts for each", head, rows),) if rows else ()
    told = (Item(counts_words(ground.report.counts)), *unread_item(ground.report.findings), Item(WHO_DECIDES))
    first = Part("engines", "Engines", (), tables, nothing="No engine is on record.")
    return Page("index.html", ground.book.ledger.railway or "The book", told=told, first=(first, _wheelsets(ground)))


def _engine_cells(ground: Ground, one: EngineCondition) -> tuple[str, ...]:
    book = ground.book
    found = of_engine(book, one.engine, ground.report.findings)
    overdue = sum(due.verdict is Verdict.OUTSIDE for due in due_of(book, one.engine))
    counts = (str(sum(finding.verdict is verdict for finding in found)) for verdict in VERDICTS)
    held = len({held.record for held in ground.held if held.kind in HOLDS and held.engine == one.engine})
    return one.engine, book.engines[one.engine].number, *counts, str(overdue), str(held) if held else "no"


def _wheelsets(ground: Ground) -> Part:
    rows = [(axle.wheelset, f"{engine.engine} {axle.at}") for engine in ground.conditions for axle in engine.axles
            if axle.at]  # fmt: skip
    tables = (listed("Where they stand", ("Wheelset", "Where"), rows),) if rows else ()
    return Part("wheelsets", "Wheelsets", (), tables, nothing="None stands on an engine.")


def findings_page(ground: Ground) -> Page:
    """Every finding, and what was not judged by its cause."""
    causes = [(sentence(one.cause), str(len(one.findings)), sentence(one.next)) for one in ground.report.causes]
    not_judged = Part("not-judged", "Not judged", (), (listed("By cause", ("Cause", "How many", "What to do"), causes),)
                      if causes else (), nothing="Every reading is judged by a limit.")  # fmt: skip
    told = (Item(counts_words(ground.report.counts)), *unread_item(ground.report.findings))
    return Page("findings.html", "What was found", told=told, first=(findings_part(_all(ground)), not_judged))


def _all(ground: Ground) -> list[Finding]:
    return list(ground.report.findings)


def due_page(ground: Ground) -> Page:
    """What is overdue, what comes in twelve months, and the counters of each engine."""
    book = ground.book
    found = due_list(book)
    many = [due for row in found.rows for due in row.many]
    late = late_in_year(book, "", book.as_of.replace(month=1, day=1))
    counted = tuple(Item(one.words) for one in found.counters)
    counters = Part("counters", "Service days", counted, nothing="No service record is on file.")
    told = tuple(unread_item(ground.report.findings))
    due = due_part(book, book.engines.values(), many, late)
    return Page("due.html", "What falls due", told=told, first=(due, counters))


def people_page(ground: Ground) -> Page:
    """Who is named in the book, by role only, and with what was measured."""
    people = [_person(record.id, record.tree) for record in ground.book.of_kind("person")]
    told = (Item("People stand in this book by their initials or role, and by no more."),)
    table = listed("By the records", ("Who", "Role", "Qualifications", "From", "Until"), people)
    who = Part("people", "People", told, (table,) if people else (), nothing="Nobody is on record.")
    rows = [(one.id, one.type, ", ".join(one.measures).replace("_", " "), _covered(one.covered_on(ground.book.as_of)))
            for one in ground.book.instruments.values()]  # fmt: skip
    listing = listed("By the records", ("Instrument", "What", "Measures", f"Certificate on {ground.book.as_of}"), rows)
    tools = Part("instruments", "Instruments", (), (listing,) if rows else (), nothing="No instrument is on record.")
    return Page("people.html", "People and instruments", first=(who, tools))


def _person(id: str, tree: fields.Tree) -> tuple[str, ...]:
    known = [one for one in fields.items(tree, "qualifications") if one]
    told = "; ".join(" ".join(filter(None, (fields.text(one, "what"), _level(one)))) for one in known)
    return id, fields.text(tree, "role"), told, fields.text(tree, "from"), fields.text(tree, "until")


def _level(one: fields.Tree) -> str:
    level = fields.text(one, "level")
    return f"level {level}" if level else ""


def _covered(covered: bool | None) -> str:
    return {True: "covered", False: "NOT covered", None: "no certificate on file"}[covered]


def all_page(ground: Ground) -> Page:
    """Everything that has a page, from A to Z, by kind."""
    shelves: dict[str, list[tuple[str, ...]]] = {}
    for id in sorted(ground.links.folder):
        found = history_of(ground.book, id)
        if found is not None:
            shelves.setdefault(ground.links.folder[id], []).append((id, found.kind.replace("-", " "), found.title))
    parts = tuple(
        Part(file_name(folder), folder[:1].upper() + folder[1:], (), (listed("By id", ("Id", "Kind", "Marks"), rows),))
        for folder, rows in sorted(shelves.items())
    )
    return Page("all.html", "Everything, from A to Z", first=parts)
