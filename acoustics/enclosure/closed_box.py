"""The sealed system's own numbers: resonance and total Q, losses included exactly."""

import math
from typing import cast

import numpy as np

from acoustics.air.air import STANDARD, Air
from acoustics.driver.driver import Driver
from acoustics.enclosure.alignments import Shape
from acoustics.enclosure.boxes import Sealed
from acoustics.errors import NoSolutionError
from acoustics.names import Name
from acoustics.values import Floats, Real, require_positive

_Q_OF_SHAPE = {
    Shape.DOUBLE_POLE: 0.5,
    Shape.BESSEL: 1 / math.sqrt(3),
    Shape.BUTTERWORTH: 1 / math.sqrt(2),
}


def resonance_and_q(
    driver: Driver, box: Sealed, *, series_resistance: Real = 0.0, air: Air = STANDARD
) -> tuple[Floats, Floats]:
    """Resonance fc and total Q of a driver in a sealed box: its resonant pair of poles.

    With p = s/w0, y = ws/w0 and QT of the driver with its source the poles are the roots of
    (p² + p y/QT + y²)((1 + 1/(QL QA)) p + 1/QL) + (1 - y²)(1 + p/QA) p. Without leakage this is
    fc = fs sqrt(1 + alpha), 1/Qtc = y/QT + (1 - y²)/QA. Leakage adds a slow real pole.

    Args:
        driver: driver in the box; its voice-coil inductance is left out
        box: the sealed box
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: frequency fc [Hz] and total Q [-], one per candidate

    Valid: below a Q of one half the two faster of three real poles are taken.

    Source: Small, JAES 20 (1972) 798-808 (no losses in the box); losses: roots of the circuit's
        own characteristic polynomial.
    """
    w0 = 2 * math.pi * np.asarray(box.resonance(driver, air), dtype=float)
    y = driver.ws / w0
    damping = y * total_damping(driver, series_resistance)
    leak, absorption = 1 / np.asarray(box.ql, dtype=float), 1 / np.asarray(box.qa, dtype=float)
    lead = 1 + leak * absorption
    box_share = 1 - y**2
    coefficients = np.stack(
        np.broadcast_arrays(
            lead * damping + leak + box_share * absorption,
            lead * y**2 + leak * damping + box_share,
            leak * y**2,
        ),
        axis=-1,
    )
    companion = np.zeros((*coefficients.shape[:-1], 3, 3))
    companion[..., 0, :] = -coefficients / np.asarray(lead)[..., None]
    companion[..., 1, 0] = companion[..., 2, 1] = 1.0
    poles = np.linalg.eigvals(companion)
    # The slow pole is the real one of three or, of three real ones, the smallest.
    paired = np.abs(poles.imag).max(axis=-1, keepdims=True) > 0
    slowness = np.where(paired, np.abs(poles.imag), np.abs(poles))
    order = np.argsort(slowness, axis=-1)
    pair = np.take_along_axis(poles, order[..., 1:], axis=-1)
    frequency = np.sqrt(pair.prod(axis=-1).real)
    q = -frequency / pair.sum(axis=-1).real
    return cast(Floats, frequency * w0 / (2 * math.pi)), cast(Floats, q)


def total_damping(driver: Driver, series_resistance: Real = 0.0) -> Real:
    """Damping of the driver with the resistance of its source: 1/Qms + Re / (Qes (Re + Rg)).

    Args:
        driver: the driver
        series_resistance: resistance of cable and source Rg [Ω]

    Returns: 1/QT [-]

    Source: Small 1972, JAES 20, 383-395.
    """
    return 1 / driver.qms + driver.re / (driver.qes * (driver.re + series_resistance))


def q_of_shape(shape: Shape, *, ripple: float | None = None) -> float:
    """Total Q at which a sealed box answers with a named second-order shape.

    Double pole 1/2, Bessel 1/√3, Butterworth 1/√2; Chebyshev
    Q² = (r² + sqrt(r⁴ - r²)) / 2 with r the ripple as a pressure ratio.

    Args:
        shape: the shape
        ripple: peak of the Chebyshev shape [dB]

    Returns: total Q [-]

    Raises:
        NoSolutionError: the shape is not of the second order, or Chebyshev without its ripple.
        OutOfRangeError: ripple is not positive.

    Source: Small, JAES 20 (1972) 798-808.
    """
    if shape in _Q_OF_SHAPE:
        return _Q_OF_SHAPE[shape]
    if shape is Shape.CHEBYSHEV and ripple is not None:
        require_positive(Name.RIPPLE, ripple, "dB")
        square = 10 ** (ripple / 10)
        return math.sqrt((square + math.sqrt(square**2 - square)) / 2)
    raise NoSolutionError(code="shape-of-fourth-order", shape=str(shape))
