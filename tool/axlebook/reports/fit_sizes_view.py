"""The part of a fit's sheet that tells what it was worked out from, beyond the two diameters."""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.engineering.fitting import FitGiven, Metal

from .amounts import Amounts
from .sheet import Line, computed

SIZES = (
    ("Tread diameter", "tread_diameter"),
    ("Tire width", "tire_width"),
    ("Seat width", "seat_width"),
    ("Rim, inside diameter", "rim_inside"),
)


def given_lines(given: FitGiven, origins: dict[str, str], show: Amounts) -> Iterator[Line]:
    """Sizes, spokes and metals, each with where it comes from."""
    for label, name in SIZES:
        value = getattr(given, name)
        if value is not None:
            yield Line(label, show.length(value), computed(name, value, "m"), origins.get(name, ""))
    if given.spokes is not None:
        yield _spokes(given, origins, show)
    for part, metal in (("tire", given.tire_metal), ("center", given.center_metal)):
        yield _metal(part, metal, origins, show)


def _spokes(given: FitGiven, origins: dict[str, str], show: Amounts) -> Line:
    spokes = given.spokes
    assert spokes is not None
    text = (
        f"{spokes.count}, section {spokes.area * 1e4 / 6.4516:.3g} sq in ({spokes.area * 1e4:.3g} cm2); "
        f"hub {show.length(spokes.hub_diameter)}"
    )
    figures = (
        *computed("spokes", spokes.count, "1"),
        *computed("spoke_area", spokes.area, "m2"),
        *computed("hub_diameter", spokes.hub_diameter, "m"),
        *computed("hub_width", spokes.hub_width, "m"),
    )
    return Line("Spokes", text, figures, origins.get("spokes", ""))


def _metal(part: str, metal: Metal, origins: dict[str, str], show: Amounts) -> Line:
    text = (
        f"modulus {show.modulus(metal.modulus)}, Poisson ratio {metal.poisson:g}, expansion "
        f"{metal.expansion * 1e6 / 1.8:.3g}e-6 /degF ({metal.expansion * 1e6:.4g}e-6 /K)"
    )
    figures = (
        *computed(f"{part}_modulus", metal.modulus, "Pa"),
        *computed(f"{part}_poisson", metal.poisson, "1"),
        *computed(f"{part}_expansion", metal.expansion, "1/K"),
    )
    return Line(f"Metal of the {part}", text, figures, origins.get(f"{part}_metal", ""))
