"""End correction of a rectangular opening in a wall, by integrating over every pair of its points.

A plane wave in the opening pushes each point with what all others send it, 1/(2π r) per area
(Lord Rayleigh, The Theory of Sound, volume 2, § 307); a wall beside it is a mirror. The four-fold
integral is two-fold over the distance of two points, and smooth in polar coordinates.
"""

from __future__ import annotations

import math

from scipy import integrate


def pairs(a: float, b: float) -> float:
    """Integrate 1/r over every pair of points of a rectangle [m³]."""

    def along(angle: float) -> float:
        x, y = math.cos(angle), math.sin(angle)
        ends = [a / x if x > 1e-12 else math.inf, b / y if y > 1e-12 else math.inf]
        total, _ = integrate.quad(lambda r: (a - r * x) * (b - r * y), 0, min(ends))
        return float(total)

    corner = math.atan2(b, a)
    whole = sum(
        integrate.quad(along, *ends, epsrel=1e-10)[0]
        for ends in ((0, corner), (corner, math.pi / 2))
    )
    return 4 * whole


def correction(a: float, b: float, *, mirrors: int = 0) -> float:
    """Return the length added [m]: one mirror along side `a`, a second along side `b`.

    With its images an opening is a larger one, of which it has a half or a quarter.
    """
    if mirrors > 0:
        b *= 2
    if mirrors > 1:
        a *= 2
    return pairs(a, b) / (2 * math.pi * a * b)
