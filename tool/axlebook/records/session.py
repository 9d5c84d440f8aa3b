"""Records that carry readings: an inspection, tire work, a turning, a mounting. One shape serves them all."""

from __future__ import annotations

from typing import NamedTuple

from axlebook.findings import Place

from . import fields
from .dates import Day
from .reading import (
    Examination,
    NotMeasured,
    Observation,
    Reading,
    Source,
    build_examinations,
    build_not_measured,
    build_observations,
    build_readings,
    named,
)
from .to_write import UNFILLED

DATE_KEYS = {
    "inspection": "measured_on",
    "tire-applied": "applied_on",
    "tire-removed": "removed_on",
    "tire-found": "found_on",
    "turning": "turned_on",
    "mounting": "mounted_on",
}

SAYS = ("readings", "observations", "examinations", "not_measured", "attachments", "reported_on", "transcribed")
STANDS_FOR_IT = ("by", "signed", "note")


class Session(NamedTuple):
    """A dated record with what was measured, seen, examined and left out."""

    id: str
    path: str
    kind: str
    day: Day
    engine: str
    purpose: str
    by: tuple[str, ...]
    readings: tuple[Reading, ...]
    observations: tuple[Observation, ...]
    examinations: tuple[Examination, ...]
    not_measured: tuple[NotMeasured, ...]
    tree: fields.Tree

    @property
    def place(self) -> Place:
        """The record itself."""
        return Place(self.path)

    @property
    def day_at(self) -> Place:
        """Where its date stands."""
        return Place(self.path, "/" + DATE_KEYS[self.kind])

    @property
    def tire(self) -> str:
        """The tire of tire work."""
        return fields.text(self.tree, "tire")

    @property
    def center(self) -> str:
        """The center of tire work or of a mounting."""
        return fields.text(self.tree, "center")

    @property
    def touched(self) -> list[str]:
        """The tires, centers and wheelsets that it was done to, as the record names them."""
        one = [self.tree.get(key) for key in ("tire", "center", "wheelset")]
        many = [item for key in ("tires", "wheelsets") for item in fields.items(self.tree, key)]
        return [id for id in (*one, *many) if isinstance(id, str)]

    @property
    def unfilled(self) -> bool:
        """Whether it is tire work whose template nobody told yet which tire or which center it is."""
        return self.tire.startswith(UNFILLED) or self.center.startswith(UNFILLED)

    @property
    def signed(self) -> bool:
        """Whether it is signed, and so closed."""
        return "signed" in self.tree

    @property
    def silent(self) -> bool:
        """Whether nothing is in it that was read, seen, examined, left out or filed."""
        return not any(self.tree.get(key) for key in SAYS)

    @property
    def blank(self) -> bool:
        """Whether it is an inspection's template as it was begun: it says nothing, and nobody stands for it."""
        return self.kind == "inspection" and self.silent and not any(self.tree.get(key) for key in STANDS_FOR_IT)

    @property
    def draft(self) -> bool:
        """Whether it is a what-if, not work that was done."""
        return fields.yes(self.tree, "draft") is True


def build_session(id: str, path: str, tree: fields.Tree) -> Session:
    """A session from its tree."""
    kind = tree["kind"]
    day = fields.day(tree, DATE_KEYS[kind])
    by = named(list(fields.texts(tree, "by")))
    engine = fields.text(tree, "engine")
    purpose = fields.text(tree, "purpose") or kind
    source = Source(id, kind, path, engine, day, by, fields.inner(tree, "setup"), purpose, "signed" in tree)
    return Session(
        id,
        path,
        kind,
        day,
        engine,
        purpose,
        by,
        build_readings(source, fields.items(tree, "readings")),
        build_observations(source, fields.items(tree, "observations")),
        build_examinations(source, fields.items(tree, "examinations")),
        build_not_measured(source, fields.items(tree, "not_measured")),
        tree,
    )
