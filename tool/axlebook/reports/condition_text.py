"""The condition of every wheel as text: a few lines a wheelset, or with --all every quantity in a table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from axlebook.findings import Finding, Verdict, worst_first
from axlebook.records.due import Due
from axlebook.records.restrictions import Restriction

from .condition_due import due_lines
from .condition_view import NEEDS_SOMEBODY, Axle, EngineCondition, Row, tightness
from .page import Look, Page, Paragraph, Piece, joined, paragraph
from .plan_text import plan_lines
from .plan_view import PlanAxle, plan
from .text import SYMBOLS, first, flat, sentence
from .unread import unread_lines, unseen_lines
from .view import WHO_DECIDES, Report

TREND = "A trend is the median of past wear at the worst place; ranges, limits and plots: axlebook wear."
HELD = {"tag": "Tagged", "restriction": "Restricted", "waiver": "Waived", "allowed": "Allowed by the authority"}
OTHER = 2  # lines of a finding at most, unless all is asked for
NOTHING_DUE: Mapping[str, list[Due]] = {}
LEAST_TOLD = 4  # lines kept for what is out, however long the engine
COUNTED = (Verdict.OUTSIDE, Verdict.SUSPECT, Verdict.UNDECIDED, Verdict.WITHIN, Verdict.NOT_ASSESSED)
SCREEN = 24  # lines an engine takes at most, unless all is asked for


def render_condition(
    report: Report,
    found: list[EngineCondition],
    look: Look,
    *,
    whole: bool,
    held: Sequence[Restriction] = (),
    due: Mapping[str, list[Due]] = NOTHING_DUE,
    unread: Sequence[Finding] = (),
) -> str:
    """The text of the condition of some engines."""
    page = Page(look)
    engines = f"{len(found)} engine{'' if len(found) == 1 else 's'}"
    told = f"{report.day.words}condition of the wheels of {engines}."
    lines = page.lines([paragraph(told[0].upper() + told[1:], "bold", hang=2)])
    if report.first_step:
        lines += page.lines([paragraph(f"First: {report.first_step}", hang=7)])
    lines += page.lines(unread_lines(unread, whole=whole))
    lines += page.lines(unseen_lines(report.unseen, look.symbol(SYMBOLS[Verdict.NOT_ASSESSED][0])))
    for engine in found:
        mine = [one for one in held if one.engine == engine.engine]
        coming = due.get(engine.engine, [])
        of_engine = _all_of if whole else _short
        lines += ["", *of_engine(page, engine, mine, coming, report.day.as_of)]
    others = [one for one in held if one.engine not in {engine.engine for engine in found}]
    if others:
        lines += ["", *page.lines([paragraph("Of no engine on record", "bold"), *_held(others)])]
    return joined([*lines, "", *page.lines([paragraph(TREND), paragraph(WHO_DECIDES)])])


def _short(page: Page, engine: EngineCondition, held: list[Restriction], due: list[Due], as_of: date) -> list[str]:
    """A screen of an engine: the plan, what holds it back, what is out in few words, what is due."""
    axles = plan(engine)
    head = page.lines([*_head(engine), *plan_lines(axles, page.look)])
    coming = due_lines(engine.engine, due, page.look, as_of=as_of, whole=False)
    foot = page.lines([*_counted(engine), *coming, *_not_measured(engine, most=1)])
    room = SCREEN - len(foot) - LEAST_TOLD
    if len(head) > room:
        kept = _fitting(axles, room - len(page.lines(_head(engine))) - 3)
        head = page.lines([*_head(engine), *plan_lines(kept, page.look), _left_out(engine, kept)])
    room = max(SCREEN - len(head) - len(foot), LEAST_TOLD)
    every = f"axlebook status {engine.engine} --all"
    return [*head, *_as_full_as_fits(page, _held(held), _out_or_tightest(engine, page.look), room, every), *foot]


def _as_full_as_fits(page: Page, held: list[Paragraph], out: list[Paragraph], room: int, every: str) -> list[str]:
    """All in full where there is room; else what is out in two lines each, then what holds it back in one each."""
    blocks: list[list[str]] = []
    for most_held, most_out in ((0, 0), (0, OTHER), (1, OTHER)):
        blocks = [page.lines([_at_most(one, most_held)]) for one in held]
        blocks += [page.lines([_at_most(one, most_out)]) for one in out]
        if sum(map(len, blocks)) <= room:
            if not most_held and not most_out:
                return flat(blocks)
            break
    count = first(blocks, room - 1)
    left = f"and {len(blocks) - count} more, in full" if count < len(blocks) else "in full"
    return [*flat(blocks[:count]), *page.lines([paragraph(f"{left}: {every}", indent=2, whole=True)])]


def _at_most(one: Paragraph, lines: int) -> Paragraph:
    return Paragraph(one.pieces, one.hang, one.indent, one.whole, lines)


def _fitting(axles: tuple[PlanAxle, ...], room: int) -> tuple[PlanAxle, ...]:
    """The axles that fit; what is out is always shown."""
    quiet = [axle for axle in axles if not axle.needs_somebody][: max(room - sum(a.needs_somebody for a in axles), 0)]
    return tuple(axle for axle in axles if axle.needs_somebody or axle in quiet)


def _left_out(engine: EngineCondition, kept: tuple[PlanAxle, ...]) -> Paragraph:
    shown = {axle.at for axle in kept}
    names = [axle.name for axle in engine.axles if axle.at and axle.at not in shown]
    said = f"Not shown (--all), {len(names)}, nothing outside, suspect or undecided on them: {', '.join(names)}."
    return _at_most(paragraph(said, indent=2, hang=2), OTHER)


def _out_or_tightest(engine: EngineCondition, look: Look) -> list[Paragraph]:
    """What is out, worst first; where nothing is, the tightest of the engine; then what is not judged, counted."""
    told = [(row.finding, _line(*_signed(row, look), f"{_where(row, axle)}: {row.verdict}: {_told(row)}"))
            for axle in engine.axles for row in axle.rows if row.verdict in NEEDS_SOMEBODY]  # fmt: skip
    told += [(many[0], _other(many, look)) for axle in engine.axles for many in _alike(axle.others)]
    out = [one for _, one in sorted(told, key=lambda pair: worst_first(pair[0]))]
    asked = _asked(engine)
    within = [(row, axle) for axle in engine.axles for row in axle.rows if row.verdict is Verdict.WITHIN]
    sure = [(row, axle) for row, axle in within if (row.place, row.finding.quantity) not in asked]
    tight = min(sure, key=lambda pair: tightness(pair[0]), default=None)
    if tight is not None:
        row, axle = tight
        out.append(_line(*_signed(row, look), f"tightest within: {_where(row, axle)}, {_told(row)}"))
    return out


def _asked(engine: EngineCondition) -> set[tuple[str, str]]:
    """The places and quantities of which something waits for somebody: what else is read there reassures nobody."""
    told = {
        (row.place, row.finding.quantity)
        for axle in engine.axles for row in axle.rows if row.verdict in NEEDS_SOMEBODY
    }  # fmt: skip
    places = {row.place for axle in engine.axles for row in axle.rows}
    doubted = [other for axle in engine.axles for other in axle.others]
    return told | {(place, f.quantity) for f in doubted for place in places if f.subject == f"{engine.engine} {place}"}


def _counted(engine: EngineCondition) -> list[Paragraph]:
    """How much is outside, how much within, and how much nobody judged."""
    many = [(sum(_count(axle, v) for axle in engine.axles), v) for v in COUNTED]
    words = ", ".join(
        f"{count} {'within the limits on file' if v is Verdict.WITHIN else v}" for count, v in many if count
    )
    bare = [axle.name for axle in engine.axles if axle.at and not axle.rows and not axle.unplaced]
    unread = f"Nothing was read on {', '.join(bare)}." if bare else ""
    lost = [axle.name for axle in engine.axles if axle.unplaced]
    unplaced = f"Which wheel of {', '.join(lost)} was read: write `a_end` in the engine's line." if lost else ""
    said = " ".join(filter(None, (f"{words}." if words else "", unplaced, unread)))
    return [_at_most(paragraph(said, indent=2, hang=2), OTHER)] if said else []


def _count(axle: Axle, verdict: Verdict) -> int:
    return axle.count(verdict) + sum(other.verdict is verdict for other in axle.others)


def _signed(row: Row, look: Look) -> tuple[str, str]:
    sign, style = SYMBOLS[row.verdict]
    return look.symbol(sign), style


def _where(row: Row, axle: Axle) -> str:
    return row.place or axle.name


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


def _alike(others: Iterable[Finding]) -> Iterable[list[Finding]]:
    """What is said in the same words of several records, told once."""
    found: dict[tuple[Verdict, str], list[Finding]] = {}
    for one in others:
        found.setdefault((one.verdict, one.message), []).append(one)
    return found.values()


def _other(many: Sequence[Finding], look: Look) -> Paragraph:
    """What a check found that is no row: in its own words, and in how many records."""
    finding = many[0]
    sign, style = SYMBOLS[finding.verdict]
    times = f" So in {len(many)} records, the last {max(one.record for one in many)}." if len(many) > 1 else ""
    words = f"{finding.verdict}: {sentence(finding.message)}{times}"
    return Paragraph((Piece(f"{look.symbol(sign)} ", style), Piece(words)), hang=4, indent=2)


def _line(sign: str, style: str, words: str) -> Paragraph:
    return Paragraph((Piece(f"{sign} ", style), Piece(words)), hang=4, indent=2)


def _not_measured(engine: EngineCondition, *, most: int | None = None) -> list[Paragraph]:
    found = engine.not_measured
    told = (f"Not measured: {item.what}, {item.where or 'everywhere'}: {sentence(item.because)}" for item in found)
    lines = [paragraph(words, indent=2, hang=2) for words in list(told)[:most]]
    if most is not None and len(found) > most:
        lines.append(
            paragraph(f"and {len(found) - most} more not measured: axlebook status {engine.engine} --all", indent=2)
        )
    return lines


def _all_of(page: Page, engine: EngineCondition, held: list[Restriction], due: list[Due], as_of: date) -> list[str]:
    lines = page.lines(
        [
            *_head(engine),
            *plan_lines(plan(engine), page.look),
            *_held(held),
            *due_lines(engine.engine, due, page.look, as_of=as_of, whole=True),
        ]
    )
    for axle in engine.axles:
        lines += page.lines([paragraph(axle.name, "bold", indent=2)])
        lines += page.lines(_other(many, page.look) for many in _alike(axle.others))
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
    limit = f"; out {row.limit}" if row.limit else f"; not judged: {row.finding.cause.rstrip('.')}"
    margin = f"; margin {row.margin}" if row.margin else ""
    by = ", ".join(row.by) or "nobody named"
    trend = f"; {row.trend}" if row.trend else ""
    return f"{row.title} {row.reading}{limit}{margin}{trend}; {row.read_on} by {by}."
