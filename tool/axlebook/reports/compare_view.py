"""What `compare` tells, before any renderer: sections in order of weight, each an item a line or a row.

What weighs most comes first: broken signatures, new findings, loosened limits, altered evidence, readings out of
expectation, then what moved, and at the end, folded, what is as it should be.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from axlebook.findings import Finding, Severity, Verdict, counts_for_exit
from axlebook.records.comparison import Comparison
from axlebook.records.comparison.found import FindingsChanged
from axlebook.records.comparison.records import Fate

from . import compare_words as words
from .compare_words import Item
from .view import Report, within_paths


@dataclass(frozen=True)
class State:
    """One of the two states: how it is named, and where it stands in git."""

    words: str  # "8d3f2a91c0de (main)", "the files as they are"
    commit: str | None = None
    dirty: bool | None = None


@dataclass(frozen=True)
class Section:
    """Items of one kind; `folded`: not what one looks for first."""

    title: str
    items: tuple[Item, ...]
    loud: bool = False
    folded: bool = False
    head: tuple[str, ...] = ()  # of a table, where items have cells

    @property
    def count(self) -> int:
        """How many there are, those counted that are told together."""
        return sum(item.many for item in self.items)


@dataclass(frozen=True)
class Compared:
    """A comparison as it is to be told."""

    before: State
    after: State
    report: Report  # of the second state
    comparison: Comparison
    notes: tuple[str, ...]  # what could not be known
    sections: tuple[Section, ...]
    summary: str

    def fails(self, *, strict: bool) -> bool:
        """Whether something counts that did not count before."""
        return self.comparison.findings.fails(strict=strict)


def compared(
    before: State,
    after: State,
    report: Report,
    comparison: Comparison,
    notes: tuple[str, ...] = (),
    authors: Mapping[str, tuple[str, ...]] | None = None,
    metric: bool = False,
) -> Compared:
    """Lay a comparison out; `authors` is who committed to the paths of limits in between."""
    shown = within(comparison, report.only)
    sections = tuple(section for section in _sections(shown, report, authors or {}, metric) if section.items)
    return Compared(before, after, report, shown, notes, sections, summary(shown))


def within(comparison: Comparison, only: tuple[str, ...]) -> Comparison:
    """The comparison of some files or folders; all where none is named."""
    if not only:
        return comparison
    folders = tuple(f"{path}/" for path in only)

    def shown(path: str) -> bool:
        return path in only or path.startswith(folders)

    found = comparison.findings
    return Comparison(
        tuple(one for one in comparison.records if shown(one.path) or shown(one.path_before)),
        tuple(one for one in comparison.readings if shown(one.at.path)),
        tuple(one for one in comparison.parts if shown(one.path)),
        tuple(one for one in comparison.limits if shown(one.path)),
        tuple(one for one in comparison.adoptions if shown(one.path)),
        replace(
            found,
            new=within_paths(found.new, only),
            gone=within_paths(found.gone, only),
            worse=tuple(pair for pair in found.worse if shown(pair[1].place.path)),
            better=tuple(pair for pair in found.better if shown(pair[1].place.path)),
        ),
    )


def summary(found: Comparison) -> str:
    """All that differs, counted, in one sentence."""
    told = found.findings
    counting = sum(counts_for_exit(one, strict=False) for one in told.new)
    records = found.records
    amounts = [
        (sum(one.breaks_a_signature for one in records), "signed record|s altered or deleted"),
        (sum(one.loosens for one in found.limits), "limit|s loosened or taken away"),
        (sum(one.is_loud and not one.breaks_a_signature for one in records), "other record|s altered or deleted"),
        (sum(one.fate is Fate.ADDED and bool(one.details) for one in records), "correction|s added"),
        (len(found.readings), "reading|s added"),
        (sum(one.out_of_expectation for one in found.readings), "out of expectation|"),
        (len(found.parts), "place|s where another part stands"),
    ]
    parts = [f"{len(told.new)} new ({counting} of them count{'s' if counting == 1 else ''})"]
    hushed = len(told.hushed)
    parts += [f"{len(told.worse)} worse"]
    parts += [f"{hushed} there and count{'s' if hushed == 1 else ''} no more"] if hushed else []
    parts += [f"{len(told.eased)} better, {len(told.gone)} gone, {told.unchanged} as before"]
    more = [f"{n} {text.replace('|s', '' if n == 1 else 's').replace('|', '')}" for n, text in amounts if n]
    return f"Findings: {', '.join(parts)}." + (f" {'; '.join(more)}." if more else "")


def _sections(found: Comparison, report: Report, authors: Mapping[str, tuple[str, ...]], metric: bool) -> list[Section]:
    told = found.findings
    heavy, light = _by_weight(told.new)
    records = found.records
    broken = [one for one in records if one.breaks_a_signature]
    loud = [one for one in records if one.is_loud and not one.breaks_a_signature]
    quiet = [one for one in records if not one.is_loud and not one.breaks_a_signature]
    out = [one for one in found.readings if one.out_of_expectation]
    rest = [one for one in found.readings if not one.out_of_expectation]
    ended = [one for one in found.adoptions if one.ends]
    begun = [one for one in found.adoptions if not one.ends]
    loosened, other = (
        tuple(words.of_limit(one, authors.get(one.path, ())) for one in found.limits if one.loosens is asked)
        for asked in (True, False)
    )
    unadopted, adopted = (tuple(map(words.of_adoption, many)) for many in (ended, begun))
    changed = [one for one in quiet if one.fate not in (Fate.ADDED, Fate.REWORDED)]
    came = [one for one in quiet if one.fate is Fate.ADDED]
    corrections, added = (tuple(one for one in came if bool(one.details) is asked) for asked in (True, False))
    return [
        Section("Signed records altered or deleted", tuple(map(words.of_record, broken)), loud=True),
        Section("Findings that are new and count", _findings(heavy, told), loud=True),
        Section("Findings that are worse", _pairs(told.worse), loud=True),
        Section("Findings that are there and count no more", _pairs(told.hushed), loud=True),
        Section("Limits loosened or taken away", unadopted + loosened, loud=True),
        Section("Records altered or deleted", tuple(map(words.of_record, loud)), loud=True),
        Section("Readings out of expectation", _rows(out, metric), loud=True, head=words.READING_HEAD),
        Section("What corrections change", tuple(map(words.of_correction, corrections))),
        Section("Parts fitted, removed or moved", tuple(map(words.of_part, found.parts))),
        Section("Limits tightened, added or changed", adopted + other),
        Section("New findings that do not count", _grouped(light, report)),
        Section("Other changes of records", tuple(map(words.of_record, changed)), folded=True),
        Section("Readings added", _rows(rest, metric), folded=True, head=words.READING_HEAD),
        Section("Findings that are better", _better(told, report), folded=True),
        Section("Findings that are gone", _grouped(list(told.gone), report), folded=True),
        Section("Records added", tuple(map(words.of_record, added)), folded=True),
        Section(
            "Records written otherwise that say the same",
            tuple(words.of_record(one) for one in quiet if one.fate is Fate.REWORDED),
            folded=True,
        ),
    ]


def _by_weight(findings: Iterable[Finding]) -> tuple[list[Finding], list[Finding]]:
    heavy: list[Finding] = []
    light: list[Finding] = []
    for finding in findings:
        (heavy if counts_for_exit(finding, strict=False) else light).append(finding)
    return heavy, light


def _findings(findings: Iterable[Finding], told: FindingsChanged | None = None) -> tuple[Item, ...]:
    return tuple(words.of_finding(one, told.earlier(one) if told else None) for one in findings)


def _pairs(many: Iterable[tuple[Finding, Finding]]) -> tuple[Item, ...]:
    return tuple(words.of_pair(*pair) for pair in many)


def _grouped(light: list[Finding], report: Report) -> tuple[Item, ...]:
    """Single findings, then what was not assessed, a line a cause, then notes."""
    some = report._replace(findings=tuple(light), first_step="")
    singly = [one for one in some.told_singly if one.severity is not Severity.NOTE]
    notes = [one for one in some.told_singly if one.severity is Severity.NOTE]
    causes = tuple(words.of_cause(cause) for cause in some.causes)
    return (*_findings(singly), *causes, *_findings(notes))


def _better(told: FindingsChanged, report: Report) -> tuple[Item, ...]:
    """Pairs one by one; what was and is not assessed and only weighs less, a line a cause."""
    unjudged = Verdict.NOT_ASSESSED
    alike = [now for before, now in told.eased if before.verdict is now.verdict is unjudged]
    rest = [pair for pair in told.eased if not (pair[0].verdict is pair[1].verdict is unjudged)]
    return (*_pairs(rest), *_grouped(alike, report))


def _rows(readings: Iterable[object], metric: bool) -> tuple[Item, ...]:
    return tuple(words.of_reading(one, metric=metric) for one in readings)  # type: ignore[arg-type]


__all__ = ["Compared", "Item", "Section", "State", "Verdict", "compared", "summary", "within"]
