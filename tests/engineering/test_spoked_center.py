"""The spoked center's springs, against a ring's Fourier series and a finite-element sector."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from skfem import (
    Basis,
    BilinearForm,
    ElementQuad2,
    ElementVector,
    FacetBasis,
    LinearForm,
    MeshQuad,
    asm,
    condense,
    solve,
)
from skfem.helpers import ddot, sym_grad, trace

from axlebook.engineering.shrink_fit import (
    contact_pressure_bounds,
    ring_center_compliance,
    solid_center_compliance,
    tire_compliance,
)
from axlebook.engineering.spoked_center import (
    SHEAR_FACTOR,
    SpokedCenter,
    TireSection,
    spoke_compliance,
    spoked_center_compliance,
)

E, NU = 205e9, 0.29
CENTER = SpokedCenter(
    seat_radius=0.56,
    rim_inside_radius=0.49,
    seat_width=0.125,
    spoke_count=14,
    spoke_length=0.27,
    spoke_area=0.0045,
    hub_width=0.18,
    modulus=E,
    poisson=NU,
)
TIRE = TireSection(thickness=0.089, width=0.14, modulus=E, poisson=NU)
NO_TIRE = TireSection(thickness=0.089, width=0.14, modulus=1.0, poisson=NU)


def test_the_three_parts_of_a_spoke_worked_by_hand() -> None:
    # Column .27 / (205e9 x .0045) = 2.92683e-10. Hub 14 x .71 / (2 pi x 205e9 x .18) = 4.28727e-11.
    # Span 2 pi x .56 / 14 = .251327 m; E I = 205e9 (.125 x .07^3 + .14 x .089^3) / 12 = 2.41850e6;
    # bending .251327^3 / (720 x 2.41850e6) = 9.11668e-12; kappa G A = (5/6)(79.457e9)(.00875 + .01246)
    # = 1.404410e9; shear .251327 / (12 x 1.404410e9) = 1.49129e-11.
    parts = 2.92683e-10 + 4.28727e-11 + 9.11668e-12 + 1.49129e-11
    assert spoke_compliance(CENTER, TIRE) == pytest.approx(parts, rel=1e-5, abs=0.0)


def test_the_sag_between_spokes_is_the_one_of_a_ring_under_equal_forces() -> None:
    """A thin ring under n equal radial forces, as a Fourier series: the part beyond the even one."""
    many = replace(CENTER, spoke_count=40, spoke_length=1e-9, spoke_area=1e9, hub_width=1e9)
    radius, n = many.seat_radius, many.spoke_count
    depth = many.seat_radius - many.rim_inside_radius
    bending = E * many.seat_width * depth**3 / 12.0
    shear = SHEAR_FACTOR * E / (2.0 * (1.0 + NU)) * many.seat_width * depth
    waves = [j * n for j in range(1, 2000)]
    bent = n * radius**3 / (math.pi * bending) * sum(1.0 / (k * k - 1.0) ** 2 for k in waves)
    sheared = n * radius / (math.pi * shear) * sum(1.0 / (k * k) for k in waves)
    assert spoke_compliance(many, NO_TIRE) == pytest.approx(bent + sheared, rel=2e-3, abs=0.0)


def test_the_estimate_stands_between_rim_and_disc() -> None:
    bounds = spoked_center_compliance(CENTER, TIRE)
    assert bounds.likely is not None
    assert bounds.low < bounds.likely < bounds.high
    pressure = contact_pressure_bounds(1.2e-3, tire_compliance(0.56, 0.649, E, NU), bounds)
    assert pressure.likely is not None
    assert pressure.low < pressure.likely < pressure.high


def test_spokes_and_rim_share_the_load_worked_by_hand() -> None:
    # 14 / (3.595853e-10 x 2 pi x .56 x .125) = 8.852138e10 Pa/m for the spokes; the rim alone gives
    # (.56 / 205e9) ((.3136 + .2401) / (.3136 - .2401) - .29) = 1.978666e-11 m/Pa, or 5.053908e10 Pa/m.
    likely = spoked_center_compliance(CENTER, TIRE).likely
    assert likely == pytest.approx(1.0 / (8.852138e10 + 5.053908e10), rel=1e-6, abs=0.0)


def test_spokes_of_nothing_leave_the_rim() -> None:
    bounds = spoked_center_compliance(replace(CENTER, spoke_area=1e-12), TIRE)
    assert bounds.likely == pytest.approx(ring_center_compliance(0.56, 0.49, E, NU), rel=1e-6, abs=0.0)


def test_spokes_too_stout_for_the_model_leave_the_disc() -> None:
    bounds = spoked_center_compliance(replace(CENTER, spoke_area=10.0, hub_width=50.0), TIRE)
    assert bounds.likely == solid_center_compliance(0.56, E, NU)


def test_more_spokes_are_stiffer() -> None:
    few, many = (spoked_center_compliance(replace(CENTER, spoke_count=n), TIRE).likely for n in (10, 16))
    assert few is not None
    assert many is not None
    assert many < few


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ({"rim_inside_radius": 0.56}, "rim_inside_radius"),
        ({"spoke_count": 2}, "spoke_count"),
        ({"spoke_length": 0.6}, "spoke_length"),
        ({"hub_width": 0.0}, "hub_width"),
        ({"modulus": -1.0}, "modulus"),
        ({"spoke_area": math.nan}, "spoke_area"),
    ],
)
def test_impossible_centers_are_refused_by_name(change: dict[str, Any], named: str) -> None:
    with pytest.raises(ValueError, match=named):
        replace(CENTER, **change)


def test_a_tire_without_width_is_refused() -> None:
    with pytest.raises(ValueError, match="width must be above zero"):
        TireSection(thickness=0.089, width=0.0, modulus=E, poisson=NU)


HUB, HALF_SPOKE = 0.16, 0.06
"""Radius of the hub [m] and half the angle of a spoke at the hub [rad]; the spokes are plain wedges."""


def sector() -> MeshQuad:
    """Half a spoke's sector of hub, spoke and rim, on rays and circles."""
    rays = np.concatenate((np.linspace(0.0, HALF_SPOKE, 7), np.linspace(HALF_SPOKE, math.pi / 14.0, 13)[1:]))
    circles = np.concatenate(
        (np.linspace(0.01, HUB, 13), np.linspace(HUB, 0.49, 25)[1:], np.linspace(0.49, 0.56, 9)[1:])
    )
    mesh = MeshQuad.init_tensor(circles, rays)
    middle = mesh.p[:, mesh.t].mean(axis=1)
    gap = (middle[0] > HUB) & (middle[0] < 0.49) & (middle[1] > HALF_SPOKE)
    mesh = mesh.remove_elements(np.nonzero(gap)[0])
    radius, angle = mesh.p
    return MeshQuad(np.vstack((radius * np.cos(angle), radius * np.sin(angle))), mesh.t)


def solved_compliance() -> float:
    """Mean inward move of the seat for each unit of pressure, plane stress, all of one width."""
    mesh = sector()
    edge = math.pi / 14.0
    normal = np.array([-math.sin(edge), math.cos(edge)])
    basis = Basis(mesh, ElementVector(ElementQuad2()))
    lame, shear = E * NU / (1.0 - NU**2), E / (2.0 * (1.0 + NU))

    @BilinearForm
    def stiffness(u, v, _):  # type: ignore[no-untyped-def]
        return lame * trace(sym_grad(u)) * trace(sym_grad(v)) + 2.0 * shear * ddot(sym_grad(u), sym_grad(v))

    @BilinearForm
    def slide(u, v, _):  # type: ignore[no-untyped-def]
        return 1e6 * E * (normal[0] * u[0] + normal[1] * u[1]) * (normal[0] * v[0] + normal[1] * v[1])

    @LinearForm
    def inward(v, w):  # type: ignore[no-untyped-def]
        return -(v[0] * w.x[0] + v[1] * w.x[1]) / np.hypot(*w.x)

    seat = mesh.facets_satisfying(lambda x: np.hypot(*x) > 0.5597, boundaries_only=True)
    far = mesh.facets_satisfying(lambda x: np.abs(np.arctan2(x[1], x[0]) - edge) < 1e-6, boundaries_only=True)
    near = mesh.facets_satisfying(lambda x: np.abs(x[1]) < 1e-9, boundaries_only=True)
    seat_basis = FacetBasis(mesh, ElementVector(ElementQuad2()), facets=seat)
    load = asm(inward, seat_basis)
    matrix = asm(stiffness, basis) + asm(slide, FacetBasis(mesh, ElementVector(ElementQuad2()), facets=far))
    fixed = basis.get_dofs(near).all("u^2")
    moves = solve(*condense(matrix, load, D=fixed))
    return float(load @ moves) / (0.56 * edge)


def test_the_estimate_is_near_a_finite_element_sector() -> None:
    """Hub, spokes and rim of one width, no tire; the wedge spoke's column is the integral of dr / (2 E h r w)."""
    width = 0.125
    column_area = (0.49 - HUB) * 2.0 * HALF_SPOKE * width / math.log(0.49 / HUB)
    center = replace(CENTER, spoke_length=0.49 - HUB, spoke_area=column_area, hub_width=width)
    estimate = spoked_center_compliance(center, NO_TIRE)
    solved = solved_compliance()
    assert estimate.likely is not None
    assert estimate.low < solved < estimate.high
    assert estimate.likely == pytest.approx(solved, rel=0.08, abs=0.0)
