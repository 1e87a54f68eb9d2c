"""What heat does to a voice coil, and how much of it a programme makes."""

from dataclasses import replace

import numpy as np

from acoustics.driver.driver import Driver
from acoustics.names import Name
from acoustics.values import Complexes, Floats, require_between, require_positive

COPPER = 0.00393  # rise of resistance by temperature, at 20 °C [1/K]
HOT = 100.0  # rise of a coil that has played loud for a while; common practice, no source [K]
# Peak over rms of a programme: common practice, no source.
MUSIC, LIMITED = 12.0, 6.0  # as mixed; limited hard or clipped now and then [dB]


def heated(driver: Driver, rise: float = HOT) -> Driver:
    """The same driver with its coil hotter: Re and Qes grow by 1 + 0.00393 rise.

    Args:
        driver: driver with a cold coil
        rise: how much hotter the coil is [K]

    Returns: the driver

    Raises:
        OutOfRangeError: the rise is negative, or beyond what any coil bears.

    Valid: copper; an aluminium coil grows by 2 % more over 100 K. The magnet stays cold.

    Source: temperature coefficient of copper, IEC 60028, from memory; Qes = ws Mms Re / Bl²: R. H.
        Small, JAES 20 (1972) 383-395.
    """
    require_between(Name.TEMPERATURE, rise, 0.0, 300.0, "K")
    factor = 1.0 + COPPER * rise
    return replace(driver, re=driver.re * factor, qes=driver.qes * factor)


def programme_power(
    *,
    impedance: Complexes,
    passed: Floats,
    resistance: float,
    voltage: float,
    crest: float,
) -> float:
    """Mean power a pink programme makes in a coil when its peaks just fill the amplifier.

    P = V² mean(|H|² Re/|Z|²)/mean(|H|²), V = sqrt(2) Vmax 10^(-crest/20).

    Args:
        impedance: impedance at frequencies that are evenly spread on a logarithmic axis [Ω]
        passed: what the channel's filters let through there, as a ratio of voltages [-]
        resistance: resistance of the coil in that impedance [Ω]
        voltage: largest sine the amplifier gives, rms [V]
        crest: peak over rms of the programme [dB]

    Returns: power in the coil [W]

    Raises:
        OutOfRangeError: a value is not positive; the crest is below that of a square wave.

    Valid: equal power in each octave before the filters; cold coil, where most flows.

    Source: I² Re; spectrum: pink noise, the usual stand-in for music (common practice).
    """
    require_positive(Name.COIL_RESISTANCE, resistance, "Ω")
    require_positive(Name.VOLTAGE, voltage, "V")
    require_between(Name.CREST, crest, 0.0, 40.0, "dB")
    square = passed**2
    heating = np.mean(square * resistance / np.abs(impedance) ** 2) / np.mean(square)
    return float(2.0 * voltage**2 * 10 ** (-crest / 10) * heating)
