"""Where in a correction its parts stand."""

from __future__ import annotations

from axlebook.findings import Place
from axlebook.records.corrections import Correction


def place_of(correction: Correction, key: str) -> Place:
    """The place of a key of a correction."""
    return Place(correction.path).below(key)
