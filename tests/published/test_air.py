"""Air: ISO 9613-1:1993 A.5, against values and a reference library."""

from typing import Any

import numpy as np
import pytest

from acoustics.air.air import STANDARD, standard_at
from acoustics.errors import OutOfRangeError
from tests.refused import refused


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
@pytest.mark.parametrize("celsius", [-19.0, 0.0, 20.0, 49.0])
def test_dry_air_against_coolprop(coolprop: Any, celsius: float) -> None:
    """Density and speed of sound stay within 0.1 % of CoolProp's real-gas air, viscosity 1 %."""
    kelvin = celsius + 273.15
    air = standard_at(kelvin)
    assert air.density == pytest.approx(
        coolprop.PropsSI("D", "T", kelvin, "P", 101325, "Air"), rel=1e-3
    )
    assert air.speed_of_sound == pytest.approx(
        coolprop.PropsSI("A", "T", kelvin, "P", 101325, "Air"), rel=1e-3
    )
    assert air.viscosity == pytest.approx(
        coolprop.PropsSI("V", "T", kelvin, "P", 101325, "Air"), rel=1e-2
    )


def test_outside_the_formula_is_refused() -> None:
    """No value is made up outside the range ISO 9613-1 states."""
    with refused(OutOfRangeError, "between", "temperature"):
        standard_at(250.0)
