"""The medium: density, speed of sound and viscosity of air."""

from dataclasses import dataclass

import numpy as np

from acoustics.values import Real, require_between, require_positive

ZERO_CELSIUS = 273.15
GAS_CONSTANT = 8.314472
MOLAR_MASS_DRY = 28.96546e-3
MOLAR_MASS_WATER = 18.015e-3
CARBON_DIOXIDE = 4e-4

# Cramer 1993, Table III, coefficients of the speed of sound.
_SPEED = (
    (331.5024, 0.603055, -0.000528),
    (51.471935, 0.1495874, -0.000782),
    (-1.82e-7, 3.73e-8, -2.93e-10),
    (-85.20931, -0.228525, 5.91e-5),
    (-2.835149, -2.15e-13, 29.179762, 0.000486),
)
# CIPM-2007, coefficients of the compressibility factor.
_COMPRESSIBILITY_A = (1.58123e-6, -2.9331e-8, 1.1043e-10)
_COMPRESSIBILITY_B = (5.707e-6, -2.051e-8)
_COMPRESSIBILITY_C = (1.9898e-4, -2.376e-6)
_COMPRESSIBILITY_DE = (1.83e-11, -0.765e-8)


@dataclass(frozen=True, kw_only=True)
class Air:
    """Air as the lumped elements need it.

    Attributes:
        density: density rho [kg/m³]
        speed_of_sound: speed of sound c [m/s]
        viscosity: dynamic viscosity [Pa·s]

    Raises:
        OutOfRangeError: a value is not positive.

    Source: definition; viscosity 1.81e-5 Pa·s at 20 °C, from memory.
    """

    density: Real = 1.204
    speed_of_sound: Real = 343.2
    viscosity: Real = 1.81e-5

    def __post_init__(self) -> None:
        """Refuse air that cannot be."""
        require_positive("density of air", self.density, "kg/m³")
        require_positive("speed of sound", self.speed_of_sound, "m/s")
        require_positive("viscosity of air", self.viscosity, "Pa·s")

    @property
    def bulk_modulus(self) -> Real:
        """Adiabatic bulk modulus: K = rho c².

        Returns: bulk modulus [Pa]
        """
        return self.density * self.speed_of_sound**2


# 20 °C, sea level: speed from ISO 9613-1:1993 formula A.5, density of dry air.
STANDARD = Air()


def air_at(*, temperature: Real, relative_humidity: Real = 0.0, pressure: Real = 101325.0) -> Air:
    """Air at a temperature, humidity and pressure.

    c = polynomial in temperature, water vapour, pressure and carbon dioxide;
    rho = p Ma / (Z R T) (1 - xw (1 - Mv/Ma)); 400 ppm of carbon dioxide.

    Args:
        temperature: absolute temperature [K]
        relative_humidity: relative humidity, 0 to 1 [-]
        pressure: static pressure [Pa]

    Returns: air, its density [kg/m³], speed [m/s] and viscosity [Pa·s]

    Raises:
        OutOfRangeError: a value is outside the limits of the formulae.

    Valid: 273.15 to 303.15 K, 75 to 102 kPa, as Cramer states.

    Source: O. Cramer, "The variation of the specific heat ratio and the speed of sound in air",
        J. Acoust. Soc. Am. 93 (1993) 2510, Table III; A. Picard et al., "Revised formula for the
        density of moist air (CIPM-2007)", Metrologia 45 (2008) 149-155; viscosity by Sutherland's
        law, from memory.
    """
    require_between("temperature", temperature, ZERO_CELSIUS, ZERO_CELSIUS + 30.0, "K")
    require_between("relative humidity", relative_humidity, 0.0, 1.0, "-")
    require_between("static pressure", pressure, 75e3, 102e3, "Pa")
    t = temperature - ZERO_CELSIUS
    saturation = np.exp(
        1.2378847e-5 * temperature**2
        - 1.9121316e-2 * temperature
        + 33.93711047
        - 6343.1645 / temperature
    )
    enhancement = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * t**2
    water = relative_humidity * enhancement * saturation / pressure
    return Air(
        density=_density(temperature, water, pressure),
        speed_of_sound=_speed(t, water, pressure),
        viscosity=_viscosity(temperature),
    )


def standard_at(temperature: Real) -> Air:
    """Dry air at sea level over the temperatures a car meets, as a change from standard air.

    c = 343.2 sqrt(T / 293.15), rho = 1.204 * 293.15 / T.

    Args:
        temperature: absolute temperature [K]

    Returns: air, its density [kg/m³], speed [m/s] and viscosity [Pa·s]

    Raises:
        OutOfRangeError: temperature is outside the limits of the standard.

    Valid: 253.15 to 323.15 K (-20 to 50 °C).

    Source: ISO 9613-1:1993, formula A.5; density of an ideal gas at constant pressure.
    """
    require_between("temperature", temperature, 253.15, 323.15, "K")
    ratio = temperature / 293.15
    return Air(
        density=STANDARD.density / ratio,
        speed_of_sound=STANDARD.speed_of_sound * ratio**0.5,
        viscosity=_viscosity(temperature),
    )


def _viscosity(temperature: Real) -> Real:
    return 1.81e-5 * (temperature / 293.15) ** 1.5 * (293.15 + 110.4) / (temperature + 110.4)


def _speed(t: Real, water: Real, pressure: Real) -> Real:
    dry, vapour, static, dioxide, mixed = _SPEED
    return (
        (dry[0] + dry[1] * t + dry[2] * t**2)
        + (vapour[0] + vapour[1] * t + vapour[2] * t**2) * water
        + (static[0] + static[1] * t + static[2] * t**2) * pressure
        + (dioxide[0] + dioxide[1] * t + dioxide[2] * t**2) * CARBON_DIOXIDE
        + mixed[0] * water**2
        + mixed[1] * pressure**2
        + mixed[2] * CARBON_DIOXIDE**2
        + mixed[3] * water * pressure * CARBON_DIOXIDE
    )


def _density(temperature: Real, water: Real, pressure: Real) -> Real:
    t = temperature - ZERO_CELSIUS
    a, b, c, d = _COMPRESSIBILITY_A, _COMPRESSIBILITY_B, _COMPRESSIBILITY_C, _COMPRESSIBILITY_DE
    ratio = pressure / temperature
    compressibility = (
        1
        - ratio
        * (a[0] + a[1] * t + a[2] * t**2 + (b[0] + b[1] * t) * water + (c[0] + c[1] * t) * water**2)
        + ratio**2 * (d[0] + d[1] * water**2)
    )
    dry = pressure * MOLAR_MASS_DRY / (compressibility * GAS_CONSTANT * temperature)
    return dry * (1 - water * (1 - MOLAR_MASS_WATER / MOLAR_MASS_DRY))
