"""Every vented box of a grid, its response computed branch by branch, and read off point by point.

R. H. Small, "Vented-Box Loudspeaker Systems", JAES 21 (1973) 363-372: pressure as voltage, volume
velocity as current; heard is what flows into the compliance of the air. Nothing is solved for:
each box is computed at many frequencies, and what is asked is read off the points.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, kw_only=True)
class Figures:
    """A driver and the leak of its box; volumes count over Vas, frequencies over fs."""

    qes: float
    qms: float
    ql: float


@dataclass(frozen=True, kw_only=True)
class Reading:
    """What is read off: the highest half-power frequency, rise and sag of the passband."""

    f3: np.ndarray
    rise: np.ndarray
    sag: np.ndarray


def level(figures: Figures, volume: np.ndarray, tuning: np.ndarray, f: np.ndarray) -> np.ndarray:
    """Level against the passband [dB]; compliance of the driver, fs and 2 pi fs are one."""
    s = 1j * f
    driver = 1 / figures.qms + 1 / figures.qes + s + 1 / s
    air = volume[..., None]
    port = 1 / (tuning[..., None] ** 2 * air)
    leak = figures.ql / (tuning[..., None] * air)
    admittance = s * air + 1 / (s * port) + 1 / leak
    heard = (s * air / admittance) / (driver + 1 / admittance)
    return 20 * np.log10(np.abs(s * heard))


def read(
    figures: Figures,
    volume: np.ndarray,
    tuning: np.ndarray,
    *,
    points: int = 400,
    span: tuple[float, float] = (0.05, 40.0),
) -> Reading:
    """Read every box off its points, between which a straight line is drawn."""
    f = np.geomspace(*span, points)
    levels = level(figures, volume, tuning, f)
    half = -10 * np.log10(2)
    below = levels < half
    lower = points - 1 - below[..., ::-1].argmax(axis=-1)
    upper = np.minimum(lower + 1, points - 1)
    under = np.take_along_axis(levels, lower[..., None], -1)[..., 0]
    over = np.take_along_axis(levels, upper[..., None], -1)[..., 0]
    share = np.clip((half - under) / np.maximum(over - under, 1e-12), 0, 1)
    f3 = np.exp(np.log(f[lower]) + share * (np.log(f[upper]) - np.log(f[lower])))
    inner = levels[..., 1:-1]
    falls = f[(levels >= half).argmax(axis=-1)]
    dips = (inner < levels[..., :-2]) & (inner <= levels[..., 2:]) & (f[1:-1] > falls[..., None])
    sag = np.where(dips, -inner, 0.0).max(axis=-1)
    return Reading(f3=f3, rise=np.maximum(levels.max(axis=-1), 0.0), sag=np.maximum(sag, 0.0))
