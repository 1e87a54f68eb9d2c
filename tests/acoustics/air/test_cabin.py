"""Cabin: the ideal bound and measured curves."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from acoustics.air.cabin import PressureZoneBound, TransferCurve
from acoustics.errors import OutOfRangeError
from tests.refused import refused

# Volume, length, c/2L, fx, gain at 20, 30 and 40 Hz; worked by hand from ρc²/V against
# ρω²/(2πr) with r = 1 m and c = 343.2 m/s.
CABINS = [
    (2.5, 2.2, 78.00, 86.59, (25.46, 18.42, 13.42)),
    (3.0, 2.5, 68.64, 79.05, (23.88, 16.83, 11.83)),
    (3.5, 2.7, 63.56, 73.19, (22.54, 15.49, 10.50)),
    (5.0, 3.5, 49.03, 61.23, (19.44, 12.39, 7.40)),
]


@pytest.mark.parametrize(("volume", "length", "mode", "joining", "gains"), CABINS)
def test_worked_cabins(
    volume: float, length: float, mode: float, joining: float, gains: tuple[float, ...]
) -> None:
    """First mode, joining frequency and bound of four cabins."""
    bound = PressureZoneBound(volume=volume, length=length)
    assert bound.first_mode == pytest.approx(mode, abs=0.006)
    assert bound.joining_frequency == pytest.approx(joining, abs=0.006)
    assert bound.gain(np.array([20.0, 30.0, 40.0])) == pytest.approx(gains, abs=0.006)


@given(volume=st.floats(1.0, 12.0), frequency=st.floats(5.0, 200.0), density=st.floats(1.0, 1.3))
@settings(deadline=None, max_examples=50)
def test_the_bound_is_the_ratio_of_both_pressures(
    volume: float, frequency: float, density: float
) -> None:
    """Uniform over half-space pressure of one volume stroke, where it exceeds one."""
    bound = PressureZoneBound(volume=volume, length=2.5)
    stroke = 490e-6
    zone = density * 343.2**2 * stroke / volume
    free = density * (2 * np.pi * frequency) ** 2 * stroke / (2 * np.pi)
    expected = max(20 * np.log10(zone / free), 0.0)
    assert bound.gain(np.array([frequency]))[0] == pytest.approx(expected, abs=1e-9)


def test_the_bound_joins_without_a_step_and_rises_twelve_decibels_an_octave() -> None:
    """0 dB at and above fx, 12.04 dB one octave below."""
    bound = PressureZoneBound(volume=3.0, length=2.5)
    fx = bound.joining_frequency
    gains = bound.gain(fx * np.array([0.25, 0.5, 1 - 1e-9, 1.0, 3.0]))
    assert gains == pytest.approx([24.0824, 12.0412, 0.0, 0.0, 0.0], abs=1e-4)


CURVE = TransferCurve(
    frequency=np.array([20.0, 40.0, 80.0]),
    level=np.array([20.0, 10.0, 4.0]),
    phase=np.array([170.0, -170.0, -90.0]),
)


def test_a_measured_curve_is_met_at_its_points_and_halfway_between() -> None:
    """Points return themselves; the geometric middle returns the mean of both."""
    assert CURVE.gain(CURVE.frequency) == pytest.approx(CURVE.level)
    assert CURVE.gain(np.array([np.sqrt(800.0)]))[0] == pytest.approx(15.0)


def test_phase_crosses_180_degrees_the_short_way() -> None:
    """Between 170° and -170° lies 180°, not 0°."""
    middle = CURVE.response(np.array([np.sqrt(800.0)]))[0]
    assert middle == pytest.approx(-(10 ** (15.0 / 20)), rel=1e-9)


@pytest.mark.parametrize("outside", [19.9, 80.1])
def test_outside_the_measured_range_there_is_no_answer(outside: float) -> None:
    """A curve is never carried on beyond its ends."""
    with refused(OutOfRangeError, "between", "transfer-frequency", low=20, high=80):
        CURVE.gain(np.array([40.0, outside]))


def test_no_phase_no_complex_response() -> None:
    """A curve without phase gives a gain alone."""
    plain = TransferCurve(frequency=CURVE.frequency, level=CURVE.level)
    assert plain.gain(np.array([40.0]))[0] == pytest.approx(10.0)
    with refused(OutOfRangeError, "measured", "transfer-phase"):
        plain.response(np.array([40.0]))


@pytest.mark.parametrize(
    ("frequency", "level", "code"),
    [
        ([20.0], [1.0], "two-equal-columns"),
        ([20.0, 10.0], [1.0, 1.0], "rising"),
        ([10.0, 20.0], [1.0, float("nan")], "rising"),
    ],
)
def test_columns_that_are_no_curve_are_refused(
    frequency: list[float], level: list[float], code: str
) -> None:
    """One point, falling frequencies and unknown levels are refused."""
    with refused(OutOfRangeError, code, "transfer-curve"):
        TransferCurve(frequency=np.array(frequency), level=np.array(level))


@pytest.mark.parametrize("name", ["volume", "length", "distance", "speed_of_sound"])
def test_a_cabin_of_no_size_is_refused(name: str) -> None:
    """Volume, length, distance and speed are above zero."""
    values = {"volume": 3.0, "length": 2.5, name: 0.0}
    with refused(OutOfRangeError, "above"):
        PressureZoneBound(**values)
