"""The report of a check as text: counts, the worst first, what was not assessed by cause, and who decides."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from axlebook.checks.history_cut import ID as CUT
from axlebook.findings import Finding, Severity, Verdict

from .page import SHORT, Look, Page, Paragraph, Piece, joined, paragraph
from .unread import unread_lines, unseen_lines
from .view import WHO_DECIDES, Cause, Report

SYMBOLS = {
    Verdict.OUTSIDE: ("✗", "bold red"),
    Verdict.UNREADABLE: ("!", "bold red"),
    Verdict.SUSPECT: ("?", "bold yellow"),
    Verdict.UNDECIDED: ("≈", "yellow"),
    Verdict.NOT_ASSESSED: ("○", "cyan"),
    Verdict.WITHIN: ("✓", "green"),
}
WORDS, STEP, CAUSE = 2, 1, 3  # lines that these take at most on one screen
COMMANDS = ("axlebook ", "git ")  # what is to be typed is never cut
INDENT = 2
TOLD = ("outside", "suspect", "undecided", "not_assessed", "unreadable")


def render_report(report: Report, look: Look, *, whole: bool, beside: str = "") -> str:
    """The text of a report, at most 24 lines unless `whole`; `beside` stands before every path."""
    page = Page(look)
    unread = unread_lines(report.findings, whole=whole, beside=beside)
    unseen = unseen_lines(report.unseen, look.symbol(SYMBOLS[Verdict.NOT_ASSESSED][0]))
    head = page.lines([*_head(report), *unread, *unseen])
    told = report.told_singly
    grouped_by = [cause for cause in report.causes if not (unseen and cause.first.check == CUT)]  # told in the head
    room = None if whole else SHORT
    singly = _tried((page.lines(_finding(finding, look, beside, whole=whole)) for finding in told), room)
    causes = _tried((page.lines(_cause(cause, look, beside, whole=whole)) for cause in grouped_by), room)
    foot = page.lines([paragraph(WHO_DECIDES)])
    if whole:
        return joined([*head, *flat(singly), *flat(causes), *foot])
    room = SHORT - len(head) - len(foot)
    shown, grouped = _fitting(singly, causes, room)
    if shown < len(told) or grouped < len(grouped_by):
        shown, grouped = _fitting(singly, causes, room - 1)
    more = page.lines(_more(len(told) - shown, grouped_by[grouped:]))
    return joined([*head, *flat(singly[:shown]), *flat(causes[:grouped]), *more, *foot])


def _tried(blocks: Iterable[list[str]], room: int | None) -> list[list[str]]:
    """The blocks up to the first that has no room any more, which is among them; all where room is None."""
    if room is None:
        return list(blocks)
    found = []
    for block in blocks:
        found.append(block)
        room -= len(block)
        if room < 0:
            break
    return found


def flat(blocks: Iterable[list[str]]) -> list[str]:
    return [line for block in blocks for line in block]


def _fitting(singly: list[list[str]], causes: list[list[str]], room: int) -> tuple[int, int]:
    """How many of each are shown: room is kept for one cause at least of what was not assessed."""
    shown = first(singly, room - len(flat(causes[:1])))
    return shown, first(causes, room - len(flat(singly[:shown])))


def first(blocks: list[list[str]], room: int) -> int:
    for number, block in enumerate(blocks):
        room -= len(block)
        if room < 0:
            return number
    return len(blocks)


def counts_words(counts: Mapping[str, int]) -> str:
    """The counts as they stand in a first line.

    >>> counts_words({"read": 3, "checked": 2, "outside": 1})
    '3 read, 2 checked: 1 outside, 0 suspect, 0 undecided, 0 not assessed, 0 unreadable.'
    """
    told = ", ".join(f"{counts.get(key, 0)} {key.replace('_', ' ')}" for key in TOLD)
    return f"{counts.get('read', 0)} read, {counts.get('checked', 0)} checked: {told}."


def _head(report: Report) -> list[Paragraph]:
    found = [paragraph(report.day.words + counts_words(report.counts), "bold", hang=2)]
    if report.only:
        found.append(paragraph(f"Shown is only what stands in {', '.join(report.only)}; everything was read.", hang=2))
    if report.counts.get("checked") and not report.told_singly:
        found.append(paragraph("What was judged is within the limits on file."))
    elif not report.told_singly:
        where = "Nothing that stands there was judged" if report.only else "Nothing has been judged yet"
        found.append(paragraph(f"{where}: silence is no pass."))
    if report.first_step:
        found.append(paragraph(f"First: {report.first_step}", hang=7))
    return found


def _label(finding: Finding, look: Look) -> Piece:
    sign, style = SYMBOLS[finding.verdict]
    waived = f", waived by {finding.waived}" if finding.waived else ""
    severity = "a note" if finding.severity is Severity.NOTE else str(finding.severity)
    return Piece(f"{look.symbol(sign)} {str(finding.verdict).upper()}, {severity}{waived}: ", style)


def _place(finding: Finding, beside: str) -> Paragraph:
    at = f"{beside}{finding.place.path}:{finding.line}:{finding.column}"
    return Paragraph((Piece(at), Piece(f"  {finding.check}", "dim")), indent=2, whole=True)


def sentence(text: str) -> str:
    """A text with a full stop at its end."""
    return text if not text or text[-1] in ".!?" else f"{text}."


def _most(text: str, lines: int, *, whole: bool) -> int:
    """Lines that a text takes at most, 0 for all: half a command helps nobody."""
    return 0 if whole or any(command in text for command in COMMANDS) else lines


def shortened(text: str, room: int) -> str:
    """A text of one line: what is too long loses its middle, for a source ends with the clause.

    >>> shortened("by a very long title of a law, of 1967 as amended, section 21(2).", 40)
    'by a very long ... section 21(2).'
    """
    if len(text) <= room:
        return text
    head, tail = text[: room // 2].rpartition(" ")[0], text[-(room // 2 - 4) :].partition(" ")[2]
    return f"{head} ... {tail}"


def _finding(finding: Finding, look: Look, beside: str, *, whole: bool) -> list[Paragraph]:
    """What was read and compared, by which source, the next step, the place: on one screen each in few lines."""
    words = Piece(sentence(finding.message))
    found = [Paragraph((_label(finding, look), words), hang=2, most=0 if whole else WORDS)]
    if finding.source and finding.source not in finding.message:
        source = f"by {sentence(finding.source)}"
        room = look.width - INDENT
        found.append(paragraph(source if whole else shortened(source, room), indent=INDENT, hang=2))
    if finding.next:
        step = Piece(f"{look.symbol('→')} {sentence(finding.next)}")
        found.append(Paragraph((step,), indent=2, hang=2, most=_most(step.text, STEP, whole=whole)))
    return [*found, _place(finding, beside)]


def _cause(cause: Cause, look: Look, beside: str, *, whole: bool) -> list[Paragraph]:
    sign, style = SYMBOLS[Verdict.NOT_ASSESSED]
    waived = f", waived by {cause.first.waived}" if cause.first.waived else ""
    label = Piece(f"{look.symbol(sign)} NOT ASSESSED, {len(cause.findings)}{waived}: ", style)
    words, step = Piece(sentence(cause.cause)), f"{look.symbol('→')} {sentence(cause.next)}" if cause.next else ""
    head = [Paragraph((label, words, Piece(f" {step}".rstrip())), hang=2)]
    most = _most(cause.next, CAUSE, whole=whole)
    if most and len(Page(look).lines(head)) > most:  # the step is what a reader needs: the cause is cut before it
        head = [Paragraph((label, words), hang=2, most=most - STEP if step else most)]
        head += [Paragraph((Piece(step),), hang=2, indent=INDENT, most=STEP)] if step else []
    each = cause.findings if whole else ()
    told = [paragraph(f"- {sentence(finding.message)}", indent=INDENT, hang=2) for finding in each]
    return [*head, *told, _place(cause.first, beside)]


def _more(singly: int, causes: list[Cause]) -> list[Paragraph]:
    """How many are not shown, and how to see them; one line, at any width."""
    parts = []
    if singly:
        parts.append(f"{singly} finding{'s' if singly > 1 else ''}")
    if causes:
        parts.append(f"{sum(len(cause.findings) for cause in causes)} not assessed")
    return [paragraph(f"Not shown: {', '.join(parts)}. In full: --all", whole=True)] if parts else []
