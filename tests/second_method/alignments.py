"""Vented boxes of a wanted response, by solving the circuit's own polynomial for them.

The circuit is that of R. H. Small, "Vented-Box Loudspeaker Systems" part I, JAES 21 (1973) 363:
a driver of resonance 1 and total Q, a compliance of 1/alpha, a leak of Q `ql` at the tuning h and
the port's mass. Its denominator is multiplied out here by numpy and matched to that of the wanted
response by scipy's solver; the inverted formulas of the paper are not used.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import numpy.typing as npt
from scipy import optimize, signal

Floats = npt.NDArray[np.float64]


def denominator(qt: float, alpha: float, h: float, ql: float) -> Floats:
    """Multiply out the fourth-order denominator in s over the driver's resonance, s⁴ first."""
    driver = [1.0, 1 / qt, 1.0]
    compliance, mass = 1 / alpha, alpha / h**2
    leak = ql * alpha / h
    box = [compliance * mass, mass / leak, 1.0]
    whole = np.polyadd(np.polymul(driver, box), [mass, 0.0, 0.0])
    return np.asarray(whole / whole[0])


def scaled(polynomial: Floats) -> Floats:
    """Scale the frequency so that the last coefficient is 1."""
    unit = polynomial[-1] ** 0.25
    return np.asarray(polynomial / unit ** np.arange(5))


def high_pass(poles: npt.ArrayLike) -> Floats:
    """Return the scaled denominator of a high-pass from the poles of its low-pass."""
    return scaled(np.real(np.poly(1 / np.asarray(poles))))


def magnitude_terms(polynomial: Floats) -> Floats:
    """Return the coefficients of w⁶, w⁴ and w² in |D(jw)|², which a flat response lacks."""
    at_minus = polynomial * (-1.0) ** np.arange(5)
    product = np.polymul(polynomial, at_minus)[::2]  # in s², s⁸ first
    return np.asarray(product * (-1.0) ** np.arange(5))[1:4]


def half_power(polynomial: Floats) -> float:
    """Return the highest frequency at which w⁴/|D(jw)| is 1/√2."""
    at_minus = polynomial * (-1.0) ** np.arange(5)
    product = np.polymul(polynomial, at_minus)[::2] * (-1.0) ** np.arange(5)
    product[0] -= 2.0
    squares = np.roots(product)
    real = squares[np.abs(squares.imag) < 1e-7 * np.abs(squares)].real
    return math.sqrt(max(real))


def _solve(equations: Callable[[Floats], Floats], start: list[float]) -> Floats:
    answer, _, success, message = optimize.fsolve(equations, start, xtol=1e-13, full_output=True)
    assert success == 1, message
    return np.asarray(answer)


def quasi_butterworth(qt: float, ql: float) -> tuple[float, float, float]:
    """Return h, alpha and f3 of the response that is flat to the third order."""

    # Of |D|² = w⁸ + a w⁶ + b w⁴ + c w² + 1 a Butterworth response lacks all three; this one c not.
    def equations(x: Floats) -> Floats:
        sixth, fourth, _ = magnitude_terms(scaled(denominator(qt, *np.exp(x), ql)))
        return np.array([sixth, fourth])

    alpha, h = np.exp(_solve(equations, [math.log(0.2 / qt**2), math.log(0.4 / qt)]))
    return float(h), float(alpha), half_power(denominator(qt, alpha, h, ql))


def _poles(k: float) -> npt.NDArray[np.complex128]:
    """Butterworth's poles drawn k times as far from the imaginary axis (Chebyshev: k below 1)."""
    flat = signal.buttap(4)[1]
    return np.asarray(k * flat.real + 1j * flat.imag)


def chebyshev(qt: float, ql: float, *, wide: bool = False) -> tuple[float, float, float]:
    """Return h, alpha and f3 of Chebyshev's poles; `wide` starts from k above 1."""

    def equations(x: Floats) -> Floats:
        alpha, h, k = np.exp(x)
        off = scaled(denominator(qt, alpha, h, ql)) - high_pass(_poles(k))
        return np.asarray(off[1:4])

    start = [math.log(0.4 / qt**2 if wide else 0.18 / qt**2), 0.05, math.log(1.5 if wide else 0.8)]
    alpha, h, k = np.exp(_solve(equations, start))
    assert bool(k > 1) is wide
    return float(h), float(alpha), half_power(denominator(qt, alpha, h, ql))


def butterworth(ql: float) -> tuple[float, float, float]:
    """Return Q, alpha and h of Butterworth's response with a leak."""

    def equations(x: Floats) -> Floats:
        off = scaled(denominator(*np.exp(x), ql)) - high_pass(signal.buttap(4)[1])
        return np.asarray(off[1:4])

    qt, alpha, h = np.exp(_solve(equations, [math.log(0.4), 0.0, 0.0]))
    return float(qt), float(alpha), float(h)
