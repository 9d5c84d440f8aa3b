"""What a shell may put in where somebody presses the tab key: told by the word that the help shows for it.

`axlebook status e-<tab>`: the help calls that word ENGINE, so the engines of the ledger at hand are offered. Only the
names of files are looked at. Whatever goes wrong here is silence: nobody wants a message in the line being typed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import click
from click.shell_completion import CompletionItem

from axlebook.sources.folder import find_ledger
from axlebook.sources.named_files import CENTERS, all_ids, ids_in, purposes_in
from axlebook.sources.names import LEDGER

_WORDS = re.compile(r"[A-Z]+(?:\.zip)?")


def _in(*folders: str) -> Callable[[Path], list[str]]:
    return lambda root: ids_in(root, *folders)


# The words of the help, and what of a ledger each stands for.
OF_A_LEDGER: dict[str, Callable[[Path], list[str]]] = {
    "ENGINE": _in("engines"),
    "WHEELSET": _in("drivers", "wheelsets"),
    "TIRE": _in("tires"),
    "CENTER": _in(CENTERS),
    "PART": _in("engines", "drivers", "wheelsets", "tires", CENTERS),
    "RECORD": all_ids,
    "PERSON": _in("people"),
    "PERSONS": _in("people"),
    "SET": _in("limits"),
    "PURPOSE": purposes_in,
}
FILES = {"PATH": "file", "FILE": "file", "FILE.zip": "file", "DIR": "dir"}


class Offered(click.types.StringParamType):
    """A parameter for which words are offered; what is typed is taken as it is."""

    def __init__(self, words: list[str]) -> None:
        """Take the words that the help shows for the parameter."""
        self.words = words

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        """Offer what begins as what is typed; the shell adds files and folders by itself."""
        root = _ledger(ctx)
        shells_own = [CompletionItem(incomplete, type=FILES[word]) for word in self.words if word in FILES]
        return shells_own + [CompletionItem(id) for id in _begun(self._found(root, ctx, param), incomplete)]

    def _found(self, root: Path | None, ctx: click.Context, param: click.Parameter) -> Iterable[str]:
        words = self.words
        if words == ["TIRE", "CENTER"]:  # one after the other: `axlebook fit TIRE CENTER`
            words = words[min(len(ctx.params.get(param.name or "") or ()), 1) :][:1]
        for word in words:
            if word in OF_A_LEDGER and root is not None:
                yield from OF_A_LEDGER[word](root)
            elif word in ELSEWHERE:
                yield from ELSEWHERE[word](ctx)


def offer(command: click.Command) -> click.Command:
    """Let every parameter of a command offer what its word in the help stands for."""
    for param in command.params:
        words = _WORDS.findall(param.metavar or (param.name or "").upper())
        known = [word for word in words if word in OF_A_LEDGER or word in FILES or word in ELSEWHERE]
        if known and isinstance(param.type, click.types.StringParamType) and not getattr(param, "is_flag", False):
            param.type = Offered(known)
    return command


def _begun(words: Iterable[str], incomplete: str) -> list[str]:
    return [word for word in dict.fromkeys(words) if word.startswith(incomplete)]


def _ledger(ctx: click.Context) -> Path | None:
    named = ctx.params.get("ledger")
    if named and "\0" not in named:
        return Path(named) if (Path(named) / LEDGER).is_file() else None
    return find_ledger(Path("."))


def _revisions(ctx: click.Context) -> list[str]:
    from axlebook.sources.git import names_of_commits

    root = _ledger(ctx)
    return names_of_commits(root) if root else []


def _checks(_: Any) -> list[str]:
    from axlebook.checks import NAMES

    return [name.replace("_", "-") for name in NAMES]


def _kinds(_: Any) -> list[str]:
    from axlebook.sources.schemas import FOLDERS

    return [kind for kind in FOLDERS if kind != "ledger"]


ELSEWHERE: dict[str, Callable[[click.Context], list[str]]] = {"REV": _revisions, "CHECK": _checks, "KIND": _kinds}
