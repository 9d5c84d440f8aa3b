"""One thing that a summary or a list of what was not read says."""

from __future__ import annotations

from dataclasses import dataclass

from axlebook.findings import Verdict


@dataclass(frozen=True)
class Item:
    """One thing that is said, and the verdict it is marked with."""

    text: str
    verdict: Verdict | None = None
