"""The condition of every wheel as text: a few lines a wheelset, or with --all every quantity in a table."""

from __future__ import annotations

from axlebook.findings import Finding, Verdict
from axlebook.records.restrictions import Restriction

from .condition_view import Axle, EngineCondition, Row
from .page import Look, Page, Paragraph, Piece, joined, paragraph
from .text import SYMBOLS, sentence
from .view import WHO_DECIDES, Report

TREND = "A trend is the median of past wear at the worst place; ranges, limits and plots: axlebook wear."
HELD = {"tag": "Tagged", "restriction": "Restricted", "waiver": "Waived", "allowed": "Allowed by the authority"}
OTHER = 2  # lines of a finding at most, unless all is asked for
SCREEN = 24  # lines an engine takes at most, unless all is asked for


def render_condition(
    report: Report, found: list[EngineCondition], held: list[Restriction], look: Look, *, whole: bool
) -> str:
    """The text of the condition of some engines."""
    page = Page(look)
    engines = f"{len(found)} engine{'' if len(found) == 1 else 's'}"
    told = f"{report.day.words}condition of the wheels of {engines}."
    lines = page.lines([paragraph(told[0].upper() + told[1:], "bold", hang=2)])
    if report.first_step:
        lines += page.lines([paragraph(f"First: {report.first_step}", hang=7)])
    for engine in found:
        mine = [one for one in held if one.engine == engine.engine]
        lines += ["", *(_all_of(page, engine, mine) if whole else _short(page, engine, mine))]
    others = [one for one in held if one.engine not in {engine.engine for engine in found}]
    if others:
        lines += ["", *page.lines([paragraph("Of no engine on record", "bold"), *_held(others)])]
    return joined([*lines, "", *page.lines([paragraph(TREND), paragraph(WHO_DECIDES)])])


def _short(page: Page, engine: EngineCondition, held: list[Restriction]) -> list[str]:
    """A screen of an engine: where not all wheelsets fit, those that need nobody are left out, and named."""
    head, foot = page.lines([*_head(engine), *_held(held)]), page.lines(_not_measured(engine, most=3))
    blocks = [(axle, page.lines(_axle(axle, page.look))) for axle in engine.axles]
    room = SCREEN - len(head) - len(foot)
    if sum(len(lines) for _, lines in blocks) > room:
        blocks, foot = _fitting(blocks, room - 2), [*page.lines([_left_out(engine, blocks, room - 2)]), *foot]
    return [*head, *(line for _, lines in blocks for line in lines), *foot]


Block = tuple[Axle, list[str]]


def _fitting(blocks: list[Block], room: int) -> list[Block]:
    """The blocks that fit, in walking order; what is out is always shown."""
    shown = []
    for block in sorted(blocks, key=lambda block: not block[0].needs_somebody):
        room -= len(block[1])
        if room >= 0 or block[0].needs_somebody:
            shown.append(block)
    return [block for block in blocks if block in shown]


def _left_out(engine: EngineCondition, blocks: list[Block], room: int) -> Paragraph:
    shown = [axle for axle, _ in _fitting(blocks, room)]
    names = ", ".join(axle.name for axle in engine.axles if axle not in shown)
    said = f"Not shown here, nothing outside, suspect or undecided on them: {names}. See all with --all."
    return paragraph(said, indent=2, hang=2)


def _head(engine: EngineCondition) -> list[Paragraph]:
    said = f"last inspected: {engine.last_session}" if engine.last_session else "no inspection is on record"
    found = [paragraph(f"{engine.engine} ({said})", "bold")]
    if not engine.axles:
        found.append(paragraph("No wheelset stands on it by its record on this day.", indent=2))
    return found


def _held(held: list[Restriction]) -> list[Paragraph]:
    """What holds an engine back, a line each, always in full: in the words of its record."""
    return [paragraph(f"{HELD[one.kind]}: {_restriction(one)}", "bold", indent=2, hang=4) for one in held]


def _restriction(one: Restriction) -> str:
    when = " ".join(
        filter(None, (f"since {one.since}" if one.since else "", f"until {one.until}" if one.until else ""))
    )
    told = ", ".join(filter(None, (one.subject, when, f"by {one.by}" if one.by else "")))
    return f"{one.words.rstrip('.')} ({told}; {one.record})."


def _axle(axle: Axle, look: Look) -> list[Paragraph]:
    """A wheelset in few lines: what is out, else the tightest, else that nothing judges it."""
    name, rest = axle.name, _rest(axle)
    telling = axle.telling
    if not telling and not axle.others:
        sign, style = SYMBOLS[Verdict.NOT_ASSESSED]
        why = f"{rest}: {axle.rows[0].finding.cause}" if axle.rows else "nothing was read"
        return [_line(look.symbol(sign), style, f"{name}: {why}.")]
    found = [_other(other, look, f"{name}: ", most=OTHER) for other in axle.others]
    for row in telling:
        sign, style = SYMBOLS[row.verdict]
        said = f"{name}: {row.verdict}: " if row.verdict is not Verdict.WITHIN else f"{name}: tightest "
        found.append(_line(look.symbol(sign), style, f"{said}{_words(row, axle)}"))
    if rest and telling:
        found[-1] = Paragraph((*found[-1].pieces, Piece(f" ({rest}.)", "dim")), hang=4, indent=2)
    elif rest:
        found.append(paragraph(f"({rest}.)", "dim", indent=6))
    return found


def _other(finding: Finding, look: Look, before: str, *, most: int = 0) -> Paragraph:
    """What a check found that is no row: in its own words."""
    sign, style = SYMBOLS[finding.verdict]
    words = f"{before}{finding.verdict}: {sentence(finding.message)}"
    return Paragraph((Piece(f"{look.symbol(sign)} ", style), Piece(words)), hang=4, indent=2, most=most)


def _line(sign: str, style: str, words: str) -> Paragraph:
    return Paragraph((Piece(f"{sign} ", style), Piece(words)), hang=4, indent=2)


def _words(row: Row, axle: Axle) -> str:
    side = row.place.removeprefix(axle.at).strip()
    return f"{side} {_told(row)}".strip()


def _rest(axle: Axle) -> str:
    counted = [(axle.count(verdict), str(verdict)) for verdict in (Verdict.WITHIN, Verdict.NOT_ASSESSED)]
    return ", ".join(f"{count} {words}" for count, words in counted if count)


def _not_measured(engine: EngineCondition, *, most: int | None = None) -> list[Paragraph]:
    found = engine.not_measured
    told = (f"Not measured: {item.what}, {item.where or 'everywhere'}: {sentence(item.because)}" for item in found)
    lines = [paragraph(words, indent=2, hang=2) for words in list(told)[:most]]
    if most is not None and len(found) > most:
        lines.append(paragraph(f"and {len(found) - most} more not measured: see all with --all.", indent=2))
    return lines


def _all_of(page: Page, engine: EngineCondition, held: list[Restriction]) -> list[str]:
    lines = page.lines([*_head(engine), *_held(held)])
    for axle in engine.axles:
        lines += page.lines([paragraph(axle.name, "bold", indent=2)])
        lines += page.lines(_other(other, page.look, "") for other in axle.others)
        lines += page.lines(_row(row, page.look) for row in axle.rows)
        if not axle.rows:
            lines += page.lines([paragraph("Nothing was read.", indent=4)])
    return [*lines, *page.lines(_not_measured(engine))]


def _row(row: Row, look: Look) -> Paragraph:
    sign, style = SYMBOLS[row.verdict]
    part = f" ({row.part})" if row.part and " " in row.place else ""
    words = f"{row.place}{part}: {_told(row)}"
    return Paragraph((Piece(f"{look.symbol(sign)} {row.verdict} ", style), Piece(words)), hang=4, indent=4)


def _told(row: Row) -> str:
    """One quantity in words: what was read, when it would be outside, the margin, the trend, when and by whom."""
    limit = f"; out {row.limit}" if row.limit else f"; not judged: {row.finding.cause}"
    margin = f"; margin {row.margin}" if row.margin else ""
    by = ", ".join(row.by) or "nobody named"
    trend = f"; {row.trend}" if row.trend else ""
    return f"{row.title} {row.reading}{limit}{margin}{trend}; {row.read_on} by {by}."
