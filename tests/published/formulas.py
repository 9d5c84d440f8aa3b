"""What each case of the published examples asks of our formulas: from the given values to results, in SI.

Topics here: fits, rotation, mass, lengths at temperature, tapes, uncertainty, circles.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

FORMULAS: dict[str, Callable[[Mapping[str, Any]], Mapping[str, Any]]] = {}
