"""Standing waves: second method, invariants, verdict and refusals."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from acoustics.air.mesh import clean_profile, triangulate
from acoustics.air.modes import judge_modes, prism_modes, profile_frequencies
from acoustics.errors import OutOfRangeError
from tests.refused import refused

Corners = list[tuple[float, float]]

WEDGE: Corners = [(0.0, 0.0), (0.40, 0.0), (0.22, 0.36), (0.0, 0.36)]
ELL: Corners = [(0.0, 0.0), (0.5, 0.0), (0.5, 0.2), (0.2, 0.2), (0.2, 0.4), (0.0, 0.4)]
STEPPED: Corners = [(0, 0), (0.6, 0), (0.5, 0.15), (0.32, 0.15), (0.32, 0.28), (0.1, 0.4), (0, 0.4)]
SLIT: Corners = [(0, 0), (0.5, 0), (0.5, 0.4), (0.3, 0.4), (0.295, 0.1), (0.29, 0.4), (0, 0.4)]


def library_frequencies(corners: Corners, count: int) -> np.ndarray:
    """The same modes by scikit-fem: its own elements, assembly, and a uniformly refined mesh."""
    skfem = pytest.importorskip("skfem")
    from skfem.models.poisson import laplace, mass

    pieces = shapely.constrained_delaunay_triangles(shapely.Polygon(corners)).geoms
    flat = np.vstack([np.asarray(p.exterior.coords)[:3] for p in pieces])
    nodes, numbers = np.unique(flat, axis=0, return_inverse=True)
    mesh = skfem.MeshTri(nodes.T.copy(), numbers.reshape(-1, 3).T.copy()).refined(5)
    for _ in range(8):  # twice as fine around every corner each time
        near = np.min([np.hypot(*(mesh.p - np.array(c)[:, None])) for c in corners], axis=0)
        size = np.max(np.abs(mesh.p[:, mesh.t] - mesh.p[:, np.roll(mesh.t, 1, 0)]), axis=(0, 1))
        mesh = mesh.refined(np.nonzero(size > 0.5 * near[mesh.t].min(axis=0) + 2e-4)[0])
        if mesh.t.shape[1] > 25_000:
            break
    basis = skfem.Basis(mesh, skfem.ElementTriP2())
    values = skfem.solver_eigen_scipy_sym(k=count, sigma=-1.0)(
        laplace.assemble(basis), mass.assemble(basis)
    )[0]
    return 343.2 / (2 * np.pi) * np.sqrt(np.clip(np.sort(values), 0, None))


@pytest.mark.second_method
@pytest.mark.parametrize("corners", [WEDGE, ELL, STEPPED, SLIT])
def test_profiles_agree_with_a_library(corners: Corners) -> None:
    """Ten modes of wedge, L, stepped and slit profiles agree within 0.1 % (scikit-fem)."""
    expected = library_frequencies(corners, 11)
    found = profile_frequencies(corners, count=11)
    assert found[1:] == pytest.approx(expected[1:], rel=1e-3)


@pytest.mark.second_method
@pytest.mark.parametrize(
    ("bottom", "top", "height"), [(0.40, 0.22, 0.36), (0.30, 0.15, 0.35), (0.35, 0.30, 0.36)]
)
def test_sloped_boxes_agree_closely(bottom: float, top: float, height: float) -> None:
    """The first three modes of boxes with a sloped rear agree within 0.01 % (scikit-fem)."""
    corners = [(0.0, 0.0), (bottom, 0.0), (top, height), (0.0, height)]
    expected = library_frequencies(corners, 4)
    assert profile_frequencies(corners, count=4)[1:] == pytest.approx(expected[1:], rel=1e-4)


@given(
    turn=st.floats(0.0, 6.2),
    shift=st.floats(-3.0, 3.0),
    scale=st.floats(0.3, 5.0),
    start=st.integers(0, 3),
    backwards=st.booleans(),
)
@settings(deadline=None, max_examples=15)
def test_turning_moving_and_renumbering_change_nothing(
    turn: float, shift: float, scale: float, start: int, backwards: bool
) -> None:
    """A box does not care how its profile is drawn, and twice the size halves each frequency."""
    corners = WEDGE[start:] + WEDGE[:start]
    if backwards:
        corners = corners[::-1]
    cos, sin = np.cos(turn), np.sin(turn)
    moved = [
        (scale * (cos * x - sin * y) + shift, scale * (sin * x + cos * y) - shift)
        for x, y in corners
    ]
    expected = profile_frequencies(WEDGE, count=5) / scale
    assert profile_frequencies(moved, count=5)[1:] == pytest.approx(expected[1:], rel=5e-4)


@given(bottom=st.floats(0.15, 0.8), top=st.floats(0.1, 0.8), height=st.floats(0.15, 0.8))
@settings(deadline=None, max_examples=15)
def test_a_wedge_lies_between_its_boxes_in_sum(bottom: float, top: float, height: float) -> None:
    """The lowest mode of a convex cavity is at least c/(2 · longest distance inside it).

    L. E. Payne & H. F. Weinberger, Arch. Rational Mech. Anal. 5 (1960) 286: k1 ≥ π/diameter.
    """
    corners: Corners = [(0, 0), (bottom, 0), (top, height), (0, height)]
    diameter = max(np.hypot(a - c, b - d) for a, b in corners for c, d in corners)
    found = profile_frequencies(corners, count=2)
    assert found[0] == pytest.approx(0.0, abs=1e-2)
    assert found[1] >= 343.2 / (2 * diameter) * (1 - 1e-6)


def test_rectangle_and_triangles_agree_where_they_meet() -> None:
    """A corner moved by a hair leaves the closed form for triangles and changes nothing."""
    exact = profile_frequencies([(0, 0), (0.4, 0), (0.4, 0.3), (0, 0.3)], count=9)
    solved = profile_frequencies([(0, 0), (0.4, 0), (0.4, 0.3), (0, 0.3 + 1e-7)], count=9)
    assert solved[1:] == pytest.approx(exact[1:], rel=5e-4)


def test_across_the_width_is_exact() -> None:
    """A very wide box has its lowest modes across the width alone: n c/2W."""
    modes = prism_modes(profile=WEDGE, width=3.0, count=3, speed_of_sound=340.0)
    assert modes.frequencies == pytest.approx(340.0 / 6.0 * np.array([1, 2, 3]), rel=1e-5)
    assert modes.indices == ((0, 1), (0, 2), (0, 3))


def test_modes_are_sorted_and_combine_profile_and_width() -> None:
    """Each frequency is the root of the squares its indices name."""
    modes = prism_modes(profile=ELL, width=0.7, count=12)
    assert np.all(np.diff(modes.frequencies) >= 0.0)
    for frequency, (flat, across) in zip(modes.frequencies, modes.indices, strict=True):
        expected = np.hypot(modes.profile_frequencies[flat], across * 343.2 / 1.4)
        assert frequency == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("corners", [WEDGE, ELL, STEPPED, SLIT])
def test_mesh_fills_the_profile_without_hanging_points(corners: Corners) -> None:
    """Triangles add up to the area, and every inner edge is shared by exactly two of them."""
    ring = clean_profile(corners)
    points, triangles = triangulate(ring, 0.05)
    a, b, c = (points[triangles[:, i]] for i in range(3))
    twice = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    assert np.all(twice > 0.0)
    assert twice.sum() / 2 == pytest.approx(shapely.Polygon(corners).area, rel=1e-12)
    edges = np.sort(triangles[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    lines, shared = np.unique(edges, axis=0, return_counts=True)
    assert shared.max() == 2
    rim = lines[shared == 1]
    length = np.hypot(*(points[rim[:, 0]] - points[rim[:, 1]]).T).sum()
    assert length == pytest.approx(shapely.Polygon(corners).length, rel=1e-9)


def test_needless_points_do_not_make_a_rectangle_inexact() -> None:
    """A rectangle with points along its sides and a closing point is still a rectangle."""
    drawn = [(0.2, 0), (0.4, 0), (0.4, 0.15), (0.4, 0.3), (0, 0.3), (0, 0), (0.2, 0)]
    plain = [(0, 0), (0.4, 0), (0.4, 0.3), (0, 0.3)]
    assert profile_frequencies(drawn, count=6) == pytest.approx(
        profile_frequencies(plain, count=6), rel=1e-12
    )


def test_verdict_for_a_box_used_below_its_modes() -> None:
    """A sub below 120 Hz has no standing wave in its band, sloped or not, and is told so."""
    verdict = judge_modes(profile=WEDGE, width=0.9, highest_used=120.0)
    assert (verdict.in_band, verdict.in_band_rectangle) == (0, 0)
    assert [f.code for f in verdict.findings] == [
        "standing-waves-above-band",
        "box-shape-does-not-matter",
    ]
    assert verdict.findings[0].value == pytest.approx(343.2 / 1.8, rel=1e-6)


def test_verdict_where_the_slope_moves_a_mode_into_the_band() -> None:
    """A 27° slope lowers the first mode by 7 %; between the two the shape decides.

    442.90 against 476.67 Hz: scikit-fem for the wedge, closed form for the square box.
    """
    verdict = judge_modes(profile=WEDGE, width=0.3, highest_used=460.0)
    assert (verdict.in_band, verdict.in_band_rectangle) == (1, 0)
    assert verdict.shift == pytest.approx(442.90 / 476.667 - 1, abs=2e-4)
    assert [f.code for f in verdict.findings] == ["standing-wave-in-band", "box-shape-matters"]


def test_a_square_box_says_nothing_about_slopes() -> None:
    """A rectangular profile has no slope to judge."""
    square = [(0, 0), (0.4, 0), (0.4, 0.3), (0, 0.3)]
    verdict = judge_modes(profile=square, width=0.9, highest_used=100.0)
    assert len(verdict.findings) == 1
    assert verdict.shift == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    ("bad", "code", "name"),
    [
        ([(0, 0), (1, 0)], "at-least", "corners"),  # a line
        ([(0, 0), (1, 1), (1, 0), (0, 1)], "simple-outline", "profile"),  # crossing
        # Crossing, and the lobes do not cancel.
        ([(0, 0), (2, 2), (2, 0), (0, 1)], "simple-outline", "profile"),
        ([(0, 0), (1, 0), (2, 0)], "simple-outline", "profile"),  # no area
        ([(0, 0), (1, 0), (1, float("nan"))], "number-pairs", "profile"),
    ],
)
def test_profiles_that_are_no_boxes_are_refused(bad: Corners, code: str, name: str) -> None:
    """A line, a crossed outline, no area and not-a-number are refused by name."""
    with refused(OutOfRangeError, code, name):
        profile_frequencies(bad, count=3)


def test_numbers_out_of_range_are_refused() -> None:
    """Count, speed, width and band must be above zero."""
    with refused(OutOfRangeError, "at-least", "mode-count"):
        profile_frequencies(WEDGE, count=0)
    with refused(OutOfRangeError, "at-least", "mode-count", value=0, limit=1):
        prism_modes(profile=WEDGE, width=0.9, count=0)
    with refused(OutOfRangeError, "above", "speed-of-sound"):
        profile_frequencies(WEDGE, count=3, speed_of_sound=0.0)
    with refused(OutOfRangeError, "above", "inside-width"):
        prism_modes(profile=WEDGE, width=-1.0)
    with refused(OutOfRangeError, "above", "highest-used"):
        judge_modes(profile=WEDGE, width=0.9, highest_used=float("nan"))
