"""Air: ISO 9613-1:1993 A.5, Cramer 1993 and CIPM-2007, against values and a reference library."""

from typing import Any

import numpy as np
import pytest

from acoustics.air.air import STANDARD, air_at, standard_at
from acoustics.errors import OutOfRangeError


@pytest.fixture(scope="module")
def coolprop() -> Any:
    """Return the reference library, which takes two seconds to import: here, not when collected."""
    from CoolProp import CoolProp

    return CoolProp


def test_standard_air() -> None:
    """343.2 m/s at 20 °C, and sqrt(T) beside it: 0 and 40 °C scale by 0.96529 and 1.03355."""
    assert STANDARD.speed_of_sound == 343.2
    # ISO 9613-1:1993 formula A.5.
    ratio = np.asarray(standard_at(np.array([273.15, 293.15, 313.15])).speed_of_sound) / 343.2
    assert ratio == pytest.approx([0.96529, 1.0, 1.03355], abs=1e-5)


def test_bulk_modulus_is_the_adiabatic_one_of_a_diatomic_gas() -> None:
    """rho c² stays within 0.2 % of 1.4 times atmospheric pressure, at any temperature."""
    modulus = np.asarray(standard_at(np.linspace(253.15, 323.15, 8)).bulk_modulus)
    assert modulus == pytest.approx(np.full(8, 1.4 * 101325), rel=2e-3)


@pytest.mark.second_method
@pytest.mark.parametrize("celsius", [0.0, 10.0, 20.0, 30.0])
def test_dry_air_against_coolprop(coolprop: Any, celsius: float) -> None:
    """Density within 0.005 % and speed of sound within 0.01 % of CoolProp's real-gas air."""
    kelvin = celsius + 273.15
    air = air_at(temperature=kelvin)
    density = coolprop.PropsSI("D", "T", kelvin, "P", 101325, "Air")
    speed = coolprop.PropsSI("A", "T", kelvin, "P", 101325, "Air")
    assert air.density == pytest.approx(density, rel=5e-5)
    assert air.speed_of_sound == pytest.approx(speed, rel=1e-4)


@pytest.mark.second_method
@pytest.mark.parametrize(("celsius", "humidity"), [(20.0, 0.5), (25.0, 0.5), (30.0, 0.9)])
def test_humid_density_against_coolprop(coolprop: Any, celsius: float, humidity: float) -> None:
    """Humid density within 0.02 % of CoolProp's humid air."""
    kelvin = celsius + 273.15
    volume = coolprop.HAPropsSI("Vha", "T", kelvin, "P", 101325, "R", humidity)
    air = air_at(temperature=kelvin, relative_humidity=humidity)
    assert air.density == pytest.approx(1 / volume, rel=2e-4)


@pytest.mark.parametrize(
    ("celsius", "humidity", "speed"),
    # pyfar 0.8.1, speed_of_sound_cramer with 400 ppm of carbon dioxide.
    [(20.0, 0.5, 343.98673), (25.0, 0.5, 347.12655), (30.0, 0.9, 351.23725)],
)
def test_humid_speed(celsius: float, humidity: float, speed: float) -> None:
    """Humid speed of sound agrees with another implementation of Cramer's formula."""
    air = air_at(temperature=celsius + 273.15, relative_humidity=humidity)
    assert air.speed_of_sound == pytest.approx(speed, rel=1e-5)


def test_outside_the_formula_is_refused() -> None:
    """No value is made up outside the range Cramer or ISO 9613-1 states."""
    with pytest.raises(OutOfRangeError, match=r"temperature is 313\.15 K"):
        air_at(temperature=313.15)
    with pytest.raises(OutOfRangeError, match="relative humidity"):
        air_at(temperature=293.15, relative_humidity=1.1)
    with pytest.raises(OutOfRangeError, match="static pressure"):
        air_at(temperature=293.15, pressure=60e3)
    with pytest.raises(OutOfRangeError, match="temperature"):
        standard_at(250.0)
