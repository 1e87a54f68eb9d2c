"""Metric flexible conductors against IEC 60228:2004, Table 3 (class 5) and its Table A.1."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.refused import refused
from wiring.cable.conductor import IACS, metric
from wiring.errors import OutOfRangeError, OutsideTableError

PLAIN = {
    0.5: 39.0, 0.75: 26.0, 1: 19.5, 1.5: 13.3, 2.5: 7.98, 4: 4.95, 6: 3.30, 10: 1.91, 16: 1.21,
    25: 0.780, 35: 0.554, 50: 0.386, 70: 0.272, 95: 0.206, 120: 0.161,
}  # fmt: skip
TINNED = {
    0.5: 40.1, 0.75: 26.7, 1: 20.0, 1.5: 13.7, 2.5: 8.21, 4: 5.09, 6: 3.39, 10: 1.95, 16: 1.24,
    25: 0.795, 35: 0.565, 50: 0.393, 70: 0.277, 95: 0.210, 120: 0.164,
}  # fmt: skip


@pytest.mark.parametrize("size", PLAIN)
def test_class_5_is_exact(size: float) -> None:
    """Greatest resistance of plain and tinned class 5 conductors, Ω/km at 20 °C, to the digit."""
    assert metric(size * 1e-6).resistance(20) * 1e3 == pytest.approx(PLAIN[size], rel=1e-12)
    tinned = metric(size * 1e-6, tinned=True)
    assert tinned.resistance(20) * 1e3 == pytest.approx(TINNED[size], rel=1e-12)


@pytest.mark.parametrize("size", PLAIN)
def test_nominal_area_is_a_resistance_class(size: float) -> None:
    """R·A lies 10 to 16 % above copper's resistivity (computed from the table)."""
    assert 1.10 <= round(metric(size * 1e-6).resistance(20) * size * 1e-6 / IACS, 2) <= 1.16


@pytest.mark.parametrize(("hot", "factor"), [(5, 1.064), (50, 0.893), (75, 0.820), (100, 0.758)])
def test_temperature_correction(hot: float, factor: float) -> None:
    """Correction factors to 20 °C, printed in Table A.1 to three digits."""
    conductor = metric(4e-6)
    assert conductor.resistance(20) / conductor.resistance(hot) == pytest.approx(factor, abs=1e-3)


@given(st.floats(0.5, 120), st.floats(0.5, 120))
@settings(deadline=None)
def test_more_metal_never_has_more_ohms(one: float, other: float) -> None:
    """A larger nominal area never has a higher resistance, listed or not."""
    small, large = sorted((one, other))
    assert metric(large * 1e-6).resistance_20 <= metric(small * 1e-6).resistance_20 * (1 + 1e-9)


@pytest.mark.parametrize("area", [0.35e-6, 150e-6, 25.0])
def test_outside_the_table(area: float) -> None:
    """An area the table does not span is refused, an area typed in mm² too."""
    with refused(OutsideTableError, "between", "class-5-area"):
        metric(area)


@pytest.mark.parametrize("area", [0.0, -4e-6, float("nan"), float("inf")])
def test_impossible_area(area: float) -> None:
    """An area that is no positive number is refused."""
    with pytest.raises(OutOfRangeError):
        metric(area)
