"""The medium: density, speed of sound and viscosity of air."""

from dataclasses import dataclass

from acoustics.names import Name
from acoustics.values import Real, require_between, require_positive


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
        require_positive(Name.AIR_DENSITY, self.density, "kg/m³")
        require_positive(Name.SPEED_OF_SOUND, self.speed_of_sound, "m/s")
        require_positive(Name.AIR_VISCOSITY, self.viscosity, "Pa·s")

    @property
    def bulk_modulus(self) -> Real:
        """Adiabatic bulk modulus: K = rho c².

        Returns: bulk modulus [Pa]
        """
        return self.density * self.speed_of_sound**2


# 20 °C, sea level: speed from ISO 9613-1:1993 formula A.5, density of dry air.
STANDARD = Air()


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
    require_between(Name.TEMPERATURE, temperature, 253.15, 323.15, "K")
    ratio = temperature / 293.15
    return Air(
        density=STANDARD.density / ratio,
        speed_of_sound=STANDARD.speed_of_sound * ratio**0.5,
        viscosity=_viscosity(temperature),
    )


def _viscosity(temperature: Real) -> Real:
    return 1.81e-5 * (temperature / 293.15) ** 1.5 * (293.15 + 110.4) / (temperature + 110.4)
