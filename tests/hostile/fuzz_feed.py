"""The process that the search runs in: one target, fed until something breaks or the time is over.

It is started by `python -m tests.hostile.fuzz`, and by itself where inputs are made fewer. The arguments behind the
target are those of libFuzzer.
"""

from __future__ import annotations

import base64
import random
import sys
import traceback
from collections.abc import Callable
from pathlib import Path

CORPUS = Path(__file__).with_name("corpus")


def watched() -> dict[str, Callable[[bytes], str]]:
    """The targets, with all of axlebook imported under watch.

    Much is imported only where it is first used: it is used here, so that it is watched too.
    """
    import atheris

    with atheris.instrument_imports(include=["axlebook"]):
        from tests.hostile import fuzz_targets

        fuzz_targets.tell_records(b"")
        fuzz_targets.tell_rows((CORPUS / "rows" / "usual.csv").read_bytes())
    return {"records": fuzz_targets.tell_records, "rows": fuzz_targets.tell_rows}


def feed(target: str, arguments: list[str]) -> None:
    """Feed one target: the process's whole work."""
    import atheris

    tell = watched()[target]
    from tests.hostile.fuzz_changes import changed

    def one_input(content: bytes) -> None:
        try:
            tell(content)
        except BaseException:
            traceback.print_exc()
            print(f"the input, as base64: {base64.b64encode(content).decode()}", file=sys.stderr, flush=True)
            raise

    def mutate(content: bytes, most: int, seed: int) -> bytes:
        chance = random.Random(seed)
        if chance.random() < 0.25:
            return bytes(atheris.Mutate(content, min(len(content) + 20, most)))
        return changed(content, chance, CORPUS / target)[:most]

    # libFuzzer starts itself anew by its first argument, as a line of the shell.
    myself = f"{sys.executable} -m tests.hostile.fuzz_feed {target}"
    atheris.Setup([myself, *arguments], one_input, custom_mutator=mutate)
    atheris.Fuzz()


if __name__ == "__main__":
    feed(sys.argv[1], sys.argv[2:])
