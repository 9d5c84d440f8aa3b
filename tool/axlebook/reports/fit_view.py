"""What the sheet of a shrink fit holds: the same lines from records and from a what-if."""

from __future__ import annotations

from axlebook.engineering.fitting import Grip

from .amounts import percent
from .fit_heat_view import heat_section
from .fit_loosening_view import loosening_section
from .fit_story import CENTER_ENDS, HOLD_ENDS, FitStory, bounded, low_to_high, texts, triple
from .sheet import Line, Section, Sheet, computed

ESTIMATE = (
    "Worked out from what was measured, for the lead who plans the fit: a plan, no leave to heat, lift or run anything."
)
CAUTIONS = (
    "Suspended load: nobody under or beside a hanging tire; two independent means of holding it.",
    "Hot metal does not look hot below red: gloves, keep clear, mark it.",
    "Propane: leak test, shut-off in reach, air, fire watch; no flame near oil or bearings.",
    "Pinch points: a tire drops home at once; no hands between tire, center and lip.",
    "Never quench: let tire and center come cold together, clamped.",
    "Local codes, qualified people and the authority having jurisdiction decide how and whether this work is done.",
)


def fit_sheet(story: FitStory) -> Sheet:
    """The sheet of a fit."""
    sections = [
        _interference(story),
        _hold(story),
        heat_section(story),
        *([story.gauge] if story.gauge else []),
        _growth(story),
        loosening_section(story),
        Section("What it was worked out from, at 68 degF (20 degC)", story.sizes, story.readings),
    ]
    return Sheet(
        "fit", f"{story.title}: {story.subject}", story.subject, (ESTIMATE,), tuple(sections),
        story.missing, _assumed(story), CAUTIONS, story.day,
        "Cautions (hanging load, hot metal, propane, pinch points), readings, notes: --all.",
    )  # fmt: skip


def _interference(story: FitStory) -> Section:
    sums, show = story.sums, story.amounts
    combined = sum(part**2 for part in story.parts.values()) ** 0.5
    known = f", good to {show.length(sums.band)} each way" if sums.band else "; how far it is good is NOT known"
    lines = [
        *story.warnings,
        Line(
            "Interference", f"{show.length(sums.interference)} on diameter{known}",
            (*computed("interference", sums.interference, "m"), *computed("guard_band", sums.band, "m")), main=True,
        ),
        Line(
            "Adopted practice", story.practice.text, story.practice.figures, story.practice.source,
            main=True, alarm=story.practice.outside,
        ),
    ]  # fmt: skip
    if story.parts:
        lines.append(
            Line(
                "Its standard uncertainty", show.length(combined), computed("standard_uncertainty", combined, "m"),
                "the guard band is 1.645 times this, and what a temperature nobody read allows",
            )
        )  # fmt: skip
    lines += [
        Line(f"part: {cause}", show.length(part), computed(f"uncertainty {cause}", part, "m"))
        for cause, part in story.parts.items()
    ]
    if sums.given.shim:
        lines.append(Line("Shim, full round", show.length(sums.given.shim), computed("shim", sums.given.shim, "m")))
    return Section("Interference at 68 degF", tuple(lines))


def _hold(story: FitStory) -> Section:
    new, show = story.sums.new, story.amounts
    lines = [
        Line(
            "Contact pressure", bounded(new.pressure, texts(new.pressure, show.stress)),
            triple("pressure", new.pressure, "Pa", CENTER_ENDS), main=True,
        ),
        _bore_hoop(story, new),
        Line(
            "Hoop stress at the tread", bounded(new.tread_hoop, texts(new.tread_hoop, show.stress)),
            triple("tread_hoop", new.tread_hoop, "Pa", CENTER_ENDS),
        ),
        Line(
            "Torque before it slips", low_to_high(new.slip_torque, show.torque),
            triple("slip_torque", new.slip_torque, "N m", HOLD_ENDS), _friction(story),
        ),
        Line(
            "Hold along the axle", low_to_high(new.axial_hold, show.force),
            triple("axial_hold", new.axial_hold, "N", HOLD_ENDS), f"{_friction(story)}; lips and fastenings left out",
        ),
    ]  # fmt: skip
    notes = (
        "Elastic rings, no friction while shrinking. A spoked center lies between its rim alone and a solid disc; "
        "the figure between is an estimate and never stands alone.",
    )
    return Section("Grip", tuple(lines), notes=notes)


def _friction(story: FitStory) -> str:
    low, likely, high = story.sums.given.friction
    return f"friction {low:g}, {likely:g}, {high:g}" if low != high else f"friction {likely:g}"


def _bore_hoop(story: FitStory, grip: Grip) -> Line:
    text = bounded(grip.bore_hoop, texts(grip.bore_hoop, story.amounts.stress))
    figures = triple("bore_hoop", grip.bore_hoop, "Pa", CENTER_ENDS)
    highest, strength = grip.bore_hoop.high or 0.0, story.yield_strength
    if strength is None:
        return Line("Hoop stress at the bore", f"{text}. Yield strength not on record", figures, main=True)
    share = highest / strength
    beyond = highest > strength
    told = f"the highest is {percent(share)} of the yield strength {story.amounts.stress(strength)}"
    return Line(
        "Hoop stress at the bore", f"{text}; {told}" + (": OVER it" if beyond else ""),
        (*figures, *computed("yield_strength", strength, "Pa"), *computed("share_of_yield", share, "1")),
        story.origins.get("yield_strength", ""), main=True, alarm=beyond,
    )  # fmt: skip


def _growth(story: FitStory) -> Section:
    found, show = story.sums.new.growth, story.amounts
    best = found.likely if found.likely is not None else found.low if found.low is not None else found.high
    thousandths = (best or 0.0) / 0.0254e-3
    lines = (
        Line(
            "Tread must grow, taped cold before and cold after",
            bounded(found, texts(found, show.length)), triple("tread_growth", found, "m", CENTER_ENDS),
            f"about {thousandths:.0f} divisions of a .001 in pi tape; a 1/16 in rule cannot show it", main=True,
        ),
        *story.measured_growth,
    )  # fmt: skip
    return Section("Proof of grip that the shop can do", lines)


def _assumed(story: FitStory) -> tuple[str, ...]:
    return (
        *story.assumed,
        "steel weighs 7850 kg/m3 and takes 480 J/(kg K) (from memory); seat and bore are round and straight",
    )
