"""A paper sheet as JSON: every box with what is known beforehand, for a program that makes its own form of it."""

from __future__ import annotations

from typing import Any

from .paper import Paper


def paper_json(paper: Paper) -> dict[str, Any]:
    """What a report holds of a sheet."""
    return {
        "subject": paper.about,
        "purpose": paper.purpose,
        "sheet": paper.id,
        "rows": paper.rows,
        "holds": list(paper.holds),
        "reasons_not_measured": list(paper.reasons),
        "cautions": list(paper.cautions),
        "who_decides": paper.foot,
    }
