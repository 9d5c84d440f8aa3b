"""A sheet as Markdown, for a pull request, a wiki or a printer; no text of a record can act as mark-up."""

from __future__ import annotations

import re
from collections.abc import Iterator

from axlebook.records.to_write import Lines

from .cleaning import clean
from .sheet import Line, Section, Sheet, Table
from .text import sentence
from .unread import LOST, NOT_READ

_ACTS = re.compile(r"([\\`*_{}\[\]<>#|~!])")
_ADDRESS = re.compile(r"(?i)(https?|www|ftp)([:.])")


def escaped(text: str) -> str:
    r"""Text in which nothing is mark-up, a link, a mention or a cell's end.

    >>> escaped("a|b <i> [x](y) @lead")
    'a\\|b \\<i\\> \\[x\\](y) @\u200blead'
    """
    plain = _ACTS.sub(r"\\\1", clean(text))
    return _ADDRESS.sub(r"\1" + "\u200b" + r"\2", plain).replace("@", "@\u200b")


def render_markdown(sheet: Sheet) -> str:
    """The Markdown of a sheet."""
    return "\n".join(_parts(sheet)).rstrip() + "\n"


def _parts(sheet: Sheet) -> Iterator[str]:
    yield f"# {escaped(sheet.title)}"
    yield ""
    if sheet.day:
        yield from (f"As of {sheet.day.as_of}{f' ({sheet.day.why})' if sheet.day.why else ''}.", "")
    if sheet.not_read:
        yield from (f"**! {NOT_READ}**{LOST}: {escaped(sheet.not_read)}", "")
    yield from (part for text in sheet.identity for part in (f"**{escaped(text)}**", ""))
    yield from (part for text in sheet.lead for part in (escaped(text), ""))
    if sheet.missing:
        yield from ("## What is missing", "")
        for gap in sheet.missing:
            yield f"- **{escaped(sentence(gap.cause))}** {escaped(sentence(gap.next))}"
            yield from (line for write in gap.writes for line in _lines_to_write(write))
        yield ""
    for section in sheet.sections:
        yield from _section(section)
    for heading, texts in (("Taken for granted", sheet.assumed), ("Cautions", sheet.cautions)):
        if texts:
            yield from (f"## {heading}", "", *(f"- {escaped(sentence(text))}" for text in texts), "")
    yield escaped(f"{sheet.foot} {sheet.revision}".rstrip())


def _lines_to_write(write: Lines) -> Iterator[str]:
    """Lines as they are copied: a block that is set in, in which nothing is mark-up."""
    yield from ("", f"  The lines for {escaped(write.into)}:", "")
    yield from (f"      {clean(line)}" for line in write.lines)
    yield ""


def _section(section: Section) -> Iterator[str]:
    yield from (f"## {escaped(section.heading)}", "")
    if section.lines:
        yield from _rows(("", "", "From"), [_cells(line) for line in section.lines])
    for table in section.tables:
        yield from _table(table)
    if section.notes:
        yield from (*(f"- {escaped(sentence(note))}" for note in section.notes), "")


def _cells(line: Line) -> tuple[str, ...]:
    text = escaped(line.text)
    return f"**{escaped(line.label)}**", f"**{text}**" if line.alarm else text, escaped(line.note)


def _table(table: Table) -> Iterator[str]:
    yield from (f"{escaped(table.caption)}:", "")
    blank = "&nbsp;" * 12
    rows = [tuple(escaped(cell) if cell else blank if table.boxes else "" for cell in row) for row in table.rows]
    yield from _rows(tuple(escaped(name) for name in table.head), rows)


def _rows(head: tuple[str, ...], rows: list[tuple[str, ...]]) -> Iterator[str]:
    yield f"| {' | '.join(head)} |"
    yield f"|{'---|' * len(head)}"
    yield from (f"| {' | '.join(row)} |" for row in rows)
    yield ""
