"""Voltage drop and breaking capacity against published marine examples (ABYC E-11)."""

import pytest

from tests.refused import refused
from wiring.cable.conductor import Conductor, awg
from wiring.cable.drop import ChassisReturn, voltage_drop
from wiring.cable.fuse import breaking_need_by_cca
from wiring.errors import OutOfRangeError, OutsideTableError, UnknownDataError


@pytest.mark.parametrize(
    ("area", "per_metre", "amperes", "volts"),
    [(0.65, 0.0294, 5.75, 0.845), (1.0, 0.0189, 8.75, 0.827), (1.5, 0.0125, 12.75, 0.797),
     (2.0, 0.0094, 17.5, 0.823), (2.5, 0.0075, 21.75, 0.816), (3.0, 0.0060, 25.5, 0.765)],
)  # fmt: skip
def test_five_metres_of_car_cable(
    area: float, per_metre: float, amperes: float, volts: float
) -> None:
    """Thick-wall PVC cable, one way, at its rated current (UK towing-electrics guidance page)."""
    cable = Conductor(system="metric", size=f"{area}", area=area * 1e-6, resistance_20=per_metre)
    both = voltage_drop(current=amperes, length=5, conductor=cable)
    assert both / 2 == pytest.approx(volts, abs=5e-4)


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


@pytest.mark.parametrize(
    ("cranking", "main", "branch"),
    [(650, 1500, 750), (651, 3000, 1500), (1100, 3000, 1500), (1101, 5000, 2500)],
)
def test_breaking_bins(cranking: float, main: float, branch: float) -> None:
    """Breaking capacity by cold-cranking rating at the edges of the bins (Table V-A)."""
    assert breaking_need_by_cca(cranking, main=True) == main
    assert breaking_need_by_cca(cranking, main=False) == branch


def test_large_batteries_need_their_makers_figure() -> None:
    """Above 2 200 A the table ends (newer text of ABYC E-11)."""
    with refused(OutsideTableError, "at-most", "cold-cranking"):
        breaking_need_by_cca(2201, main=True)
