"""The response of a driver in a leaking vented box as a polynomial, and what is read off it.

    1/|G|² = P(u) = 1 + A1 u + A2 u² + A3 u³ + u⁴,   u = fs fb / f²

A driver's coil inductance and the losses of absorption and of the port have no place in it.
"""

from dataclasses import dataclass
from typing import cast

import numpy as np

from acoustics.values import Floats

_DOUBLED = 2.0  # P where half the power is left


@dataclass(frozen=True, kw_only=True)
class VentedResponse:
    """The response of each of several boxes that leak and have a port.

    Attributes:
        h: tuning over the driver's resonance, fb / fs [-]
        alpha: Vas over the net volume [-]
        damping: 1 / Qts, the source's resistance included [-]
        leak: 1 / QL [-]

    Valid: no coil inductance, no loss but leakage.

    Source: Small, "Vented-Box Loudspeaker Systems, Part I", JAES 21 (1973) 363-372.
    """

    h: Floats
    alpha: Floats
    damping: float
    leak: float

    @property
    def coefficients(self) -> Floats:
        """A3, A2, A1 of P, in the last axis.

        Returns: coefficients [-]

        Source: Small, JAES 21 (1973) 363-372; Thiele, JAES 19 (1971) 382-392.
        """
        a1, a3 = ends(self.h, self.damping, self.leak)
        a2 = self.h + (1 + self.alpha) / self.h + self.damping * self.leak
        return np.stack([a3**2 - 2 * a2, a2**2 + 2 - 2 * a1 * a3, a1**2 - 2 * a2], axis=-1)

    def extremes(self) -> tuple[Floats, Floats, Floats]:
        """Rise and sag of the passband, and where it sags.

        A sag counts as long as the level comes back to half the power at least, however deep it
        is; below that the response has fallen for good.

        Returns: rise [dB], sag [dB], and the place u of a level that rises again, nan where it
            never does [-]

        Source: the polynomial; P' is of the third order, so that P has one largest place at most.
        """
        coefficients = self.coefficients
        high, mid, low = np.moveaxis(coefficients, -1, 0)
        companion = np.zeros((*high.shape, 3, 3))
        companion[..., 0, 0], companion[..., 0, 1] = -0.75 * high, -0.5 * mid
        companion[..., 0, 2], companion[..., 1, 0], companion[..., 2, 1] = -0.25 * low, 1.0, 1.0
        roots = np.linalg.eigvals(companion)
        real = np.abs(roots.imag) <= 1e-9 * np.abs(roots)
        places = np.where(real & (roots.real > 0), roots.real, np.nan)
        values = polynomial(coefficients[..., None, :], places)
        least = np.fmin(np.fmin.reduce(values, axis=-1), 1.0)
        bend = 12 * places**2 + 6 * high[..., None] * places + 2 * mid[..., None]
        largest = np.fmax.reduce(np.where(bend < 0, places, np.nan), axis=-1)
        beyond = np.where(places > largest[..., None], values, np.nan)
        returns = np.fmin.reduce(beyond, axis=-1) < _DOUBLED
        height = np.where(returns, polynomial(coefficients, largest), 1.0)
        return -10 * np.log10(least), 10 * np.log10(np.fmax(height, 1.0)), largest

    def half_power(self) -> Floats:
        """Highest frequency at which half the power is left, coming down from the passband.

        Returns: f3 / fs [-]

        Source: the polynomial.
        """
        coefficients = self.coefficients
        companion = np.zeros((*coefficients.shape[:-1], 4, 4))
        companion[..., 0, :3] = -coefficients
        companion[..., 0, 3] = _DOUBLED - 1.0
        for row in range(3):
            companion[..., row + 1, row] = 1.0
        roots = np.linalg.eigvals(companion)
        real = (np.abs(roots.imag) <= 1e-9 * np.abs(roots)) & (roots.real > 0)
        return cast(Floats, np.sqrt(self.h / np.where(real, roots.real, np.inf).min(axis=-1)))


def ends(h: Floats, damping: float, leak: float) -> tuple[Floats, Floats]:
    """First and third coefficient of the circuit's polynomial, which the volume leaves alone.

    Args:
        h: tuning over the driver's resonance [-]
        damping: 1 / Qts [-]
        leak: 1 / QL [-]

    Returns: a1 and a3 [-]

    Source: Small, JAES 21 (1973) 363-372.
    """
    root = np.sqrt(h)
    return damping / root + root * leak, root * damping + leak / root


def polynomial(coefficients: Floats, u: Floats) -> Floats:
    """P(u) = 1 + A1 u + A2 u² + A3 u³ + u⁴.

    Args:
        coefficients: A3, A2, A1 in the last axis [-]
        u: fs fb / f² [-]

    Returns: passband power over power [-]

    Source: Thiele, JAES 19 (1971) 382-392.
    """
    high, mid, low = np.moveaxis(coefficients, -1, 0)
    return cast(Floats, 1 + u * (low + u * (mid + u * (high + u))))


def alphas_for(h: Floats, u: Floats, damping: float, leak: float) -> tuple[Floats, Floats]:
    """Both ratios Vas / V with which half the power is left at a place: P(u) = 2 solved for a2.

    Args:
        h: tuning over the driver's resonance [-]
        u: fs fb / f² [-]
        damping: 1 / Qts [-]
        leak: 1 / QL [-]

    Returns: the smaller and the larger ratio, nan where there is none [-]

    Source: the polynomial, of the second order in a2.
    """
    a1, a3 = ends(h, damping, leak)
    rest = -1 + u * (a1**2 + u * (2 - 2 * a1 * a3 + u * (a3**2 + u)))
    inside = (1 + u**2) ** 2 - rest
    root = np.sqrt(np.where(inside < 0, np.nan, inside))
    smaller, larger = ((1 + u**2 + sign * root) / u for sign in (-1, 1))
    beyond = h + damping * leak
    return (smaller - beyond) * h - 1, (larger - beyond) * h - 1
