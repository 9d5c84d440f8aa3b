"""Large ledgers to measure with: copies of the demonstration railway under other names, with planted findings.

A copy has every record of the demo under ids of its own, so sizes and mix of kinds are the demo's, no two texts are
alike, and series, fits and counters are as deep as a real book's. One record in a hundred carries a planted fault.

    python -m tests.bench.generate DIR --records 10000
"""

from __future__ import annotations

import argparse
import random
import re
from collections.abc import Callable, Iterator
from pathlib import Path

TOP = Path(__file__).parents[2]
DEMO = TOP / "demo-ledger"
SHARED = ("ledger.yaml", "limits/", "plans/", "schema/", "attachments/")
SHARE_PLANTED = 100  # one record in so many


def _plant_bare_number(text: str) -> str | None:
    """A value loses its unit."""
    found = re.search(r"(?m)^(\s+(?:worst|\d+ deg|all round): )(\d[^\n]*?) (in|mm)$", text)
    return text[: found.start()] + f"{found[1]}0.5" + text[found.end() :] if found else None


def _plant_unknown_instrument(text: str) -> str | None:
    """A reading names an instrument that is not on file."""
    found = re.search(r"(?m)^(\s+with: )(\S+)$", text)
    return text[: found.start()] + f"{found[1]}gauge-nobody-has" + text[found.end() :] if found else None


def _plant_wrong_date(text: str) -> str | None:
    """The date of a session is written the way a card has it."""
    found = re.search(r"(?m)^measured_on: (\d{4})-(\d\d)-(\d\d)$", text)
    if not found:
        return None
    return text[: found.start()] + f"measured_on: {found[2]}/{found[3]}/{found[1]}" + text[found.end() :]


def _plant_unknown_key(text: str) -> str | None:
    """A key that may be left out is misspelled."""
    return text.replace("\n  hold: ", "\n  hould: ", 1) if "\n  hold: " in text else None


PLANTS: dict[str, Callable[[str], str | None]] = {
    "not-a-measure": _plant_bare_number,
    "unknown-reference": _plant_unknown_instrument,
    "not-a-date": _plant_wrong_date,
    "unknown-key": _plant_unknown_key,
}


def demo_texts() -> dict[str, str]:
    """The demo's record files by path."""
    return {
        path.relative_to(DEMO).as_posix(): path.read_text(encoding="utf-8") for path in sorted(DEMO.rglob("*.yaml"))
    }


def _own_ids(texts: dict[str, str]) -> re.Pattern[str]:
    """Every id of the demo that each copy must have under a name of its own, longest first."""
    ids = {path.rsplit("/", 1)[-1].removesuffix(".yaml") for path in texts if not path.startswith(SHARED)}
    for path, text in texts.items():
        if path.startswith(("drivers/", "wheelsets/")):
            ids |= set(re.findall(r"(?m)^  ([a-z][a-z0-9-]*):$", text)) - {"axle", "register"}
    longest_first = "|".join(sorted(map(re.escape, ids), key=len, reverse=True))
    # a key that happens to read like an id (`lead:`) is none; only centers are ids that stand as keys
    return re.compile(rf"(?<![\w.-])(?:{longest_first})(?![\w.-])(?!:(?<!left:)(?<!right:)(?<!-a:)(?<!-b:))")


def generate(records: int, seed: int = 1) -> Iterator[tuple[str, str, str]]:
    """(path, text, planted check or '') for a ledger of about so many records."""
    texts = demo_texts()
    ids, chance = _own_ids(texts), random.Random(seed)
    own = {path: text for path, text in texts.items() if not path.startswith(SHARED)}
    one_in = SHARE_PLANTED * sum(path.startswith("inspections/") for path in own) // len(texts)
    yield from ((path, text, "") for path, text in texts.items() if path.startswith(SHARED))
    made = len(texts) - len(own)
    copy = 0
    while made < records:
        copy += 1
        renamed = rf"\g<0>-c{copy:03d}"
        for path, text in own.items():
            folder, _, name = path.rpartition("/")
            new, stem = ids.sub(renamed, text), ids.sub(renamed, name.removesuffix(".yaml"))
            planted = ""
            if chance.randrange(one_in) == 0 and path.startswith("inspections/"):
                new, planted = _planted(new, chance)
            made += 1
            yield f"{folder}/{stem}.yaml", f"{new}# copy {copy}\n", planted
            if made >= records:
                return


def _planted(text: str, chance: random.Random) -> tuple[str, str]:
    """A text with one fault that can be planted in it, and the check that must name it; as it was where none can."""
    for check in chance.sample(list(PLANTS), len(PLANTS)):
        changed = PLANTS[check](text)
        if changed is not None:
            return changed, check
    return text, ""


def write(folder: Path, records: int, seed: int = 1) -> dict[str, str]:
    """Write a ledger; returns the planted checks by path."""
    planted = {}
    for path, text, check in generate(records, seed):
        target = folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8")
        if check:
            planted[path] = check
    return planted


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--records", type=int, default=10000)
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args()
    found = write(chosen.folder, chosen.records, chosen.seed)
    print(f"{chosen.records} records, {len(found)} planted")
