"""Crossover filters against the papers they come from."""

import numpy as np
import pytest

from acoustics.circuit.filters import Family, Filter, Passes, Way, alignment_delays, sum_of_ways

CORNER = 80.0


def way(family: Family, order: int, passes: Passes, *, inverted: bool = False) -> Way:
    """A way of one filter at the corner."""
    each = Filter(family=family, order=order, corner=CORNER, passes=passes)
    return Way(filters=(each,), inverted=inverted)


def decibel(response: np.ndarray) -> np.ndarray:
    """Level of a complex gain."""
    return 20.0 * np.log10(np.abs(response))


# S. H. Linkwitz, JAES 24 (1976) 2-8, for the sums; the level at the corner by definition.
# family, order, level of the low-pass at the corner, low over high there in degrees,
# level of the sum there: same polarity, one inverted (None: nothing is left)
SUMS = [
    (Family.BUTTERWORTH, 1, -3.0103, 90, 0.0, 0.0),
    (Family.BUTTERWORTH, 2, -3.0103, 180, None, 3.0103),
    (Family.BUTTERWORTH, 3, -3.0103, 270, 0.0, 0.0),
    (Family.BUTTERWORTH, 4, -3.0103, 360, 3.0103, None),
    (Family.LINKWITZ_RILEY, 2, -6.0206, 180, None, 0.0),
    (Family.LINKWITZ_RILEY, 4, -6.0206, 360, 0.0, None),
    (Family.LINKWITZ_RILEY, 6, -6.0206, 540, None, 0.0),
    (Family.LINKWITZ_RILEY, 8, -6.0206, 720, 0.0, None),
]


@pytest.mark.parametrize(("family", "order", "level", "turn", "same", "inverted"), SUMS)
def test_corner_and_sum(
    family: Family,
    order: int,
    level: float,
    turn: float,
    same: float | None,
    inverted: float | None,
) -> None:
    """Level, phase between the ways, and both sums at the corner."""
    at = np.array([CORNER])
    low = way(family, order, Passes.LOW)
    assert decibel(low.response(at))[0] == pytest.approx(level, abs=5e-5)
    ratio = way(family, order, Passes.HIGH).response(at) / low.response(at)
    assert ratio[0] == pytest.approx(np.exp(1j * np.deg2rad(turn)), abs=1e-9)
    for turned, expected in ((False, same), (True, inverted)):
        total = sum_of_ways([low, way(family, order, Passes.HIGH, inverted=turned)], at)
        if expected is None:
            assert abs(total[0]) < 1e-9
        else:
            assert decibel(total)[0] == pytest.approx(expected, abs=5e-5)


@pytest.mark.parametrize(
    ("family", "order", "inverted"),
    [
        (Family.BUTTERWORTH, 1, False),
        (Family.BUTTERWORTH, 1, True),
        (Family.BUTTERWORTH, 3, False),
        (Family.BUTTERWORTH, 3, True),
        (Family.LINKWITZ_RILEY, 2, True),
        (Family.LINKWITZ_RILEY, 4, False),
        (Family.LINKWITZ_RILEY, 6, True),
        (Family.LINKWITZ_RILEY, 8, False),
    ],
)
def test_flat_sums(family: Family, order: int, inverted: bool) -> None:
    """Odd Butterworth and rightly poled Linkwitz-Riley ways sum flat at every frequency."""
    frequency = np.geomspace(2.0, 20e3, 300)
    ways = [way(family, order, Passes.LOW), way(family, order, Passes.HIGH, inverted=inverted)]
    assert decibel(sum_of_ways(ways, frequency)) == pytest.approx(0.0, abs=1e-9)


# By hand: -20 lg(1 + u^4) for u = f/fc is the fourth-order Linkwitz-Riley low-pass,
# -20 lg(1 + u²) the second-order one, -10 lg(1 + u^8) the fourth-order Butterworth.
@pytest.mark.parametrize(
    ("family", "order", "ratio", "level"),
    [
        (Family.LINKWITZ_RILEY, 4, 0.25, -0.0339),
        (Family.LINKWITZ_RILEY, 4, 0.5, -0.5266),
        (Family.LINKWITZ_RILEY, 4, 2.0, -24.6090),
        (Family.LINKWITZ_RILEY, 4, 4.0, -48.1987),
        (Family.LINKWITZ_RILEY, 2, 0.25, -0.5266),
        (Family.LINKWITZ_RILEY, 2, 0.5, -1.9382),
        (Family.LINKWITZ_RILEY, 2, 2.0, -13.9794),
        (Family.LINKWITZ_RILEY, 2, 4.0, -24.6090),
        (Family.BUTTERWORTH, 4, 2.0, -24.0993),
    ],
)
def test_levels_beside_the_corner(family: Family, order: int, ratio: float, level: float) -> None:
    """Low-pass levels at a quarter, half, twice and four times the corner."""
    found = way(family, order, Passes.LOW).response(np.array([CORNER * ratio]))
    assert decibel(found)[0] == pytest.approx(level, abs=6e-5)


def test_delay_of_the_fourth_order_sum() -> None:
    """Group delay of the summed fourth-order Linkwitz-Riley ways: 2√2/ωc at low frequencies.

    The sum is an all-pass of second order with Q = 1/√2, whose delay at zero is 2/(Q ωc); its
    largest value is 3.4142/ωc at 0.644 fc (worked by hand).
    """
    ways = [way(Family.LINKWITZ_RILEY, 4, side) for side in Passes]
    step = 1e-4
    for ratio, expected in ((0.001, 2.8284), (0.644, 3.4142)):
        at = CORNER * np.array([ratio - step, ratio + step])
        angle = np.unwrap(np.angle(sum_of_ways(ways, at)))
        assert -(angle[1] - angle[0]) / (2 * step) == pytest.approx(expected, abs=2e-4)


def test_bessel_is_minus_three_decibel_at_its_corner() -> None:
    """Every order has -3.0103 dB at the corner: the normalisation this project states."""
    for order in range(1, 9):
        for side in Passes:
            found = way(Family.BESSEL, order, side).response(np.array([CORNER]))
            assert decibel(found)[0] == pytest.approx(-3.0103, abs=5e-5)


def test_delays_for_distances() -> None:
    """0.95 m against 1.45 m: the nearer one waits 1.4569 ms; 1 m is 2.9138 ms (343.2 m/s)."""
    delays = alignment_delays(np.array([0.95, 1.45]))
    assert delays == pytest.approx([1.4569e-3, 0.0], abs=5e-8)
    assert alignment_delays(np.array([1.0, 2.0]))[0] == pytest.approx(2.9138e-3, abs=5e-8)
    assert 360 * 80 * alignment_delays(np.array([1.0, 1.1]))[0] == pytest.approx(8.39, abs=0.005)
