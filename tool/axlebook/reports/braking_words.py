"""The words that stand on every estimate of loosening under the brake, and the sentence for an engine crew."""

from __future__ import annotations

import math

from .amounts import Amounts
from .braking_sums import Drag, TireSums

NOTICE = (
    "An estimate of when the model has no grip left, on the lowest assumptions. Not an operating instruction, no "
    "permission to hold a brake: a tire may come loose sooner"
)
WEAR = "The loosening temperature does not change with wear; a thin tire gets there about twice as fast"
NO_GRIP = "on the lowest assumptions no grip can be shown at all: what is taken off is as much as was measured"


def power_words(watts: float) -> str:
    """A power at one wheel."""
    return f"{watts / 1000.0:.3g} kW ({watts / 745.6998715822702:.3g} hp)"


def time_words(seconds: float | None) -> str:
    """A time, never rounded up: to the half minute below ten minutes, to the minute above.

    >>> time_words(149.0), time_words(20.0), time_words(3599.0)
    ('2 min', 'under half a minute', '59 min')
    """
    if seconds is None:
        return "never"
    if seconds <= 0:
        return "at once"
    halves = math.floor(seconds / 30.0)
    if halves < 1:
        return "under half a minute"
    return f"{halves / 2:g} min" if halves < 20 else f"{math.floor(seconds / 60.0)} min"


def rise_words(kelvin: float, show: Amounts) -> str:
    """A rise, never rounded up.

    >>> rise_words(83.9, Amounts())
    '151 degF (83 degC)'
    """
    inch, metric = f"{math.floor(kelvin * 1.8)} degF", f"{math.floor(kelvin)} degC"
    return f"{metric} ({inch})" if show.metric else f"{inch} ({metric})"


def temperature_words(kelvin: float, show: Amounts) -> str:
    """A temperature, never rounded up."""
    inch, metric = f"{math.floor(kelvin * 1.8 - 459.67)} degF", f"{math.floor(kelvin - 273.15)} degC"
    return f"{metric} ({inch})" if show.metric else f"{inch} ({metric})"


def warm_words(drag: Drag, show: Amounts) -> tuple[str, str]:
    """Time and rise with the center warming."""
    warm = drag.warm
    if warm is None:
        return "not on record", ""
    if warm.seconds is None or warm.rise is None:
        return f"not in the {time_words(warm.followed)} followed", ""
    return time_words(warm.seconds), rise_words(warm.rise, show)


def short_sentence(sums: TireSums, show: Amounts) -> str:
    """What stands on the short page: the temperature, and the times of the first power."""
    if sums.rise <= 0:
        return NO_GRIP
    first = sums.drags[0].power
    told = [f"{d.thickness.word} {time_words(d.seconds)}" for d in sums.drags if d.power is first]
    return (
        f"no grip left {rise_words(sums.rise, show)} above a cold center, "
        f"tire at {temperature_words(sums.temperature, show)}; "
        f"at {power_words(first.at_wheel)} {first.words}: {', '.join(told)}"
    )


def crew_sentence(sums: TireSums, show: Amounts) -> str:
    """The same for an engine crew, in plain words."""
    if sums.rise <= 0:
        return f"Do not count on this fit: {NO_GRIP}. Take it to the mechanical lead."
    first = sums.drags[0].power
    today = next((d for d in sums.drags if d.power is first and d.thickness.word == "today"), None)
    limit = next((d for d in sums.drags if d.power is first and d.thickness.word == "at the limit"), None)
    hotter = rise_words(sums.rise, show)
    parts = [f"When this tire is {hotter} hotter than the wheel inside it, the model says that nothing holds it."]
    if today is not None and today.seconds is not None:
        parts.append(
            f"With the shoe dragging at {power_words(first.at_wheel)} on this wheel it comes to that after "
            f"{time_words(today.seconds)} as the tire is today"
            + (f", after {time_words(limit.seconds)} when it is worn to its limit." if limit else ".")
        )
    parts += [
        f"{WEAR}.",
        "A brake that drags, a blued tread, a smell of hot metal, a witness mark that has moved: tell the mechanical "
        "lead. This is no time for which a brake may be held.",
    ]
    return " ".join(parts)
