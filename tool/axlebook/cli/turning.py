"""`axlebook turning`: the what-if of turning an engine's coupled set."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from . import CannotRun
from .engines import engine_named
from .options import ALL, AS_OF, COLOR, LEDGER, options
from .sheet_printed import SHEET_FORMAT, with_unread
from .turning_flags import asked, flag_options

if TYPE_CHECKING:
    from axlebook.records.turning_case import Case


@click.command()
@click.argument("engine")
@flag_options
@click.option("--save", "save", metavar="ID", help="Keep the way told here as a draft: turnings/YEAR/ID.yaml.")
@options(SHEET_FORMAT, AS_OF, LEDGER, ALL, COLOR)
def command(
    engine: str, cuts: tuple[str, ...], only: tuple[str, ...], re_tire: str | None, save: str | None, shape: str,
    as_of: str | None, ledger: str | None, whole: bool, color: bool | None, **flags: str | None,
) -> int:  # fmt: skip
    """Work out what turning the coupled set of ENGINE would come to.

    The cut each wheel needs by flange, hollow and flat; the common diameter; the match, and the tire left, under the
    limits in force; ways side by side: all, one pair, a season later, new tires on one axle; what to tell the lathe,
    and what the new diameter moves. Depths count once on a tire and twice on its diameter.

    How a railway turns may stand in a limit set, by contour, as practices: turning_flange_thickness,
    turning_flange_angle, turning_clean_up. Flags stand in their place.

    Exit 1: the way told cannot be done, or leaves something outside a limit; or a tire is for re-tiring.

    \b
      axlebook turning e-12 --flange "1 1/8 in" --flange-angle "70 deg"
      axlebook turning e-12 --only driver-2 --cut "driver-2 left=0.15 in"
      axlebook turning e-12 --re-tire driver-1 --new-thickness "3 in" \\
          --save 2026-04-01-e-12-what-if
    """
    from axlebook.records.turning_case import build_case
    from axlebook.records.turning_wheels import Asked, wheels_of
    from axlebook.reports.turning_view import amounts_of, turning_sheet
    from axlebook.reports.unread import unread_refusal

    from . import opened, reported, turning_saved

    found, day = opened.open_ledger(ledger), opened.asked_day(as_of)
    if save is not None:
        turning_saved.require_id(save)
    outcome = reported.run(found, day)
    chosen = engine_named(outcome.book, engine)
    axles = {wheel.name: wheel.axle for wheel in wheels_of(outcome.book, chosen, Asked())}
    if not axles:
        raise CannotRun(f"no driver stands on engine {chosen.id} now.{unread_refusal(outcome.findings)}")
    case = build_case(outcome.book, chosen, asked(flags, cuts, only, re_tire, axles))
    _require_sense(case)
    if save is not None:
        turning_saved.save(found.root, save, case)
    report = reported.report_of("turning", outcome, found, day, with_git=shape == "json")
    sheet = turning_sheet(case, amounts_of(case), report.day)
    sheet = with_unread(sheet, outcome, [chosen.id], whole=whole or shape != "text")
    turning_saved.put(sheet, case, report, shape, color=color, whole=whole)
    return int(sheet.alarms)


def _require_sense(case: Case) -> None:
    """Refuse a cut deeper than its tire, and new tires of which no size can be made."""
    from axlebook.records.turning_wheels import THICKNESSES

    for wheel in case.wheels:
        thick = min((wheel.read[name].value for name in THICKNESSES if name in wheel.read), default=None)
        depth = case.asked.cuts.get(wheel.name)
        if depth is not None and thick is not None and depth >= thick:
            raise CannotRun(f"--cut: {wheel.name} is not that thick; a depth counts once on the tire.")
    if case.asked.re_tire and not any(plan.asked for plan in case.plans):
        raise CannotRun(f"{'; '.join(case.lacking)}.")
