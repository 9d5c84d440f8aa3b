"""The words of the ledger: what can be measured, looked for, worked out, and asked by a limit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, NamedTuple


class Word(NamedTuple):
    """One word of the vocabulary and what it says about itself; "" where it says nothing."""

    name: str
    title: str
    dimension: str = ""
    of: str = ""
    wear: str = ""  # lowers, raises or none: what service alone does to it
    positions: str = ""  # several or one
    needs_temperature: bool = False
    comes_from: tuple[str, ...] = ()  # of a derived quantity: what it is worked out from
    speaks_for: tuple[str, ...] = ()  # of a derived quantity: what needs no limit of its own where this one has
    serves: str = ""  # of a measured quantity: `sums`, where it is read for a sum and needs no limit of its own
    sizes: tuple[str, ...] = ()  # of an observation: the quantities it may carry
    key: str = ""  # of a size: the key of the observation that holds it
    write: str = ""  # of a facet: where it is written, where that is not under `facets`
    words: tuple[str, ...] = ()  # of a facet: all that it can be; empty where anybody may name another
    stays: bool = False  # of an observation: once seen on a part it is there for good


Words = Mapping[str, Word]
PLAIN = ("title", "dimension", "of", "wear", "positions", "serves", "key", "write")


@dataclass(frozen=True, slots=True, eq=False)
class Vocabulary:
    """All words, by section, in the order they are written."""

    quantities: Words
    derived: Words
    observations: Words
    sizes: Words
    facets: Words
    roles: tuple[str, ...]
    holds: tuple[str, ...]
    reasons_not_measured: tuple[str, ...]

    @property
    def any_quantities(self) -> tuple[str, ...]:
        """The names a limit may use: measured, derived, and sizes of observations, each once."""
        return tuple(dict.fromkeys([*self.quantities, *self.derived, *self.sizes]))

    def find_quantity(self, name: str) -> Word | None:
        """The measured or derived quantity or size of that name; None where there is none."""
        return self.quantities.get(name) or self.derived.get(name) or self.sizes.get(name)

    def find_word(self, name: str) -> Word | None:
        """The quantity or observation of that name; None where there is none."""
        return self.find_quantity(name) or self.observations.get(name)


def build_vocabulary(tree: Mapping[str, Any]) -> Vocabulary:
    """Build the vocabulary from the tree of its file."""
    return Vocabulary(
        quantities=_words(tree["quantities"]),
        derived=_words(tree["derived"]),
        observations=_words(tree["observations"]),
        sizes=_words(tree["sizes"]),
        facets=_words(tree["facets"]),
        roles=tuple(tree["roles"]),
        holds=tuple(tree["holds"]),
        reasons_not_measured=tuple(tree["reasons_not_measured"]),
    )


def _words(section: Mapping[str, Mapping[str, Any]]) -> Words:
    return MappingProxyType({name: _word(name, said) for name, said in section.items()})


def _word(name: str, said: Mapping[str, Any]) -> Word:
    plain = {key: said.get(key, "") for key in PLAIN}
    return Word(
        name,
        **plain,
        needs_temperature=said.get("temperature") == "needed",
        comes_from=tuple(said.get("from", ())),
        speaks_for=tuple(said.get("speaks_for", ())),
        sizes=tuple(said.get("sizes", ())),
        words=tuple(said.get("words", ())),
        stays=said.get("stays") == "yes",
    )
