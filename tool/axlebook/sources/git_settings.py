"""What git is told each time it is asked: nothing that a repository's config names is run, nothing is fetched.

A repository may come from a stranger, and its config can name commands: filters, a file-system monitor, hooks, a
pager, a transport, a signature program. All are switched off, and git's own files of the machine and of the user are
not read. By environment, because a key of a hostile config may hold any sign.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

SETTINGS = {
    "advice.graftFileDeprecated": "false",
    "core.fsmonitor": "false",
    "core.untrackedCache": "false",
    "core.hooksPath": os.devnull,
    "core.attributesFile": os.devnull,
    "core.excludesFile": os.devnull,
    "core.pager": "cat",
    "core.sshCommand": "false",
    "credential.helper": "",
    "diff.external": "",
    "gpg.program": "false",
    "log.showSignature": "false",
    "protocol.allow": "never",
    "status.submoduleSummary": "false",
}
_ENVIRONMENT = {
    "GIT_CONFIG_NOSYSTEM": "1",
    "GIT_CONFIG_SYSTEM": os.devnull,
    "GIT_CONFIG_GLOBAL": os.devnull,
    "GIT_CONFIG_PARAMETERS": "",
    "GIT_ATTR_NOSYSTEM": "1",
    "GIT_TERMINAL_PROMPT": "0",
    "GIT_OPTIONAL_LOCKS": "0",
    "GIT_NO_REPLACE_OBJECTS": "1",
    "GIT_GRAFT_FILE": os.devnull,
    "GIT_NO_LAZY_FETCH": "1",
    "GIT_ALLOW_PROTOCOL": "none",
    "GIT_LITERAL_PATHSPECS": "1",
    "GIT_EXTERNAL_DIFF": "",
    "GIT_PAGER": "cat",
    "GIT_ASKPASS": "",
    "SSH_ASKPASS": "",
}
# Where git's own programs lie, and what GitPython reads of itself.
_KEPT = ("GIT_EXEC_PATH", "GIT_PYTHON_")


def environment(git_folder: Path, work_tree: Path | None, settings: Mapping[str, str]) -> dict[str, str]:
    """Return what git is told.

    The repository is named, not searched for, so that neither `core.worktree` nor who owns the folder leads elsewhere.
    """
    told = dict(_ENVIRONMENT, GIT_DIR=str(git_folder))
    if work_tree is not None:
        told["GIT_WORK_TREE"] = str(work_tree)
    pairs = {**SETTINGS, **settings}
    told["GIT_CONFIG_COUNT"] = str(len(pairs))
    for number, (key, value) in enumerate(pairs.items()):
        told[f"GIT_CONFIG_KEY_{number}"] = key
        told[f"GIT_CONFIG_VALUE_{number}"] = value
    return told


@contextmanager
def without_the_callers_git() -> Iterator[None]:
    """Take every variable of git away while it is asked, and put it back.

    In a hook of another repository GIT_COMMON_DIR, GIT_OBJECT_DIRECTORY, GIT_INDEX_FILE, GIT_SHALLOW_FILE and more
    lead there. Emptying them is not enough (an empty one is still a place), and GitPython can add but not take away.
    """
    taken = {key: os.environ.pop(key) for key in list(os.environ) if key.startswith("GIT_") and not _kept(key)}
    try:
        yield
    finally:
        os.environ.update(taken)


def _kept(key: str) -> bool:
    return key.startswith(_KEPT)
