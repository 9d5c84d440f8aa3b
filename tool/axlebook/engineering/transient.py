"""How heat from the brake moves through a wheel, in time: tire | contact | rim, spokes, hub.

A chain of finite volumes, one value of temperature in each, heat in at the tread and losses at the faces.
The same chain stands for a slab, which is how it is checked against exact series. All temperatures here are
RISES above the surroundings, which are also where it starts [K].
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from axlebook.engineering._given import finite, not_negative, positive, same_length, smaller
from axlebook.engineering.braking import hot_interference, spoked_center_growth

# The L-stable pair of stages "trapezoid, then second-order backward difference": no ringing at the start of a
# flux, and one matrix for both stages when the first takes this part of the step.
_STAGE = 2.0 - math.sqrt(2.0)
_WEIGHT = _STAGE / 2.0


@dataclass(frozen=True)
class Chain:
    """Volumes in a row, each in touch with the next.

    Attributes
    ----------
    capacities : tuple of float
        One for each volume [J/K].
    links : tuple of float
        One between each two [W/K].
    losses : tuple of float
        One for each volume, to the surroundings [W/K].
    """

    capacities: tuple[float, ...]
    links: tuple[float, ...]
    losses: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.links) != len(self.capacities) - 1:
            raise ValueError(
                f"links must be one fewer than capacities, but are {len(self.links)}"
                f" for {len(self.capacities)}."
            )
        same_length("losses", self.losses, "capacities", self.capacities)
        for capacity in self.capacities:
            positive("capacities", capacity)
        for link in self.links:
            positive("links", link)
        for loss in self.losses:
            not_negative("losses", loss)


@dataclass(frozen=True)
class Metal:
    """What a part is made of.

    Attributes
    ----------
    conductivity : float
        [W/(m K)].
    density : float
        [kg/m3].
    specific_heat : float
        [J/(kg K)].
    expansion : float
        [1/K].
    """

    conductivity: float
    density: float
    specific_heat: float
    expansion: float

    def __post_init__(self) -> None:
        for name in ("conductivity", "density", "specific_heat", "expansion"):
            positive(name, getattr(self, name))


@dataclass(frozen=True)
class Wheel:
    """A tired wheel with spokes, as far as heat is concerned.

    Attributes
    ----------
    tread_radius, seat_radius, rim_inside_radius, hub_radius : float
        Falling [m].
    tire_width, rim_width : float
        Along the axle; the seat is as wide as the rim [m].
    spokes : int
        How many.
    spoke_area, spoke_girth : float
        Section and its outline, of one spoke [m2], [m].
    hub_capacity : float
        Hub, and the part of the axle that warms with it [J/K].
    tire, center : Metal
        What the two are made of.
    ring_share : float
        The rim's stiffness as a free ring over that of rim and spokes together [1].
    """

    tread_radius: float
    seat_radius: float
    rim_inside_radius: float
    hub_radius: float
    tire_width: float
    rim_width: float
    spokes: int
    spoke_area: float
    spoke_girth: float
    hub_capacity: float
    tire: Metal
    center: Metal
    ring_share: float

    def __post_init__(self) -> None:
        radii = ("tread_radius", "seat_radius", "rim_inside_radius", "hub_radius")
        for outer, inner in pairwise(radii):
            smaller(inner, positive(inner, getattr(self, inner)), outer, getattr(self, outer))
        for name in ("tire_width", "rim_width", "spoke_area", "spoke_girth", "hub_capacity"):
            positive(name, getattr(self, name))
        if self.spokes < 1:
            raise ValueError(f"spokes must be one or more, not {self.spokes}.")


@dataclass(frozen=True)
class Moment:
    """What a wheel is like at one time.

    Attributes
    ----------
    seconds : float
        Since the start [s].
    tread, tire, bore, seat, rim, spoke, hub : float
        Rises above the surroundings: of the surface, of the area mean, of the layers of tire and rim nearest
        the seat, and of the means of rim, spokes and hub [K].
    interference : float
        What is left of it, on diameter, negative once it is a clearance [m].
    """

    seconds: float
    tread: float
    tire: float
    bore: float
    seat: float
    rim: float
    spoke: float
    hub: float
    interference: float


def chain_step(chain: Chain, rises: Sequence[float], heats: Sequence[float], seconds: float) -> list[float]:
    """The rises of a chain one step later.

    Parameters
    ----------
    chain : Chain
        The volumes.
    rises : sequence of float
        One for each volume, above the surroundings [K].
    heats : sequence of float
        One for each volume, steady over the step [W].
    seconds : float
        One value, the step [s].

    Returns
    -------
    list of float
        One for each volume [K].

    Raises
    ------
    ValueError
        If the numbers differ, one is not finite, or the step is not above zero.

    Notes
    -----
    Second order in the step, and no step is too long to stay stable. Heat is kept to the last digits: what
    goes in is what is held and what is lost.

    Examples
    --------
    >>> chain = Chain((100.0, 100.0), (1e6,), (0.0, 0.0))
    >>> [round(rise, 3) for rise in chain_step(chain, [0.0, 0.0], [200.0, 0.0], 10.0)]
    [10.0, 10.0]

    References
    ----------
    R. E. Bank and others, IEEE Transactions on Electron Devices 32 (1985), 1992, for the two stages (from
    memory); S. V. Patankar, Numerical Heat Transfer and Fluid Flow, for the volumes (from memory).
    """
    same_length("rises", rises, "capacities", chain.capacities)
    same_length("heats", heats, "capacities", chain.capacities)
    before = [finite("rises", rise) for rise in rises]
    given = [finite("heats", heat) for heat in heats]
    step = _WEIGHT * positive("seconds", seconds)
    flow = _flow_into(chain, before)
    held = chain.capacities
    right = [c * t + step * (f + 2.0 * q) for c, t, f, q in zip(held, before, flow, given, strict=True)]
    middle = _solved(chain, step, right)
    new, old = 1.0 / (_STAGE * (2.0 - _STAGE)), (1.0 - _STAGE) ** 2 / (_STAGE * (2.0 - _STAGE))
    right = [
        c * (new * m - old * t) + step * q for c, m, t, q in zip(held, middle, before, given, strict=True)
    ]
    return _solved(chain, step, right)


def _flow_into(chain: Chain, rises: Sequence[float]) -> list[float]:
    """The heat that flows into each volume from its neighbors, less its loss [W]."""
    flow = [-loss * rise for loss, rise in zip(chain.losses, rises, strict=True)]
    for i, link in enumerate(chain.links):
        passing = link * (rises[i] - rises[i + 1])
        flow[i] -= passing
        flow[i + 1] += passing
    return flow


def _solved(chain: Chain, step: float, right: list[float]) -> list[float]:
    """The rises that solve (capacity - step x flow) rise = right, by elimination along the chain."""
    links = (0.0, *chain.links, 0.0)
    upper, value = [], []
    carried_upper, carried_value = 0.0, 0.0
    for i, (capacity, loss) in enumerate(zip(chain.capacities, chain.losses, strict=True)):
        lower = step * links[i]
        pivot = capacity + step * (links[i] + links[i + 1] + loss) - lower * carried_upper
        carried_upper = step * links[i + 1] / pivot
        carried_value = (right[i] + lower * carried_value) / pivot
        upper.append(carried_upper)
        value.append(carried_value)
    for i in range(len(value) - 2, -1, -1):
        value[i] += upper[i] * value[i + 1]
    return value


def slab_chain(
    thickness: float,
    layers: int,
    conductivity: float,
    density: float,
    specific_heat: float,
    loss: float = 0.0,
) -> Chain:
    """A slab of one square metre as a chain, insulated on the first face.

    Parameters
    ----------
    thickness : float
        One value [m].
    layers : int
        How many volumes.
    conductivity, density, specific_heat : float
        One value each [W/(m K)], [kg/m3], [J/(kg K)].
    loss : float, optional
        One value, surface coefficient at the last face [W/(m2 K)].

    Returns
    -------
    Chain
        Volumes of equal thickness, their values at the middle.

    Raises
    ------
    ValueError
        If there is no layer, or a value is not above zero, or the loss is negative.

    Notes
    -----
    The last half layer stands between its middle and the surface, in series with the surface coefficient.

    Examples
    --------
    >>> slab_chain(0.1, 2, 50.0, 8000.0, 500.0).links
    (1000.0,)

    References
    ----------
    Derived here.
    """
    if layers < 1:
        raise ValueError(f"layers must be one or more, not {layers}.")
    depth = positive("thickness", thickness) / layers
    link = positive("conductivity", conductivity) / depth
    capacity = positive("density", density) * positive("specific_heat", specific_heat) * depth
    losses = [0.0] * layers
    if not_negative("loss", loss) > 0.0:
        losses[-1] = 1.0 / (1.0 / loss + 0.5 / link)
    return Chain((capacity,) * layers, (link,) * (layers - 1), tuple(losses))


def _ring_layers(
    inside: float, outside: float, width: float, layers: int, metal: Metal, side_loss: float
) -> tuple[list[float], list[float], list[float], list[float]]:
    """Capacities, links, losses and end resistances of a ring, from the outside in."""
    depth = (outside - inside) / layers
    edges = [outside - i * depth for i in range(layers + 1)]
    middles = [outside - (i + 0.5) * depth for i in range(layers)]
    faces = [math.pi * (edges[i] ** 2 - edges[i + 1] ** 2) for i in range(layers)]
    through = 2.0 * math.pi * metal.conductivity * width
    capacities = [metal.density * metal.specific_heat * width * face for face in faces]
    links = [through / math.log(middles[i] / middles[i + 1]) for i in range(layers - 1)]
    losses = [2.0 * side_loss * face for face in faces]
    ends = [math.log(outside / middles[0]) / through, math.log(middles[-1] / inside) / through]
    return capacities, links, losses, ends


@dataclass(frozen=True)
class _Model:
    """A wheel as a chain, and where its parts lie in it."""

    chain: Chain
    tire: slice
    rim: slice
    spoke: slice
    tread_resistance: float


def _model(
    wheel: Wheel, contact_conductance: float, tread_loss: float, side_loss: float, layers: int
) -> _Model:
    """The chain of a wheel: tire layers, rim layers, spoke lengths, hub."""
    metal = wheel.center
    tire = _ring_layers(
        wheel.seat_radius, wheel.tread_radius, wheel.tire_width, layers, wheel.tire, side_loss
    )
    rim = _ring_layers(wheel.rim_inside_radius, wheel.seat_radius, wheel.rim_width, layers, metal, side_loss)
    length = (wheel.rim_inside_radius - wheel.hub_radius) / layers
    area, girth = wheel.spokes * wheel.spoke_area, wheel.spokes * wheel.spoke_girth
    spoke_link = metal.conductivity * area / length
    seat = contact_conductance * 2.0 * math.pi * wheel.seat_radius * wheel.rim_width
    links = [*tire[1], 1.0 / (tire[3][1] + 1.0 / seat + rim[3][0]), *rim[1]]
    links += [1.0 / (rim[3][1] + 0.5 / spoke_link), *([spoke_link] * (layers - 1)), 2.0 * spoke_link]
    spoke_capacity = metal.density * metal.specific_heat * area * length
    capacities = [*tire[0], *rim[0], *([spoke_capacity] * layers), wheel.hub_capacity]
    losses = [*tire[2], *rim[2], *([side_loss * girth * length] * layers), 0.0]
    if tread_loss > 0.0:
        tread = tread_loss * 2.0 * math.pi * wheel.tread_radius * wheel.tire_width
        losses[0] += 1.0 / (1.0 / tread + tire[3][0])
    chain = Chain(tuple(capacities), tuple(links), tuple(losses))
    parts = [slice(i * layers, (i + 1) * layers) for i in range(3)]
    return _Model(chain, parts[0], parts[1], parts[2], tire[3][0])


def _mean(chain: Chain, rises: Sequence[float], part: slice) -> float:
    """The mean of a part's rises, by capacity, which in one metal is by area."""
    weights = chain.capacities[part]
    return sum(c * t for c, t in zip(weights, rises[part], strict=True)) / sum(weights)


def _moment(
    wheel: Wheel, model: _Model, rises: Sequence[float], power: float, seconds: float, interference: float
) -> Moment:
    """What the rises mean for the wheel."""
    tire, rim = _mean(model.chain, rises, model.tire), _mean(model.chain, rises, model.rim)
    spoke, hub = _mean(model.chain, rises, model.spoke), rises[-1]
    growth = spoked_center_growth(
        wheel.seat_radius,
        wheel.seat_radius - wheel.rim_inside_radius,
        wheel.hub_radius,
        wheel.center.expansion,
        wheel.ring_share,
        rim,
        spoke,
        hub,
    )
    left = hot_interference(interference, 2.0 * wheel.seat_radius, wheel.tire.expansion, tire, growth)
    surface = rises[0] + power * model.tread_resistance
    bore, seat = rises[model.tire.stop - 1], rises[model.rim.start]
    return Moment(seconds, surface, tire, bore, seat, rim, spoke, hub, left)


def wheel_history(
    wheel: Wheel,
    stages: Sequence[tuple[float, float]],
    contact_conductance: float,
    interference: float,
    tread_loss: float = 0.0,
    side_loss: float = 0.0,
    step: float = 5.0,
    layers: int = 12,
) -> list[Moment]:
    """A wheel's temperatures and what is left of its interference, over a course of braking.

    Parameters
    ----------
    wheel : Wheel
        One wheel.
    stages : sequence of (seconds, watts)
        How long, and how much heat goes into this wheel's tread meanwhile; zero is running free [s], [W].
    contact_conductance : float
        One value, of the seat; 1 500 to 15 000 is told [W/(m2 K)].
    interference : float
        One value, on diameter, cold, after its losses [m].
    tread_loss, side_loss : float, optional
        One value each, surface coefficients of the tread and of all faces inside [W/(m2 K)].
    step : float, optional
        One value, the longest step in time [s].
    layers : int, optional
        How many volumes for each of tire, rim and spokes.

    Returns
    -------
    list of Moment
        From the start on, one for each step.

    Raises
    ------
    ValueError
        If a stage is not longer than nothing or its power is negative, or any other value is impossible.

    Notes
    -----
    It starts even, at the temperature of the surroundings. A high contact conductance warms the center and
    delays the loosening; the lowest of what is likely is the careful choice. The conductance stays what it is
    when the grip fades, where in truth it falls: after `interference` reaches zero the figures mean little.

    Examples
    --------
    >>> steel = Metal(48.0, 7850.0, 480.0, 11.7e-6)
    >>> wheel = Wheel(0.80, 0.71, 0.65, 0.18, 0.14, 0.12, 16, 0.006, 0.29, 2.0e5, steel, steel, 0.4)
    >>> course = wheel_history(wheel, [(600.0, 40e3)], 3000.0, 0.0015)
    >>> course[-1].seconds, course[-1].tread > course[-1].tire > course[-1].rim
    (600.0, True)

    References
    ----------
    Derived here; checked in the tests against the slab and the half space of H. S. Carslaw and J. C. Jaeger,
    Conduction of Heat in Solids (series from memory, derived again there), and against scipy.
    """
    positive("contact_conductance", contact_conductance)
    not_negative("tread_loss", tread_loss)
    not_negative("side_loss", side_loss)
    finite("interference", interference)
    if layers < 1:
        raise ValueError(f"layers must be one or more, not {layers}.")
    model = _model(wheel, contact_conductance, tread_loss, side_loss, layers)
    rises = [0.0] * len(model.chain.capacities)
    course, clock = [_moment(wheel, model, rises, 0.0, 0.0, interference)], 0.0
    for duration, power in stages:
        steps = math.ceil(positive("a stage's seconds", duration) / positive("step", step))
        heats = [not_negative("a stage's watts", power), *([0.0] * (len(rises) - 1))]
        for count in range(1, steps + 1):
            rises = chain_step(model.chain, rises, heats, duration / steps)
            moment = clock + duration * count / steps
            course.append(_moment(wheel, model, rises, power, moment, interference))
        clock += duration
    return course


def loosening_time(course: Sequence[Moment]) -> float | None:
    """When the interference is first all gone.

    Parameters
    ----------
    course : sequence of Moment
        As `wheel_history` gives them.

    Returns
    -------
    float or None
        One value, straight between two moments [s]; None when some is left throughout, which says nothing
        about what comes after.

    Raises
    ------
    ValueError
        If there is no moment.

    Notes
    -----
    An estimate of when the model has no grip left. No permission to brake until then.

    Examples
    --------
    >>> steel = Metal(48.0, 7850.0, 480.0, 11.7e-6)
    >>> wheel = Wheel(0.80, 0.71, 0.65, 0.18, 0.14, 0.12, 16, 0.006, 0.29, 2.0e5, steel, steel, 0.4)
    >>> loosening_time(wheel_history(wheel, [(60.0, 40e3)], 3000.0, 0.0015)) is None
    True

    References
    ----------
    Derived here.
    """
    if not course:
        raise ValueError("course must hold a moment.")
    if course[0].interference <= 0.0:
        return course[0].seconds
    for before, after in pairwise(course):
        if after.interference <= 0.0:
            part = before.interference / (before.interference - after.interference)
            return before.seconds + part * (after.seconds - before.seconds)
    return None
