"""Standing waves of boxes whose walls all lean: exact limit, tetrahedra, invariants, refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from acoustics.air.hexahedron import hexahedron_frequencies, hexahedron_volume, judge_hexahedron
from acoustics.air.modes import judge_modes, prism_modes
from acoustics.errors import OutOfRangeError
from tests.refused import refused

Corners = tuple[tuple[float, float, float], ...]


def frustum(
    bottom: tuple[float, float],
    top: tuple[float, float],
    height: float,
    shift: tuple[float, float] = (0.0, 0.0),
) -> Corners:
    """Corners of a box over a rectangle, its top another one; y up."""
    rows = []
    for (depth, width), y, (dx, dz) in ((bottom, 0.0, (0.0, 0.0)), (top, height, shift)):
        x, z = depth / 2, width / 2
        rows += [(dx + a * x, y, dz - b * z) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    return tuple(rows)


def library_frequencies(corners: Corners, count: int, steps: int) -> np.ndarray:
    """The same modes by scikit-fem: quadratic tetrahedra in a mapped cube."""
    skfem = pytest.importorskip("skfem")
    from skfem.models.poisson import laplace, mass

    at = np.linspace(0.0, 1.0, steps + 1)
    cube = skfem.MeshTet.init_tensor(at, at, at)
    a, b, c = cube.p
    shares = [
        (1 - a) * (1 - b), a * (1 - b), a * b, (1 - a) * b,
    ]  # fmt: skip
    weights = np.array([s * (1 - c) for s in shares] + [s * c for s in shares])
    mesh = skfem.MeshTet(np.asarray(corners).T @ weights, cube.t)
    basis = skfem.Basis(mesh, skfem.ElementTetP2())
    values = skfem.solver_eigen_scipy_sym(k=count, sigma=-1.0)(
        laplace.assemble(basis), mass.assemble(basis)
    )[0]
    return 343.2 / (2 * np.pi) * np.sqrt(np.clip(np.sort(values), 0, None))


@pytest.mark.second_method
@pytest.mark.parametrize(
    "corners",
    [
        frustum((0.42, 0.55), (0.24, 0.36), 0.38, (-0.03, 0.02)),
        pytest.param(frustum((0.25, 0.30), (0.45, 0.30), 0.30), marks=pytest.mark.long),
        pytest.param(frustum((0.55, 0.50), (0.30, 0.25), 0.30, (0.1, 0.0)), marks=pytest.mark.long),
    ],
)
def test_tapers_agree_with_tetrahedra(corners: Corners) -> None:
    """Ten modes of real tapers agree within 0.1 % (scikit-fem, quadratic tetrahedra)."""
    expected = library_frequencies(corners, 11, 10)
    assert hexahedron_frequencies(corners, count=11)[1:] == pytest.approx(expected[1:], rel=1e-3)


@given(depth=st.floats(0.1, 1.5), height=st.floats(0.1, 0.8), width=st.floats(0.1, 1.5))
@settings(deadline=None, max_examples=15)
def test_an_upright_box_is_the_exact_one(depth: float, height: float, width: float) -> None:
    """Where nothing leans the modes are c/2 · √(Σ (n/L)²) within 0.1 %, whatever the sides."""
    corners = frustum((depth, width), (depth, width), height)
    exact = prism_modes(
        profile=[(0, 0), (depth, 0), (depth, height), (0, height)], width=width, count=10
    )
    found = hexahedron_frequencies(corners, count=11)
    assert found[0] == pytest.approx(0.0, abs=0.5)
    assert found[1:] == pytest.approx(exact.frequencies, rel=1e-3)
    assert hexahedron_volume(corners) == pytest.approx(depth * height * width)
    seen = judge_hexahedron(corners=corners, highest_used=300.0)
    prism = judge_modes(
        profile=[(0, 0), (depth, 0), (depth, height), (0, height)], width=width, highest_used=300.0
    )
    assert [one.code for one in seen.findings] == [one.code for one in prism.findings]


@pytest.mark.second_method
def test_a_wall_that_leans_in_the_side_view_alone_is_a_prism() -> None:
    """A box with two upright sides has the modes the prism's method gives it (0.1 %)."""
    corners = frustum((0.5, 0.4), (0.3, 0.4), 0.35, (0.05, 0.0))
    profile = [(-0.25, 0.0), (0.25, 0.0), (0.20, 0.35), (-0.10, 0.35)]
    prism = judge_modes(profile=profile, width=0.4, highest_used=450.0)
    found = judge_hexahedron(corners=corners, highest_used=450.0)
    assert found.modes.frequencies == pytest.approx(prism.modes.frequencies, rel=1e-3)
    assert found.rectangle.frequencies == pytest.approx(prism.rectangle.frequencies, rel=1e-9)
    assert found.in_band == prism.in_band
    assert [one.code for one in found.findings] == [one.code for one in prism.findings]


@pytest.mark.second_method
@pytest.mark.parametrize(
    ("bottom", "top", "height", "width"), [(1.2, 0.08, 0.15, 0.25), (0.1, 0.9, 0.25, 0.2)]
)
def test_a_long_thin_wedge_is_a_prism_too(
    bottom: float, top: float, height: float, width: float
) -> None:
    """Ten modes of a wedge whose one end all but vanishes are those of the prism's method (0.1 %).

    Its short waves crowd where it is high: degrees counted by its longest sides miss them by 6 %.
    """
    corners = frustum((bottom, width), (top, width), height, ((top - bottom) / 2, 0.0))
    profile = [(0.0, 0.0), (bottom, 0.0), (top, height), (0.0, height)]
    prism = prism_modes(profile=profile, width=width, count=10)
    found = hexahedron_frequencies(corners, count=11)
    assert found[1:] == pytest.approx(prism.frequencies, rel=1e-3)


def test_twice_the_size_is_half_the_frequency() -> None:
    """Modes go with one over the size."""
    one = frustum((0.42, 0.55), (0.24, 0.36), 0.38, (-0.03, 0.02))
    two = tuple((2 * x, 2 * y, 2 * z) for x, y, z in one)
    found = [hexahedron_frequencies(c, count=6)[1:] for c in (one, two)]
    assert found[0] == pytest.approx(2 * found[1], rel=1e-9)


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"corners": frustum((0.4, 0.3), (0.2, -0.2), 0.3)}, ("above", "corner-volume")),
        ({"corners": ((0.0, 0.0, 0.0),) * 4}, ("eight-corners", "corners")),
        ({"count": 0}, ("at-least", "mode-count")),
        ({"speed_of_sound": 0.0}, ("above", "speed-of-sound")),
    ],
)
def test_what_is_no_box_is_refused(changed, says) -> None:
    """Sides that cross, too few corners, no count and no speed of sound."""
    given = {"corners": frustum((0.4, 0.3), (0.2, 0.2), 0.3), "count": 5} | changed
    with refused(OutOfRangeError, *says):
        hexahedron_frequencies(given.pop("corners"), **given)


def test_a_box_turned_round_is_the_same_box() -> None:
    """A corner pulled far out in all three directions: where it is counted from changes nothing."""
    corners = list(frustum((0.4, 0.5), (0.4, 0.5), 0.3))
    corners[0] = (-0.6, -0.35, 0.8)
    ours = hexahedron_frequencies(tuple(corners), count=3)[1:]
    half_a_turn = tuple(corners[n] for n in (2, 3, 0, 1, 6, 7, 4, 5))
    assert hexahedron_frequencies(half_a_turn, count=3)[1:] == pytest.approx(ours, rel=1e-9)
