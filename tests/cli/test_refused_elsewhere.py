"""A refusal that names a next command names the ledger in it, where the reader stands outside of it."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.commands import call, small_ledger

OTHER_MONTH = "service/e-1-2025-05.yaml"


@pytest.mark.parametrize(
    ("words", "next_command"),
    [
        (("steam", "e-1", "2025-06-01", "--by", "nobody"), "axlebook new{} person ID"),
        (("steam", "e-1", "2025-05-02"), "axlebook check{} {}" + OTHER_MONTH),
        (("enter", "e-9-annual-2026-02-28-3cbde4ca"), "axlebook enter{} e-12 --purpose annual"),
        (("enter", "e-1-annuel-2026-02-28-3cbde4ca"), "axlebook enter{} e-1 --purpose annual"),
        (("explain", "ours/nothing"), "axlebook explain{} ours"),
    ],
)
def test_a_refusal_s_next_command_names_the_ledger_outside_of_it_and_not_inside(
    tmp_path: Path, words: tuple[str, ...], next_command: str
) -> None:
    ours = "kind: limit-set\nsource: {title: Ours}\ndecision: as written\n"
    book = small_ledger(tmp_path, {OTHER_MONTH: "kind: service\n", "limits/ours.yaml": ours})
    inside = call(*words, at=book)
    assert inside.code == 2
    assert next_command.format("", "") in inside.err
    outside = call(words[0], "--ledger", book.name, *words[1:], at=tmp_path)
    assert outside.code == 2
    assert next_command.format(f" --ledger {book.name}", f"{book.name}/") in outside.err


def test_an_unknown_name_where_no_ledger_is_at_hand_says_where_it_was_looked_for(tmp_path: Path) -> None:
    called = call("explain", "us-49-cfr-231", at=tmp_path)
    assert called.code == 2
    assert "in what comes with axlebook; a ledger of yours is named with --ledger DIR" in called.err
    assert called.err.endswith("Did you mean us-49-cfr-230? axlebook explain us-49-cfr-230\n")
