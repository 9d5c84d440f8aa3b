"""How one difference is said: shop words, what it was, what it is, what to do."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from axlebook.checks._words import figured
from axlebook.findings import Finding, Verdict
from axlebook.quantities import parse_measure
from axlebook.records.comparison.adoptions import AdoptionChange
from axlebook.records.comparison.limit_change import LimitChange
from axlebook.records.comparison.parts import PartChange
from axlebook.records.comparison.readings import ReadingAdded
from axlebook.records.comparison.records import Detail, Fate, RecordChange

from .amounts import Amounts
from .text import sentence
from .view import Cause

READING_HEAD = ("Where", "What", "Now", "Before", "Change", "Expected")
MOST_DETAILS = 12
RESTORE = "A signed record is never edited: put it back as it was, and write a correction."
CORRECT = "What was measured is put right by a correction, not by editing."


@dataclass(frozen=True)
class Item:
    """One difference: a word for what it is, what it says, more lines, and where it stands."""

    label: str
    words: str
    more: tuple[str, ...] = ()
    place: str = ""
    verdict: Verdict | None = None
    cells: tuple[str, ...] = ()
    many: int = 1  # so many of what the section counts


def of_finding(finding: Finding, earlier: Finding | None = None) -> Item:
    """A finding in its own words."""
    waived = f", waived by {finding.waived}" if finding.waived else ""
    more = [f"By {sentence(finding.source)}"] if finding.source and finding.source not in finding.message else []
    more += [sentence(finding.next)] if finding.next else []
    if earlier is not None:
        more.append(f"The same was found before, in {earlier.record}.")
    label = f"{str(finding.verdict).upper()}, {_severity(finding)}{waived}"
    return Item(label, sentence(finding.message), tuple(more), _place(finding), finding.verdict)


def of_pair(before: Finding, now: Finding) -> Item:
    """A finding that weighs otherwise than before."""
    told = of_finding(now)
    waived = f", waived by {before.waived}" if before.waived else ""
    was = f"Before: {before.verdict}, {_severity(before)}{waived}: {sentence(before.message)}"
    return Item(told.label, told.words, (was, *told.more), told.place, told.verdict)


def of_cause(cause: Cause) -> Item:
    """What was not assessed for one cause."""
    waived = f", waived by {cause.first.waived}" if cause.first.waived else ""
    more = (sentence(cause.next),) if cause.next else ()
    label = f"NOT ASSESSED, {len(cause.findings)}{waived}"
    return Item(label, sentence(cause.cause), more, _place(cause.first), Verdict.NOT_ASSESSED, many=len(cause.findings))


def of_record(change: RecordChange) -> Item:
    """What became of a record."""
    signed = "SIGNED RECORD " if change.breaks_a_signature else "signed record " if change.signed else ""
    fate = str(change.fate).upper() if change.breaks_a_signature or change.is_loud else str(change.fate)
    more = [_detail(one) for one in change.details[:MOST_DETAILS]]
    if len(change.details) > MOST_DETAILS:
        more.append(f"And {len(change.details) - MOST_DETAILS} more differences.")
    if change.breaks_a_signature:
        more.append(RESTORE)
    elif change.is_loud:
        more.append(CORRECT)
    was = f"from {change.path_before}" if change.fate is Fate.RENAMED else ""
    kind = change.kind.replace("-", " ") or "record"
    if change.fate is Fate.DELETED and change.details:  # a correction: what counts again is said where one looks first
        was = f"taken back: {more.pop(0)}"
    elif change.fate in (Fate.ALTERED, Fate.ADDED_TO) and change.details:
        many = len(change.details)
        kind, was = f"{kind}, {many} differences:" if many > 1 else f"{kind}:", more.pop(0)
    return Item(f"{signed}{fate}", f"{kind} {was}".strip(), tuple(more), change.path)


def of_correction(change: RecordChange) -> Item:
    """A correction that came in, and what counts now in place of what stands in its record."""
    return Item("correction", sentence("; ".join(map(_detail, change.details))), (), change.path)


def _detail(one: Detail) -> str:
    if one.was is None and one.now is None:
        return sentence(one.about)
    if one.was is None:
        return f"{one.about}: came in: {one.now}"
    if one.now is None:
        return f"{one.about}: was {one.was}, is gone"
    return f"{one.about}: was {one.was}, now {one.now}"


def of_limit(change: LimitChange, authors: tuple[str, ...] = ()) -> Item:
    """A limit that is not what it was, and who changed it."""
    told = [f"was {change.was}" if change.was else "", f"now {change.now}" if change.now else ""]
    about = f"{change.id}, {change.title}"
    docket = f" An authority allowed it: docket {change.docket}." if change.docket else ""
    said = f"{about}: {', '.join(filter(None, told))}" if any(told) else about
    who = f"Changed by {', '.join(authors)}; in" if authors else "In"
    more = f"{who} {change.set_title}{f', {change.clause}' if change.clause else ''}.{docket}"
    return Item(str(change.way).upper() if change.loosens else str(change.way), sentence(said), (more,), change.path)


def of_adoption(change: AdoptionChange) -> Item:
    """A limit set put in force, taken out, or adopted otherwise."""
    if change.in_force_before and not change.in_force_now:
        label, said = "NO LONGER IN FORCE", f"{change.who}: {change.set_id} judges nothing any more"
    elif change.in_force_now and not change.in_force_before:
        label, said = "in force now", f"{change.who}: {change.set_id} judges from now on"
    else:
        label, said = "adopted otherwise", f"{change.who}: {change.set_id}"
    more = f"Was: {change.was or 'not adopted'}. Now: {change.now or 'not adopted'}."
    return Item(label, sentence(said), (more,), change.path)


def of_part(change: PartChange) -> Item:
    """A place where something else stands."""
    moved = f"{change.was} off, {change.now} on" if change.was and change.now else (
        f"{change.now} on" if change.now else f"{change.was} off")  # fmt: skip
    if change.was and change.now.startswith(f"{change.was}, end A"):  # nothing moved: its side was written down
        moved = f"{change.now}, which was on no record before"
    by = f", by {change.record}" if change.record else ""
    return Item(change.what, sentence(f"{change.site}: {moved}{by}"), (), change.path)


def of_reading(reading: ReadingAdded, *, metric: bool) -> Item:
    """A value that came in, beside what was read before."""
    where = f"{reading.title}, {reading.position}" if reading.position else reading.title
    subject = f"{reading.subject} ({reading.part})" if reading.part not in ("", reading.subject) else reading.subject
    before = f"{reading.before} ({reading.before_day})" if reading.before else ""
    change = _signed(reading.change, reading, metric=metric) if reading.change is not None else ""
    expected = reading.why
    if reading.expected is not None:
        amount = _signed(Fraction(reading.expected.change), reading, metric=metric)
        expected = f"{amount} ± {_amount(Fraction(reading.expected.uncertainty), reading, metric=metric)}"
        expected += f", {reading.why}" if reading.why else ""
    said = f"{subject}, {where}: {reading.text} on {reading.day}"
    if before:
        said += f"; before {before}" + (f", change {change}" if change else "")
    said += f"; expected {expected}" if reading.expected is not None else f"; {expected}" if expected else ""
    label = "OUT OF EXPECTATION" if reading.out_of_expectation else "reading"
    cells = (subject, where, f"{reading.text} ({reading.day})", before, change, expected)
    return Item(
        label, sentence(said), (), reading.at.path, Verdict.SUSPECT if reading.out_of_expectation else None, cells
    )


def _signed(amount: Fraction, reading: ReadingAdded, *, metric: bool) -> str:
    text = _amount(abs(amount), reading, metric=metric)
    return text if not text or not amount else f"{'+' if amount > 0 else '-'}{text}"


def _amount(amount: Fraction, reading: ReadingAdded, *, metric: bool) -> str:
    """An amount of change; '' where its dimension has no plain differences."""
    if reading.dimension == "length":
        exact = figured(amount, "length", metric).partition(" (")[0]
        return exact if len(exact) <= 14 else Amounts(metric, single=True).length(amount)
    if reading.dimension in ("", "temperature"):
        return ""
    unit = getattr(parse_measure(reading.text), "unit", "") if reading.change is not None else ""
    return figured(amount, reading.dimension, metric) if unit else ""


def _severity(finding: Finding) -> str:
    return "a note" if str(finding.severity) == "note" else str(finding.severity)


def _place(finding: Finding) -> str:
    return f"{finding.place.path}:{finding.line}:{finding.column}"
