"""Levels in bands and over places: third octaves, power averages, smoothing."""

import numpy as np

from acoustics.errors import COUNT
from acoustics.names import Name
from acoustics.values import Floats, require_between, require_positive

# Exact middle frequencies, IEC 61260-1, base ten: 20 Hz to 16 kHz.
THIRDS: Floats = 1000.0 * 10.0 ** (np.arange(-17, 13) / 10.0)
# A share of a sum below this has no digits left when two sums are subtracted.
LEFT_OF_SUM = 1e-9


def band_levels(frequency: Floats, size: Floats, middles: Floats, *, fraction: int = 3) -> Floats:
    """Level in bands of a fraction of an octave: mean power over the logarithm of frequency.

    Args:
        frequency: frequencies, rising [Hz]
        size: magnitude at each [-]
        middles: middle frequencies of the bands [Hz]
        fraction: 3 for third octaves [-]

    Returns: level of each band [dB]

    Raises:
        OutOfRangeError: the fraction is not from 1 to 48.

    Source: bands of IEC 61260-1, edges 10^(±0.15/b).
    """
    require_between(Name.FRACTION, fraction, 1, 48, COUNT)
    edge = 10.0 ** (0.15 / fraction)
    # The mean over the logarithm is the integral of power over f df.
    usable = frequency > 0.0
    f, power = frequency[usable], size[usable] ** 2
    total = np.concatenate([[0.0], np.cumsum(0.5 * np.diff(np.log(f)) * (power[1:] + power[:-1]))])
    low, high = (np.interp(np.log(middles * side), np.log(f), total) for side in (1 / edge, edge))
    mean = (high - low) / (2.0 * np.log(edge))
    level: Floats = 10.0 * np.log10(np.maximum(mean, 1e-30))
    return level


def smoothed_floor(level: Floats) -> Floats:
    """A noise floor that no lucky dip makes look better: each band the loudest of three.

    Args:
        level: noise in bands [dB]

    Returns: noise in bands [dB]

    Source: definition.
    """
    padded = np.pad(level, 1, mode="edge")
    floor: Floats = np.max([padded[:-2], padded[1:-1], padded[2:]], axis=0)
    return floor


def power_average(levels: Floats) -> Floats:
    """Average of several places, 10 log mean 10^(L/10).

    Args:
        levels: one row for each place [dB]

    Returns: the average [dB]

    Source: mean power.
    """
    average: Floats = 10.0 * np.log10(np.mean(10.0 ** (np.asarray(levels) / 10.0), axis=0))
    return average


def smoothed(frequency: Floats, level: Floats, fraction: int) -> Floats:
    """A curve smoothed over a fraction of an octave, by mean power.

    Args:
        frequency: frequencies, rising [Hz]
        level: level at each [dB]
        fraction: 1/n octave [-]

    Returns: level, at the same frequencies [dB]

    Raises:
        OutOfRangeError: a frequency is not above zero, or the fraction not from 1 to 48.

    Valid: on a slope of 24 dB per octave thirds lie 0.6 dB high, twelfths 0.04 dB.

    Source: P. D. Hatziantoniou & J. N. Mourjopoulos, JAES 48 (2000) 259, from memory.
    """
    require_positive(Name.FREQUENCY, frequency, "Hz")
    require_between(Name.FRACTION, fraction, 1, 48, COUNT)
    log, power = np.log2(frequency), 10.0 ** (level / 10.0)
    # Lines between the points, drawn level beyond the ends.
    fine = np.arange(log[0] - 1.0, log[-1] + 1.0, 1.0 / (16 * fraction))
    between = np.interp(fine, log, power)
    edges = np.concatenate([fine, [fine[-1] + fine[1] - fine[0]]]) - (fine[1] - fine[0]) / 2
    ends = log - 0.5 / fraction, log + 0.5 / fraction
    # Summed from either end: the difference of two sums keeps no digits of what is far less.
    rising = np.concatenate([[0.0], np.cumsum(between)])
    falling = np.concatenate([np.cumsum(between[::-1])[::-1], [0.0]])
    (low, high), (beyond_low, beyond_high) = (
        [np.interp(end, edges, total) for end in ends] for total in (rising, falling)
    )
    within = np.where(high <= beyond_low, high - low, beyond_low - beyond_high)
    mean = within * fraction * (fine[1] - fine[0])
    told = within > LEFT_OF_SUM * np.minimum(high, beyond_low)
    # What lies so far below both sides of it stays as it is.
    result: Floats = np.where(told, 10.0 * np.log10(np.maximum(mean, 1e-300)), level)
    return result
