"""Voltage drop of a run: Ohm's law on ohms of the wire table (ASTM B258: 0.2485 Ω per 1000 ft)."""

import pytest

from tests.refused import refused
from wiring.cable.conductor import awg
from wiring.cable.drop import ChassisReturn, voltage_drop
from wiring.errors import OutOfRangeError, UnknownDataError


def test_out_and_back() -> None:
    """60 A, 5 m of 4 AWG out and back: 0.489 V (computed)."""
    lost = voltage_drop(current=60, length=5, conductor=awg("4"))
    assert lost == pytest.approx(2 * 60 * 5 * 0.8152e-3, abs=5e-4)


def test_chassis_return() -> None:
    """With 1 mΩ of measured chassis the same run loses 0.305 V (computed)."""
    back = ChassisReturn(resistance=1e-3)
    lost = voltage_drop(current=60, length=5, conductor=awg("4"), return_path=back)
    assert lost == pytest.approx(60 * (5 * 0.8152e-3 + 1e-3), abs=5e-4)


def test_unmeasured_chassis_is_not_zero() -> None:
    """A chassis nobody measured is refused, and so is one of no ohms."""
    with refused(UnknownDataError, "entered", "chassis-resistance"):
        voltage_drop(
            current=60, length=5, conductor=awg("4"), return_path=ChassisReturn(resistance=None)
        )
    with refused(OutOfRangeError, "above", "chassis-resistance"):
        ChassisReturn(resistance=0.0)
