"""How far a floor bends between its supports."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from acoustics.carcass.panels.floor import Floor
from acoustics.carcass.panels.sag import (
    bending,
    check_bending,
    free_edge,
    sag,
    stress,
    widest_span,
)
from acoustics.carcass.shape.outline import Loop, rectangle

BIRCH = 9.0e9  # Young's modulus of a sheet; invented, of the size sheets have [Pa]


def floor(*supports: Loop) -> Floor:
    """A floor of 1.0 x 0.6 m on these."""
    return Floor(
        outline=rectangle(0.0, 0.0, 1.0, 0.6),
        openings=(),
        supports=tuple((f"support {n}", loop) for n, loop in enumerate(supports, start=1)),
    )


def batten(u: float) -> Loop:
    """A batten 40 mm wide, its middle at u, from edge to edge."""
    return rectangle(u - 0.02, 0.0, u + 0.02, 0.6)


def test_between_two_battens_the_span_is_what_lies_free_between_them():
    """By hand: 1.0 - 0.04 - 0.04; a third in the middle leaves less than half."""
    assert widest_span(floor(batten(0.02), batten(0.98))) == pytest.approx(0.92, abs=1e-4)
    assert widest_span(floor(batten(0.02), batten(0.5), batten(0.98))) == pytest.approx(
        0.44, abs=1e-4
    )


def test_on_four_blocks_the_span_runs_from_corner_to_corner():
    """The middle of the floor is as far from each block's inner corner, by Pythagoras."""
    blocks = [
        rectangle(u, v, u + 0.1, v + 0.1) for u in (0.0, 0.9) for v in (0.0, 0.5)
    ]  # inner corners at (0.1, 0.1) and so on
    assert widest_span(floor(*blocks)) == pytest.approx(math.hypot(0.8, 0.4), abs=2e-3)


def test_a_board_bends_as_the_beam_and_no_less_than_the_plate():
    """F L³ / 48 E I by hand; an endless plate, 0.01695 F L² / D (Timoshenko, from memory), less."""
    load, span, t = 80.0, 0.5, 0.012
    force, inertia = load * 9.80665, span * t**3 / 12
    bends = sag(span=span, thickness=t, modulus=BIRCH, load=load)
    assert bends == pytest.approx(force * span**3 / (48 * BIRCH * inertia))
    rigidity = BIRCH * t**3 / (12 * (1 - 0.3**2))
    plate = 0.01695 * force * span**2 / rigidity
    assert plate < bends < 1.5 * plate


def plate_sag(*, at: float, load: float, span: float, width: float, t: float) -> float:
    """How far a thin plate between two battens bends under a point load, by finite elements.

    Morley's triangle (scikit-fem): its own elements, assembly and mesh; Poisson's ratio 0.3. `at`
    is how far the load stands from the free edge.
    """
    skfem = pytest.importorskip("skfem")
    from skfem.helpers import dd, ddot, eye, trace

    lines = np.linspace(0, span, 33), np.linspace(0, width, 65)
    basis = skfem.Basis(skfem.MeshTri.init_tensor(*lines), skfem.ElementTriMorley())

    @skfem.BilinearForm
    def energy(u: Any, v: Any, _w: Any) -> Any:
        curved = dd(u)
        moments = BIRCH / (1 + 0.3) * (curved + 0.3 / 0.7 * eye(trace(curved), 2))
        return t**3 / 12 * ddot(moments, dd(v))

    spot = np.array([[span / 2], [at]])
    force = load * 9.80665 * basis.point_source(spot[:, 0])
    battens = basis.get_dofs(lambda x: np.isclose(x[0], 0) | np.isclose(x[0], span)).all("u")
    bent = skfem.solve(*skfem.condense(energy.assemble(basis), force, D=battens))
    return float((basis.probes(spot) @ bent)[0])


@pytest.mark.parametrize("span", [0.3, 0.5])
def test_an_edge_bends_no_less_than_the_plate_of_finite_elements(span):
    """A board 1.2 m broad over two battens: loaded in the middle and at its free edge it bends by
    what the strips say or less, and by more than half of it."""
    load, t = 80.0, 0.012
    inside = sag(span=span, thickness=t, modulus=BIRCH, load=load)
    at_edge = 3 * inside
    for ours, at in ((inside, 0.6), (at_edge, 0.0)):
        plate = plate_sag(at=at, load=load, span=span, width=1.2, t=t)
        assert 0.5 * ours < plate < ours


def test_a_rim_that_reaches_out_counts_as_an_edge_twice_as_long():
    """By hand: held on one side, F a³ / 3 E I over a strip 2 a broad; here half as much more."""
    reach = floor(rectangle(0.0, 0.0, 0.9, 0.6))
    assert free_edge(reach) == pytest.approx(0.2)
    bends = bending(reach, thickness=0.012, modulus=BIRCH, load=80.0, strength=4e7)
    force, inertia = 80 * 9.80665, 0.2 * 0.012**3 / 12
    assert bends.edge_sag == pytest.approx(1.5 * force * 0.1**3 / (3 * BIRCH * inertia))
    assert bends.stress == pytest.approx(1.5 * force * 0.1 * 0.006 / inertia)


def test_the_stress_carries_the_moment():
    """Second method: summed over the height of the strip, stress times arm is F L / 4."""
    load, span, t = 80.0, 0.5, 0.012
    heights = np.linspace(-t / 2, t / 2, 20001)
    most = stress(thickness=t, load=load)
    across = span * (most * heights / (t / 2)) * heights
    assert np.trapezoid(across, heights) == pytest.approx(load * 9.80665 * span / 4, rel=1e-6)


def test_what_is_not_known_is_said_and_what_bends_too_far():
    """80 kg on 18 mm strain an edge by 4.5 F / t² = 10.9 MPa: a third of 32.7."""

    def codes(on: Floor, thickness: float = 0.012, **known: float | None) -> list[str]:
        given = {"modulus": BIRCH, "load": 80.0, "strength": 9e7} | known
        bends = bending(on, thickness=thickness, **given)
        return [finding.code for finding in check_bending(bends)]

    wide, narrow = (
        floor(batten(0.02), batten(0.98)),
        floor(batten(0.02), batten(0.5), batten(0.98)),
    )
    assert codes(wide) == ["floor-edge-sags"]
    assert codes(narrow, 0.0175) == ["floor-edge-sags"]  # 2.4 mm over 0.44 m; inside a third
    assert codes(narrow, 0.018) == []
    assert codes(narrow, 0.018, strength=None) == ["floor-strength-unknown"]
    assert codes(narrow, 0.018, strength=3.2e7) == ["floor-may-break"]
    assert codes(narrow, 0.018, strength=3.3e7) == []
    # Carried all round its rim a broad one bends most inside, and is strained half as much.
    frame = [rectangle(*at) for at in ((0, 0, 1, 0.02), (0, 0.58, 1, 0.6), (0, 0, 0.02, 0.6),
                                       (0.98, 0, 1, 0.6))]  # fmt: skip
    assert codes(floor(*frame)) == ["floor-sags"]
    assert codes(wide, load=None) == ["floor-load-unknown"]
    assert codes(wide, modulus=None) == ["floor-stiffness-unknown"]
    one = floor(rectangle(0.0, 0.0, 1.0, 0.6))  # it lies all over: nothing spans
    assert bending(one, thickness=0.012, modulus=None, load=None, strength=None) is None


def test_a_floor_on_nothing_has_no_span():
    """Where all supports lie beside it, nothing of it lies between them."""
    assert widest_span(floor(rectangle(2.0, 0.0, 2.1, 0.6))) == 0.0
