"""The lines that a refused sum asks for, as they are copied into a file of the ledger.

What has to be measured stands there as `...`, which no record lets pass: nothing is made up for a reader. The figures
of a metal are those that handbooks print for its kind; they are offered for copying, with that as their source, and no
sum ever uses them before somebody has written them down.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any, NamedTuple

BLANK = "..."
UNFILLED = "which-"  # how a template begins the ids that it cannot know: which-center
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 .-]*[A-Za-z0-9]|[A-Za-z]")
_WORDS_OF_YAML = frozenset({"yes", "no", "on", "off", "true", "false", "null", "y", "n"})
# Modulus, Poisson ratio, expansion: rounded, as handbooks print them for the kind of metal; from memory.
_TYPICAL = {
    "steel": ("29500000 psi", "0.29", "6.5e-6 /degF"),
    "cast iron": ("15000000 psi", "0.26", "5.9e-6 /degF"),
}
_METRIC = {"in": "mm", "degF": "degC", "/degF": "/degC", "psi": "MPa"}
_UNIT = re.compile(rf"(?<=: {re.escape(BLANK)} )(?:{'|'.join(_METRIC)})$")
PLANES = ("0 deg inner", "0 deg outer", "60 deg inner", "60 deg outer", "120 deg inner", "120 deg outer")


class Lines(NamedTuple):
    """Lines to write, and where."""

    into: str
    lines: tuple[str, ...]

    def in_metric(self) -> Lines:
        """The same lines, each blank to be filled in metric units.

        >>> Lines("", ("  all round: ... in", "expansion: ... /degF", "modulus: 29500000 psi")).in_metric().lines
        ('  all round: ... mm', 'expansion: ... /degC', 'modulus: 29500000 psi')
        """
        return self._replace(lines=tuple(_UNIT.sub(lambda unit: _METRIC[unit[0]], line) for line in self.lines))


def material(name: str, there: Mapping[str, Any]) -> Lines:
    """The figures of a metal; `there`: what stands under `materials:` in the ledger's file already.

    >>> print("\\n".join(material("cast steel", {}).lines))
    materials:
      cast steel:
        modulus: 29500000 psi
        poisson: 0.29
        expansion: 6.5e-6 /degF
        source: "typical for steel, handbook; write your own figures and where they stand"
    """
    kind = next((kind for kind in _TYPICAL if name.endswith(kind)), "")
    modulus, poisson, expansion = _TYPICAL.get(kind, (f"{BLANK} psi", BLANK, f"{BLANK} /degF"))
    source = f"typical for {kind}, handbook; write your own figures and where they stand" if kind else BLANK
    figures = {"modulus": modulus, "poisson": poisson, "expansion": expansion, "source": f'"{source}"'}
    half = there.get(name)
    if isinstance(half, Mapping):
        lines = tuple(f"    {key}: {figure}" for key, figure in figures.items() if key not in half)
        return Lines(f"ledger.yaml, below `{name}:`", lines)
    lines = (f"  {_key(name)}:", *(f"    {key}: {figure}" for key, figure in figures.items()))
    return Lines("ledger.yaml, below `materials:`", lines) if there else Lines("ledger.yaml", ("materials:", *lines))


def material_of(center: str, path: str) -> Lines:
    """Of what a center is made, in the record of its wheelset."""
    return Lines(f"{path}, below `{center}:`", ("    material: cast steel",))


def size_of(quantity: str, part: str, wheelset: str) -> Lines:
    """A reading of a size, in an inspection; `wheelset` is what the plans ask it of, '' for a loose tire."""
    about, purpose = (wheelset, "shop") if wheelset else (part, "receiving")
    asked = f"or `axlebook enter {about} --purpose {purpose}` asks for it"
    return Lines(
        f"an inspection (`axlebook new inspection DAY-{about}-{purpose}`; {asked})",
        (
            "readings:", f"  - quantity: {quantity}", f"    part: {part}", "    with: INSTRUMENT",
            f"    part_temperature: {BLANK} degF", f"    instrument_temperature: {BLANK} degF", "    values:",
            *(f"      {at}: {BLANK} in" for at in PLANES),
        ),
    )  # fmt: skip


def one_of(quantity: str, part: str, position: str) -> Lines:
    """A reading that needs no temperature, in an inspection."""
    return Lines(
        f"an inspection (`axlebook new inspection DAY-{part}-receiving`)",
        (
            "readings:", f"  - quantity: {quantity}", f"    part: {part}", "    values:",
            f"      {position}: {BLANK} in",
        ),
    )  # fmt: skip


def told_with(path: str, *keys: str) -> Lines:
    """What a reading does not tell: its instrument, a temperature."""
    shown = {"with": "INSTRUMENT", "part_temperature": f"{BLANK} degF", "instrument_temperature": f"{BLANK} degF"}
    return Lines(f"{path}, beside that reading's `quantity:`", tuple(f"    {key}: {shown[key]}" for key in keys))


def own_expansion(instrument: str, path: str) -> Lines:
    """How an instrument itself grows with the heat."""
    into = path or f"instruments/{instrument}.yaml (`axlebook new instrument {instrument}`)"
    return Lines(f"{into}, one of the two", ("expansion: reads true length", f"expansion: {BLANK} /degF"))


def practice(follows: str) -> Lines:
    """A practice of the railway's own for the shrinkage, with its tolerance; `follows`: one in print."""
    figure = f"    follows: {follows}" if follows else f"    value: {BLANK} in"
    return Lines(
        "limits/own-practice.yaml",
        (
            "kind: limit-set", 'title: "Our own practice"', "source:", '  title: "who decided it, and where it stands"',
            "decision: guard band", "practices:", "  - id: own-shrinkage", "    quantity: interference", figure,
            "    tolerance:", f"      minus: {BLANK} in", f"      plus: {BLANK} in", "    stage: practice",
            '    clause: "page, or minute"',
        ),
    )  # fmt: skip


def adoption(set_id: str, *, below: bool) -> Lines:
    """A limit set taken into use; `below`: under `limit_sets:`, which stands in the ledger's file already."""
    head = () if below else ("defaults:", "  limit_sets:")
    return Lines(
        "ledger.yaml, below `limit_sets:`" if below else "ledger.yaml",
        (*head, f"    - set: {set_id}", f"      adopted_on: {BLANK}", f'      adopted_by: "{BLANK}"'),
    )


def _key(name: str) -> str:
    """A name as a key: in quotes where YAML would take it for something else."""
    plain = _PLAIN.fullmatch(name) and name.lower() not in _WORDS_OF_YAML
    return name if plain else json.dumps(name, ensure_ascii=False)
