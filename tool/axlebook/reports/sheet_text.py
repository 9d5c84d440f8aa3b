"""A sheet as text for a terminal: its main lines in 24, or all of it."""

from __future__ import annotations

from collections.abc import Iterator

from .page import SHORT, Look, Page, Paragraph, Piece, joined, paragraph
from .sheet import Gap, Line, Section, Sheet, Table
from .text import sentence
from .unread import marked


def render_sheet(sheet: Sheet, look: Look, *, whole: bool) -> str:
    """The text of a sheet."""
    page = Page(look)
    if whole:
        return joined(page.lines(_whole(sheet, look)))
    head = page.lines([paragraph(_title(sheet), "bold", hang=2), *marked(sheet.not_read)])
    foot = page.lines([paragraph(sheet.hint), paragraph(sheet.foot)])
    main = [line for section in sheet.sections for line in section.lines if line.main]
    blocks = [page.lines([_line(line, hang=2, note=False)]) for line in sorted(main, key=lambda one: not one.alarm)]
    gaps = [page.lines([_gap(gap.cause, gap.next, look)]) for gap in sheet.missing]
    return joined([*head, *_fitting(blocks, gaps, SHORT - len(head) - len(foot) - 1, page), *foot])


def _title(sheet: Sheet) -> str:
    return f"{sheet.day.words if sheet.day else ''}{sheet.title}."


def _fitting(lines: list[list[str]], gaps: list[list[str]], room: int, page: Page) -> list[str]:
    shown: list[str] = []
    for number, block in enumerate([*lines, *gaps]):
        if len(shown) + len(block) > room:
            more = _left(max(len(lines) - number, 0), min(len(lines) + len(gaps) - number, len(gaps)))
            return [*shown, *page.lines([paragraph(more)])]
        shown += block
    return shown


def _left(lines: int, gaps: int) -> str:
    told = [f"{lines} more line{'s' if lines > 1 else ''}"] if lines else []
    if gaps:  # never as mere lines: what is missing is what the figures above lack
        told.append(f"{gaps} thing{'s' if gaps > 1 else ''} MISSING")
    return f"Not shown here: {', '.join(told)}. See all with --all."


def _line(line: Line, *, hang: int = 4, note: bool = True) -> Paragraph:
    label = Piece(f"{line.label}: ", "bold red" if line.alarm else "bold")
    told = f" [{line.note}]" if note and line.note else ""
    return Paragraph((label, Piece(sentence(line.text)), Piece(told, "dim")), hang=hang)


def _gap(cause: str, step: str, look: Look) -> Paragraph:
    label = Piece(f"{look.symbol('○')} MISSING: ", "cyan")
    return Paragraph((label, Piece(f"{sentence(cause)} {look.symbol('→')} {sentence(step)}")), hang=2)


def _lines_to_write(gap: Gap) -> Iterator[Paragraph]:
    for write in gap.writes:
        yield paragraph(f"The lines for {write.into}:", indent=2)
        yield from (paragraph(line, whole=True) for line in write.lines)  # as they are copied


def _whole(sheet: Sheet, look: Look) -> Iterator[Paragraph]:
    yield paragraph(_title(sheet), "bold", hang=2)
    yield from marked(sheet.not_read)
    for text in sheet.identity:
        yield paragraph(text, "bold", hang=2)
    for text in sheet.lead:
        yield paragraph(text)
    if sheet.missing:
        yield from _heading("What is missing")
        for gap in sheet.missing:
            yield _gap(gap.cause, gap.next, look)
            yield from _lines_to_write(gap)
    for section in sheet.sections:
        yield from _section(section, look)
    for heading, texts in (("Taken for granted", sheet.assumed), ("Cautions", sheet.cautions)):
        if texts:
            yield from _heading(heading)
            yield from (paragraph(f"- {sentence(text)}", hang=2) for text in texts)
    yield paragraph("")
    yield paragraph(sheet.foot)


def _heading(text: str) -> Iterator[Paragraph]:
    yield paragraph("")
    yield paragraph(text.upper(), "bold")


def _section(section: Section, look: Look) -> Iterator[Paragraph]:
    yield from _heading(section.heading)
    yield from (_line(line) for line in section.lines)
    for table in section.tables:
        yield from _table(table)
    yield from (paragraph(f"- {sentence(note)}", hang=2) for note in section.notes)


def _table(table: Table) -> Iterator[Paragraph]:
    """A table as one paragraph a row: it must be read on a narrow screen; boxes are for paper."""
    yield paragraph(f"{table.caption}:")
    if table.boxes:
        across = ", ".join(name for name in table.head[1:] if name)
        yield paragraph(f"{'; '.join(row[0] for row in table.rows)}: {across}", indent=2, hang=2)
        return
    widths = [max(len(row[i]) for row in (table.head, *table.rows)) for i in range(len(table.head))]
    if sum(widths) + 2 * len(widths) <= 76:
        for row in (table.head, *table.rows):
            cells = "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True))
            yield paragraph(cells.rstrip(), indent=2, whole=True)
        return
    for row in table.rows:
        told = "; ".join(f"{name} {cell}" for name, cell in zip(table.head, row, strict=True) if cell)
        yield paragraph(told, indent=2, hang=2)
