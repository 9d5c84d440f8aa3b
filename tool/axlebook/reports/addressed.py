"""Commands in printed words, so that they work where they are read: outside the ledger they name its folder."""

from __future__ import annotations

import re

OF_A_DAY = "check|status|due|wear|history|sheet|annual"  # these read the book at a day or a commit too
OF_A_LEDGER = "new|enter|steam|import|export|bore|fit"
_COMMAND = re.compile(rf"\baxlebook (?:({OF_A_DAY})|({OF_A_LEDGER}))\b")


def addressed(words: str, ledger: str, day: str = "") -> str:
    """Words with the options put behind every command that they name; without options as they are.

    >>> addressed("in full: axlebook status e-12 --all", " --ledger demo-ledger", " --as-of 2025-12-31")
    'in full: axlebook status --ledger demo-ledger --as-of 2025-12-31 e-12 --all'
    >>> addressed("Write it: `axlebook new tire t-1`.", " --ledger demo-ledger", " --as-of 2025-12-31")
    'Write it: `axlebook new --ledger demo-ledger tire t-1`.'
    """
    if (not ledger and not day) or "axlebook" not in words:
        return words
    return _COMMAND.sub(lambda found: f"{found[0]}{ledger}{day if found[1] else ''}", words)
