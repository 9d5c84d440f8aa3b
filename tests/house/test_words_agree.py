"""The vocabulary is the truth; the committed schema must offer editors the same words."""

from __future__ import annotations

import json
import re
from pathlib import Path

from axlebook.sources.shipped import shipped
from axlebook.sources.vocabulary import COMMON, FILE, read_vocabulary, word_lists, write_word_lists


def test_the_word_lists_of_the_committed_schema_are_those_of_the_vocabulary() -> None:
    common = json.loads((shipped("schema") / COMMON).read_text(encoding="utf-8"))
    for name, words in word_lists(read_vocabulary()).items():
        assert common["$defs"][name]["enum"] == list(words), f"run: python -m axlebook.sources.vocabulary ({name})"


def test_rewriting_the_lists_of_the_committed_schema_changes_no_byte(tmp_path: Path) -> None:
    for name in (COMMON, FILE):
        (tmp_path / name).write_bytes((shipped("schema") / name).read_bytes())
    assert not write_word_lists(tmp_path)
    assert (tmp_path / COMMON).read_bytes() == (shipped("schema") / COMMON).read_bytes()


def test_a_new_line_of_the_vocabulary_reaches_the_lists(tmp_path: Path) -> None:
    for name in (COMMON, FILE):
        (tmp_path / name).write_bytes((shipped("schema") / name).read_bytes())
    line = "  rivet_height: {title: height of a rivet, dimension: length}"
    with (tmp_path / FILE).open("r+", encoding="utf-8") as file:
        text = file.read().replace("quantities:\n", f"quantities:\n{line}\n", 1)
        file.seek(0)
        file.write(text)
    assert write_word_lists(tmp_path)
    definitions = json.loads((tmp_path / COMMON).read_text(encoding="utf-8"))["$defs"]
    assert definitions["quantity"]["enum"][0] == definitions["any_quantity"]["enum"][0] == "rivet_height"


def test_what_derived_words_come_from_and_observations_carry_is_in_the_vocabulary() -> None:
    words = read_vocabulary()
    for word in words.derived.values():
        for source in word.comes_from:
            assert words.find_word(source) or source == "mounting", (word.name, source)
    for word in words.observations.values():
        for size in word.sizes:
            assert size in words.sizes, (word.name, size)


def test_where_a_fact_is_written_names_keys_of_records() -> None:
    words = read_vocabulary()
    schemas = " ".join(path.read_text(encoding="utf-8") for path in shipped("schema").glob("*.schema.json"))
    for word in words.facets.values():
        for key in re.findall("`([a-z_]+)`", word.write):
            assert f'"{key}": {{' in schemas or key in words.quantities, (word.name, key)


def test_what_a_fact_can_be_is_what_the_record_that_tells_it_takes() -> None:
    def of(kind: str) -> dict[str, dict[str, object]]:
        found = json.loads((shipped("schema") / f"{kind}.schema.json").read_text(encoding="utf-8"))
        properties: dict[str, dict[str, object]] = found["properties"]
        return properties

    tire, wheelset = of("tire")["form"]["properties"], of("wheelset")
    axle = of("driver")["axle"]["properties"]
    assert isinstance(tire, dict)
    assert isinstance(axle, dict)
    told = {name: tire[name]["enum"] for name in ("flange", "located_by", "fastened_by")}
    told |= {name: axle[name]["enum"] for name in ("bearings", "journals")}
    told |= {"make": wheelset["made"]["enum"], "plate": wheelset["plate"]["enum"]}
    facets = read_vocabulary().facets
    for name, words in told.items():
        assert [*facets[name].words] == [word for word in words if word != "unknown"], name
