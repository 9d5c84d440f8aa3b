"""Findings that are new, worse, better, gone or as before, by fingerprint."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from axlebook.findings import SEVERITY_ORDER, VERDICT_ORDER, Finding, counts_for_exit, worst_first


@dataclass(frozen=True)
class FindingsChanged:
    """What the checks say now and did not say before, and the other way round; each worst first."""

    new: tuple[Finding, ...] = ()
    worse: tuple[tuple[Finding, Finding], ...] = ()  # before, now
    better: tuple[tuple[Finding, Finding], ...] = ()
    gone: tuple[Finding, ...] = ()
    unchanged: int = 0

    def fails(self, *, strict: bool) -> bool:
        """Whether something counts that did not count before."""
        return any(counts_for_exit(one, strict=strict) for one in self.new) or any(
            counts_for_exit(now, strict=strict) for _, now in self.worse
        )

    @property
    def hushed(self) -> tuple[tuple[Finding, Finding], ...]:
        """Of what weighs less that which counted and is there still, doubted now or waived: no metal is better."""
        return tuple(pair for pair in self.better if _is_hushed(pair))

    @property
    def eased(self) -> tuple[tuple[Finding, Finding], ...]:
        """The rest of what weighs less."""
        return tuple(pair for pair in self.better if not _is_hushed(pair))

    def earlier(self, finding: Finding) -> Finding | None:
        """A finding that is gone and said the same of an earlier record: it was read again, and is as it was."""
        return next((one for one in self.gone if _same(one) == _same(finding)), None)


def findings_changed(before: Iterable[Finding], after: Iterable[Finding]) -> FindingsChanged:
    """Pair the findings of two runs."""
    old, new = _by_fingerprint(before), _by_fingerprint(after)
    come: list[Finding] = []
    gone: list[Finding] = []
    worse: list[tuple[Finding, Finding]] = []
    better: list[tuple[Finding, Finding]] = []
    unchanged = 0
    for name in dict.fromkeys([*old, *new]):
        olds, news = _without_alike(old.get(name, []), new.get(name, []))
        unchanged += len(new.get(name, [])) - len(news)
        pairs = list(zip(olds, news, strict=False))
        worse += [pair for pair in pairs if _weight(pair[1]) < _weight(pair[0])]
        better += [pair for pair in pairs if _weight(pair[1]) > _weight(pair[0])]
        come += news[len(pairs) :]
        gone += olds[len(pairs) :]
    return FindingsChanged(
        tuple(sorted(come, key=worst_first)),
        tuple(sorted(worse, key=lambda pair: worst_first(pair[1]))),
        tuple(sorted(better, key=lambda pair: worst_first(pair[1]))),
        tuple(sorted(gone, key=worst_first)),
        unchanged,
    )


def _by_fingerprint(findings: Iterable[Finding]) -> dict[str, list[Finding]]:
    found: dict[str, list[Finding]] = defaultdict(list)
    for finding in findings:
        found[finding.fingerprint].append(finding)
    return found


def _without_alike(olds: list[Finding], news: list[Finding]) -> tuple[list[Finding], list[Finding]]:
    """Those of one fingerprint that weigh differently on the two sides, the worst first."""
    left = list(news)
    rest = []
    for old in olds:
        alike = next((new for new in left if _weight(new) == _weight(old)), None)
        if alike is None:
            rest.append(old)
        else:
            left.remove(alike)
    return sorted(rest, key=_weight), sorted(left, key=_weight)


def _weight(finding: Finding) -> tuple[bool, bool, int, int]:
    """What weighs less comes first: what counts, then by severity and verdict."""
    return not _counts(finding), bool(finding.waived), VERDICT_ORDER[finding.verdict], SEVERITY_ORDER[finding.severity]


def _counts(finding: Finding) -> bool:
    return counts_for_exit(finding, strict=False)


def _is_hushed(pair: tuple[Finding, Finding]) -> bool:
    return _counts(pair[0]) and not _counts(pair[1])


def _same(finding: Finding) -> tuple[str, str, str, str]:
    return finding.check, finding.subject, finding.quantity, finding.where
