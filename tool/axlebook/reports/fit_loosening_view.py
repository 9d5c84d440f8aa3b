"""The part of a fit's sheet that is about losing the grip under heat, new and worn."""

from __future__ import annotations

from axlebook.engineering.fitting import Grip

from .fit_story import CENTER_ENDS, HOLD_ENDS, FitStory, bounded, low_to_high, texts, triple
from .sheet import Line, Section, computed

LOOSENING = (
    "An estimate of when the model has no grip left, on the lowest assumptions: no operating instruction, and no leave "
    "to hold a brake."
)


def loosening_section(story: FitStory) -> Section:
    """When the model has no grip left."""
    sums, show = story.sums, story.amounts
    rises = (
        *computed("loosening_rise", sums.loosening_rise, "K difference"),
        *computed("loosening_rise_lowest", sums.lowest_loosening_rise, "K difference"),
        *computed("interference_left_lowest", sums.left, "m"),
        *computed("interference_lost_at_speed", sums.speed_loss, "m"),
    )
    text = (
        f"a tire {show.rise(sums.lowest_loosening_rise)} above its cold center, new or worn alike; a thin tire gets "
        "there about twice as fast. No operating instruction"
    )
    lines = [Line("No grip left, estimated, at", text, rises, LOOSENING, main=True)]
    lines.append(Line("For the interference as measured, nothing taken off", f"{show.rise(sums.loosening_rise)} above"))
    lines.append(_lost(story))
    if sums.worn:
        lines += _worn(sums.new, sums.worn, story)
    return Section("Loosening under heat", tuple(lines), notes=(LOOSENING,))


def _lost(story: FitStory) -> Line:
    given, show = story.sums.given, story.amounts
    parts = [f"guard band {show.length(story.sums.band)}"]
    parts.append(f"ridges {show.length(given.ridge_loss)}" if given.ridge_loss is not None else "ridges NOT counted")
    at_speed = story.sums.speed_loss
    parts.append(f"speed {show.length(at_speed)}" if at_speed is not None else "speed NOT counted (about 2 percent)")
    return Line("Taken off for the lowest", ", ".join(parts))


def _worn(new: Grip, worn: Grip, story: FitStory) -> list[Line]:
    show = story.amounts
    faster = new.loosening_heat / worn.loosening_heat if worn.loosening_heat else None
    heat = Line(
        "Heat into the tire until then",
        f"new {show.heat(new.loosening_heat)}, at {show.length(worn.thickness)} thick {show.heat(worn.loosening_heat)}"
        + (f": {faster:.1f} times as fast" if faster else ""),
        (
            *computed("loosening_heat_new", new.loosening_heat, "J"),
            *computed("loosening_heat_worn", worn.loosening_heat, "J"),
            *computed("condemning_thickness", worn.thickness, "m"),
        ),
        story.origins.get("condemning_thickness", ""),
    )
    rest = [
        ("Contact pressure when worn", "worn_pressure", worn.pressure, show.stress, "Pa"),
        ("Hoop stress at the bore when worn", "worn_bore_hoop", worn.bore_hoop, show.stress, "Pa"),
    ]
    lines = [
        Line(label, bounded(found, texts(found, render)), triple(name, found, unit, CENTER_ENDS))
        for label, name, found, render, unit in rest
    ]
    slip = Line(
        "Torque before it slips when worn", low_to_high(worn.slip_torque, show.torque),
        triple("worn_slip_torque", worn.slip_torque, "N m", HOLD_ENDS),
    )  # fmt: skip
    return [heat, *lines, slip]
