"""The public YAML test suite: what is plain is read as the suite says, all else is refused with a place.

What we expect is worked out from the suite's own events, never from what the reader gave. libyaml reads YAML 1.1 and
differs from the suite in some places; those are listed by name below, with what a person would see.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from axlebook.sources.refusals import Refusal
from axlebook.sources.yaml_text import read_places, read_tree

CASES = {
    case["id"]: case
    for case in map(json.loads, (Path(__file__).parent / "yaml_suite/cases.jsonl").read_text("utf-8").splitlines())
}
# Invalid by the suite and yet read: each says to a person what we read there, so nothing is taken for something else.
READ_THOUGH_INVALID = {
    "9C9N": {"flow": ["a", "b", "c"]},  # a list within brackets that goes on at the margin
    "DK95/1": {"foo": "bar baz"},  # a tab at the start of a quoted text's second line
    "QB6E": {"quoted": "a b c"},  # a quoted text that goes on at the margin
    "S98Z": {"empty block scalar": ""},  # a text of blank lines, a remark after it
    "SU5Z": {"key": "value"},  # a remark hard by the closing quote
    "X4QW": {"block": "scalar\n"},  # a remark hard by the sign of a folded text
}
# Read otherwise than the suite says.
READ_OTHERWISE = {
    "652Z": {"foo": "bar", "bar": "42"},  # within braces, `?foo` stands for a long way of writing `foo`
    "L24T/1": {"foo": "x\n "},  # a text whose last line is a space, the file ending there without a line end
}
# Valid and plain by the suite, and yet not known to libyaml: refused, with a place, never misread.
REFUSED_THOUGH_PLAIN = {
    "4MUZ/0", "4MUZ/1", "4MUZ/2", "5MUD", "K3WX", "VJP3/1",  # a colon on the line after its name, within braces
    "4ABK", "58MP", "FRK4",  # names without values, or values that start with a colon, within braces
    "2JQS", "NHX8", "NKF9", "S3PD", "SM9W/1",  # a value without a name
    "6CA3", "Q5MG", "A2M4", "DK95/0", "DK95/3", "DK95/4", "96NN/0", "96NN/1", "Y79Y/1",  # tabs where a line is indented
    "6LVF", "2LFX", "BEC7", "MUS6/5", "MUS6/6",  # `%` lines of another version
    "HWV9", "QT73",  # the end of a document that never began
    "UT92", "W5VH",  # a `%` at the start of a line within braces; signs in the name of an anchor
}  # fmt: skip
MACHINERY = {"anchor", "alias", "tag", "complex-key", "second-document", "not-a-mapping", "empty", "duplicate-key"}


def answer(text: str) -> Any:
    """What the reader gives: a tree or the refusal."""
    try:
        return read_tree(text.encode())
    except Refusal as refused:
        return refused


def is_plain(events: list[str]) -> bool:
    """Whether one mapping of names and texts is all there is, without anchors, aliases and tags."""
    marks = [event.split(" ") for event in events]
    return (
        sum(event[0] == "+DOC" for event in marks) == 1
        and events[2].startswith("+MAP")
        and not any(event[0] == "=ALI" or any(word[:1] in "&<" for word in event[1:2]) for event in marks)
    )


def tree_of(events: list[str]) -> Any:
    """The tree the suite's events make; None where a name is itself a list or a mapping, or stands there twice."""
    rest = iter(events[2:])

    def built(event: str) -> Any:
        if event.startswith("=VAL"):
            return text_of(event)
        parts = []
        while (inner := next(rest))[:4] not in ("-MAP", "-SEQ"):
            parts.append(built(inner))
        if event.startswith("+SEQ"):
            return parts
        names = parts[::2]
        if not all(isinstance(name, str) for name in names) or len(set(names)) < len(names):
            raise ValueError
        return dict(zip(names, parts[1::2], strict=True))

    try:
        return built(next(rest))
    except ValueError:
        return None


def text_of(event: str) -> str:
    """The text of a `=VAL` event, its backslash codes resolved."""
    text = event.removeprefix("=VAL ")[1:]
    pieces = text.split("\\\\")
    return "\\".join(piece.replace("\\n", "\n").replace("\\t", "\t").replace("\\b", "\b").replace("\\r", "\r")
                     for piece in pieces)  # fmt: skip


PLAIN = [id for id, case in CASES.items() if "events" in case and is_plain(case["events"])]


@pytest.mark.parametrize("id", [id for id in PLAIN if id not in REFUSED_THOUGH_PLAIN])
def test_a_plain_valid_text_is_read_as_the_suite_says(id: str) -> None:
    case = CASES[id]
    wanted = READ_OTHERWISE.get(id) or tree_of(case["events"])
    found = answer(case["yaml"])
    if wanted is None or any("\\b" in event for event in case["events"]):  # a backspace is refused, as all controls
        assert isinstance(found, Refusal)
        assert found.kind in MACHINERY | {"control-character"}
    else:
        assert found == wanted, case["about"]


@pytest.mark.parametrize("id", [id for id, case in CASES.items() if id not in PLAIN and case["valid"]])
def test_valid_machinery_is_refused_by_its_name_and_place(id: str) -> None:
    case = CASES[id]
    found = answer(case["yaml"])
    if "events" not in case:  # the suite says nothing of what it reads there
        assert isinstance(found, dict | Refusal)
        return
    assert isinstance(found, Refusal), found
    assert found.kind in MACHINERY | ({"not-yaml"} if id in REFUSED_THOUGH_PLAIN else set())
    assert_has_a_place(found, case["yaml"])


@pytest.mark.parametrize("id", [id for id in PLAIN if id in REFUSED_THOUGH_PLAIN])
def test_what_libyaml_does_not_know_is_refused_and_never_misread(id: str) -> None:
    found = answer(CASES[id]["yaml"])
    assert isinstance(found, Refusal)
    assert_has_a_place(found, CASES[id]["yaml"])


@pytest.mark.parametrize("id", [id for id, case in CASES.items() if not case["valid"]])
def test_what_the_suite_calls_invalid_is_refused_with_a_place(id: str) -> None:
    case = CASES[id]
    found = answer(case["yaml"])
    if id in READ_THOUGH_INVALID:
        assert found == READ_THOUGH_INVALID[id]
        return
    assert isinstance(found, Refusal), found
    assert_has_a_place(found, case["yaml"])


@pytest.mark.parametrize("id", CASES)
def test_places_are_found_where_a_text_is_read_and_refused_alike(id: str) -> None:
    text = CASES[id]["yaml"]
    found = answer(text)
    if isinstance(found, Refusal):
        with pytest.raises(Refusal, match=r".") as refused:
            read_places(text.encode())
        assert refused.value.args == found.args
    else:
        places = read_places(text.encode()).values()
        assert all(1 <= line <= text.count("\n") + 1 for line, _ in places)


def assert_has_a_place(found: Refusal, text: str) -> None:
    """Assert that a refusal points into the text, and says what is wrong and what to do."""
    assert 1 <= found.line <= text.count("\n") + 1
    assert found.column >= 1
    assert found.reason
    assert found.hint
    assert str(found).isprintable()
