"""Crossover filters: second method, invariants and refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import signal

from acoustics.circuit.filters import (
    Family,
    Filter,
    Norm,
    Passes,
    Way,
    alignment_delays,
    sum_of_ways,
)
from acoustics.errors import OutOfRangeError
from tests.refused import refused

GRID = np.geomspace(1.0, 20e3, 200)


@pytest.mark.second_method
@pytest.mark.parametrize("passes", Passes)
@pytest.mark.parametrize(
    ("family", "order"),
    [(f, n) for f in Family for n in range(1, 9) if f is not Family.LINKWITZ_RILEY or n % 2 == 0],
)
def test_filters_agree_with_a_library(family: Family, passes: Passes, order: int) -> None:
    """Every family, order and side equals the analogue design of scipy.signal."""
    w = 2 * np.pi * 120.0
    if family is Family.BESSEL:
        b, a = signal.bessel(order, w, passes.value, analog=True, norm="mag")
    elif family is Family.BUTTERWORTH:
        b, a = signal.butter(order, w, passes.value, analog=True)
    else:
        b, a = signal.butter(order // 2, w, passes.value, analog=True)
        b, a = np.polymul(b, b), np.polymul(a, a)
    _, expected = signal.freqs(b, a, 2 * np.pi * GRID)
    found = Filter(family=family, order=order, corner=120.0, passes=passes).response(GRID)
    assert np.abs(found - expected).max() < 1e-9


@pytest.mark.second_method
@pytest.mark.parametrize("passes", Passes)
@pytest.mark.parametrize("norm", Norm)
@pytest.mark.parametrize("order", range(1, 9))
def test_bessel_agrees_with_a_library_in_each_of_its_norms(
    order: int, norm: Norm, passes: Passes
) -> None:
    """By magnitude, by phase and by delay it is scipy.signal's within 1e-9."""
    w, name = 2 * np.pi * 120.0, {"magnitude": "mag"}.get(norm, norm)
    b, a = signal.bessel(order, w, passes.value, analog=True, norm=name)
    _, expected = signal.freqs(b, a, 2 * np.pi * GRID)
    cut = Filter(family=Family.BESSEL, order=order, corner=120.0, passes=passes, norm=norm)
    assert np.abs(cut.response(GRID) - expected).max() < 1e-9


filters = st.builds(
    Filter,
    family=st.sampled_from([Family.BUTTERWORTH, Family.BESSEL]),
    order=st.integers(1, 8),
    corner=st.floats(20.0, 8000.0),
    passes=st.sampled_from(Passes),
)


@given(filters)
@settings(deadline=None, max_examples=60)
def test_filters_fall_all_the_way(each: Filter) -> None:
    """A low-pass never rises, a high-pass never falls, and neither exceeds one."""
    size = np.abs(each.response(GRID))
    assert size.max() <= 1.0 + 1e-9
    steps = np.diff(size) if each.passes is Passes.HIGH else -np.diff(size)
    assert steps.min() >= -1e-9


@given(filters)
@settings(deadline=None, max_examples=60)
def test_the_other_side_is_the_mirror(each: Filter) -> None:
    """High-pass at f is the low-pass at fc²/f, conjugated."""
    other = Passes.LOW if each.passes is Passes.HIGH else Passes.HIGH
    mirror = Filter(family=each.family, order=each.order, corner=each.corner, passes=other)
    mirrored = np.conj(mirror.response(each.corner**2 / GRID))
    assert each.response(GRID) == pytest.approx(mirrored, rel=1e-9, abs=1e-14)


@given(filters)
@settings(deadline=None, max_examples=40)
def test_slope_far_out_is_six_decibels_an_octave_each_order(each: Filter) -> None:
    """Five and six octaves beyond the corner the slope is 6.02 dB per octave and order."""
    sign = 1.0 if each.passes is Passes.LOW else -1.0
    far = each.corner * 2.0 ** (sign * np.array([5.0, 6.0]))
    level = 20 * np.log10(np.abs(each.response(far)))
    assert level[0] - level[1] == pytest.approx(6.0206 * each.order, rel=0.01)


@given(
    corner=st.floats(30.0, 5000.0),
    order=st.sampled_from([4, 8]),
    level=st.floats(-20.0, 6.0),
    delay=st.floats(0.0, 0.02),
)
@settings(deadline=None, max_examples=40)
def test_linkwitz_riley_ways_sum_flat(
    corner: float, order: int, level: float, delay: float
) -> None:
    """Two ways with one gain and one delay sum to that gain at every frequency."""
    ways = [
        Way(
            filters=(
                Filter(family=Family.LINKWITZ_RILEY, order=order, corner=corner, passes=side),
            ),
            level=level,
            delay=delay,
        )
        for side in Passes
    ]
    total = 20 * np.log10(np.abs(sum_of_ways(ways, GRID)))
    assert total == pytest.approx(level, abs=1e-7)


def test_a_band_pass_is_its_two_filters_in_a_row() -> None:
    """A way with a high- and a low-pass multiplies both, its gain, delay and polarity."""
    low = Filter(family=Family.BUTTERWORTH, order=3, corner=2500.0, passes=Passes.LOW)
    high = Filter(family=Family.BESSEL, order=2, corner=90.0, passes=Passes.HIGH)
    found = Way(filters=(high, low), level=-3.0, delay=1e-3, inverted=True).response(GRID)
    plain = low.response(GRID) * high.response(GRID)
    assert np.abs(found) == pytest.approx(np.abs(plain) * 10 ** (-3 / 20))
    assert found / plain == pytest.approx(
        -(10 ** (-3 / 20)) * np.exp(-2j * np.pi * GRID * 1e-3), rel=1e-9
    )


@given(st.lists(st.floats(0.2, 6.0), min_size=1, max_size=8))
@settings(deadline=None, max_examples=40)
def test_delays_bring_all_arrivals_together(distances: list[float]) -> None:
    """Flight time plus delay is the same for all, and the farthest waits for nobody."""
    lengths = np.array(distances)
    delays = alignment_delays(lengths, speed_of_sound=340.0)
    assert lengths / 340.0 + delays == pytest.approx(lengths.max() / 340.0)
    assert delays.min() == 0.0


@pytest.mark.parametrize(
    ("family", "order", "corner", "words"),
    [
        (Family.BUTTERWORTH, 0, 80.0, ("between", "filter-order")),
        (Family.BUTTERWORTH, 9, 80.0, ("between", "filter-order")),
        (Family.LINKWITZ_RILEY, 3, 80.0, ("one-of", "linkwitz-riley-order")),
        (Family.BESSEL, 2, 0.0, ("above", "corner-frequency")),
        (Family.BESSEL, 2, float("nan"), ("above", "corner-frequency")),
    ],
)
def test_filters_that_do_not_exist_are_refused(
    family: Family, order: int, corner: float, words: tuple[str, ...]
) -> None:
    """Order zero, nine, odd Linkwitz-Riley, and corners of no frequency are refused."""
    with refused(OutOfRangeError, *words):
        Filter(family=family, order=order, corner=corner, passes=Passes.LOW)


def test_ways_that_do_not_exist_are_refused() -> None:
    """No ways, a negative delay, no level, zero frequency and zero distance are refused."""
    with refused(OutOfRangeError, "at-least", "way-count"):
        sum_of_ways([], GRID)
    with refused(OutOfRangeError, "at-least", "delay"):
        Way(delay=-1e-3)
    with refused(OutOfRangeError, "finite", "level"):
        Way(level=float("inf"))
    with refused(OutOfRangeError, "above", "frequency"):
        Way().response(np.array([0.0]))
    with refused(OutOfRangeError, "above", "distance"):
        alignment_delays(np.array([1.0, 0.0]))
