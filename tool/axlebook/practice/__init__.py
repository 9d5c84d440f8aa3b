"""A practice copy of a ledger: slips planted in it, and the list of answers.

It is made without knowledge of the checks and imports none of them: what can be seen is decided from the
instrument records alone.
"""

from .answer import Answer, Planted
from .planter import KINDS, plant
from .written import Written

__all__ = ["KINDS", "Answer", "Planted", "Written", "plant"]
