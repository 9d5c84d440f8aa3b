"""The tag that would keep an annual summary: proposed, never set. axlebook itself commits, tags and pushes nothing."""

from __future__ import annotations

from axlebook.records.forms import is_id

_HEX = frozenset("0123456789abcdef")


def tag_proposal(engine: str, year: int, commit: str) -> tuple[str, str]:
    """The name of the tag, and the command that a person may run to set it.

    An annotated tag says who set it and when, and bears its own name; `check` knows it again by that name. `commit` is
    the full hash that the summary was made at, so that the tag keeps that state and no later one.

    Raises
    ------
    ValueError
        The engine is no id, or the commit no hash: neither may reach a command line.

    Examples
    --------
    >>> name, command = tag_proposal("e-12", 2025, "8d3f2a91c0de" + 28 * "0")
    >>> name
    'e-12-annual-2025'
    >>> command[:82]
    "git tag --annotate --message 'e-12: annual summary of 2025' e-12-annual-2025 8d3f2"
    """
    if not is_id(engine) or not set(commit) <= _HEX or len(commit) not in (40, 64):
        raise ValueError(f"no tag can be proposed for {engine!r} at {commit!r}")
    name = f"{engine}-annual-{year:04d}"
    return name, f"git tag --annotate --message '{engine}: annual summary of {year}' {name} {commit}"
