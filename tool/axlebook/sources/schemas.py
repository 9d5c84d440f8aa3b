"""Judging records against the schema of their kind, and what is left of one that has problems.

Each new shape is judged once, and the memo answers for all others. The frame of a record and each entry of its lists
are judged apart, because frames and entries repeat where whole records do not.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import islice
from typing import Any

from axlebook.sources.left_out import WHOLE, left_out, without
from axlebook.sources.refusals import shown
from axlebook.sources.schema_files import Schema, read_schemas
from axlebook.sources.schema_problems import KEY, Problem, nearest
from axlebook.sources.shapes import Shape, Shapes
from axlebook.sources.verdicts import Verdicts

FOLDERS = {
    "ledger": "",
    "engine": "engines",
    "driver": "drivers",
    "wheelset": "wheelsets",
    "tire": "tires",
    "inspection": "inspections",
    "tire-applied": "tire-work",
    "tire-removed": "tire-work",
    "tire-found": "tire-work",
    "mounting": "mountings",
    "turning": "turnings",
    "defect": "defects",
    "service": "service",
    "instrument": "instruments",
    "person": "people",
    "limit-set": "limits",
    "plan": "plans",
    "waiver": "waivers",
    "correction": "corrections",
}

_MOST_PROBLEMS = 50
_MOST_SHAPES = 1 << 16
_SPLIT = frozenset({"type", "items", "description", "examples"})


class _Judge:
    """One schema with the verdicts of the shapes met so far."""

    def __init__(self, schema: Schema, verdicts: Verdicts) -> None:
        self.schema = schema
        self.verdicts = verdicts
        self.memo: dict[Shape, bool] = {}

    def judge_new(self, shape: Shape, value: Any) -> bool:
        """Return whether a value of a shape not met before is clean, and remember it."""
        if len(self.memo) > _MOST_SHAPES:
            self.memo.clear()
        clean = self.verdicts.is_met(self.schema, value)
        self.memo[shape] = clean
        return clean


class _Form:
    """The schema of one kind, its lists of entries split from the frame."""

    def __init__(self, kind: str, schema: Schema, entries: dict[int, _Judge], verdicts: Verdicts) -> None:
        self.kind = kind
        self.schema = schema
        self.lists: dict[str, _Judge] = {}
        frame = dict(schema["properties"])
        for key, value in schema["properties"].items():
            if value.get("type") == "array" and value.keys() <= _SPLIT:
                items = value["items"]
                self.lists[key] = entries.setdefault(id(items), _Judge(items, verdicts))
                frame[key] = {"type": "array"}
        self.frame = _Judge({**schema, "properties": frame}, verdicts)


class _Forms:
    """The forms of all kinds, and what shapes are made by."""

    def __init__(self) -> None:
        schemas = read_schemas()
        entries: dict[int, _Judge] = {}
        self.shapes = Shapes(schemas.values())
        verdicts = Verdicts(self.shapes)
        self.by_kind = {kind: _Form(kind, schema, entries, verdicts) for kind, schema in schemas.items()}


@lru_cache
def _forms() -> _Forms:
    return _Forms()


def judge(tree: dict[str, Any], path: str) -> list[Problem]:
    """Return what is wrong with a record that stands at `path` in the ledger; an empty list if nothing is.

    >>> [(problem.check, problem.pointer) for problem in judge({"kind": "tire", "marcs": {}}, "tires/t-1.yaml")]
    [('unknown-key', '/marcs#key')]
    """
    kind = tree.get("kind")
    forms = _forms()
    form = forms.by_kind.get(kind) if type(kind) is str else None
    if form is None:
        return [_unknown_kind(tree, path, list(forms.by_kind))]
    frame, bad_entries = _bad_entries(form, forms.shapes, tree)
    shape = forms.shapes.of(frame, 0)
    clean = form.frame.memo.get(shape)
    if clean is None:
        clean = form.frame.judge_new(shape, frame)
    folder = FOLDERS[form.kind]
    if clean and not bad_entries and (path.startswith(folder + "/") if folder else "/" not in path):
        return []
    return _explain(form, tree, path, [] if clean else [frame], bad_entries)


def sound_part(tree: dict[str, Any], problems: list[Problem]) -> dict[str, Any] | None:
    """Return the record without what its problems spoil, entries left out of a list being None; None for all.

    >>> record = {"kind": "tire", "marcs": {}, "note": "from the card"}
    >>> sound_part(record, judge(record, "tires/t-1.yaml"))
    {'kind': 'tire', 'note': 'from the card'}
    """
    pointers = {problem.left_out for problem in problems if problem.left_out is not None}
    form = _forms().by_kind.get(str(tree.get("kind")))
    return without(tree, pointers, frozenset(form.lists) if form else frozenset())


def _bad_entries(
    form: _Form, shapes: Shapes, tree: dict[str, Any]
) -> tuple[dict[str, Any], list[tuple[str, int]]]:
    """Return the frame, its lists emptied, and where in those lists an entry is not clean."""
    frame = tree
    bad: list[tuple[str, int]] = []
    of = shapes.of
    for key, judge_of_entry in form.lists.items():
        entries = tree.get(key)
        if type(entries) is not list:
            continue
        if frame is tree:
            frame = tree.copy()
        frame[key] = []
        mask = shapes.masks[key]
        memo = judge_of_entry.memo
        for number, entry in enumerate(entries):
            shape = of(entry, mask)
            clean = memo.get(shape)
            if clean is None:
                clean = judge_of_entry.judge_new(shape, entry)
            if not clean:
                bad.append((key, number))
    return frame, bad


def _explain(
    form: _Form, tree: dict[str, Any], path: str, bad_frames: list[Any], bad_entries: list[tuple[str, int]]
) -> list[Problem]:
    problems = _wrong_folder(form.kind, path)
    for frame in bad_frames:
        problems += _problems(form, tree, form.frame, frame, ())
    for key, number in bad_entries:
        if len(problems) > _MOST_PROBLEMS:
            break
        problems += _problems(form, tree, form.lists[key], tree[key][number], (key, number))
    if len(problems) > _MOST_PROBLEMS:
        problems = [*problems[:_MOST_PROBLEMS], Problem(
            "too-many-problems", "", f"There are more than {_MOST_PROBLEMS} problems in this record.",
            "Put the first ones right and check again; until then nothing of the record is used.", WHOLE)]
    return problems


def _problems(
    form: _Form, tree: dict[str, Any], judge_of_part: _Judge, part: Any, before: tuple[Any, ...]
) -> list[Problem]:
    from axlebook.sources.schema_faults import find_faults
    from axlebook.sources.schema_wording import word_faults

    problems = []
    faults = find_faults(judge_of_part.verdicts, judge_of_part.schema, part, before)
    for whole, wording in islice(word_faults(faults), _MOST_PROBLEMS + 1):
        place = whole[:-1] if whole[-1:] == (KEY,) else whole
        pointer = _pointer(place) + (KEY if place != whole else "")
        out = _pointer(left_out(form.kind, form.schema, frozenset(form.lists), tree, place))
        problems.append(Problem(wording.check, pointer, wording.message, wording.next, out))
    return problems


def _pointer(steps: tuple[Any, ...]) -> str:
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in steps)


def _unknown_kind(tree: dict[str, Any], path: str, kinds: list[str]) -> Problem:
    folder = path.partition("/")[0] if "/" in path else ""
    of_folder = [kind for kind, at in FOLDERS.items() if at == folder]
    hint = f"Records in `{folder}/` say `kind: {' or '.join(of_folder)}`." if folder and of_folder else (
        f"Write `kind:` with one of {', '.join(kinds)}.")
    kind = tree.get("kind", "")
    if not isinstance(kind, str):
        return Problem("unknown-kind", "/kind", "`kind` must be one word.", hint, WHOLE)
    if not kind:
        place = "/kind" if "kind" in tree else ""
        return Problem("unknown-kind", place, "The record does not say of what kind it is.", hint, WHOLE)
    near = nearest(kind, kinds)
    return Problem("unknown-kind", "/kind", f"`{shown(kind)}` is no kind of record.",
                   f"Write `kind: {near}` if that is meant." if near else hint, WHOLE)


def _wrong_folder(kind: str, path: str) -> list[Problem]:
    wanted, found = FOLDERS[kind], path.rpartition("/")[0].partition("/")[0]
    if wanted == found:
        return []
    stands = f"stands in `{found}/`" if found else "stands at the top of the ledger"
    hint = f"Move the file to `{wanted}/`, or put its kind right." if wanted else (
        "A ledger has one `ledger.yaml`, at its top. Put the kind of this record right.")
    return [Problem("wrong-folder", "/kind", f"The record says that it is of kind {kind}, and {stands}.", hint,
                    None if wanted and found else WHOLE)]
