"""The adopted practice for a fit, as the checks use it; it stands among the records."""

from axlebook.records.practice import Adopted, adopted, engine_of, followed, stand_of

__all__ = ["Adopted", "adopted", "engine_of", "followed", "stand_of"]
