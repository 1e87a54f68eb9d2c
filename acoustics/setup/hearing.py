"""How loud a level is to the ear and to a meter, and how long it may last."""

import numpy as np

from acoustics.names import Name
from acoustics.values import Floats, require_positive

# Poles of the weightings, IEC 61672-1, annex E [Hz].
_F1, _F2, _F3, _F4 = 20.598997, 107.65265, 737.86223, 12194.217
# What brings them to 0 dB at 1 kHz [dB].
_A1000, _C1000 = -2.000, -0.062
HOUR = 3600.0


def a_weight(frequency: Floats) -> Floats:
    """What the weighting A adds at a frequency.

    A = 20 log(f4² f⁴ / ((f² + f1²) sqrt(f² + f2²) sqrt(f² + f3²) (f² + f4²))) − A1000.

    Args:
        frequency: frequency [Hz]

    Returns: weighting [dB]

    Raises:
        OutOfRangeError: a frequency is not above zero.

    Source: IEC 61672-1:2013, annex E.
    """
    require_positive(Name.FREQUENCY, frequency, "Hz")
    f2 = np.asarray(frequency, dtype=float) ** 2
    low = (f2 + _F1**2) * np.sqrt((f2 + _F2**2) * (f2 + _F3**2))
    weight: Floats = 20.0 * np.log10(_F4**2 * f2**2 / (low * (f2 + _F4**2))) - _A1000
    return weight


def c_weight(frequency: Floats) -> Floats:
    """What the weighting C adds at a frequency.

    C = 20 log(f4² f² / ((f² + f1²) (f² + f4²))) − C1000.

    Args:
        frequency: frequency [Hz]

    Returns: weighting [dB]

    Raises:
        OutOfRangeError: a frequency is not above zero.

    Source: IEC 61672-1:2013, annex E.
    """
    require_positive(Name.FREQUENCY, frequency, "Hz")
    f2 = np.asarray(frequency, dtype=float) ** 2
    weight: Floats = 20.0 * np.log10(_F4**2 * f2 / ((f2 + _F1**2) * (f2 + _F4**2))) - _C1000
    return weight


def time_a_day(level: float) -> float:
    """How long a level may be heard each working day, T = 8 h / 2^((L − 85)/3).

    Args:
        level: level, weighted A [dB]

    Returns: time [s]

    Source: NIOSH 98-126, recommended exposure limit.
    """
    return float(8.0 * HOUR / 2.0 ** ((level - 85.0) / 3.0))


def time_a_week(level: float) -> float:
    """How long a level may be heard each week for pleasure, T = 40 h · 10^(−(L − 80)/10).

    Args:
        level: level, weighted A [dB]

    Returns: time [s]

    Source: WHO-ITU, Recommendation ITU-T H.870, adults.
    """
    return float(40.0 * HOUR * 10.0 ** (-(level - 80.0) / 10.0))
