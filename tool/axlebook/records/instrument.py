"""A gauge, tape, micrometer, rule or crayon, and when its certificate runs out."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import NamedTuple

from . import fields
from .planes import plane_named

TRUE_LENGTH = "reads true length"


class Instrument(NamedTuple):
    """An instrument as its record tells it; lengths exact in metres."""

    id: str
    path: str
    type: str
    measures: tuple[str, ...]
    least: Fraction | None
    most: Fraction | None
    resolution: Fraction | None
    one_turn: Fraction | None
    expanded_uncertainty: Fraction | None
    coverage_factor: Fraction | None
    expansion: Fraction | None  # 1/K; zero for one that reads true length; None where not said
    where: str
    contact: str
    certificates: tuple[tuple[date, date | None], ...]  # issued, expires
    needs_none: bool
    retired_on: date | None
    tree: fields.Tree

    @property
    def standard_uncertainty(self) -> Fraction | None:
        """U divided by its coverage factor (2 where the record gives none)."""
        if self.expanded_uncertainty is None:
            return None
        return self.expanded_uncertainty / (self.coverage_factor or 2)

    def covered_on(self, day: date) -> bool | None:
        """Whether a certificate covers the day; None where the record tells of no certificate at all."""
        if not self.certificates:
            return True if self.needs_none else None
        for issued, expires in self.certificates:
            if expires is not None and issued <= day <= expires:
                return True  # as most do: no other certificate has to be looked at
        return any(issued <= day and (last is None or day <= last) for issued, last in self.spans)

    @property
    def spans(self) -> tuple[tuple[date, date | None], ...]:
        """From when to when each certificate holds: one without a last day until the next, where there is one."""
        days = sorted(issued for issued, _ in self.certificates)
        return tuple(
            (issued, expires or next((day for day in days if day > issued), None))
            for issued, expires in self.certificates
        )


def build_instrument(id: str, path: str, tree: fields.Tree) -> Instrument:
    """An instrument from its tree."""
    bounds = fields.inner(tree, "range")
    certificates = tuple(
        (issued, fields.day(certificate, "expires_on").exact)
        for certificate in fields.items(tree, "certificates")
        if certificate and (issued := fields.day(certificate, "issued_on").exact)
    )
    expansion = fields.text(tree, "expansion")
    return Instrument(
        id,
        path,
        fields.text(tree, "type"),
        fields.texts(tree, "measures"),
        fields.exact(bounds, "at_least"),
        fields.exact(bounds, "at_most"),
        fields.exact(tree, "resolution"),
        fields.exact(tree, "one_turn"),
        fields.exact(tree, "expanded_uncertainty"),
        fields.number(tree, "coverage_factor"),
        Fraction(0) if expansion == TRUE_LENGTH else fields.exact(tree, "expansion"),
        plane_named(fields.text(tree, "where")),
        fields.text(tree, "contact"),
        certificates,
        "no_certificate" in tree,
        fields.day(tree, "retired_on").exact,
        tree,
    )
