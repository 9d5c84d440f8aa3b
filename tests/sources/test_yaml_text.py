"""The door for YAML: what it takes, what it refuses, and at which place."""

import pickle

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from axlebook.sources.refusals import Refusal
from axlebook.sources.yaml_text import read_places, read_tree

RECORD = b"""\
# yaml-language-server: $schema=../schema/tire.schema.json
kind: tire
marks: {heat: H204, serial: 0447, stamped: outside face}
ordered:
  ordered_on: 2025-09-20
  bore:
    at_least: 43.951 in
values:
  0 deg:
  - 53.251 in
  - '53 3/8"'
  a/b~c: yes
note: |
  two
  lines
empty:
"""


def refusal(content: bytes, **limits: int) -> Refusal:
    with pytest.raises(Refusal) as caught:
        read_tree(content, **limits)
    with pytest.raises(Refusal) as again:
        read_places(content, **limits)
    assert again.value.args == caught.value.args
    return caught.value


def test_every_scalar_is_text_as_it_is_written() -> None:
    assert read_tree(RECORD) == {
        "kind": "tire",
        "marks": {"heat": "H204", "serial": "0447", "stamped": "outside face"},
        "ordered": {"ordered_on": "2025-09-20", "bore": {"at_least": "43.951 in"}},
        "values": {"0 deg": ["53.251 in", '53 3/8"'], "a/b~c": "yes"},
        "note": "two\nlines\n",
        "empty": "",
    }


WORDS = ["yes", "no", "on", "null", "~", "0x1F", "1e3", "10:05", "0447", ".nan", "2025-03-14"]


@pytest.mark.parametrize("word", WORDS)
def test_no_plain_word_becomes_anything_but_text(word: str) -> None:
    assert read_tree(f"k: {word}\nlist: [{word}]\n".encode()) == {"k": word, "list": [word]}


def test_trees_are_plain_builtin_types() -> None:
    def kinds(tree: object) -> set[type]:
        below = tree.values() if isinstance(tree, dict) else tree if isinstance(tree, list) else ()
        return {type(tree)}.union(*(kinds(item) for item in below))

    assert kinds(read_tree(RECORD)) == {dict, list, str}


def test_places_count_from_one_and_are_named_by_json_pointer() -> None:
    places = read_places(RECORD)
    assert places[""] == (2, 1)
    assert places["/kind#key"] == (2, 1)
    assert places["/kind"] == (2, 7)
    assert places["/marks/serial#key"] == (3, 21)
    assert places["/marks/serial"] == (3, 29)
    assert places["/ordered/bore/at_least"] == (7, 15)
    assert places["/values/0 deg/0"] == (10, 5)
    assert places["/values/0 deg/1"] == (11, 5)
    assert places["/values/a~1b~0c#key"] == (12, 3)
    assert places["/note"] == (13, 7)
    assert places["/empty"] == (16, 7)


def test_columns_count_signs_and_not_bytes() -> None:
    assert read_places("h: {½ °: x}\n".encode())["/h/½ °"] == (1, 10)


def test_a_byte_order_mark_and_dos_line_ends_change_nothing() -> None:
    dos = b"\xef\xbb\xbf" + RECORD.replace(b"\n", b"\r\n")
    assert read_tree(dos) == read_tree(RECORD)
    assert read_places(dos) == read_places(RECORD)


def test_document_marks_and_a_version_line_are_accepted() -> None:
    assert read_tree(b"---\nkind: tire\n...\n") == {"kind": "tire"}
    assert read_tree(b"%YAML 1.2\n---\nkind: tire\n") == {"kind": "tire"}


def test_a_record_of_twenty_groups_is_read_and_one_of_twenty_one_is_not() -> None:
    assert read_tree(b"a: " + b"[" * 19 + b"]" * 19)
    found = refusal(b"a: " + b"[" * 20 + b"]" * 20)
    assert (found.kind, found.line, found.column) == ("too-deep", 1, 23)


def test_a_file_of_the_largest_size_is_read_and_one_byte_more_is_not() -> None:
    assert read_tree(b"a: " + b"x" * 97, max_bytes=100) == {"a": "x" * 97}
    assert refusal(b"a: " + b"x" * 98, max_bytes=100).kind == "too-large"


REFUSED = {
    "nothing at all": (b"", "empty", 1, 1),
    "only a byte order mark": (b"\xef\xbb\xbf", "empty", 1, 1),
    "only a comment": (b"# later\n", "empty", 1, 1),
    "an empty document": (b"---\n", "empty", 1, 1),
    "a list": (b"# x\n- a\n", "not-a-mapping", 2, 1),
    "a word": (b"tire\n", "not-a-mapping", 1, 1),
    "a key twice": (b"a: 1\nb:\n  c: 1\n  c: 2\n", "duplicate-key", 4, 3),
    "a key twice in braces": (b"a: {b: 1, b: 2}\n", "duplicate-key", 1, 11),
    "a key twice, once quoted": (b"a: 1\n'a': 2\n", "duplicate-key", 2, 1),
    "an anchor": (b"a: &x 1\n", "anchor", 1, 4),
    "an anchor on a key": (b"&x a: 1\n", "anchor", 1, 1),
    "an anchor on a list": (b"a: &x [1]\n", "anchor", 1, 4),
    "an anchor on the record": (b"--- &x\na: 1\n", "anchor", 1, 5),
    "an alias": (b"a: 1\nb: *x\n", "alias", 2, 4),
    "an alias as a key": (b"a: 1\n*x : 2\n", "alias", 2, 1),
    "a tag": (b"a: !!str 1\n", "tag", 1, 4),
    "a bare tag": (b"a: ! 1\n", "tag", 1, 4),
    "a tag of its own": (b"a: !thing {b: 1}\n", "tag", 1, 4),
    "a verbatim tag": (b"a: !<tag:yaml.org,2002:str> 1\n", "tag", 1, 4),
    "a tag line": (b"%TAG ! tag:x\n---\na: 1\n", "tag", 1, 1),
    "a merge": (b"a: 1\n<<: {b: 2}\n", "merge-key", 2, 1),
    "a list as a key": (b"a: 1\n[b]: 2\n", "complex-key", 2, 1),
    "a group as a key": (b"{a: 1}: 2\n", "complex-key", 1, 1),
    "a question mark key": (b"? [a]\n: b\n", "complex-key", 1, 3),
    "a second document": (b"a: 1\n---\nb: 2\n", "second-document", 2, 1),
    "text after the end": (b"a: 1\n...\nb: 2\n", "not-yaml", 3, 1),
    "a byte of another encoding": (b"a: 1\nt: 350 \xb0F\n", "not-utf-8", 2, 8),
    "a bad byte in a comment": (b"a: 1 # \xff\n", "not-utf-8", 1, 8),
    "UTF-16": ("a: 1\n".encode("utf-16"), "not-utf-8", 1, 1),
    "a NUL": (b"a: \x00\n", "control-character", 1, 4),
    "an escape code": (b"a: 1\nb: x\x1b[31m\n", "control-character", 2, 5),
    "an escape code behind a backslash": (b'a: 1\nb: "x\\x1b[31m"\n', "control-character", 2, 4),
    "a NUL behind a backslash": (b'a: "\\0"\n', "control-character", 1, 4),
    "an escape code in a key": (b'"\\e": 1\n', "control-character", 1, 1),
    "letters turned round": ("a: 1\nb: \u202e x\n".encode(), "control-character", 2, 4),
    "a line end nobody sees": ("a: 1\u2028b: 2\n".encode(), "control-character", 1, 5),
    "a mark in the middle": ("a: \ufeff1\n".encode(), "control-character", 1, 4),
    "a tab before a name": (b"a:\n\tb: 2\n", "not-yaml", 2, 1),
    "a tab further down": (b"a: 1\n\tb: 2\n", "not-yaml", 2, 1),
    "a quote left open": (b'a: 1\nb: "53 3/8\nc: 2\n', "not-yaml", 2, 4),
    "no colon": (b"kind: tire\nmarks\nb: 2\n", "not-yaml", 2, 1),
    "two colons": (b"note: seen at 10:05: hot\n", "not-yaml", 1, 20),
    "a step too far in": (b"a: 1\n  b: 2\n", "not-yaml", 2, 4),
    "a step too little": (b"a:\n  b: 1\n c: 2\n", "not-yaml", 3, 2),
    "text after a quote": (b'a: "53 3/8" in\nb: 1\n', "not-yaml", 1, 13),
    "a brace left open": (b"a: {b: 1\nc: 2\n", "not-yaml", 2, 2),
    "a list on the line": (b"a: - x\n", "not-yaml", 1, 4),
    "a star": (b"a: * worn\n", "not-yaml", 1, 5),
    "an at sign": (b"a: @ 3 in\n", "not-yaml", 1, 4),
    "a percent sign": (b"a: %5\n", "not-yaml", 1, 4),
    "a wrong backslash": (b'a: "rail\\d"\n', "not-yaml", 1, 9),
    "a version of the future": (b"%YAML 2.0\n---\na: 1\n", "not-yaml", 1, 1),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_record_is_refused_at_its_place(name: str) -> None:
    content, kind, line, column = REFUSED[name]
    found = refusal(content)
    assert (found.kind, found.line, found.column) == (kind, line, column)
    assert found.reason.endswith(".")
    assert found.hint.endswith(".")
    assert str(found).isprintable()


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_the_sign_that_cannot_start_a_value_is_named(mark: bytes) -> None:
    assert "`@`" in refusal(mark + "½: x\nb: @ 3 in\n".encode()).reason


def test_a_brace_never_closed_is_refused_inside_the_text() -> None:
    found = refusal(b"a: {b: 1")
    assert (found.line, found.column) == (1, 9)


def test_a_tab_is_called_a_tab_and_the_way_out_is_told() -> None:
    found = refusal(b"a:\n\tb: 2\n")
    assert "tab" in found.reason
    assert "spaces" in found.hint


def test_signs_of_the_machinery_are_welcome_inside_text() -> None:
    text = b'a: see R&D, 3 * 2, hot!\nb: \'c:\\shop\'\nc: "<<"\nd: "53 3/8\\""\n'
    assert read_tree(text) == {"a": "see R&D, 3 * 2, hot!", "b": "c:\\shop", "c": "<<", "d": '53 3/8"'}


def test_a_refusal_crosses_to_another_process_whole() -> None:
    found = refusal(b"a: 1\nb: *x\n")
    again = pickle.loads(pickle.dumps(found))
    assert vars(again) == vars(found)


def place_of_refusal(content: bytes) -> tuple[int, int]:
    try:
        read_tree(content)
    except Refusal as found:
        return found.line, found.column
    return 1, 1


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=300))
def test_any_bytes_are_read_or_refused_and_never_a_crash(content: bytes) -> None:
    line, column = place_of_refusal(content)
    assert line >= 1
    assert column >= 1


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet="ab:-[]{},&*!|>'\"%@`?#<\\ \t\n~0é\u202e", max_size=60))
def test_any_text_is_read_or_refused_at_a_place_inside_it(text: str) -> None:
    line, column = place_of_refusal(text.encode())
    lines = text.split("\n")
    assert 1 <= line <= len(lines)
    assert 1 <= column <= len(lines[line - 1]) + 1


SEEN = st.characters(exclude_categories=("Cc", "Cs", "Cf", "Zl", "Zp", "Cn"), exclude_characters="#")
TEXTS = st.text(SEEN, max_size=8)
TREES = st.recursive(
    TEXTS,
    lambda below: st.lists(below, max_size=3) | st.dictionaries(TEXTS, below, max_size=3),
    max_leaves=12,
)


@settings(max_examples=150, deadline=None)
@given(st.dictionaries(TEXTS, TREES, max_size=4), st.booleans())
def test_what_is_written_is_read_back(tree: dict[str, object], flow: bool) -> None:
    written = yaml.dump(tree, default_style="'", default_flow_style=flow, allow_unicode=True)
    text = written.replace("!!str ", "")
    assert read_tree(text.encode()) == tree
    assert len(read_places(text.encode())) == 1 + _values(tree)


def _values(tree: object) -> int:
    if isinstance(tree, dict):
        return sum(2 + _values(below) for below in tree.values())
    return sum(1 + _values(below) for below in tree) if isinstance(tree, list) else 0
