"""A measured impedance curve, and where it crosses a level around its peak."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from acoustics.errors import COUNT, OutOfRangeError
from acoustics.names import Name
from acoustics.values import Floats, require_positive


@dataclass(frozen=True, kw_only=True)
class ImpedanceSweep:
    """A measured impedance curve, rising in frequency.

    Attributes:
        frequency: frequency [Hz]
        magnitude: magnitude of the impedance [Ω]
        phase: phase of the impedance, or None when it was not measured [°]

    Raises:
        OutOfRangeError: lengths differ, values are not above zero, or frequencies do not rise.
    """

    frequency: Floats
    magnitude: Floats
    phase: Floats | None = None

    def __post_init__(self) -> None:
        """Refuse columns that are no impedance curve."""
        require_positive(Name.FREQUENCY, self.frequency, "Hz")
        require_positive(Name.IMPEDANCE, self.magnitude, "Ω")
        sizes = {len(self.frequency), len(self.magnitude)}
        if self.phase is not None:
            sizes.add(len(self.phase))
        if len(sizes) != 1 or np.any(np.diff(self.frequency) <= 0.0):
            points = len(self.frequency)
            raise OutOfRangeError(Name.IMPEDANCE_SWEEP, points, COUNT, to_be="equal-rising-columns")


def crossings(sweep: ImpedanceSweep, peak: int, level: float) -> tuple[float | None, float | None]:
    """Frequencies below and above the peak where the magnitude first falls to a level.

    Args:
        sweep: measured sweep
        peak: place of the peak in it [-]
        level: magnitude to fall to [Ω]

    Returns: both frequencies, None where the sweep does not reach that far [Hz]

    Source: definition.
    """

    def walk(indices: range) -> float | None:
        for inner, outer in pairwise(indices):
            z0, z1 = np.log(sweep.magnitude[[inner, outer]])
            if z1 <= np.log(level) <= z0:
                f0, f1 = np.log(sweep.frequency[[inner, outer]])
                share = (z0 - np.log(level)) / (z0 - z1) if z0 > z1 else 0.0
                return float(np.exp(f0 + share * (f1 - f0)))
        return None

    return walk(range(peak, -1, -1)), walk(range(peak, len(sweep.frequency)))


def symmetric_fs(sweep: ImpedanceSweep, fs: float, re: float) -> float | None:
    """sqrt(f1 f2) of a curve, where |Z| = sqrt(Re Rmax).

    Args:
        sweep: the curve
        fs: resonance [Hz]
        re: resistance of the voice coil [Ω]

    Returns: frequency, or None when the sweep does not reach f1 and f2 [Hz]

    Source: R. H. Small, JAES 20 (1972) 383-395.
    """
    near = np.abs(np.log(sweep.frequency / fs)) < 0.2
    if not near.any():
        return None
    peak = int(np.argmax(np.where(near, sweep.magnitude, 0.0)))
    below, above = crossings(sweep, peak, float(np.sqrt(re * sweep.magnitude[peak])))
    return None if below is None or above is None else float(np.sqrt(below * above))
