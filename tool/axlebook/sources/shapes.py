"""The shape of a tree: what is left of it when every text is replaced by what the schemas could say about it.

Two trees of one shape get the same verdict from the schemas, so that a shape is judged once. A text counts only by
the constraints it meets (the word lists it is in, the formats and patterns it satisfies), and of these only
those that any schema asks below the key it stands under. A key counts as itself where any schema names it;
elsewhere, as in values by position, only by what could be asked of keys.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from typing import Any, TypeAlias

from axlebook.sources.formats import CANDIDATES, WRITTEN, known_formats, measured_formats, sort_of
from axlebook.sources.schema_files import Schema, subschemas

Shape: TypeAlias = "int | str | tuple[Any, ...]"

#: Every keyword whose outcome a shape decides, and the words beside them that judge nothing.
JUDGING = frozenset({
    "type", "properties", "required", "additionalProperties", "propertyNames", "items", "minItems", "enum", "const",
    "format", "pattern", "minLength", "anyOf", "oneOf", "allOf",
    "if", "then",
})  # fmt: skip
SILENT = frozenset({"$schema", "$id", "title", "description", "examples"})
#: Keywords that ask something of a text.
ON_TEXT = ("enum", "const", "format", "pattern", "minLength")
_MOST_KEPT = 1 << 17


class Shapes:
    """Gives shapes under one set of schemas."""

    def __init__(self, schemas: Iterable[Schema]) -> None:
        self.bits: dict[tuple[str, Any], int] = {}
        self.masks: dict[str, int] = {}  # by key: the constraints that a text under it may meet
        self._key_mask = 0
        self._under: dict[int, dict[str, _Key]] = {}  # by what is inherited: the keys met there
        self.codes: dict[tuple[int | str, int], int] = {}  # what a key and its text say together -> one number
        for schema in schemas:
            self._learn(schema)
        self.signatures = _Signatures(self.bits)

    def of(self, tree: Any, inherited: int) -> Shape:
        """Return the shape of a tree that stands under keys whose masks together are `inherited`."""
        # Hot: every scalar of every record passes here.
        if type(tree) is str:
            return self.signatures[tree] & inherited
        shape: list[Any] = []
        add = shape.append
        if type(tree) is not dict:
            add(None)
            for item in tree:
                add(self.signatures[item] & inherited if type(item) is str else self.of(item, inherited))
            return tuple(shape)
        under = self._under.get(inherited) or self._under.setdefault(inherited, {})
        for key, value in tree.items():
            one = under.get(key)
            if one is None:
                one = under[key] = self._key(key, inherited)
            add(one[value] if type(value) is str else (one.told, self.of(value, one.mask)))
        return tuple(shape)

    def _key(self, key: str, inherited: int) -> _Key:
        if sum(map(len, self._under.values())) > _MOST_KEPT:
            self._under.clear()
        mask = self.masks.get(key)
        told = self.signatures[key] & self._key_mask if mask is None else key
        return _Key(told, inherited | (mask or 0), self)

    def _learn(self, schema: Schema) -> None:
        for name, value in schema.get("properties", {}).items():
            self.masks[name] = self.masks.get(name, 0) | self._reach(value)
            self._learn(value)
        if "propertyNames" in schema:
            self._key_mask |= self._reach(schema["propertyNames"])
        for inside in subschemas(schema):
            self._learn(inside)

    def _reach(self, schema: Schema) -> int:
        """Return the constraints on texts reached without naming a property."""
        mask = 0
        for constraint in constraints(schema):
            mask |= self.bits.setdefault(constraint, 1 << len(self.bits))
        for inside in subschemas(schema):
            mask |= self._reach(inside)
        return mask


def constraints(schema: Schema) -> Iterator[tuple[str, Any]]:
    """Yield what a schema itself asks of a text, as keyword and what is asked."""
    for keyword in ON_TEXT:
        if keyword in schema:
            yield constraint(keyword, schema[keyword])


def constraint(keyword: str, asked: Any) -> tuple[str, Any]:
    """One thing asked of a text, as it is counted."""
    return keyword, tuple(asked) if isinstance(asked, list) else asked


class _Key(dict[str, int]):
    """A key under what it inherits: text -> one number for what both say; two pairs that say the same have the same."""

    def __init__(self, told: int | str, mask: int, shapes: Shapes) -> None:
        super().__init__()
        self.told = told
        self.mask = mask
        self._shapes = shapes

    def __missing__(self, text: str) -> int:
        codes = self._shapes.codes
        if len(self) > _MOST_KEPT:
            self.clear()
        met = self[text] = codes.setdefault((self.told, self._shapes.signatures[text] & self.mask), len(codes))
        return met


class _Signatures(dict[str, int]):
    """Text -> the constraints it meets, one bit each; worked out once a text."""

    def __init__(self, bits: dict[tuple[str, Any], int]) -> None:
        super().__init__()
        self._words: dict[str, int] = {}
        self._patterns: list[tuple[Callable[[str], Any], int]] = []
        self._lengths: list[tuple[int, int]] = []
        self._written: dict[str, list[tuple[Callable[[str], bool], int]]] = {sort: [] for sort in CANDIDATES}
        self._measured: dict[str, int] = {}
        self._met: dict[frozenset[str], int] = {frozenset(): 0}
        for (keyword, asked), bit in bits.items():
            self._add(keyword, asked, bit)

    def _add(self, keyword: str, asked: Any, bit: int) -> None:
        if keyword == "format" and asked in WRITTEN:
            for sort, names in CANDIDATES.items():
                if asked in names:
                    self._written[sort].append((WRITTEN[asked], bit))
        elif keyword == "format":
            if asked not in known_formats():
                raise ValueError(f"a schema names the format {asked!r}, which nothing here reads")
            self._measured[asked] = bit
        elif keyword == "pattern":
            self._patterns.append((re.compile(asked).search, bit))
        elif keyword == "minLength":
            self._lengths.append((asked, bit))
        else:
            for word in asked if keyword == "enum" else (asked,):
                self._words[word] = self._words.get(word, 0) | bit

    def __missing__(self, text: str) -> int:
        met = self._words.get(text, 0) | self._met_measures(text)
        for least, bit in self._lengths:
            if len(text) >= least:
                met |= bit
        for reads, bit in self._written[sort_of(text)]:
            if reads(text):
                met |= bit
        for finds, bit in self._patterns:
            if finds(text):
                met |= bit
        if len(self) > _MOST_KEPT:
            self.clear()
        self[text] = met
        return met

    def _met_measures(self, text: str) -> int:
        names = measured_formats(text)
        met = self._met.get(names)
        if met is None:
            met = self._met[names] = sum(bit for name, bit in self._measured.items() if name in names)
        return met
