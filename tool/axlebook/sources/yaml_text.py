"""The one door for YAML: bytes of a record to plain dicts, lists and texts.

What a text says is what libyaml's events say. Every scalar is TEXT, exactly as libyaml gives it; the field
decides later what it means. YAML's machinery (anchors, aliases, tags, merge keys, complex keys, several
documents) is refused, because a record must read the same to a person with no tool at all. A record that is
written plainly is read by `yaml_lines`, which is quicker and is held to the same answer; it leaves the rest
here, and every refusal. Places are not kept while reading: when a finding needs its line, `read_places` reads
that one text again through the loop of libyaml's events and listens to where each stood.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from sys import intern
from typing import Any, TypeAlias

from yaml import YAMLError
from yaml._yaml import CParser
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from axlebook.sources.refusals import Refusal, shown, too_large, wording
from axlebook.sources.yaml_lines import read_lines

Tree: TypeAlias = "dict[str, Tree] | list[Tree] | str"
Place: TypeAlias = tuple[int, int]
Next: TypeAlias = Callable[[], Any]

MAX_BYTES = 1 << 20
MAX_DEPTH = 20
KEY = "#key"
_STARTS = frozenset({ScalarEvent, MappingStartEvent, SequenceStartEvent})

# What may stand in no text: controls but tab and line ends, the line ends that editors do not count (U+0085,
# U+2028, U+2029), and the signs that make a terminal or a page show letters in another order than they are.
_CONTROL = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufeff\ufffe\uffff]"
)


# What git leaves in a file that was changed on two sides; a row of `=` alone may also underline a heading in a note.
_MERGE_SIGNS = (b"<<<<<<<", b">>>>>>>", b"|||||||")
_MERGE = re.compile(rb"^(?:<{7}|>{7}|\|{7})(?: |\r?$)", re.MULTILINE)
_MERGE_MIDDLE = re.compile(rb"^={7}\r?$", re.MULTILINE)


def read_tree(content: bytes, *, max_bytes: int = MAX_BYTES, max_depth: int = MAX_DEPTH) -> dict[str, Tree]:
    """Return the record written in `content`; raise Refusal with its place where it is not one.

    >>> read_tree(b'kind: tire\\nmarks: {serial: 0447, seen: }\\n')
    {'kind': 'tire', 'marks': {'serial': '0447', 'seen': ''}}
    """
    require_text(content, max_bytes)
    tree = read_lines(content, max_depth)
    return read_exactly(content, max_depth) if tree is None else tree


def read_exactly(content: bytes, max_depth: int = MAX_DEPTH) -> dict[str, Tree]:
    """Return what libyaml's events say of a text that `require_text` let pass: to this the quick way is held."""
    try:
        return _document(_watched(content, CParser(content).get_event), max_depth)
    except YAMLError as error:
        raise _refusal(content, error) from None


def require_text(content: bytes, max_bytes: int = MAX_BYTES) -> None:
    """Refuse what is too large, no UTF-8, left half merged, or has signs beyond ASCII that hide or reorder text."""
    if len(content) > max_bytes:
        raise too_large(len(content), max_bytes)
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise Refusal("not-utf-8", "The file is written in UTF-16.", "Save it again as UTF-8.")
    if any(sign in content for sign in _MERGE_SIGNS) and (left := _MERGE.search(content)):
        raise _half_merged(content, left.start())
    if not content.isascii():
        _require_clean(content)


def read_places(
    content: bytes, *, max_bytes: int = MAX_BYTES, max_depth: int = MAX_DEPTH
) -> dict[str, Place]:
    """Return JSON Pointer -> (line, column) of every value, and of every key under its pointer + `#key`.

    A key that itself ends in `#key` may hide a neighbor's place: no schema has one, and only a line is off.

    >>> read_places(b'kind: tire\\n')
    {'': (1, 1), '/kind#key': (1, 1), '/kind': (1, 7)}
    """
    require_text(content, max_bytes)
    next_event: Next = CParser(content).get_event
    marks: list[Place] = []
    mark = marks.append

    def listening() -> Any:
        event = next_event()
        if type(event) in _STARTS:
            start = event.start_mark
            mark((start.line + 1, start.column + 1))
        return event

    try:
        tree = _document(_watched(content, listening), max_depth)
    except YAMLError as error:
        raise _refusal(content, error) from None
    pointers: list[str] = []
    _add_pointers(tree, "", pointers.append)
    return dict(zip(pointers, marks, strict=True))


def _add_pointers(tree: Tree, pointer: str, add: Callable[[str], None]) -> None:
    """Add the pointers of a tree in the order of its events: a dict keeps the order of the text."""
    add(pointer)
    if isinstance(tree, dict):
        for key, value in tree.items():
            below = f"{pointer}/{key.replace('~', '~0').replace('/', '~1')}"
            add(below + KEY)
            if isinstance(value, str):
                add(below)
            else:
                _add_pointers(value, below, add)
    elif isinstance(tree, list):
        for number, value in enumerate(tree):
            _add_pointers(value, f"{pointer}/{number}", add)


# --- the loop -----------------------------------------------------------------------------------------------


def _document(next_event: Next, max_depth: int) -> dict[str, Tree]:
    next_event()  # the start of the stream
    event = next_event()
    if type(event) is StreamEndEvent:
        raise _empty()
    if event.tags:
        raise _at(event, "tag", "The file names tags of its own.", "Take the `%TAG` line away.")
    event = next_event()
    if type(event) is not MappingStartEvent:
        raise _not_a_mapping(event)
    tree = _mapping(next_event, max_depth - 1)
    next_event()  # the end of the document
    event = next_event()
    if type(event) is DocumentStartEvent:
        raise _at(event, "second-document", "A second record starts here in the same file.",
                  "Give it a file of its own.")
    return tree


def _mapping(next_event: Next, depth: int) -> dict[str, Tree]:
    # Hot: ten thousand records pass here. Checks that few texts need are in _watched, not here.
    # Interned: records say the same few words and figures again and again, and each is kept once.
    tree: dict[str, Tree] = {}
    while True:
        event = next_event()
        if type(event) is not ScalarEvent:
            if type(event) is MappingEndEvent:
                return tree
            raise _complex_key(event)
        key = intern(event.value)
        if key in tree:
            raise _duplicate(event)
        event = next_event()
        if type(event) is ScalarEvent:
            tree[key] = intern(event.value)
        elif not depth:
            raise _too_deep(event)
        elif type(event) is MappingStartEvent:
            tree[key] = _mapping(next_event, depth - 1)
        else:
            tree[key] = _sequence(next_event, depth - 1)


def _sequence(next_event: Next, depth: int) -> list[Tree]:
    tree: list[Tree] = []
    while True:
        event = next_event()
        if type(event) is ScalarEvent:
            tree.append(intern(event.value))
        elif type(event) is SequenceEndEvent:
            return tree
        elif not depth:
            raise _too_deep(event)
        elif type(event) is MappingStartEvent:
            tree.append(_mapping(next_event, depth - 1))
        else:
            tree.append(_sequence(next_event, depth - 1))


# --- what only some texts need ------------------------------------------------------------------------------


def _require_clean(content: bytes) -> None:
    """Refuse what is not UTF-8, and signs that hide or reorder text."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = content[: error.start].decode("utf-8-sig", "replace")
        raise Refusal("not-utf-8", f"The byte {content[error.start]:#04x} here is not UTF-8.",
                      "Save the file again as UTF-8, and look whether °, ½ and the like came through.",
                      *_place(before)) from None
    found = _CONTROL.search(text)
    if found:
        raise Refusal("control-character", f"There is an invisible sign here (U+{ord(found[0]):04X}).",
                      "Delete it, or type the line again.", *_place(text[: found.start()]))


def _place(before: str) -> Place:
    lines = before.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return len(lines), len(lines[-1]) + 1


def _watched(content: bytes, next_event: Next) -> Next:
    """Return the source of events, watched one by one if the text has a sign of YAML's machinery.

    No anchor is without `&`, no alias without `*`, no tag without `!`, no escape without a backslash: a text
    that has none of them cannot hold what is looked for, and goes past unwatched.
    """
    if not (b"&" in content or b"*" in content or b"!" in content or b"\\" in content or b"<<" in content):
        return next_event

    def watched() -> Any:
        event = next_event()
        _require_plain(event)
        return event

    return watched


def _require_plain(event: Any) -> None:
    kind: Any = type(event)
    if kind is AliasEvent:
        raise _at(event, "alias", f"`*{shown(event.anchor)}` stands for a value written elsewhere.",
                  "Write the value out here; if it is meant as text, put it in quotes.")
    if getattr(event, "anchor", None) is not None:
        raise _at(event, "anchor", f"`&{shown(event.anchor)}` gives this value a name for use elsewhere.",
                  "Take it away and write each value out; if it is meant as text, put it in quotes.")
    if getattr(event, "tag", None) is not None:
        raise _at(event, "tag", "A type is named with `!` before this value.",
                  "Take it away: every value is text. If the `!` is meant as text, put it in quotes.")
    if kind is ScalarEvent:
        if event.value == "<<" and not event.style:
            raise _at(event, "merge-key", "`<<` would pull in lines that are written elsewhere.",
                      "Write the lines out here; if it is meant as text, put it in quotes.")
        found = _CONTROL.search(event.value)
        if found:
            raise _at(event, "control-character",
                      f"A backslash code in this text makes an invisible sign (U+{ord(found[0]):04X}).",
                      "Use single quotes round text with a backslash.")


_TOO_DEEP = ("Groups are nested deeper here than any record needs.",
             "Compare with the template that `axlebook new KIND ID` writes.")


# --- refusals -----------------------------------------------------------------------------------------------


def _at(event: Any, kind: str, reason: str, hint: str) -> Refusal:
    return Refusal(kind, reason, hint, event.start_mark.line + 1, event.start_mark.column + 1)


def _half_merged(content: bytes, at: int) -> Refusal:
    return Refusal(
        "half-merged",
        "A merge was left half done here: both versions stand between the lines that git wrote.",
        "Keep what is right, delete the lines of <<<<<<<, ======= and >>>>>>>, then git add and git commit.",
        content.count(b"\n", 0, at) + 1,
    )


def _empty() -> Refusal:
    return Refusal("empty", "There is no record in this file.",
                   "Fill it in (`axlebook new KIND ID` writes a template), or delete the file.")


def _not_a_mapping(event: Any) -> Refusal:
    if type(event) is ScalarEvent and not event.value and not event.style:
        return _empty()
    return _at(event, "not-a-mapping", "A record starts with lines of `name: value`; this does not.",
               "Begin with `kind: ` and the record's kind.")


def _complex_key(event: Any) -> Refusal:
    return _at(event, "complex-key", "A name here is a list or a group of lines, not one text.",
               "Write `name: value`; put text that starts with a bracket or brace in quotes.")


def _duplicate(event: Any) -> Refusal:
    return _at(event, "duplicate-key", f"`{shown(event.value)}` is written a second time in the same group.",
               "Keep one of the two; for repeated readings, write a list under one name.")


def _too_deep(event: Any) -> Refusal:
    return _at(event, "too-deep", *_TOO_DEEP)


def _refusal(content: bytes, error: YAMLError) -> Refusal:
    """Turn libyaml's own complaint into ours."""
    mark = getattr(error, "problem_mark", None)
    if mark is None:  # its reader met a sign that YAML does not allow; it gives bytes, we give a line
        _require_clean(content)
        return Refusal("control-character", "There is a sign here that a text file does not hold.",
                       "Save the file again as plain UTF-8 text.")
    start = getattr(error, "context_mark", None)
    context, problem = getattr(error, "context", None) or "", getattr(error, "problem", None) or ""
    if "nesting depth" in problem:
        return Refusal("too-deep", *_TOO_DEEP, mark.line + 1, mark.column + 1)
    if left := _MERGE_MIDDLE.search(content):
        return _half_merged(content, left.start())
    text = content.decode("utf-8-sig")
    ours = wording(context, problem, text[mark.index : mark.index + 1])
    if ours.at_start and start is not None:
        mark = start
    last = _place(text)  # libyaml puts the end of a text that ends within a line on a line of its own
    return Refusal("not-yaml", ours.reason, ours.hint, *min((mark.line + 1, mark.column + 1), last))
