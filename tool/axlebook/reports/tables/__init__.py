"""The whole ledger as tidy tables: one thing a row, one fact a column, the same names in every ledger.

`columns` says what a column is, the other modules the tables, `readme` the page that is written beside them.
"""

from __future__ import annotations

from .columns import Column, Row, Table
from .found import FINDINGS
from .limits import LIMITS
from .parts import ENGINES, INSTRUMENTS, PARTS, POSITIONS
from .readings import EXAMINATIONS, NOT_MEASURED, OBSERVATIONS, READINGS
from .service import SERVICE_DAYS, SERVICE_TOTALS
from .work import DEFECTS, TIRE_WORK, WORK

TABLES: tuple[Table, ...] = (
    READINGS, OBSERVATIONS, EXAMINATIONS, NOT_MEASURED, ENGINES, PARTS, POSITIONS, INSTRUMENTS, TIRE_WORK, WORK,
    DEFECTS, SERVICE_DAYS, SERVICE_TOTALS, LIMITS, FINDINGS,
)  # fmt: skip

__all__ = ["TABLES", "Column", "Row", "Table"]
