"""Planting: every kind at least once, more by chance, and some that nobody can see."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from random import Random

from . import kinds_book as book
from . import kinds_figures as figure
from . import kinds_fits as fit
from . import kinds_instruments as instrument
from . import kinds_missing as missing
from . import kinds_wear as wear
from .answer import Planted
from .ground import Ground, Slip, Slips
from .written import Edit, Written, applied

# Those with few places in a ledger come first, so that the others leave them room.
KINDS: Mapping[str, Callable[[Ground], Slips]] = {
    "signed-reading-edited": book.signed_reading_edited,
    "wrong-tire-on-center": fit.wrong_tire_on_center,
    "diameter-does-not-add-up": fit.diameter_does_not_add_up,
    "hot-reading": fit.hot_reading,
    "no-temperature": missing.no_temperature,
    "limit-from-memory": book.limit_from_memory,
    "sides-swapped": figure.sides_swapped,
    "gauge-changed-mid-trend": instrument.gauge_changed_mid_trend,
    "instrument-out-of-certificate": instrument.out_of_certificate,
    "instrument-outside-range": instrument.outside_its_range,
    "fraction-became-date": figure.fraction_became_date,
    "wrong-wheel": figure.wrong_wheel,
    "support-changed-mid-trend": instrument.support_changed_mid_trend,
    "flange-thickness-rising": wear.flange_thickness_rising,
    "flange-height-falling": wear.flange_height_falling,
    "back-to-back-moved": wear.back_to_back_moved,
    "jump-beyond-wear-rate": wear.jump_beyond_wear_rate,
    "metal-added": wear.metal_added,
    "one-turn-out": figure.one_turn_out,
    "digits-transposed": figure.digits_transposed,
    "fraction-lost": figure.fraction_lost,
    "units-mixed": figure.units_mixed,
    "second-reader-disagrees": figure.second_reader_disagrees,
    "false-precision": figure.false_precision,
    "blank-read-as-good": missing.blank_read_as_good,
    "crank-pin-as-datum": fit.crank_pin_as_datum,
    "no-who": missing.no_who,
    "no-when": missing.no_when,
    "no-instrument": missing.no_instrument,
    "no-hold": missing.no_hold,
    "date-impossible": book.date_impossible,
    "two-files-for-one-session": book.two_files_for_one_session,
}
LEAST = 42
UNSEEN = 8
_MOST_OF_A_KIND = 3


class NoRoom(ValueError):  # noqa: N818 - an answer, not an error of the program
    """The ledger has no place for a kind of slip."""


def plant(records: Mapping[str, Written], seed: int, *, least: int = LEAST, unseen: int = UNSEEN) -> Planted:
    """Plant slips in the records of a ledger.

    Parameters
    ----------
    records
        every record of the ledger by its path
    seed
        draws slip, size and place; the same seed plants the same slips
    least
        at least so many that can be seen
    unseen
        so many that are too small to be seen

    Raises
    ------
    NoRoom
        A kind finds no place in this ledger.
    """
    rng = Random(seed)
    ground = Ground(dict(sorted(records.items())), rng)  # the order a folder was read in must not matter
    planted = [_one(ground, kind) for kind in KINDS]
    counts = dict.fromkeys(KINDS, 1)
    while len(planted) < least:
        open_kinds = [kind for kind in KINDS if counts[kind] < _MOST_OF_A_KIND]
        if not open_kinds:
            raise NoRoom(f"only {len(planted)} slips find a place in this ledger")
        kind = rng.choice(open_kinds)
        try:
            planted.append(_one(ground, kind))
            counts[kind] += 1
        except NoRoom:
            counts[kind] = _MOST_OF_A_KIND
    small = [_first_free(ground, wear.too_small(ground), "too small to be seen") for _ in range(unseen)]
    return _joined(records, planted, small, seed)


def _one(ground: Ground, kind: str) -> Slip:
    return _first_free(ground, KINDS[kind](ground), kind)


def _first_free(ground: Ground, slips: Slips, kind: str) -> Slip:
    for slip in slips:
        if ground.free(slip):
            ground.take(slip)
            return slip
    raise NoRoom(f"this ledger has no room for a slip of the kind {kind}")


def _joined(records: Mapping[str, Written], planted: list[Slip], small: list[Slip], seed: int) -> Planted:
    texts = {path: record.text for path, record in records.items()}
    edits: list[Edit] = [edit for slip in [*planted, *small] for edit in slip.edits]
    texts = applied(texts, edits)
    for slip in planted:
        texts.update(slip.new_texts or {})
    return Planted(texts, tuple(slip.answer for slip in planted), tuple(slip.answer for slip in small), seed)
