"""Where to start from: level from sensitivity, the voltage to set, and what a driver allows."""

import math
from dataclasses import dataclass

import numpy as np

from acoustics.names import Name
from acoustics.values import Floats, require_between, require_positive

# The sine a gain is set with: low enough to be borne, high enough to be read. Common practice.
TEST_LEVEL = -12.0  # [dB re full scale, AES17: a full-scale sine is 0 dBFS]
TIMES_RESONANCE = 2.0  # a high-pass this far above the resonance; common practice, no source
BEAMS_AT = 2.0  # circumference over wavelength from where a cone beams; common practice, no source
# Middle frequencies a tone is named by, IEC 61260-1 [Hz].
NOMINAL: Floats = np.array(
    [
        *(25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250),
        *(1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000, 10_000, 12_500),
    ],
    dtype=float,
)


@dataclass(frozen=True, kw_only=True)
class GainSetting:
    """What a meter across an amplifier channel shows when its gain is right.

    Attributes:
        full: voltage of a full-scale sine [V rms]
        reading: voltage of the test tone [V rms]
        coil: voltage at which a steady sine reaches what the coil bears, None where that is not
            known [V rms]
    """

    full: float
    reading: float
    coil: float | None

    @property
    def held_by_coil(self) -> bool:
        """Whether the coil, not the amplifier, says where to stop.

        Returns: whether the full-scale voltage is that of the coil

        Source: definition.
        """
        return self.coil is not None and self.full >= self.coil


def gain_setting(
    *, amplifier: float, load: float, bears: float | None, passed: float = 1.0
) -> GainSetting:
    """Voltage to set on an amplifier channel with a test tone below full scale.

    V = min(Vamp, sqrt(P R)); a tone at L dBFS reads V 10^(L/20) times what the filters pass.

    Args:
        amplifier: largest sine the amplifier gives into its load [V rms]
        load: nominal load [Ω]
        bears: continuous power of all coils on it, None where it is not known [W]
        passed: what the channel's filters pass at the tone's frequency [-]

    Returns: the setting

    Raises:
        OutOfRangeError: a figure is not above zero.

    Valid: a sine; full scale of the processor reaches the amplifier undiminished.

    Source: V² = P R; full scale: AES17.
    """
    require_positive(Name.VOLTAGE, amplifier, "V")
    require_positive(Name.IMPEDANCE, load, "Ω")
    require_positive(Name.GAIN, passed, "-")
    coil = None
    if bears is not None:
        require_positive(Name.POWER_RATING, bears, "W")
        coil = math.sqrt(bears * load)
    full = amplifier if coil is None else min(amplifier, coil)
    return GainSetting(full=full, reading=full * 10.0 ** (TEST_LEVEL / 20.0) * passed, coil=coil)


def tone_frequency(lower: float | None, upper: float | None) -> float:
    """Nominal frequency of a tone that a channel plays and a meter reads.

    The geometric middle of the band, of which no more than two octaves above its lower end count:
    meters read low what is high.

    Args:
        lower: corner of the high-pass, None without one [Hz]
        upper: corner of the low-pass, None without one [Hz]

    Returns: frequency [Hz]

    Raises:
        OutOfRangeError: a corner is not above zero.

    Source: common practice; nominal frequencies: IEC 61260-1.
    """
    low = 20.0 if lower is None else lower
    require_positive(Name.CORNER_FREQUENCY, low, "Hz")
    high = 4.0 * low if upper is None else min(upper, 4.0 * low)
    require_positive(Name.CORNER_FREQUENCY, high, "Hz")
    middle = math.sqrt(low * high)
    return float(NOMINAL[np.abs(np.log(NOMINAL / middle)).argmin()])


def largest_level(sensitivity: float, voltage: float, *, in_series: int, in_parallel: int) -> float:
    """Level at 1 m of a channel at its full voltage, before cabin and distance.

    L = S + 20 log(V/2.83) + 20 log(parallel): n equal sources at one voltage are n times as loud;
    in series each has its share of the voltage only.

    Args:
        sensitivity: level of one driver at 2.83 V, 1 m [dB]
        voltage: voltage of a full-scale sine [V rms]
        in_series: drivers in series [-]
        in_parallel: drivers in parallel [-]

    Returns: level [dB]

    Raises:
        OutOfRangeError: a voltage or a number is not above zero.

    Valid: drivers close together, each in its passband.

    Source: superposition.
    """
    require_positive(Name.VOLTAGE, voltage, "V")
    require_positive(Name.DRIVERS_IN_SERIES, in_series, "-")
    require_positive(Name.DRIVERS_IN_PARALLEL, in_parallel, "-")
    return sensitivity + 20.0 * math.log10(voltage / 2.83 * in_parallel)


def beams_from(area: float, *, speed_of_sound: float = 343.2) -> float:
    """Frequency from where a cone plays noticeably less to the side, k a = 2.

    f = c/(π a), a = sqrt(Sd/π).

    Args:
        area: cone area Sd [m²]
        speed_of_sound: speed of sound [m/s]

    Returns: frequency [Hz]

    Raises:
        OutOfRangeError: area or speed is not above zero.

    Source: piston in a baffle; the bound k a = 2 is common practice, no source.
    """
    require_positive(Name.SD, area, "m²")
    require_positive(Name.SPEED_OF_SOUND, speed_of_sound, "m/s")
    radius = math.sqrt(area / math.pi)
    return BEAMS_AT * speed_of_sound / (2.0 * math.pi * radius)


def in_samples(delay: float, sample_rate: float) -> int:
    """A delay in whole samples, the nearest.

    Args:
        delay: delay [s]
        sample_rate: sample rate [Hz]

    Returns: samples [-]

    Raises:
        OutOfRangeError: the delay is below zero, or the rate is not above zero.

    Source: definition.
    """
    require_between(Name.DELAY, delay, 0.0, math.inf, "s")
    require_positive(Name.SAMPLE_RATE, sample_rate, "Hz")
    return round(delay * sample_rate)
