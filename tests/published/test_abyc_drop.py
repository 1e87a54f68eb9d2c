"""Voltage drop and breaking capacity against published marine examples (ABYC E-11)."""

import pytest

from wiring.cable.conductor import CIRCULAR_MIL, SAE_AREAS, Conductor, awg
from wiring.cable.drop import ChassisReturn, circular_mils, drop_share, voltage_drop
from wiring.cable.fuse import breaking_need_by_cca
from wiring.errors import OutOfRangeError, OutsideTableError, UnknownDataError


def smallest(area: float) -> str:
    """Smallest SAE size with that many circular mils."""
    return min((a, s) for s, a in SAE_AREAS.items() if a >= area * CIRCULAR_MIL)[1]


@pytest.mark.parametrize(("drop", "area", "size"), [(0.36, 6271, "10"), (1.2, 1881, "16")])
def test_bilge_pump(drop: float, area: float, size: str) -> None:
    """10 A over 11 + 10 ft at 3 % and 10 % of 12 V (marine wire chart pages, worked example)."""
    need = circular_mils(current=10, feet=21, drop=drop)
    assert need == pytest.approx(area, abs=0.5)
    assert smallest(need) == size


def test_20_foot_row() -> None:
    """The whole 20 ft row of the 3 % chart for 12 V (marine wire chart pages)."""
    amperes = (5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100)
    row = ["14", "10", "10", "8", "6", "6", "6", "4", "4", "2", "2", "2", "2"]
    ours = [smallest(circular_mils(current=a, feet=20, drop=0.36)) for a in amperes]
    assert ours == row


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


def test_percentage_needs_its_base() -> None:
    """60 A, 5 m of 4 AWG out and back: 0.489 V, 4.08 % of 12 V, 3.40 % of 14.4 V (computed)."""
    lost = voltage_drop(current=60, length=5, conductor=awg("4"))
    assert lost == pytest.approx(2 * 60 * 5 * 0.8152e-3, abs=5e-4)
    assert drop_share(lost) == pytest.approx(0.0408, abs=1e-4)
    assert drop_share(lost, base=14.4) == pytest.approx(0.0340, abs=1e-4)


def test_chassis_return() -> None:
    """With 1 mΩ of measured chassis the same run loses 0.305 V (computed)."""
    back = ChassisReturn(resistance=1e-3)
    lost = voltage_drop(current=60, length=5, conductor=awg("4"), return_path=back)
    assert lost == pytest.approx(60 * (5 * 0.8152e-3 + 1e-3), abs=5e-4)


def test_unmeasured_chassis_is_not_zero() -> None:
    """A chassis nobody measured is refused, and so is one of no ohms."""
    with pytest.raises(UnknownDataError, match="chassis resistance"):
        voltage_drop(
            current=60, length=5, conductor=awg("4"), return_path=ChassisReturn(resistance=None)
        )
    with pytest.raises(OutOfRangeError, match="chassis resistance"):
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
    with pytest.raises(OutsideTableError, match="cold-cranking"):
        breaking_need_by_cca(2201, main=True)
