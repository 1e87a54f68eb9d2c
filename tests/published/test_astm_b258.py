"""AWG geometry and copper resistance against the published wire table.

Source of every expected number: ASTM B258, and Copper Wire Tables, NBS Handbook 100 (1966), which
the National Institute of Standards and Technology keeps open.
"""

import math

import pytest

from tests.refused import refused
from wiring.cable.conductor import CIRCULAR_MIL, METALS, awg, awg_area
from wiring.errors import OutsideTableError

# size: diameter mm, area mm², circular mils, Ω per 1000 ft at 20 °C
TABLE = {
    "4/0": (11.684, 107.22, 211600, 0.04901),
    "3/0": (10.405, 85.03, 167806, 0.06180),
    "2/0": (9.266, 67.43, 133077, 0.07793),
    "1/0": (8.252, 53.48, 105535, 0.09827),
    "1": (7.348, 42.41, 83693, 0.1239),
    "2": (6.544, 33.63, 66371, 0.1563),
    "3": (5.827, 26.67, 52635, 0.1970),
    "4": (5.189, 21.15, 41741, 0.2485),
    "6": (4.115, 13.30, 26251, 0.3951),
    "8": (3.264, 8.366, 16510, 0.6282),
    "10": (2.588, 5.261, 10383, 0.9989),
    "12": (2.053, 3.309, 6530, 1.588),
    "14": (1.628, 2.081, 4107, 2.525),
    "16": (1.291, 1.309, 2583, 4.016),
    "18": (1.024, 0.823, 1624, 6.385),
    "20": (0.812, 0.518, 1022, 10.15),
}


@pytest.mark.parametrize("size", TABLE)
def test_awg_geometry(size: str) -> None:
    """Diameter, area and circular mils of each gauge agree within 0.1 %."""
    diameter, area, cmil, _ = TABLE[size]
    assert awg_area(size) * 1e6 == pytest.approx(area, rel=1e-3)
    assert math.sqrt(awg_area(size) * 4 / math.pi) * 1e3 == pytest.approx(diameter, rel=1e-3)
    assert awg_area(size) / CIRCULAR_MIL == pytest.approx(cmil, rel=1e-3)


@pytest.mark.parametrize("size", TABLE)
def test_awg_resistance(size: str) -> None:
    """Resistance of each gauge at 20 °C agrees within 0.1 %."""
    assert awg(size).resistance(20) * 304.8 == pytest.approx(TABLE[size][3], rel=1e-3)


def test_copper_is_iacs() -> None:
    """Copper is the international annealed standard, 0.017241 Ω·mm²/m (NBS Handbook 100)."""
    assert METALS["copper"].resistivity == pytest.approx(0.017241e-6, rel=3e-5)


def test_copper_clad_aluminium_is_the_guaranteed_minimum() -> None:
    """10 % and 15 % cladding conduct at least 62.9 and 64.4 % IACS (ASTM B566)."""
    copper = METALS["copper"].resistivity
    for name, share in (("copper_clad_aluminium_10", 0.629), ("copper_clad_aluminium_15", 0.644)):
        assert METALS[name].resistivity == pytest.approx(copper / share, rel=2e-3)
        assert METALS[name].resistivity >= copper / share * (1 - 1e-4)


def test_14_awg_copper_clad() -> None:
    """14 AWG at the guaranteed minimum: 4.014 and 3.921 Ω/kft, from those shares."""
    for name, minimum in (("copper_clad_aluminium_10", 4.014), ("copper_clad_aluminium_15", 3.921)):
        assert awg("14", metal=name).resistance(20) * 304.8 == pytest.approx(minimum, rel=2e-3)


def test_hot_copper() -> None:
    """At 75 °C copper has 1.2161 times its ohms at 20 °C by β = 234.5 (ASTM B3), here no less."""
    ratio = awg("4").resistance(75) / awg("4").resistance(20)
    assert ratio == pytest.approx((234.5 + 75) / (234.5 + 20), rel=4e-3)
    assert ratio >= (234.5 + 75) / (234.5 + 20)


@pytest.mark.parametrize("size", ["5/0", "0", "31", "", "4 AWG"])
def test_no_such_gauge(size: str) -> None:
    """A word that is no gauge is refused by name."""
    with refused(OutsideTableError, "between", "awg-size"):
        awg(size)
