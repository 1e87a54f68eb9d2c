"""Biquads by scipy's bilinear transform of the analogue prototypes.

The prototypes H(s) are those printed in R. Bristow-Johnson, "Audio EQ Cookbook", W3C Working Group
Note, 8 June 2021, with the frequency at 1; the digital coefficients printed there are not used.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt
from scipy import signal

Floats = npt.NDArray[np.float64]


def prototype(kind: str, *, q: float, gain: float) -> tuple[list[float], list[float]]:
    """Return numerator and denominator in s of a kind."""
    a = 10 ** (gain / 40)
    root = math.sqrt(a) / q
    return {
        "low-pass": ([1.0], [1.0, 1 / q, 1.0]),
        "high-pass": ([1.0, 0.0, 0.0], [1.0, 1 / q, 1.0]),
        "band-pass": ([1 / q, 0.0], [1.0, 1 / q, 1.0]),
        "notch": ([1.0, 0.0, 1.0], [1.0, 1 / q, 1.0]),
        "all-pass": ([1.0, -1 / q, 1.0], [1.0, 1 / q, 1.0]),
        "peaking": ([1.0, a / q, 1.0], [1.0, 1 / (a * q), 1.0]),
        "low-shelf": ([a, a * root, a * a], [a, root, 1.0]),
        "high-shelf": ([a * a, a * root, a], [1.0, root, a]),
    }[kind]


def coefficients(
    kind: str, *, frequency: float, rate: float, q: float, gain: float = 0.0
) -> tuple[Floats, Floats]:
    """Return b and a of z⁻¹ with a0 = 1; the frequency is kept where it is."""
    # s = (1 − z⁻¹)/((1 + z⁻¹) tan(w/2)): the transform of a rate of 1/(2 tan(w/2)).
    virtual = 0.5 / math.tan(math.pi * frequency / rate)
    return signal.bilinear(*prototype(kind, q=q, gain=gain), fs=virtual)
