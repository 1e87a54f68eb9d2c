"""Voltage drop of a run: Ohm's law on ohms of the wire table (ASTM B258: 0.2485 Ω per 1000 ft)."""

import pytest

from tests.refused import refused
from wiring.cable.conductor import awg
from wiring.cable.drop import CableReturn, ChassisReturn, voltage_drop
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


def test_a_lead_to_the_body_adds_its_own_ohms() -> None:
    """Ohm's law by hand: 2 m of 4 AWG out, 1 mΩ of body, 1 m of 8 AWG to it, 30 A at 20 °C."""
    lead = ChassisReturn(resistance=1e-3, conductor=awg("8"), length=1.0)
    lost = voltage_drop(current=30, length=2, conductor=awg("4"), return_path=lead)
    # ASTM B258: 8 AWG 0.6282 Ω per 1000 ft of 304.8 m.
    assert lost == pytest.approx(30 * (2 * 0.8152e-3 + 1e-3 + 0.6282 / 304.8), abs=5e-4)


def test_a_cable_nobody_chose_is_not_zero() -> None:
    """A way back through a cable that is not chosen, or of unknown length, is refused."""
    for back, name in (
        (CableReturn(conductor=None, length=2.0), "return-conductor"),
        (CableReturn(conductor=awg("4"), length=None), "return-length"),
    ):
        with refused(UnknownDataError, "entered", name):
            voltage_drop(current=60, length=5, conductor=awg("4"), return_path=back)
