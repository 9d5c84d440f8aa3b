"""Readings that do not fit what lies around them, each with the one slip that explains it best.

Every reading is held against the earlier and later ones of its line, all positions of a reading together and each
alone. One that is off is explained once; what is explained is left out of what the others are held against. A value
that later ones bear out is a change, not a slip of the pen.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from statistics import median
from typing import NamedTuple

from axlebook.trends.series import Dated
from axlebook.trends.slips import PLAIN, Explanation, Slip, name_slip

from . import companions, other_unit, relations, worst_then
from .book import Book
from .condition import CHANGED_BY_TURNING
from .explanations import explanations
from .offs import Around, Off, are_opposite, step_of
from .plausibility import Practice, practice_of
from .reading import Reading
from .screening import Screen

COVERED = 2.2  # times what two certificates leave open that they answer for together
OPEN = 4.0  # times what the neighbors leave open, that is allowed beside that
EXPANDED = 1.2  # coverage of what certificates leave open, less what rounding has had already
PLAIN_AT_TWO = 3.0  # another reader of the same place is a better witness than any guess
LASTING = 1.25  # times the factor of a plain jump that what is before and since must differ by
ALONE = 2.0  # times the factor of a plain jump where nothing but the other positions speaks
EXCHANGE_ASKS = 1.25  # times the factor of a plain jump: two readings are tried against many
EXCHANGED_FITS = 2.5  # spreads that exchanged values may lie off once they are put back


class Doubt(NamedTuple):
    """A doubtful reading: which values, what was expected, and the slip that explains it best."""

    reading: Reading
    offs: tuple[Off, ...]
    slip: Slip
    last: Dated | None  # the reading it is shown beside
    stays: bool = False  # later readings bear it out: something changed
    partner: Reading | None = None  # the other reading of an exchange
    latest: bool = False  # nothing has been read since
    note: bool = False  # it asks for a word, not for an answer


def doubts(book: Book) -> list[Doubt]:
    """Every doubtful reading of the book, found once."""
    known: list[Doubt] | None = book.__dict__.get("_doubts")
    if known is None:
        known = book.__dict__["_doubts"] = list(Search(book).run())
    return known


class Search:
    """One search through the book, the wildest readings first."""

    def __init__(self, book: Book) -> None:
        """Prepare what is asked again and again."""
        self.book, self.around = book, Around(book)
        self.practice: Practice = practice_of(book)
        self.screen = Screen(self.around.history)
        self.done: set[int] = set()

    def run(self) -> Iterator[Doubt]:
        """Yield the doubtful readings."""
        for reading, offs, kind, says in relations.by_relation(self.around):
            if id(reading) not in self.done and "reason_kept" not in reading.tree:
                self.done.add(id(reading))
                yield Doubt(reading, offs, Slip(kind, Explanation(kind, (), says=says)), None)
        yield from self._siblings()
        for reading in self.screen.wild():
            if id(reading) in self.done or "reason_kept" in reading.tree:
                continue
            doubt = self._judged(reading)
            if doubt is not None:
                self._leave_out(doubt)
                yield doubt
        yield from self._second_readers()
        yield from self._better_than_angles()
        for reading, offs, kind, says in other_unit.other_units(self.around):
            if id(reading) not in self.done:
                self.done.add(id(reading))
                yield Doubt(reading, offs, Slip(kind, Explanation(kind, (), says=says)), None)
        for reading, offs, kind, says in companions.other_ways(self.around, self.practice):
            if id(reading) not in self.done and "reason_kept" not in reading.tree:
                yield Doubt(reading, offs, Slip(kind, Explanation(kind, (), says=says)), None, note=True)

    def _second_readers(self) -> Iterator[Doubt]:
        """Two people who differ, where neither was named for a slip."""
        for reading, offs, kind, says in companions.second_readers(self.around, self.practice):
            pair = [reading, *self.around.fellows(reading)]
            if all(id(r) not in self.done and "reason_kept" not in r.tree for r in pair):
                self.done.add(id(reading))
                yield Doubt(reading, offs, Slip(kind, Explanation(kind, (), says=says)), None)

    def _better_than_angles(self) -> Iterator[Doubt]:
        """The worst place, where it is better than an angle was."""
        for reading, off, then in worst_then.better_than_angles(self.around, self.practice):
            if id(reading) not in self.done and "reason_kept" not in reading.tree:
                self.done.add(id(reading))
                slip = self._likeliest(reading, (off,), None, plain_kind(self.book, reading, off.residual))
                yield Doubt(reading, (off,), slip, then, latest=self.around.is_last(off))

    def _siblings(self) -> Iterator[Doubt]:
        """Values that stand alone in time, against the other positions of the same reading."""
        other_units = other_unit.unit_slips(self.book)  # those are told as such, below
        for reading, off in companions.siblings(self.around, self.practice):
            if id(reading) in self.done or id(reading) in other_units or "reason_kept" in reading.tree:
                continue
            lone = off.around.before is None and off.around.after is None
            plain = "unlike-its-neighbors" if lone else plain_kind(self.book, reading, off.residual)
            slip = self._likeliest(reading, (off,), None, plain)
            # A gap or a run-out may well be at one place only; metal that wears away is there all round.
            small = abs(off.residual) < off.expected / 3 or self._is_metal(reading.quantity)
            if slip.of is not None or (small and len(reading.values) > 2 and away(off) > ALONE * self.practice.plain):
                doubt = Doubt(reading, (off,), slip, None)
                self._leave_out(doubt)
                yield doubt

    def _is_metal(self, quantity: str) -> bool:
        """Whether it is a size of the part itself: what wears away, or what heat changes."""
        word = self.book.vocabulary.quantities.get(quantity)
        return word is not None and (word.wear == "lowers" or word.needs_temperature)

    def _judged(self, reading: Reading) -> Doubt | None:
        offs = self.around.offs(reading)
        if not offs:
            return None
        found = self._all(reading, offs) if len(offs) > 1 else None
        if found is None:
            worst = max(offs, key=away)
            found = self._named(reading, (worst,), away(worst))
        return found or self._changed(reading, offs)

    def _all(self, reading: Reading, offs: list[Off]) -> Doubt | None:
        """All positions together, where they moved one way."""
        middle, count = median(off.residual for off in offs), len(offs)
        mean = math.fsum(off.residual for off in offs) / count
        moved = sum(off.residual * middle > 0 and abs(off.residual) > off.spread for off in offs)
        if moved < max(2, count * 0.6):
            return None
        alone = math.fsum(off.scatter**2 for off in offs) / count**2
        rest = math.fsum(off.spread**2 - off.scatter**2 for off in offs) / count**2
        pooled = self.screen.together.get((reading.quantity, reading.instrument), 0.0)
        slack = offs[0].grid / math.sqrt(count) + EXPANDED * min(off.apart for off in offs)
        spread = math.sqrt(max(pooled**2, alone) + rest)
        return self._named(reading, tuple(offs), max(min(abs(middle), abs(mean)) - slack, 0.0) / spread)

    def _named(self, reading: Reading, offs: tuple[Off, ...], far: float) -> Doubt | None:
        """Name the slip of some values, where they are far enough off for it."""
        middle = median(off.residual for off in offs)
        if abs(middle) < self.practice.least * offs[0].reach:
            return None
        far = max(far, self.practice.plain * min(beyond_certificates(off, middle) for off in offs))
        partner = self._partner(reading, offs, far)
        if far < self.practice.with_mark and partner is None:
            return None
        if relations.tread_explains(self.around, reading, offs, middle, self.practice):
            return None
        fellow = self._fellow(reading, offs)
        plain = "second-reader-disagrees" if fellow is not None else plain_kind(self.book, reading, middle)
        slip = self._likeliest(reading, offs, partner, plain)
        other = self._other_side(offs) if slip.of is None else None
        if other is not None and (found := self._likeliest(reading, other, partner, plain)).of is not None:
            slip, offs = found, other
        if slip.of is None and far < self.practice.plain:
            return None
        if slip.of is None and fellow is not None:
            slip = Slip(plain, Explanation(plain, (), says=companions.said_by(fellow, offs[0].position)))
        side = offs[0].around.before or offs[0].around.after
        held = self.around.history.lines[offs[0].number].points[side.nearest] if side else None
        exchanged = partner if slip.of is not None and partner is not None and slip.of.exchanged else None
        return Doubt(reading, offs, slip, held, False, exchanged, self.around.is_last(offs[0]))

    def _likeliest(self, reading: Reading, offs: tuple[Off, ...], partner: Reading | None, plain: str) -> Slip:
        return name_slip(
            [off.value for off in offs],
            [off.expected for off in offs],
            [rounded(off) for off in offs],
            explanations(self.around, reading, offs, partner),
            plain,
            PLAIN_AT_TWO if plain == "second-reader-disagrees" else PLAIN,
        )

    def _other_side(self, offs: tuple[Off, ...]) -> tuple[Off, ...] | None:
        """The same values against the side that lies further off, where before and after do not agree."""
        found = []
        for off in offs:
            for side in (off.around.before, off.around.after):
                if side is not None and side.value != off.expected and off.expected != off.around.value:
                    found.append(off._replace(expected=side.value, spread=math.sqrt(off.scatter**2 + side.variance)))
        return tuple(found) if len(found) == len(offs) else None

    def _fellow(self, reading: Reading, offs: Sequence[Off]) -> Reading | None:
        """Another person's reading of the same place, where it does not bear this one out."""
        return next((other for other in self.around.fellows(reading) if self._disagrees(other, offs)), None)

    def _disagrees(self, other: Reading, offs: Sequence[Off]) -> bool:
        theirs = {off.position: off.value for off in self.around.offs(other)}
        return any(
            off.position in theirs and abs(off.value - theirs[off.position]) > abs(off.residual) / 2 for off in offs
        )

    def _partner(self, reading: Reading, offs: tuple[Off, ...], far: float) -> Reading | None:
        """The reading of another wheel in the same record that looks exchanged with this one."""
        if far < self.practice.plain / 3 or len(offs) < len(reading.values):
            return None
        others = self.around.others(reading)
        best, found = 0.0, None
        for other in others:
            if "reason_kept" in other.tree or id(other) in self.done:
                continue
            gain = self._gain(offs, other, 1 if are_opposite(reading, other) else len(others))
            if gain > best:
                best, found = gain, other
        return found

    def _gain(self, offs: tuple[Off, ...], other: Reading, among: int) -> float:
        """How much better both readings fit once exchanged, as the square of a distance beyond what is asked."""
        theirs = {off.position: off for off in self.around.offs(other)}
        pairs = [(off, theirs[off.position]) for off in offs if off.position in theirs]
        if len(pairs) < len(offs):
            return 0.0
        count = len(pairs)
        between = abs(math.fsum(a.expected - b.expected for a, b in pairs)) / count
        moved = min(abs(math.fsum(one.residual for one in side)) / count for side in zip(*pairs, strict=True))
        if between < self.practice.least * pairs[0][0].reach or moved < between / 2:
            return 0.0
        now = math.fsum((one.residual / rounded(one)) ** 2 for pair in pairs for one in pair)
        back = math.fsum(
            ((two.value - one.expected) / rounded(one)) ** 2 for a, b in pairs for one, two in ((a, b), (b, a))
        )
        if back > EXCHANGED_FITS**2 * 2 * count:
            return 0.0
        return now - back - (EXCHANGE_ASKS * self.practice.plain) ** 2 - 2 * math.log(among)

    def _changed(self, reading: Reading, offs: list[Off]) -> Doubt | None:
        """A change that later readings bear out, and that no work on record explains."""
        word = self.book.vocabulary.quantities.get(reading.quantity)
        steps = [(off, step) for off in offs if (step := step_of(off, LASTING * self.practice.plain)) is not None]
        if word is None or word.wear == "none" or len(steps) < max(1, len(offs) * 0.6):
            return None
        size = median(step for _, step in steps)
        if abs(size) < 2 * self.practice.least * offs[0].reach or not self._tells(reading, size):
            return None
        told = tuple(one._replace(expected=one.around.before.value) for one, _ in steps if one.around.before)
        side = told[0].around.before
        before = self.around.history.lines[told[0].number].points[side.nearest] if side else None
        other = before is not None and before.way[0] != told[0].point.way[0]
        kind = "method-changed" if other else plain_kind(self.book, reading, size)
        return Doubt(reading, told, Slip(kind, None), before, True)

    def _tells(self, reading: Reading, size: float) -> bool:
        """Whether a lasting change needs a word: not where parts are renewed without any work of ours on record."""
        raises = self.book.vocabulary.quantities[reading.quantity].wear == "raises"
        return reading.quantity in CHANGED_BY_TURNING or (size > 0) is raises

    def _leave_out(self, doubt: Doubt) -> None:
        history = self.around.history
        for reading in (doubt.reading, *((doubt.partner,) if doubt.partner else ())):
            self.done.add(id(reading))
            if not doubt.stays:
                named = {off.position for off in doubt.offs}
                for number, index in history.at[id(reading)]:
                    if history.lines[number].position in named:
                        self.around.leave_out(number, index)


def rounded(off: Off) -> float:
    """The spread with what rounding adds: a rectangle of one division."""
    return math.sqrt(off.spread**2 + off.grid**2 / 3)


def away(off: Off) -> float:
    """How many spreads one value is off, beyond what rounding and certificates leave open."""
    return max(abs(off.residual) - off.grid - EXPANDED * off.apart, 0.0) / off.spread


def beyond_certificates(off: Off, size: float) -> float:
    """How far a value read with another instrument is off by both certificates, in times what they cover.

    What the neighbors leave open counts in full; the reading's own scatter is in its certificate.
    """
    if not off.apart:
        return 0.0
    beside = math.sqrt(max(off.spread**2 - off.scatter**2, 0.0))
    return max(abs(size) - off.grid, 0.0) / (COVERED * off.apart + OPEN * beside)


def plain_kind(book: Book, reading: Reading, size: float) -> str:
    """What a jump is called that no slip explains."""
    quantity = reading.quantity
    if quantity == "back_to_back":
        return "back-to-back-out-of-line"
    if quantity == "flange_height" and size < 0:
        return "flange-height-falls"
    if quantity == "flange_thickness" and size > 0:
        return "flange-thickness-rises"
    word = book.vocabulary.quantities.get(quantity)
    if word is None or word.of not in ("wheel", "tire", "end"):
        return "jump-beyond-rate"
    added = (word.wear == "lowers" and size > 0) or (word.wear == "raises" and size < 0)
    return "metal-added" if added else "jump-beyond-rate"
