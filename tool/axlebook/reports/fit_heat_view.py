"""The part of a fit's sheet that is about heat: how hot, under which ceiling, how long, how heavy."""

from __future__ import annotations

from collections.abc import Iterable

from axlebook.engineering.fitting_heat import AIR_LOSS, BORE_LOSS, LEAST_CLEARANCE, MOST_CLEARANCE, FittingHeat

from .amounts import Amounts, minutes
from .fit_story import FitStory
from .sheet import Line, Section, computed

HEAT_NOTES = (
    "What counts is the mean through the tire: a crayon on a tread under the burner overstates it. Read the inside "
    "face, at four places, with crayons and a pyrometer.",
    "Read the center's temperature again on the day: every degree it is warmer, the tire must be warmer too.",
)


def heat_section(story: FitStory) -> Section:
    """How hot, and what that gives."""
    heat, show = story.heat, story.amounts
    if heat is None:
        line = Line("Temperatures", "NOT worked out: the center's temperature is not known", main=True)
        return Section("Heat", (line,))
    return Section("Heat", (_band(heat, show, story), *_heated(heat, story)), notes=HEAT_NOTES)


def _band(heat: FittingHeat, show: Amounts, story: FitStory) -> Line:
    over = heat.center_temperature
    figures = (
        *computed("center_temperature", over, "K"),
        *computed("temperature_least", heat.least, "K"),
        *computed("temperature_most", heat.most, "K"),
        *computed("rise_least", heat.least - over, "K difference"),
        *computed("rise_most", heat.most - over, "K difference"),
        *computed("heat_ceiling", heat.ceiling, "K"),
        *computed("temperature_top", heat.upto, "K"),
    )
    least, most = show.temperature(heat.least), show.temperature(heat.most)
    rises = f"{show.rise(heat.least - over)} to {show.rise(heat.most - over)} above the center"
    text = f"{least} to {most}, mean of the tire; with the center at {show.temperature(over)}: {rises}"
    if heat.ceiling is None:
        text += ". Heat ceiling NOT on record"
    elif heat.ceiling_stops_it:
        text = (
            f"NONE: even the least clearance asks for {least}, and the tire's ceiling is "
            f"{show.temperature(heat.ceiling)}. Do not heat; measure again and ask the tire's maker"
        )
    elif heat.ceiling_cuts_it:
        text = (
            f"{least} to {show.temperature(heat.ceiling)}, the tire's ceiling: the full clearance would ask for "
            f"{most} and is NOT reached. Center at {show.temperature(over)}"
        )
    else:
        text += f". Ceiling {show.temperature(heat.ceiling)}: never above it"
    return Line(
        "Heat the tire to", text, figures, story.origins.get("heat_ceiling", ""), main=True,
        alarm=heat.ceiling_cuts_it,
    )  # fmt: skip


def _heated(heat: FittingHeat, story: FitStory) -> Iterable[Line]:
    sums, show = story.sums, story.amounts
    mass = sums.new.mass
    if not heat.ceiling_stops_it:
        yield Line(
            "Clearance at that heat", _clearance(heat, show),
            (
                *computed("clearance_least", heat.least_clearance, "m"),
                *computed("clearance_most", heat.most_clearance, "m"),
                *computed("clearance_at_top", heat.clearance_at_top, "m"),
            ),
            f"wanted {LEAST_CLEARANCE:g} to {MOST_CLEARANCE:g} of the diameter; from memory", main=True,
        )  # fmt: skip
        if heat.temperature_on_file is not None and heat.clearance_on_file is not None:
            yield Line(
                "Least clearance on file",
                f"{show.length(heat.clearance_on_file)}: asks {show.temperature(heat.temperature_on_file)} of the mean",
                (
                    *computed("clearance_on_file", heat.clearance_on_file, "m"),
                    *computed("temperature_on_file", heat.temperature_on_file, "K"),
                ),
                story.origins.get("clearance_on_file", ""),
            )  # fmt: skip
        yield Line(
            "Growth of the bore at the least heat",
            f"{show.length(heat.growth)} on diameter, {show.length(heat.round_growth)} round the circumference",
            (*computed("bore_growth", heat.growth, "m"), *computed("circumference_growth", heat.round_growth, "m")),
        )
    if sums.band and not heat.ceiling_stops_it:
        yield Line(
            "Least heat if the interference is as large as it may be", show.temperature(heat.least_for_largest),
            computed("temperature_least_for_largest", heat.least_for_largest, "K"),
        )  # fmt: skip
    yield Line(
        "It grips at", f"{show.temperature(heat.grip)} mean, with the center at its temperature",
        computed("grip_temperature", heat.grip, "K"),
    )  # fmt: skip
    if not heat.ceiling_stops_it:
        yield _window(heat)
    yield Line("Soak, heat off, to even the thickness", minutes(heat.soak), computed("soak_time", heat.soak, "s"))
    yield Line(
        "Mass, an ESTIMATE for the lift planner", show.mass(mass), computed("tire_mass", mass, "kg"),
        "a ring of the tread's diameter" + (" and a guessed flange" if story.sums.given.flanged else "")
        + "; weigh it where it matters", main=True,
    )  # fmt: skip


def _clearance(heat: FittingHeat, show: Amounts) -> str:
    at_top = f"{show.length(heat.clearance_at_top)} at {show.temperature(heat.upto)}"
    return f"{show.length(heat.least_clearance)} at {show.temperature(heat.least)}, {at_top}"


def _window(heat: FittingHeat) -> Line:
    if heat.hanging is None or heat.over_center is None:
        never = "NOT by cooling to the center's temperature: it comes free there"
        return Line("Grips, estimated, in", never, alarm=True, main=True)
    (quick, slow), (touching, even) = heat.hanging, heat.over_center
    text = (
        f"{minutes(quick)} to {minutes(slow)} in still air, {minutes(touching)} to {minutes(even)} over the center"
    )
    return Line(
        "Grips, estimated, in", text,
        (
            *computed("window_hanging_least", quick, "s"), *computed("window_hanging_most", slow, "s"),
            *computed("window_over_center_least", touching, "s"), *computed("window_over_center_most", even, "s"),
        ),
        f"from {_top(heat)}; assumed: {AIR_LOSS[1]:g} to {AIR_LOSS[0]:g} W/(m2 K) to still air as cold as the center, "
        f"{BORE_LOSS[1]:g} to {BORE_LOSS[0]:g} from bore to center; where it touches it grips sooner",
        main=True,
    )  # fmt: skip


def _top(heat: FittingHeat) -> str:
    """Which temperature the time counts from."""
    return "the ceiling" if heat.ceiling_cuts_it else "the top of the band"
