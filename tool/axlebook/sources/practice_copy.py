"""The demonstration ledger in a folder of its own, plain or with slips planted in it for practice."""

from __future__ import annotations

import json
import secrets
from collections.abc import Mapping
from pathlib import Path

from axlebook.practice import Planted, Written, plant
from axlebook.sources.names import LEDGER
from axlebook.sources.new_ledger import ATTRIBUTES, IGNORED, with_own_schema
from axlebook.sources.refusals import Refusal
from axlebook.sources.shipped import shipped
from axlebook.sources.writing import new_folder, write_new
from axlebook.sources.yaml_text import read_places, read_tree

ANSWERS = ".answers.json"
_SEEDS = 1 << 31
_OF_THE_CHECKOUT = b"git_history: not of this book\n"  # there the commits are those of axlebook; a copy has its own
_SAID = """\
# Practice copy

This is a copy of the demo ledger with slips planted in it, as they happen at the wheel and at the desk:
{seen} that an attentive reader can see, and {unseen} too small for the instruments to show. It was planted
with the seed {seed}; the same seed plants the same slips.

Find them: `axlebook check` shows what it sees, and an eye that knows wheels may see more. The answers lie
in the hidden file `{answers}` beside this one; `axlebook demo DIR --answers` prints them. Do not look first.

What the demo itself has to be found, in its own README, stands here too; it is no part of the practice.

"""


def read_texts(texts: Mapping[str, str]) -> dict[str, Written]:
    """The records among some texts, read with their places; one that cannot be read is left alone."""
    found = {}
    for path, text in texts.items():
        try:
            content = text.encode()
            found[path] = Written(path, text, read_tree(content), read_places(content))
        except Refusal:
            continue
    return found


def plant_texts(texts: Mapping[str, str], seed: int) -> Planted:
    """Plant slips in the texts of a ledger's records (YAML, by path)."""
    planted = plant(read_texts(texts), seed)
    return Planted({**texts, **planted.texts}, planted.answers, planted.unseen, seed)


def write_practice(demo: Path, target: Path, seed: int | None) -> int:
    """Write a practice copy of a ledger into a new folder, its answers hidden in it; return the seed used."""
    seed = secrets.randbelow(_SEEDS) if seed is None else seed
    files = demo_files(demo)
    texts = {path: content.decode() for path, content in files.items() if path.endswith(".yaml")}
    planted = plant_texts(
        {path: text for path, text in texts.items() if not path.startswith("schema/")}, seed
    )
    files.update({path: text.encode() for path, text in planted.texts.items()})
    said = _SAID.format(seen=len(planted.answers), unseen=len(planted.unseen), seed=seed, answers=ANSWERS)
    files["README.md"] = said.encode() + files.get("README.md", b"").replace(
        b"# The demo ledger", b"## The demo ledger", 1
    )
    write_files({**files, ANSWERS: answers_text(planted).encode()}, target)
    return seed


def write_demo(demo: Path, target: Path) -> bool:
    """Write a copy of the demonstration ledger into a new folder; return whether it became a git repository."""
    from .demo_repository import write_demo_repository
    from .git import GitFailed

    files = demo_files(demo)
    texts = {path: content.decode() for path, content in files.items() if path.endswith(".yaml")}
    kept = {path: text for path, text in texts.items() if not path.startswith("schema/")}
    try:
        with new_folder(target) as beside:
            write_demo_repository(beside, files, read_texts(kept))
    except GitFailed:
        write_files(files, target)
        return False
    return True


def demo_files(demo: Path) -> dict[str, bytes]:
    """The files of a copy: the records with line 1 at their own schemas, and the schemas beside them."""
    files = {".gitattributes": ATTRIBUTES, ".gitignore": IGNORED}
    for path in sorted(shipped("schema").iterdir()):
        if path.is_file():
            files[f"schema/{path.name}"] = path.read_bytes()
    for path in sorted(demo.rglob("*")):
        inside = path.relative_to(demo).as_posix()
        if path.is_file() and not any(part.startswith(".") for part in path.relative_to(demo).parts):
            files[inside] = with_own_schema(path.read_bytes(), inside)
    files[LEDGER] = files[LEDGER].replace(_OF_THE_CHECKOUT, b"")
    return files


def write_files(files: Mapping[str, bytes], target: Path) -> None:
    """Write files into a new folder, all of them or none."""
    with new_folder(target) as beside:
        for path in sorted(files):
            write_new(beside / path, files[path])


def answers_text(planted: Planted) -> str:
    """The answers as JSON."""
    plain = {
        "format_version": 1,
        "seed": planted.seed,
        "answers": [one.plain() for one in planted.answers],
        "unseen": [one.plain() for one in planted.unseen],
    }
    return json.dumps(plain, indent=1, ensure_ascii=False) + "\n"


def read_answers(folder: Path) -> dict[str, object] | None:
    """The answers hidden in a practice copy; None where it has none."""
    try:
        found = json.loads((folder / ANSWERS).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    return found if isinstance(found, dict) else None
