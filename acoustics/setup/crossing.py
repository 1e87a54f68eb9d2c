"""Two neighbouring ways around the frequency where one takes over from the other."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from acoustics.circuit.filters import Way
from acoustics.values import Complexes, Floats

HEARD: Floats = np.geomspace(10.0, 30_000.0, 1600)
OCTAVES = 1.0  # looked at on either side of the crossing
# Between polarities that differ by less nobody has to choose; common practice, no source [dB].
ALIKE_WITHIN = 0.5
DEEPEST = -80.0  # a null is told no deeper [dB]


class Polarity(StrEnum):
    """How two neighbours are connected against each other.

    Attributes:
        ALIKE: both the same way
        TURNED: one of them the other way
        EITHER: it makes no difference to the level
    """

    ALIKE = "alike"
    TURNED = "turned"
    EITHER = "either"


@dataclass(frozen=True, kw_only=True)
class Summed:
    """How far the sum of two ways strays from even, within an octave of their crossing.

    Attributes:
        lowest: its lowest level [dB]
        highest: its highest level [dB]
    """

    lowest: float
    highest: float


@dataclass(frozen=True, kw_only=True)
class Crossing:
    """Two ways that meet, and what either polarity makes of them.

    Attributes:
        frequency: where both are equally loud [Hz]
        level: how loud either is there [dB]
        alike: the sum with both the same way
        turned: the sum with one of them the other way
    """

    frequency: float
    level: float
    alike: Summed
    turned: Summed

    @property
    def better(self) -> Polarity:
        """The polarity that leaves the shallower dip.

        Returns: the polarity

        Source: definition.
        """
        gain = self.alike.lowest - self.turned.lowest
        if abs(gain) < ALIKE_WITHIN:
            return Polarity.EITHER
        return Polarity.ALIKE if gain > 0.0 else Polarity.TURNED


def crossing(lower: Way, upper: Way) -> Crossing | None:
    """Where two ways meet, and how even their sum is with either polarity.

    Args:
        lower: the way that plays below; with a low-pass
        upper: the way that plays above; with a high-pass

    Returns: the crossing, or None where the two never meet between 10 Hz and 30 kHz

    Valid: equal loudspeakers that arrive together; real ones add their own response and the car's.

    Source: complex sum; S. H. Linkwitz, "Active Crossover Networks for Noncoincident Drivers",
        JAES 24 (1976) 2-8.
    """
    below, above = lower.response(HEARD), upper.response(HEARD)
    difference = np.log(np.abs(below)) - np.log(np.abs(above))
    changes = np.flatnonzero((difference[:-1] > 0.0) & (difference[1:] <= 0.0))
    if not changes.size:
        return None
    # Of several the loudest: far below, rounding may cross them again.
    i = int(max(changes, key=lambda k: abs(below[k])))
    part = difference[i] / (difference[i] - difference[i + 1])
    at = float(HEARD[i] * (HEARD[i + 1] / HEARD[i]) ** part)
    around = at * np.geomspace(2.0**-OCTAVES, 2.0**OCTAVES, 401)
    low, high = lower.response(around), upper.response(around)
    return Crossing(
        frequency=at,
        level=float(20.0 * np.log10(abs(lower.response(np.array([at]))[0]))),
        alike=_summed(low + high),
        turned=_summed(low - high),
    )


def _summed(total: Complexes) -> Summed:
    level = 20.0 * np.log10(np.maximum(np.abs(total), 10.0 ** (DEEPEST / 20.0)))
    return Summed(lowest=float(level.min()), highest=float(level.max()))
