"""A writer's room: as it was before, as it is after a run without a fault, and as often as it takes to try faults."""

from __future__ import annotations

import io
import shutil
import sys
from dataclasses import replace
from pathlib import Path

from tests.cli.commands import call
from tests.hostile.faults import NONE, Ended, Fault, Files, files_of, problems_left, run_watched
from tests.hostile.writers import ENTER, Writer

OURS = "a fault of axlebook itself"


class Stage:
    """A writer and its rooms."""

    def __init__(self, writer: Writer, folder: Path) -> None:
        self.writer, self.folder, self.count = writer, folder, 0
        self.first = folder / "first"
        self.name = writer.ledger(self.first).name
        self._warm(self.room() / self.name)
        whole = self.room()
        ended = self.run(whole)
        assert ended.code in (0, 1), ended.err
        self.steps, self.seconds = ended.steps, ended.seconds
        self.before: Files = files_of(self.first)
        self.whole: Files = files_of(whole)
        self.largest = max(len(content) for path, content in self.whole.items() if content != self.before.get(path))

    def _warm(self, ledger: Path) -> None:
        """Import here what the command imports, so that no child has to."""
        was, sys.stdin = sys.stdin, io.TextIOWrapper(io.BytesIO("\n".join([*self.writer.typed, ""]).encode()))
        try:
            call(*self.writer.asked, at=ledger)
        finally:
            sys.stdin = was

    def room(self, at: Path | None = None) -> Path:
        """A fresh room, as it was before."""
        self.count += 1
        return Path(shutil.copytree(self.first, (at or self.folder) / str(self.count), symlinks=True))

    def run(self, room: Path, fault: Fault = NONE) -> Ended:
        """Give the command in a room."""
        return run_watched(self.writer, room / self.name, room, fault)

    def wrong_after_kill(self, room: Path, ended: Ended) -> list[str]:
        """What a kill left that it should not, and what then comes of the same call."""
        found = problems_left(self.writer, room, self.before, self.whole)
        again = self._go_on(room, ended, found)
        if again.code not in (0, 1, 2) or OURS in again.err or "Traceback" in again.err:
            found.append(f"given again: {again.code} {again.err[-200:]}")
        elif again.code != 2 and files_of(room) != self.whole:
            found.append("given again: another outcome")
        elif again.code == 2 and problems_left(self.writer, room, self.before, self.whole):
            found.append("given again: something is half now")
        return found

    def _go_on(self, room: Path, ended: Ended, found: list[str]) -> Ended:
        """The same call once more; guided entry goes on with its draft, in which no answer may be missing."""
        if self.writer is not ENTER:
            return self.run(room)
        kept = kept_answers(room / self.name)
        done = ended.made[: ended.steps - 1] if ended.code == -9 else ended.made
        # The draft's two first lines; then a line for each answer but the last, which has the record written.
        brought = min(done.count(b"s") - 2, len(self.writer.typed) - 1)
        is_written = files_of(room) != self.before
        if kept is None and is_written:
            return self.run_asked(room, ("check",))
        if not is_written and (kept or 0) < brought:
            found.append(f"{brought} answers were on the disk, {kept} are there")
        how = ["--resume"] if kept is not None else []
        return self.run_asked(room, ("enter", "d-2", "--purpose", "annual", *how), self.writer.typed[kept or 0 :])

    def run_asked(self, room: Path, asked: tuple[str, ...], typed: tuple[str, ...] = ()) -> Ended:
        """Give another command in a room."""
        return run_watched(replace(self.writer, asked=asked, typed=typed), room / self.name, room)


def kept_answers(ledger: Path) -> int | None:
    """How many answers the last draft of a ledger holds; None where there is no draft that says what it is of."""
    drafts = sorted((ledger / ".drafts").glob("*.jsonl")) if (ledger / ".drafts").is_dir() else []
    whole = [path.read_bytes().split(b"\n")[:-1] for path in drafts]
    counts = [max(len(lines) - 2, 0) for lines in whole if lines]
    return counts[-1] if counts else None
