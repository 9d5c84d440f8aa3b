"""Reading of the vocabulary file, and the word lists of the committed schema that are made from it.

For maintainers: `python -m axlebook.sources.vocabulary` rewrites the lists in schema/common.schema.json after
a line of schema/vocabulary.yaml was added, so that editors offer the new word.
"""

from __future__ import annotations

import json
from functools import lru_cache
from pathlib import Path
from typing import Any

from axlebook.records.vocabulary import Vocabulary, build_vocabulary
from axlebook.sources.shipped import shipped
from axlebook.sources.yaml_text import read_tree

FILE = "vocabulary.yaml"
COMMON = "common.schema.json"


@lru_cache
def read_vocabulary() -> Vocabulary:
    """Return the words of the ledger, read once."""
    return build_vocabulary(read_tree((shipped("schema") / FILE).read_bytes()))


def word_lists(vocabulary: Vocabulary) -> dict[str, tuple[str, ...]]:
    """Return the enums of common.schema.json that the vocabulary decides, by the name of their definition."""
    return {
        "quantity": tuple(vocabulary.quantities),
        "any_quantity": vocabulary.any_quantities,
        "looked_for": tuple(vocabulary.observations),
        "facet": tuple(vocabulary.facets),
        "role": vocabulary.roles,
        "hold": vocabulary.holds,
        "reason_not_measured": vocabulary.reasons_not_measured,
    }


def fed(common: dict[str, Any], vocabulary: Vocabulary) -> dict[str, Any]:
    """Return the common schema with its word lists taken from the vocabulary."""
    definitions = dict(common["$defs"])
    for name, words in word_lists(vocabulary).items():
        definitions[name] = {**definitions[name], "enum": list(words)}
    return {**common, "$defs": definitions}


def write_word_lists(folder: Path) -> bool:
    """Rewrite the lists in the common schema of a folder; say whether anything changed."""
    path = folder / COMMON
    before = path.read_text(encoding="utf-8")
    vocabulary = build_vocabulary(read_tree((folder / FILE).read_bytes()))
    after = json.dumps(fed(json.loads(before), vocabulary), indent=1, ensure_ascii=False) + "\n"
    if after != before:
        path.write_text(after, encoding="utf-8", newline="\n")
    return after != before


if __name__ == "__main__":
    print("rewritten" if write_word_lists(shipped("schema")) else "unchanged")
