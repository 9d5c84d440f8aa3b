"""What could not be read, named with its lines: it is missing from every answer, so every answer says so first."""

from __future__ import annotations

from collections.abc import Iterable

from axlebook.findings import Finding, Verdict
from axlebook.records.entered import Entered

from .item import Item
from .page import Paragraph, Piece, paragraph

FEW = 3  # files named on a screen
LINES = 3  # of one file that are named
UNSEEN = "Not looked at: the whole history"
NOT_READ, LOST = "Not read", ", so missing from every answer"


def unread_in(findings: Iterable[Finding]) -> list[Finding]:
    """The findings that say a file, or a part of one, could not be read."""
    return [one for one in findings if one.verdict is Verdict.UNREADABLE]


def places_unread(findings: Iterable[Finding], beside: str = "") -> list[str]:
    """The files that could not be read as a whole or in part, each with the lines.

    >>> from axlebook.findings import Place, Severity
    >>> def unread(path, line):
    ...     return Finding("missing-key", Verdict.UNREADABLE, Severity.DATA, path, Place(path), "", known_at=(line, 1))
    >>> places_unread([unread("tires/t-1.yaml", 4), unread("tires/t-2.yaml", 9), unread("tires/t-1.yaml", 2)])
    ['tires/t-1.yaml:2, 4', 'tires/t-2.yaml:9']
    """
    lines: dict[str, set[int]] = {}
    for one in unread_in(findings):
        lines.setdefault(one.place.path, set()).add(one.line)
    return [f"{beside}{path}:{_few(sorted(many))}" for path, many in lines.items()]


def _few(lines: list[int]) -> str:
    if len(lines) <= LINES + 1:  # one more is as short as saying so
        return ", ".join(map(str, lines))
    return f"{', '.join(map(str, lines[:LINES]))} and {len(lines) - LINES} more lines"


def unread_words(findings: Iterable[Finding], *, most: int = 0, beside: str = "") -> str:
    """What could not be read, `most` files named or all; '' where everything was read."""
    places = places_unread(findings, beside)
    named = places[:most] if most else places
    rest = len(places) - len(named)
    more = f"; and {rest} more file{'s' if rest > 1 else ''}" if rest else ""
    return f"{'; '.join(named)}{more}." if places else ""


def unread_line(findings: Iterable[Finding]) -> str:
    """All of it in one line, for beside a file that has no place for it; '' where everything was read."""
    return in_line(unread_words(findings))


def in_line(words: str) -> str:
    """The words for what could not be read, marked; '' where everything was read."""
    return f"! {NOT_READ.upper()}{LOST}: {words}" if words else ""


def unread_refusal(findings: Iterable[Finding]) -> str:
    """The same behind a sentence that says why there is no answer: it may be why; '' where everything was read."""
    words = unread_words(findings, most=FEW)
    return f" {NOT_READ}{LOST}: {words}" if words else ""


def unread_lines(findings: Iterable[Finding], *, whole: bool, beside: str = "") -> list[Paragraph]:
    """The same for a screen, marked; nothing where everything was read."""
    return marked(unread_words(findings, most=0 if whole else FEW, beside=beside))


def marked(words: str) -> list[Paragraph]:
    """The words for what could not be read as a screen has them; nothing where everything was read."""
    head = Piece(f"! {NOT_READ.upper()}", "bold red")
    return [Paragraph((head, Piece(f"{LOST}: {words}")), hang=2)] if words else []


def unseen(entered: Entered | None) -> str:
    """What of the history could not be looked at, and the step that mends it; '' where all was, or nobody asked."""
    return f"{UNSEEN}; {entered.cut.why}. {entered.cut.next}" if entered and entered.cut else ""


def unseen_lines(words: str, sign: str) -> list[Paragraph]:
    """The same for a screen, marked."""
    return [paragraph(f"{sign} {words}", hang=2)] if words else []


def unread_item(findings: Iterable[Finding]) -> list[Item]:
    """The same for a page; nothing where everything was read."""
    words = unread_words(findings)
    return [Item(f"{NOT_READ}{LOST}: {words}", Verdict.UNREADABLE)] if words else []
