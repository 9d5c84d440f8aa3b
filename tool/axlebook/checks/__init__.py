"""The checks, one file each, in reading order: the form of records, plausibility, fits, gauge, wear, due, book.

A check is a module with its manual as docstring, an `ID` that names the fault, and `check(book)`.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from functools import cache
from importlib import import_module
from typing import Protocol, cast

from axlebook.findings import Finding
from axlebook.records.book import Book

# Reading order; explain, the manual and a tie between findings follow it.
NAMES = (
    "unreadable_record",
    "misplaced_file",
    "unknown_kind",
    "wrong_folder",
    "too_many_problems",
    "unknown_key",
    "missing_key",
    "blank_value",
    "left_as_template",
    "wrong_shape",
    "wrong_form",
    "unknown_word",
    "facet_misspelled",
    "place_and_part",
    "not_a_measure",
    "not_a_date",
    "not_a_time",
    "not_a_place",
    "not_a_part",
    "not_a_position",
    "not_a_whole_number",
    "not_a_number",
    "not_a_period",
    "not_an_id",
    "id_twice",
    "unknown_reference",
    "date_impossible",
    "wrong_dimension",
    "table_not_read",
    "weights_disagree",
    "wrong_thing",
    "reading_not_placed",
    "read_under_no_engine",
    "position_overlap",
    "wrong_role",
    "wheelset_not_on_record",
    "tire_not_on_record",
    "who_not_told",
    "when_not_told",
    "instrument_not_told",
    "value_unknown",
    "temperature_not_told",
    "hold_not_told",
    "required_reading_missing",
    "not_measured",
    "wrong_instrument",
    "instrument_out_of_certificate",
    "instrument_out_of_range",
    "false_precision",
    "metal_added",
    "turning_added_metal",
    "flange_height_falls",
    "flange_thickness_rises",
    "diameter_not_bore_and_thickness",
    "one_turn_out",
    "digits_transposed",
    "fraction_lost",
    "mm_for_inches",
    "sides_swapped",
    "wrong_wheel",
    "hot_reading",
    "jump_beyond_rate",
    "back_to_back_out_of_line",
    "method_changed",
    "second_reader_disagrees",
    "repeats_apart",
    "unlike_its_neighbors",
    "pin_as_datum",
    "two_files_one_session",
    "sheet_under_two_days",
    "blank_read_as_good",
    "shipped_set_altered",
    "limit_from_memory",
    "set_not_on_file",
    "adoption_lapsed",
    "set_stands_alone",
    "limit_loosened",
    "limit_waiver_incomplete",
    "limit_waiver_expired",
    "nothing_to_judge",
    "wrong_tire_on_center",
    "bore_outside_order",
    "seat_out_of_round",
    "seat_taper",
    "taper_differs",
    "interference_outside_practice",
    "hoop_stress_high",
    "fit_not_recorded",
    "fitting_face_not_clean",
    "filling_blocks_not_tight",
    "center_not_looked_over",
    "job_briefing_not_noted",
    "tire_held_by_one_means",
    "heat_log_incomplete",
    "heat_evidence_weak",
    "heat_uneven",
    "heat_over_ceiling",
    "mean_too_cold",
    "tire_quenched",
    "clamps_off_early",
    "register_not_felt",
    "register_gap_wide",
    "cold_gauge_missing",
    "back_to_back_not_as_predicted",
    "grip_not_proved",
    "witness_mark_missing",
    "run_out_not_read",
    "not_turned_on_axle",
    "removal_not_told",
    "pressing_outside_practice",
    "hub_fit_outside_practice",
    "pressing_not_told",
    "back_to_back_moved",
    "loose_tire_signs",
    "back_to_back_outside",
    "back_to_back_varies",
    "over_flanges_outside",
    "frog_passage",
    "wheels_off_center",
    "diameters_differ_on_axle",
    "diameters_differ_in_set",
    "tire_thin",
    "tire_narrow",
    "rim_thin",
    "flange_thin",
    "flange_height_outside",
    "tread_hollow",
    "flat_or_shelled",
    "flange_chipped",
    "rim_broken",
    "seam_near_flange",
    "crack_seen",
    "center_broken",
    "examination_not_passed",
    "crack_not_seen_again",
    "condemned_not_seen_again",
    "condemned_read_within",
    "shims_wrong",
    "journal_worn",
    "axle_undersize",
    "run_out",
    "lateral_excessive",
    "worn_before_lead_time",
    "seen_condemned",
    "limit_passed",
    "service_day_not_told",
    "inspection_overdue",
    "examination_overdue",
    "certificate_expired",
    "recheck_overdue",
    "report_late",
    "done_late",
    "correction_not_applied",
    "correction_not_approved",
    "corrected_twice",
    "defect_open",
    "defect_not_recorded",
    "defect_closed_but_outside",
    "part_removed_but_there",
    "tag_incomplete",
    "repair_not_approved",
    "waiver_expired",
    "waiver_of_condemning",
    "waiver_not_approved",
    "waiver_check_unknown",
    "waiver_unused",
    "waiver_outgrown",
    "attachment_missing",
    "attachment_altered",
    "attachment_large",
    "history_cut",
    "signed_record_edited",
    "record_altered",
    "record_deleted",
    "entered_late",
    "author_not_reader",
    "tag_rewritten",
)  # fmt: skip


ALL_IDS = tuple(name.replace("_", "-") for name in NAMES)

# Two processes take the checks in turn, one from either end, so that those that share what is worked out for them are
# put side by side. Where a check stands here changes how long a run takes and nothing else; one that is in no list is
# among those that judge the condition.
ALONG_TIME = frozenset({  # on series in time, on the watch list and on what falls due
    "wrong_wheel", "sides_swapped", "mm_for_inches", "digits_transposed", "fraction_lost", "one_turn_out",
    "hot_reading", "method_changed", "metal_added", "turning_added_metal", "jump_beyond_rate", "flange_height_falls",
    "flange_thickness_rises", "back_to_back_out_of_line", "diameter_not_bore_and_thickness", "unlike_its_neighbors",
    "second_reader_disagrees", "sheet_under_two_days", "back_to_back_moved", "loose_tire_signs",
    "worn_before_lead_time", "inspection_overdue", "examination_overdue", "certificate_expired", "recheck_overdue",
    "report_late", "done_late",
    "unknown_reference",
})  # fmt: skip
BY_THEMSELVES = (  # these share little with others: the first with those that judge, the last with those along time,
    "flat_or_shelled", "crack_seen", "register_gap_wide", "interference_outside_practice", "seat_out_of_round",
    "seat_taper", "taper_differs", "wrong_tire_on_center",
    "false_precision", "instrument_out_of_range", "instrument_out_of_certificate",  # and the two meet among short ones
    "value_unknown", "not_measured", "wrong_thing", "blank_read_as_good", "reading_not_placed", "left_as_template",
    "required_reading_missing", "date_impossible",
)  # fmt: skip
OF_OTHERS = ("defect_", "waiver_")  # these look at the findings of others, so that they come last


class Check(Protocol):
    """What every check module offers."""

    ID: str
    __doc__: str | None
    check: Callable[[Book], Iterator[Finding]]


def all_checks() -> list[Check]:
    """Every check module, in reading order."""
    return [import_check(name) for name in NAMES]


def import_check(name: str) -> Check:
    """The check module of a name."""
    return cast(Check, import_module(f"{__name__}.{name}"))


@cache
def find_check(id: str) -> Check | None:
    """The check of an id, or None."""
    name = id.replace("-", "_")
    return import_check(name) if name in NAMES else None


def run_checks(book: Book, known: Mapping[str, list[Finding]], checks: Collection[str] = ALL_IDS) -> list[Finding]:
    """All findings of some checks, what is within among them; `known`: what some have found already, by their id."""
    book.__dict__.setdefault("_found", {}).update(known)
    return [finding for id in ALL_IDS if id in checks for finding in findings_of(book, id)]


def in_turns_of(states: int) -> list[tuple[int, str]]:
    """The state and the id of the check that are one piece of work each, in an order for two processes from either end.

    They meet among checks that share little: of one state in its midst, of two states where the one ends and the
    other begins. What looks at the findings of others is left out.
    """
    apart = [(name, id) for name, id in zip(NAMES, ALL_IDS, strict=True) if not name.startswith(OF_OTHERS)]
    along = [id for name, id in apart if name in ALONG_TIME]
    free = [name.replace("_", "-") for name in BY_THEMSELVES]
    judging = [id for name, id in apart if name not in {*ALONG_TIME, *BY_THEMSELVES}]
    if states == 1:
        return [(0, id) for id in (*judging, *free, *along)]
    first = [*judging, *along, *free]
    return [(state, id) for state in range(states) for id in (reversed(first) if state else first)]


def findings_of(book: Book, id: str) -> list[Finding]:
    """The findings of one check, worked out once a run; what judges findings of others asks for them here.

    A check whose findings are known is not imported: a hundred and fifty of them take a tenth of a short run.
    """
    known: dict[str, list[Finding]] = book.__dict__.setdefault("_found", {})
    if id not in known:
        module = find_check(id)
        if module is None:
            return []
        known[id] = list(module.check(book))
    return known[id]
