"""The planter: what it plants can be seen, is a slip, and leaves every other byte alone."""

from __future__ import annotations

import difflib
import json
import math
from collections import Counter
from collections.abc import Mapping
from pathlib import Path

import pytest

from axlebook.practice import KINDS, Answer, Planted, plant
from axlebook.practice.planter import NoRoom
from axlebook.quantities import Quantity, parse_quantity
from axlebook.sources.practice_copy import ANSWERS, plant_texts, read_texts, write_demo, write_practice
from axlebook.sources.shipped import shipped
from axlebook.sources.yaml_text import read_tree
from tests.demo.scoring import demo_texts

SEEDS = (0, 1, 7, 20260228, 4294967295)
MANY = range(1000, 1012)
INCH = 0.0254
# The others are seen whatever their size: a name left out, a day that cannot be.
BY_SIZE = {
    "metal-added",
    "flange-height-falling",
    "flange-thickness-rising",
    "jump-beyond-wear-rate",
    "back-to-back-moved",
    "units-mixed",
    "fraction-lost",
    "digits-transposed",
    "one-turn-out",
    "sides-swapped",
    "wrong-wheel",
    "hot-reading",
    "second-reader-disagrees",
    "diameter-does-not-add-up",
    "gauge-changed-mid-trend",
    "support-changed-mid-trend",
}


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    return demo_texts()


@pytest.fixture(scope="module")
def runs(texts: dict[str, str]) -> list[Planted]:
    return [plant_texts(texts, seed) for seed in SEEDS]


def answers(runs: list[Planted], *kinds: str) -> list[tuple[Planted, Answer]]:
    found = [(run, one) for run in runs for one in run.answers if one.kind in kinds]
    assert found
    return found


def value(texts: Mapping[str, str], path: str, pointer: str) -> object:
    found: object = read_tree(texts[path].encode())
    for step in pointer.split("/")[1:]:
        found = found[int(step)] if isinstance(found, list) else found[step]  # type: ignore[index]
    return found


def length(text: object) -> Quantity:
    return parse_quantity(str(text), "length")


def stated(texts: Mapping[str, str], instrument: str) -> float:
    """The standard uncertainty of an instrument, computed here once more from its record."""
    tree = read_tree(texts[f"instruments/{instrument}.yaml"].encode())
    expanded = float(length(tree["expanded_uncertainty"]).exact) / int(str(tree["coverage_factor"]))
    return math.sqrt(expanded**2 + float(length(tree["resolution"]).exact) ** 2 / 12)


def test_every_run_plants_forty_or_more_and_each_kind_at_least_once(texts: dict[str, str]) -> None:
    for seed in MANY:
        planted = plant_texts(texts, seed)
        counts = Counter(one.kind for one in planted.answers)
        assert len(planted.answers) >= 40
        assert set(counts) == set(KINDS)
        assert len(planted.unseen) == 8


def test_every_kind_that_is_listed_has_a_line_in_the_table_of_names() -> None:
    table = Path(__file__).with_name("names.yaml")
    assert set(read_tree(table.read_bytes())) == set(KINDS)


def test_the_same_seed_plants_the_same_slips_whatever_the_order_of_the_files(texts: dict[str, str]) -> None:
    backwards = dict(reversed(list(texts.items())))
    assert plant_texts(texts, 11).texts == plant_texts(backwards, 11).texts


def test_seeds_plant_different_slips(runs: list[Planted]) -> None:
    places = [{(one.kind, one.path, one.after) for one in run.answers} for run in runs]
    for number, one in enumerate(places):
        for other in places[number + 1 :]:
            assert len(one & other) < len(one) / 3


def test_every_text_but_those_of_the_answers_is_untouched(texts: dict[str, str], runs: list[Planted]) -> None:
    for run in runs:
        told = {path for one in (*run.answers, *run.unseen) for path in (one.path, *one.also)}
        changed = {path for path, text in run.texts.items() if texts.get(path) != text}
        assert changed <= told
        assert set(texts) <= set(run.texts)
        assert all(one.path in changed for one in (*run.answers, *run.unseen))


def test_a_slip_alters_few_lines_and_leaves_the_rest_byte_for_byte(texts: dict[str, str], runs: list[Planted]) -> None:
    for run in runs:
        for path, text in run.texts.items():
            before = texts.get(path, text).splitlines(keepends=True)
            lines = difflib.SequenceMatcher(None, before, text.splitlines(keepends=True), autojunk=False)
            touched = sum(max(a2 - a1, b2 - b1) for tag, a1, a2, b1, b2 in lines.get_opcodes() if tag != "equal")
            assert touched <= 12, path


def test_no_record_carries_two_slips(runs: list[Planted]) -> None:
    for run in runs:
        paths = [one.path for one in (*run.answers, *run.unseen)]
        assert len(paths) == len(set(paths))


def test_every_planted_record_is_still_yaml(runs: list[Planted]) -> None:
    for run in runs:
        assert set(read_texts(run.texts)) == set(run.texts)


def test_before_and_after_stand_in_the_texts_at_the_pointer(texts: dict[str, str], runs: list[Planted]) -> None:
    for run, one in answers(runs, *(BY_SIZE - {"second-reader-disagrees", "sides-swapped", "wrong-wheel"})):
        values = [pointer for pointer in one.pointers if "/values/" in pointer]
        assert [str(value(texts, one.path, pointer)) for pointer in values] == one.before.split("; ")
        assert [str(value(run.texts, one.path, pointer)) for pointer in values] == one.after.split("; ")


def test_what_counts_as_seen_is_at_least_two_combined_uncertainties_apart(runs: list[Planted]) -> None:
    for _, one in answers(runs, *BY_SIZE):
        assert one.size >= one.seen_from > 0


def test_the_threshold_is_computed_from_the_instrument_records(texts: dict[str, str], runs: list[Planted]) -> None:
    kinds = (
        "metal-added",
        "flange-height-falling",
        "jump-beyond-wear-rate",
        "back-to-back-moved",
        "one-turn-out",
    )
    for run, one in answers(runs, *kinds):
        number = one.pointers[0].split("/")[2]
        own = stated(texts, str(value(texts, one.path, f"/readings/{number}/with")))
        smallest = min(stated(texts, id) for id in _fellows(texts, one, number))
        before, after = one.before.split("; "), one.after.split("; ")
        moved = [abs(float(length(a).exact - length(b).exact)) for b, a in zip(before, after, strict=True)]
        assert min(moved) >= 2 * math.hypot(own, smallest) - 1e-9
        assert one.seen_from >= 2 * math.hypot(own, smallest) - 1e-9
        assert run.seed in SEEDS


def _fellows(texts: Mapping[str, str], one: Answer, number: str) -> list[str]:
    quantity = value(texts, one.path, f"/readings/{number}/quantity")
    found = []
    for path, text in texts.items():
        tree = read_tree(text.encode()) if path.startswith("instruments/") else {}
        if quantity in tree.get("measures", ()) and "expanded_uncertainty" in tree:
            found.append(path.rsplit("/", 1)[-1].removesuffix(".yaml"))
    return found


def test_two_uncertainties_of_two_readings_by_rule_and_by_micrometer_are_as_by_hand(
    texts: dict[str, str],
) -> None:
    # rule-1: 1/32 in at k = 2, division 1/32 in: u = sqrt((1/64)^2 + (1/32)^2 / 12) = 0.018042 in;
    # 2 sqrt(2) u = 0.05103 in
    assert 2 * math.sqrt(2) * stated(texts, "rule-1") / INCH == pytest.approx(0.05103, abs=5e-6)
    # micrometer-2: 0.003 in at k = 2, 0.001 in: u = sqrt(0.0015^2 + 0.001^2 / 12) = 0.0015275 in;
    # 2 sqrt(2) u = 0.0043205 in
    assert 2 * math.sqrt(2) * stated(texts, "micrometer-2") / INCH == pytest.approx(0.0043205, abs=5e-7)


def test_what_counts_as_unseen_is_a_change_and_stays_below_the_threshold(runs: list[Planted]) -> None:
    for run in runs:
        for one in run.unseen:
            assert one.before != one.after
            assert one.size < one.seen_from


def test_no_slip_is_by_chance_none(runs: list[Planted]) -> None:
    for run in runs:
        for one in run.answers:
            assert one.before != one.after


def test_metal_added_is_larger_and_a_falling_flange_lower(runs: list[Planted]) -> None:
    for kind, sign in (("metal-added", 1), ("flange-thickness-rising", 1), ("flange-height-falling", -1)):
        for _, one in answers(runs, kind):
            pairs = zip(one.before.split("; "), one.after.split("; "), strict=True)
            assert all(sign * (length(after).exact - length(before).exact) > 0 for before, after in pairs)


def test_units_mixed_is_off_by_25_4_either_way(runs: list[Planted]) -> None:
    for _, one in answers(runs, "units-mixed"):
        ratio = float(length(one.after).exact / length(one.before).exact)
        assert ratio == pytest.approx(25.4, rel=0.05) or ratio == pytest.approx(1 / 25.4, rel=0.05)


def test_transposed_digits_are_the_same_digits_and_their_difference_divides_by_nine(
    runs: list[Planted],
) -> None:
    for _, one in answers(runs, "digits-transposed"):
        before, after = ("".join(filter(str.isdigit, text)) for text in (one.before, one.after))
        assert sorted(before) == sorted(after)
        assert (int(before) - int(after)) % 9 == 0


def test_one_turn_out_is_one_turn_of_the_instrument(texts: dict[str, str], runs: list[Planted]) -> None:
    for _, one in answers(runs, "one-turn-out"):
        number = one.pointers[0].split("/")[2]
        instrument = value(texts, one.path, f"/readings/{number}/with")
        turn = value(texts, f"instruments/{instrument}.yaml", "/one_turn")
        assert abs(length(one.after).exact - length(one.before).exact) == length(turn).exact


def test_a_lost_fraction_leaves_a_part_of_what_was_written(runs: list[Planted]) -> None:
    for _, one in answers(runs, "fraction-lost"):
        assert one.after != one.before
        assert one.before.endswith(one.after) or one.before.startswith(one.after.split()[0].rstrip('"'))


def test_sides_swapped_exchanges_two_figures(runs: list[Planted]) -> None:
    for _, one in answers(runs, "sides-swapped"):
        assert sorted(one.before.split("; ")) == sorted(one.after.split("; "))


def test_a_second_session_file_is_a_copy_of_a_first(texts: dict[str, str], runs: list[Planted]) -> None:
    for run, one in answers(runs, "two-files-for-one-session"):
        assert one.path not in texts
        assert run.texts[one.path] == texts[one.also[0]]


def test_an_edited_signed_reading_no_longer_is_what_its_correction_says_it_was(
    texts: dict[str, str], runs: list[Planted]
) -> None:
    for run, one in answers(runs, "signed-reading-edited"):
        correction = read_tree(texts[one.also[0]].encode())
        assert value(texts, one.path, one.pointers[0]) == correction["was"]
        assert value(run.texts, one.path, one.pointers[0]) != correction["was"]


def test_a_ledger_with_no_room_for_a_kind_is_refused(texts: dict[str, str]) -> None:
    few = {path: text for path, text in texts.items() if not path.startswith("corrections/")}
    with pytest.raises(NoRoom, match="signed-reading-edited"):
        plant(read_texts(few), 1)


def test_a_practice_copy_keeps_its_answers_in_a_hidden_file_and_says_so(tmp_path: Path) -> None:
    used = write_practice(shipped("demo-ledger"), tmp_path / "copy", 12)
    answers = json.loads((tmp_path / "copy" / ANSWERS).read_text())
    assert used == answers["seed"] == 12
    assert len(answers["answers"]) >= 40
    said = (tmp_path / "copy" / "README.md").read_text()
    assert ANSWERS in said
    assert not any(one["path"] in said for one in answers["answers"])


def test_two_practice_copies_without_a_seed_differ(tmp_path: Path) -> None:
    seeds = {write_practice(shipped("demo-ledger"), tmp_path / name, None) for name in ("a", "b")}
    assert len(seeds) == 2


def test_a_plain_copy_is_the_demo_with_its_schemas_beside_it(tmp_path: Path) -> None:
    write_demo(shipped("demo-ledger"), tmp_path / "copy")
    for path in shipped("demo-ledger").rglob("*.yaml"):
        inside = path.relative_to(shipped("demo-ledger"))
        first, rest = (tmp_path / "copy" / inside).read_text().split("\n", 1)
        assert rest == path.read_text().split("\n", 1)[1].replace("git_history: not of this book\n", "")
        assert ((tmp_path / "copy" / inside).parent / first.partition("$schema=")[2]).resolve().is_file()
