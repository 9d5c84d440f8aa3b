"""Records that need little: people, plans, defects, waivers, corrections. The tree is kept; a few fields are named."""

from __future__ import annotations

from typing import NamedTuple

from axlebook.findings import Place

from . import fields


class Plain(NamedTuple):
    """A record known by its id and its tree."""

    id: str
    path: str
    kind: str
    tree: fields.Tree

    @property
    def place(self) -> Place:
        """The record itself."""
        return Place(self.path)

    def at(self, *steps: str | int) -> Place:
        """A place further in."""
        return Place(self.path).below(*steps)


def build_plain(id: str, path: str, tree: fields.Tree) -> Plain:
    """A plain record from its tree."""
    return Plain(id, path, tree["kind"], tree)
