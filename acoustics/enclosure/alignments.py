"""Classical response shapes of sealed and vented boxes, solved exactly, leakage included.

A vented box with leakage as its only loss answers with G = s⁴ / (s⁴ + a1 s³ + a2 s² + a3 s + 1),
s normalised to 2 pi sqrt(fs fb), h = fb/fs, alpha = Vas/V:

    a1 = 1/(√h QT) + √h/QL,   a2 = h + (1 + alpha)/h + 1/(QL QT),   a3 = √h/QT + 1/(√h QL).

A shape names a1, a2, a3, some with one free parameter; a driver's QT picks the parameter.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from scipy.optimize import brentq

from acoustics.errors import NoSolutionError, Quantity
from acoustics.names import Name
from acoustics.values import require_positive

_ROOT2 = math.sqrt(2)
_BUTTERWORTH = math.sqrt(4 + 2 * _ROOT2)


class Shape(StrEnum):
    """A classical shape of response.

    Attributes:
        BUTTERWORTH: maximally flat
        BESSEL: poles of the maximally flat delay low-pass, turned into a high-pass
        CHEBYSHEV: equal ripple, for a QT above Butterworth's (fourth order: C4)
        QUASI_BUTTERWORTH: third-order maximally flat, for a QT below Butterworth's (QB3)
        SUB_CHEBYSHEV: poles of a Chebyshev stretched the other way (SC4)
        DOUBLE_POLE: two equal pairs of poles; sealed, critical damping

    Source: A. N. Thiele, "Loudspeakers in Vented Boxes", JAES 19 (1971) 382-392, 471-483;
        Small, JAES 21 (1973) 363-372; double pole: definition.
    """

    BUTTERWORTH = "butterworth"
    BESSEL = "bessel"
    CHEBYSHEV = "chebyshev"
    QUASI_BUTTERWORTH = "quasi-butterworth"
    SUB_CHEBYSHEV = "sub-chebyshev"
    DOUBLE_POLE = "double-pole"


@dataclass(frozen=True, kw_only=True)
class Polynomial:
    """Denominator s⁴ + a1 s³ + a2 s² + a3 s + 1 of a fourth-order high-pass.

    Attributes:
        a1: coefficient of s³ [-]
        a2: coefficient of s² [-]
        a3: coefficient of s [-]

    Source: Thiele 1971; Small, JAES 21 (1973) 363-372.
    """

    a1: float
    a2: float
    a3: float

    @property
    def magnitude_terms(self) -> tuple[float, float, float]:
        """Terms of 1/|G|² = 1 + A1 u + A2 u² + A3 u³ + u⁴, u = (f0/f)².

        Returns: A1, A2, A3 [-]

        Source: algebra on the definition.
        """
        return (
            self.a1**2 - 2 * self.a2,
            self.a2**2 + 2 - 2 * self.a1 * self.a3,
            self.a3**2 - 2 * self.a2,
        )

    @property
    def f3(self) -> float:
        """Frequency of half power, going down from the passband, over f0 = sqrt(fs fb).

        Returns: f3/f0 [-]

        Source: algebra on the definition.
        """
        a1, a2, a3 = self.magnitude_terms
        roots = np.roots([1.0, a3, a2, a1, -1.0])
        real = roots[(abs(roots.imag) < 1e-9) & (roots.real > 0)].real
        return float(1 / math.sqrt(real.min()))

    @property
    def peak(self) -> float:
        """Largest level above the passband, 0 when there is none.

        Returns: level [dB]

        Source: algebra on the definition.
        """
        a1, a2, a3 = self.magnitude_terms
        turning = np.roots([4.0, 3 * a3, 2 * a2, a1])
        u = turning[(abs(turning.imag) < 1e-9) & (turning.real > 0)].real
        inverse = 1 + u * (a1 + u * (a2 + u * (a3 + u)))
        return float(max(0.0, *(-10 * np.log10(inverse)))) if u.size else 0.0


@dataclass(frozen=True, kw_only=True)
class Alignment:
    """A driver and a vented box that together give a shape.

    Attributes:
        qts: total Q the driver must have, source resistance included [-]
        alpha: compliance ratio Vas/V [-]
        h: tuning ratio fb/fs [-]
        f3: half-power frequency over fs [-]
        peak: largest level above the passband [dB]
        polynomial: the shape's denominator

    Source: Thiele 1971; Small, JAES 21 (1973) 363-372.
    """

    qts: float
    alpha: float
    h: float
    f3: float
    peak: float
    polynomial: Polynomial


def chebyshev(k: float) -> Polynomial:
    """Fourth-order shape whose poles are Butterworth's with their real parts times k.

    k below 1 gives equal ripple, 1 Butterworth, above 1 the sub-Chebyshev.
    D = (k⁴ + 6k² + 1)/8, a3 = k sqrt(4 + 2√2)/D^¼, a2 = (1 + k²(1 + √2))/√D,
    a1 = (a3/√D)(1 - (1 - k²)/(2√2)).

    Args:
        k: ratio of the real parts [-]

    Returns: the polynomial

    Raises:
        OutOfRangeError: k is not positive.

    Source: Thiele 1971, for k below 1; checked against the Chebyshev prototype of scipy.signal.
    """
    require_positive(Name.ALIGNMENT_K, k, "-")
    d = (k**4 + 6 * k**2 + 1) / 8
    a3 = k * _BUTTERWORTH / d**0.25
    a2 = (1 + k**2 * (1 + _ROOT2)) / math.sqrt(d)
    a1 = a3 / math.sqrt(d) * (1 - (1 - k**2) / (2 * _ROOT2))
    return Polynomial(a1=a1, a2=a2, a3=a3)


def quasi_butterworth(a1: float) -> Polynomial:
    """Shape with 1/|G|² = 1 + A3 u³ + u⁴: flat like a third-order Butterworth.

    a2 = a1²/2, a3 = (a2² + 2)/(2 a1).

    Args:
        a1: coefficient of s³, Butterworth's 2.6131 or more [-]

    Returns: the polynomial

    Raises:
        OutOfRangeError: a1 is not positive.

    Source: Thiele 1971.
    """
    require_positive(Name.ALIGNMENT_A1, a1, "-")
    a2 = a1**2 / 2
    return Polynomial(a1=a1, a2=a2, a3=(a2**2 + 2) / (2 * a1))


def double_pole(a1: float) -> Polynomial:
    """Shape with two equal pairs of poles, (s² + a1 s/2 + 1)².

    Args:
        a1: coefficient of s³ and of s [-]

    Returns: the polynomial

    Raises:
        OutOfRangeError: a1 is not positive.

    Source: definition.
    """
    require_positive(Name.ALIGNMENT_A1, a1, "-")
    return Polynomial(a1=a1, a2=2 + a1**2 / 4, a3=a1)


def align(polynomial: Polynomial, *, ql: float = math.inf) -> Alignment:
    """Driver and box that give a polynomial, with leakage as the only loss.

    r = √h is a root of r⁴ - a1 QL r³ + a3 QL r - 1; 1/QT = r (a1 - r/QL);
    alpha = a2 h - h² - 1 - h/(QL QT).

    Args:
        polynomial: the wanted denominator
        ql: Q of leakage at the box resonance; infinite for none [-]

    Returns: the alignment

    Raises:
        OutOfRangeError: ql is not positive.
        NoSolutionError: no driver and box give this shape with that leakage.

    Source: inversion of a1, a2, a3; Small, JAES 21 (1973) 363-372.
    """
    require_positive(Name.QL, ql, "-", infinite=True)
    damping, alpha, h = _invert(polynomial, ql)
    if damping <= 0 or alpha <= 0:
        raise NoSolutionError(code="leaks-too-much", value=Quantity(ql))
    return Alignment(
        qts=1 / damping,
        alpha=alpha,
        h=h,
        f3=polynomial.f3 * math.sqrt(h),
        peak=polynomial.peak,
        polynomial=polynomial,
    )


def align_shape(shape: Shape, *, qts: float, ql: float = math.inf) -> Alignment:
    """Vented box that gives a driver a named shape, exactly.

    Butterworth and Bessel ask for one QT each; the others span a range of QT.

    Args:
        shape: the wanted shape
        qts: total Q of the driver, source resistance included [-]
        ql: Q of leakage at the box resonance; infinite for none [-]

    Returns: the alignment

    Raises:
        OutOfRangeError: a value is not positive.
        NoSolutionError: the shape cannot be had with this QT; the nearest QT is named.

    Valid: leakage the only loss; no voice-coil inductance. Butterworth and Bessel accept a QT
        within 0.5 %.

    Source: Thiele 1971; Small, JAES 21 (1973) 363-372.
    """
    require_positive(Name.QTS, qts, "-")
    if shape in (Shape.BUTTERWORTH, Shape.BESSEL):
        exact = align(_BESSEL if shape is Shape.BESSEL else chebyshev(1.0), ql=ql)
        if abs(qts / exact.qts - 1) > 5e-3:
            raise _no_shape(shape, qts, exact.qts)
        return exact
    family, low, high = {
        # Ends of the parameter: where the family begins at Butterworth or ends for want of use.
        Shape.CHEBYSHEV: (chebyshev, 1.0, 0.05),
        Shape.QUASI_BUTTERWORTH: (quasi_butterworth, _BUTTERWORTH, 40.0),
        Shape.SUB_CHEBYSHEV: (chebyshev, 1.0, 50.0),
        Shape.DOUBLE_POLE: (double_pole, 1.0, 40.0),
    }[shape]

    if _invert(family(high), ql)[1] <= 0:
        # With leakage the family ends where its box would have to be infinitely large.
        high = float(brentq(lambda p: _invert(family(p), ql)[1], low, high)) * (1 - 1e-9)

    def excess(parameter: float) -> float:
        return _invert(family(parameter), ql)[0] - 1 / qts

    first, last = excess(low), excess(high)
    if first * last > 0:
        nearest = 1 / (1 / qts + min(first, last, key=abs))
        raise _no_shape(shape, qts, nearest)
    return align(family(float(brentq(excess, low, high, xtol=1e-13))), ql=ql)


def _no_shape(shape: Shape, qts: float, nearest: float) -> NoSolutionError:
    return NoSolutionError(
        code="shape-out-of-reach", shape=shape.value, value=Quantity(qts), limit=Quantity(nearest)
    )


def _invert(polynomial: Polynomial, ql: float) -> tuple[float, float, float]:
    """1/QT, alpha and h of a polynomial; not all of them need be possible."""
    a1, a2, a3 = polynomial.a1, polynomial.a2, polynomial.a3
    leak = 1 / ql
    roots = np.roots([leak, -a1, 0.0, a3, -leak] if leak else [a1, 0.0, -a3])
    real = roots[(abs(roots.imag) < 1e-9) & (roots.real > 0)].real
    r = float(real[abs(real - math.sqrt(a3 / a1)).argmin()])
    h = r * r
    damping = r * (a1 - r * leak)
    return damping, a2 * h - h * h - 1 - h * leak * damping, h


# Fourth-order Bessel low-pass turned over: 105^(1/4), 45/sqrt(105), 10/105^(1/4).
_BESSEL = Polynomial(a1=105**0.25, a2=45 / math.sqrt(105), a3=10 / 105**0.25)
