"""A refusal: a text or a file that is not read as it stands, where, why, and what to do about it.

A refusal is the reader's answer to bad input, and it becomes a finding. It is never a crash, and a crash is
never a refusal: nothing here catches more than libyaml's own errors.
"""

from __future__ import annotations

from typing import NamedTuple

ONE_LINE = 120


class Refusal(Exception):  # noqa: N818 - it is an answer, not an error of the program
    """Why a file or a text is not read. `line` and `column` count from 1, as editors do."""

    def __init__(self, kind: str, reason: str, hint: str, line: int = 1, column: int = 1) -> None:
        # All of it goes to Exception, so that a refusal crosses to another process whole.
        super().__init__(kind, reason, hint, line, column)
        self.kind = kind
        self.reason = reason
        self.hint = hint
        self.line = line
        self.column = column

    def __str__(self) -> str:
        return f"line {self.line}, column {self.column}: {self.reason} {self.hint}"


class Wording(NamedTuple):
    """Our words for one complaint of libyaml; `at_start`: point at where it began, not where it showed."""

    reason: str
    hint: str
    at_start: bool = False


_QUOTE_IT = "If this is meant as text, put all of it in quotes."
_TAB = Wording("A tab stands where a line is indented.",
               "Indent with spaces, two to a step; never with a tab.")

# Pairs of (what was being scanned, what was wrong there) as libyaml puts them; "" fits any. First match wins.
_WORDINGS: tuple[tuple[str, str, Wording], ...] = (
    ("", "tab character", _TAB),
    ("quoted scalar", "unexpected end of stream", Wording(
        "A quote is opened here and never closed.",
        "Close it with the same quote mark at the end of the text.", True)),
    ("quoted scalar", "document indicator", Wording(
        "A quote is opened here and not closed before the line of dashes or dots.",
        "Close it with the same quote mark at the end of the text.", True)),
    ("quoted scalar", "escape", Wording(
        "A backslash inside double quotes starts a code that does not exist.",
        "Use single quotes round text with a backslash, or write the backslash twice.")),
    ("quoted scalar", "hexdecimal", Wording(
        "A backslash code inside double quotes is cut short.",
        "Use single quotes round text with a backslash, or write the backslash twice.")),
    ("quoted scalar", "Unicode character escape", Wording(
        "A backslash code inside double quotes names no character.",
        "Use single quotes round text with a backslash, or write the backslash twice.")),
    ("simple key", "expected ':'", Wording(
        "This line has no colon after its name.",
        "Write `name: value`, with a space after the colon.", True)),
    ("", "mapping values are not allowed", Wording(
        "A colon stands where none can be: a second one on the line, or on a line indented too far.",
        "Put text that holds a colon in quotes, or line the name up with the ones above it.")),
    ("block mapping", "expected key", Wording(
        "This does not line up with the names above it, or text follows a closing quote.",
        "Line the name up with its neighbors: with a # goes the space behind it. Quotes go round all of a value.")),
    ("block collection", "expected '-'", Wording(
        "This does not line up with the list above it.",
        "Start each entry with `- `, all in the same column.")),
    ("", "block sequence entries are not allowed", Wording(
        "A list starts with `- ` where none can be.",
        "Put the first `- ` on a line of its own, below the name that it belongs to. " + _QUOTE_IT)),
    ("flow mapping", "expected ',' or '}'", Wording(
        "The braces that open above are not closed, or a comma is missing before this.",
        "Put a comma between entries and a `}` at the end.")),
    ("flow sequence", "expected ',' or ']'", Wording(
        "The brackets that open above are not closed, or a comma is missing before this.",
        "Put a comma between entries and a `]` at the end.")),
    ("an anchor", "alphabetic", Wording("A value cannot start with `&`.", _QUOTE_IT)),
    ("an alias", "alphabetic", Wording("A value cannot start with `*`.", _QUOTE_IT)),
    ("tag", "", Wording("A value cannot start with `!`.", _QUOTE_IT)),
    ("", "undefined tag handle", Wording("A value cannot start with `!`.", _QUOTE_IT)),
    ("block scalar", "", Wording(
        "The `|` or `>` that opens a note of several lines is not followed by a clean line end.",
        "Write `|` alone at the end of the line and start the note on the next, indented.")),
    ("", "incompatible YAML document", Wording(
        "The file asks for a YAML version that is not read here.", "Take the `%YAML` line away.")),
    ("directive", "", Wording(
        "A line cannot start with `%`.", "Take the line away. " + _QUOTE_IT)),
    ("", "directive", Wording("A line cannot start with `%`.", "Take the line away. " + _QUOTE_IT)),
    ("", "expected <document start>", Wording(
        "More text follows after the record has ended.",
        "Line it up with the record above, or take it away.")),
    ("", "mapping keys are not allowed", Wording(
        "A name cannot start with `? `.", "Write `name: value`. " + _QUOTE_IT)),
    ("", "node content", Wording(
        "A value is missing here, or there is a comma or bracket too many.",
        "Write the value, or take the stray sign away. " + _QUOTE_IT)),
)


def wording(context: str, problem: str, sign: str = "") -> Wording:
    """Return our words for what libyaml said of the sign it stopped at, or its own in a plain frame.

    >>> wording("while scanning a simple key", "could not find expected ':'").reason
    'This line has no colon after its name.'
    """
    if "cannot start any token" in problem:
        return _TAB if sign == "\t" else Wording(f"A value cannot start with `{shown(sign)}`.", _QUOTE_IT)
    for scanned, wrong, ours in _WORDINGS:
        if scanned in context and wrong in problem:
            return ours
    said = " ".join(f"{context} {problem}".split())
    return Wording(f"This cannot be read as YAML ({said}).",
                   "Compare the line with another record. " + _QUOTE_IT)


def shown(text: str) -> str:
    """Return text fit for one line of a message: nothing in it can move a cursor, color or reorder a line.

    >>> shown("wheel\\n\\x1b[31m")
    'wheel\\\\n\\\\x1b[31m'
    """
    clean = "".join(sign if sign.isprintable() else _escaped(sign) for sign in text)
    return clean if len(clean) <= ONE_LINE else clean[: ONE_LINE - 1] + "…"


def _escaped(sign: str) -> str:
    if "\udc80" <= sign <= "\udcff":  # a byte of a file name that is not UTF-8, as Python carries it
        return f"\\x{ord(sign) - 0xDC00:02x}"
    return sign.encode("unicode_escape").decode("ascii")


def too_large(size: int, limit: int) -> Refusal:
    """Return the problem of a file that is not read because of its size."""
    return Refusal("too-large", f"The file has {size} bytes; a record has at most {limit}.",
                   "Put pictures and certificates into attachments, and split the record.")
