"""Standing waves of cavities whose modes are known in closed form or as published benchmarks."""

import numpy as np
import pytest

from acoustics.air.modes import prism_modes, profile_frequencies

C = 343.2
S3 = np.sqrt(3.0)


def lame(side: float, pairs: list[tuple[int, int]]) -> list[float]:
    """Modes of an equilateral triangle, (c/2π)(4π/3a) sqrt(m² + mn + n²).

    G. Lamé (1852); B. J. McCartin, Laplacian Eigenstructure of the Equilateral Triangle (2011).
    """
    return [C * 2.0 / (3.0 * side) * float(np.sqrt(m * m + m * n + n * n)) for m, n in pairs]


def test_box_modes() -> None:
    """A box of 0.6 × 0.4 × 0.3 m: f = (c/2) sqrt((l/Lx)² + (m/Ly)² + (n/Lz)²).

    P. M. Morse & K. U. Ingard, Theoretical Acoustics (1968), § 9.5; worked by hand.
    """
    profile = [(0.0, 0.0), (0.6, 0.0), (0.6, 0.4), (0.0, 0.4)]
    modes = prism_modes(profile=profile, width=0.3, count=7)
    expected = [286.00, 429.00, 515.59, 572.00, 572.00, 639.52, 715.00]
    assert modes.frequencies == pytest.approx(expected, abs=0.006)


def test_right_isosceles_triangle() -> None:
    """Half a square: (c/2L) sqrt(m² + n²) with m ≥ n, the modes even about the diagonal.

    Method of images; Morse & Ingard (1968), § 9.5, for the square.
    """
    expected = [
        C / (2 * 0.5) * np.hypot(m, n) for m, n in [(1, 0), (1, 1), (2, 0), (2, 1), (2, 2), (3, 0)]
    ]
    found = profile_frequencies([(0, 0), (0.5, 0), (0, 0.5)], count=7)
    assert found[0] == pytest.approx(0.0, abs=1e-3)
    assert found[1:] == pytest.approx(expected, rel=1e-3)
    assert found[1:3] == pytest.approx([343.20, 485.358], rel=2e-5)


def test_equilateral_triangle() -> None:
    """Lamé's modes, with every double one found twice."""
    pairs = [(1, 0), (1, 0), (1, 1), (2, 0), (2, 0), (2, 1), (2, 1)]
    found = profile_frequencies([(0, 0), (0.5, 0), (0.25, 0.25 * S3)], count=8)
    assert found[1:] == pytest.approx(lame(0.5, pairs), rel=1e-3)
    assert found[1:4] == pytest.approx([457.60, 457.60, 792.586], rel=2e-5)


def test_half_an_equilateral_triangle() -> None:
    """The 30-60-90 triangle keeps each of Lamé's modes once."""
    pairs = [(1, 0), (1, 1), (2, 0), (2, 1), (3, 0), (2, 2)]
    found = profile_frequencies([(0, 0), (0.25, 0), (0.25, 0.25 * S3)], count=7)
    assert found[1:] == pytest.approx(lame(0.5, pairs), rel=1e-3)
    assert found[1] == pytest.approx(457.60, rel=2e-5)


def test_l_shape() -> None:
    """An L of three unit squares has ω² = 1.47562, 3.53403, π², π², 11.38948.

    M. Dauge, Benchmark computations for Maxwell equations (2004), from memory; the inner corner
    makes it a hard case, so 0.05 % is asked of the frequency.
    """
    squares = [1.47562182408, 3.53403136678, np.pi**2, np.pi**2, 11.3894793979]
    corners = [(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.0, 1.0), (1.0, 2.0), (0.0, 2.0)]
    found = profile_frequencies(corners, count=6)
    assert found[1:] == pytest.approx(C / (2 * np.pi) * np.sqrt(squares), rel=5e-4)
