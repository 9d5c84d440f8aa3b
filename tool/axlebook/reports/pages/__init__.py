"""The whole book as static pages: plain relative links, no script, the same bytes for the same book and day."""

from .ground import Ground
from .site import pages

__all__ = ["Ground", "pages"]
