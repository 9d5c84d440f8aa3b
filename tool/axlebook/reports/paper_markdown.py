"""A paper sheet as Markdown: the same boxes as tables, for a wiki, a form or a printer without HTML."""

from __future__ import annotations

from collections.abc import Iterator

from .paper import Group, Known, Page, Paper
from .sheet_markdown import escaped

BLANK = "&nbsp;" * 12


def render_markdown(paper: Paper) -> str:
    """The Markdown of a sheet."""
    return "\n".join(_parts(paper)).rstrip() + "\n"


def _parts(paper: Paper) -> Iterator[str]:
    typed = f"Type it in with: `axlebook enter {paper.id}`"
    yield from (f"# {escaped(paper.title)}", "", f"Sheet **{escaped(paper.id)}**, as of {paper.day.as_of}. {typed}", "")
    yield from (f"{escaped(paper.revision)}", "") if paper.revision else ()
    yield from (f"- **Caution.** {escaped(text)}" for text in paper.cautions)
    yield ""
    for page in paper.pages:
        yield from _page(page)
    yield from _foot(paper)


def _page(page: Page) -> Iterator[str]:
    part = f", page {page.part} of {page.parts}" if page.parts > 1 else ""
    yield from (f"## {escaped(page.name)}{f' ({escaped(page.wheelset)})' if page.wheelset else ''}{part}", "")
    yield from (f"- {escaped(text)}" for text in page.about)
    yield ""
    if page.groups:
        yield "| What | At | Side | Last; expect | Out of the limits when | Reading | 2nd person |"
        yield "|---|---|---|---|---|---|---|"
        for group in page.wheels:
            yield from _rows(group, page.sides)
        for group in page.pair:
            yield from _rows(group, ("both" if page.sides else "",))
        yield ""
    if page.looks:
        yield from ("| Look for | Limits | looked, not seen | SEEN: side, angle, size |", "|---|---|---|---|")
        for look in page.looks:
            limits = "; ".join(f"{one.words} [{one.ref}]" for one in look.limits)
            yield f"| {escaped(look.title)} | {escaped(limits)} | {BLANK} | {BLANK} |"
        yield ""
    for source in page.sources:
        yield f"- {escaped(source.name)}: {escaped('; '.join(f'[{ref}] {clause}' for ref, clause in source.clauses))}"
    yield ""


def _rows(group: Group, sides: tuple[str, ...]) -> Iterator[str]:
    limits = "; ".join(f"{one.words} [{one.ref}]" for one in group.limits) or group.gap
    gauge = f" ({group.gauge})" if group.gauge else ""
    name = f"{group.title} [{group.unit}]{gauge}{' (if you can)' if group.wanted else ''}"
    for spot in group.spots:
        for side, box in zip(sides, spot.boxes, strict=True):
            if box is not None:
                cells = (name, spot.position, side, _known(box), limits)
                yield f"| {' | '.join(escaped(cell) for cell in cells)} | {BLANK} | {BLANK} |"


def _known(box: Known) -> str:
    expected = f"; expect {box.expected}" if box.expected else ""
    note = f" ({box.note})" if box.note else ""
    return f"{box.last or 'no reading here'}{note}{expected}"


def _foot(paper: Paper) -> Iterator[str]:
    yield from ("## Who, when, with what", "")
    asked = ("Measured by", "Second person", "Date", "Instruments used", "Part temperature", "Instrument temperature",
             "Air temperature", f"Held: {' / '.join(paper.holds)}", "Clock position of the gauge",
             f"Not measured, where, because ({', '.join(paper.reasons)})")  # fmt: skip
    yield from ("| | |", "|---|---|")
    yield from (f"| {escaped(one)} | {BLANK} |" for one in asked)
    yield from ("", escaped(paper.foot))
