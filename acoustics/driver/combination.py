"""Several coils, several drivers: one equivalent driver."""

from dataclasses import replace
from typing import Literal

from acoustics.driver.driver import Driver
from acoustics.errors import COUNT, OutOfRangeError
from acoustics.names import Name
from acoustics.values import Real

Coils = Literal["single", "series", "parallel"]

# Resistance, inductance and electrical Q of a two-coil driver, relative to one driven coil.
# Two tightly wound coils in series have twice the turns, hence four times the inductance.
_COILS: dict[str, tuple[float, float, float, float]] = {
    "single": (1.0, 1.0, 2.0, 0.5),
    "series": (2.0, 4.0, 1.0, 1.0),
    "parallel": (0.5, 1.0, 1.0, 1.0),
}


def wire_coils(driver: Driver, *, stated: Coils, wired: Coils) -> Driver:
    """Rewire a driver with two equal coils from the way its parameters state to the way wanted.

    Series: 2 Re, 4 Le; parallel: Re/2, Le; one coil alone: Re, Le, twice the Qes, half the power.
    (Re and Le of one coil.)

    Args:
        driver: driver as stated
        stated: how its coils were connected when the parameters were measured
        wired: how they are connected now; an unused coil is left open

    Returns: driver as wired

    Raises:
        OutOfRangeError: a connection is not one of single, series, parallel.

    Valid: two equal coils on one former, fully coupled.

    Source: definition of Bl and Qes (Small 1972); coupling: common practice, no source.
    """
    for name, value in ((Name.COILS_STATED, stated), (Name.COILS_WIRED, wired)):
        if value not in _COILS:
            raise OutOfRangeError(name, value, one_of=tuple(_COILS))
    before, after = _COILS[stated], _COILS[wired]
    resistance, inductance, q, power = (a / b for a, b in zip(after, before, strict=True))
    return replace(
        driver,
        re=driver.re * resistance,
        le=driver.le * inductance,
        semi_inductance=driver.semi_inductance * inductance,
        qes=driver.qes * q,
        power_rating=_scaled(driver.power_rating, power),
    )


def combine(
    driver: Driver, *, series: int = 1, parallel: int = 1, isobaric: bool = False
) -> Driver:
    """Several equal drivers as one equivalent driver.

    n = series * parallel drivers: Re series/parallel, fs and Q unchanged, Sd and Vas times n.
    Isobaric pairs, one behind the other: Sd times n/2, Vas times n/4.

    Args:
        driver: one of the equal drivers
        series: drivers in each series string [-]
        parallel: strings side by side [-]
        isobaric: whether the drivers work in coupled pairs, of which one face radiates

    Returns: the equivalent driver

    Raises:
        OutOfRangeError: a count is below one, or isobaric pairs from an odd number of drivers.

    Valid: air between a pair and the mutual air load are neglected; the group is small against
        the wavelength.

    Source: Small 1972, JAES 20, 383-395, applied to n equal drivers; isobaric: from the same
        equations with mass doubled and compliance halved.
    """
    for name, number in (
        (Name.DRIVERS_IN_SERIES, series),
        (Name.DRIVERS_IN_PARALLEL, parallel),
    ):
        if number < 1 or number != int(number):
            raise OutOfRangeError(name, number, COUNT, to_be="whole-number")
    count = series * parallel
    if isobaric and count % 2:
        raise OutOfRangeError(Name.DRIVERS_IN_PAIRS, count, COUNT, to_be="even")
    faces = count / 2 if isobaric else count
    electrical = series / parallel
    return replace(
        driver,
        re=driver.re * electrical,
        le=driver.le * electrical,
        semi_inductance=driver.semi_inductance * electrical,
        sd=driver.sd * faces,
        vas=driver.vas * faces**2 / count,
        power_rating=_scaled(driver.power_rating, count),
    )


def _scaled(value: Real | None, factor: float) -> Real | None:
    return None if value is None else value * factor
