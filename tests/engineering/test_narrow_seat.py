"""A seat narrower than its tire, against an axisymmetric finite-element tire with a lip."""

from __future__ import annotations

import numpy as np
import pytest
from skfem import (
    Basis,
    BilinearForm,
    ElementQuad2,
    ElementVector,
    FacetBasis,
    Functional,
    LinearForm,
    MeshQuad,
    asm,
    condense,
    solve,
)
from skfem.helpers import grad

from axlebook.engineering.ring_stress import tread_growth
from axlebook.engineering.shrink_fit import seat_share, tire_compliance

E, NU = 205e9, 0.29
SEAT, TREAD, WIDTH, LIP = 0.56, 0.649, 0.140, 0.014
PRESSURE = 20e6
LAME, SHEAR = E * NU / ((1.0 + NU) * (1.0 - 2.0 * NU)), E / (2.0 * (1.0 + NU))


class SolvedTire:
    """The tire under pressure on all of its bore but the lip: mean moves of bore, seat and tread [m]."""

    def __init__(self, lip: float) -> None:
        lengths = np.unique(
            np.concatenate((np.linspace(0.0, WIDTH - LIP, 19), np.linspace(WIDTH - LIP, WIDTH, 5)))
        )
        mesh = MeshQuad.init_tensor(np.linspace(SEAT, TREAD, 13), lengths)
        element = ElementVector(ElementQuad2())
        basis = Basis(mesh, element)
        bore = mesh.facets_satisfying(lambda x: np.isclose(x[0], SEAT), boundaries_only=True)
        seat = mesh.facets_satisfying(
            lambda x: np.isclose(x[0], SEAT) & (x[1] < WIDTH - lip), boundaries_only=True
        )
        tread = mesh.facets_satisfying(lambda x: np.isclose(x[0], TREAD), boundaries_only=True)

        @BilinearForm
        def stiffness(u, v, w):  # type: ignore[no-untyped-def]
            du, dv, r = grad(u), grad(v), w.x[0]
            swell_u, swell_v = du[0, 0] + du[1, 1] + u[0] / r, dv[0, 0] + dv[1, 1] + v[0] / r
            direct = du[0, 0] * dv[0, 0] + du[1, 1] * dv[1, 1] + u[0] * v[0] / r**2
            skew = (du[0, 1] + du[1, 0]) * (dv[0, 1] + dv[1, 0]) / 2.0
            return (LAME * swell_u * swell_v + 2.0 * SHEAR * (direct + skew)) * r

        @LinearForm
        def push(v, w):  # type: ignore[no-untyped-def]
            return PRESSURE * v[0] * w.x[0]

        @Functional
        def radial(w):  # type: ignore[no-untyped-def]
            return w["u"][0]

        on_seat = FacetBasis(mesh, element, facets=seat)
        corner = np.nonzero(np.isclose(mesh.p[0], SEAT) & np.isclose(mesh.p[1], 0.0))[0]
        held = basis.nodal_dofs[1, corner]
        self.moves = solve(*condense(asm(stiffness, basis), asm(push, on_seat), D=held))

        def mean(facets: np.ndarray, length: float) -> float:
            there = FacetBasis(mesh, element, facets=facets)
            return float(radial.assemble(there, u=there.interpolate(self.moves))) / length

        self.bore, self.seat, self.tread = mean(bore, WIDTH), mean(seat, WIDTH - lip), mean(tread, WIDTH)


def test_a_seat_of_full_width_moves_as_the_plane_stress_ring() -> None:
    solved = SolvedTire(lip=0.0)
    assert tire_compliance(SEAT, TREAD, E, NU) * PRESSURE == pytest.approx(solved.bore, rel=1e-6)
    assert tread_growth(PRESSURE, SEAT, TREAD, E) == pytest.approx(2.0 * solved.tread, rel=1e-6)


def test_a_narrow_seat_moves_the_mean_of_the_bore_by_its_share() -> None:
    """Exact for the mean over the whole bore (Betti); the seat itself moves a little more than the lip."""
    solved, share = SolvedTire(lip=LIP), seat_share(WIDTH - LIP, WIDTH)
    expected = tire_compliance(SEAT, TREAD, E, NU, share) * PRESSURE
    assert expected == pytest.approx(solved.bore, rel=1e-6)
    assert expected < solved.seat < 1.06 * expected


def test_the_tread_over_a_narrow_seat_grows_by_its_share_in_the_mean() -> None:
    solved, share = SolvedTire(lip=LIP), seat_share(WIDTH - LIP, WIDTH)
    assert tread_growth(PRESSURE, SEAT, TREAD, E, share) == pytest.approx(2.0 * solved.tread, rel=1e-6)
