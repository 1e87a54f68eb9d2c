"""What a voice coil does besides its resistance: two shapes of a lossy inductance.

s Le + K s^n, and s Le + (s L2 in parallel with R2). Which of them a coil is, only a fit can tell.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, cast

import numpy as np
from scipy.optimize import nnls

from acoustics.names import Name
from acoustics.values import Complexes, Floats, Real, require_positive

EXPONENTS = (0.4, 0.9)  # of the lossy voice coil; 1 is the inductance beside it


def coil_impedance(
    s: Complexes,
    *,
    le: Real = 0.0,
    coil_factor: Real = 0.0,
    coil_exponent: Real = 0.5,
    second_le: Real = 0.0,
    second_resistance: Real = 0.0,
) -> Complexes:
    """Impedance of a voice coil beyond its resistance: s Le + K s^n + s L2 R2/(R2 + s L2).

    Args:
        s: complex frequency [rad/s]
        le: inductance [H]
        coil_factor: factor K of the lossy part [Ω·sⁿ]
        coil_exponent: exponent n of the lossy part; 0.5 is a semi-inductance [-]
        second_le: inductance L2 that its resistance bridges; none while it is 0 [H]
        second_resistance: resistance R2 across it [Ω]

    Returns: complex impedance [Ω]

    Source: K s^0.5: J. Vanderkooy, JAES 37 (1989) 119-128; K s^n: W. M. Leach, JAES 50 (2002)
        442; L2 with R2: M. Dodd, W. Klippel, J. Oclee-Brown, AES 117th Convention (2004), all
        three from memory.
    """
    impedance = s * le + coil_factor * s**coil_exponent
    if np.any(np.asarray(second_le) > 0.0):
        impedance = impedance + s * second_le * second_resistance / (
            second_resistance + s * second_le
        )
    return impedance


def coil_in_the_bass(coil: Mapping[str, float], highest: float) -> tuple[float, float]:
    """Inductance and semi-inductance that come nearest to a fitted coil in the bass.

    A driver is described by s Le + K √s; another coil is carried over by least squares on its
    complex impedance, neither value below zero.

    Args:
        coil: figures of the coil by the names of coil_impedance [SI]
        highest: highest frequency that matters [Hz]

    Returns: inductance [H] and semi-inductance [Ω·√s]

    Raises:
        OutOfRangeError: the frequency is not above zero.

    Source: definition.
    """
    require_positive(Name.HIGHEST_FREQUENCY, highest, "Hz")
    s = cast("Complexes", 2j * np.pi * np.linspace(highest / 50.0, highest, 50))
    wanted = coil_impedance(s, **coil)
    shapes = np.column_stack([s, np.sqrt(s)]) * [1.0, np.sqrt(np.abs(s[-1]))]
    weights, _ = nnls(
        np.vstack([shapes.real, shapes.imag]), np.concatenate([wanted.real, wanted.imag])
    )
    return float(weights[0]), float(weights[1] * np.sqrt(np.abs(s[-1])))


@dataclass(frozen=True)
class CoilShape:
    """One shape of a coil as three numbers a fit can move, free of units.

    Attributes:
        base: resistance the impedances are counted in [Ω]
        top: angular frequency the inductances are counted at [rad/s]
        start: where the fit begins [-]
        lowest: least of each number [-]
        highest: most of each number [-]
    """

    base: float
    top: float
    start: ClassVar[tuple[float, float, float]]
    lowest: ClassVar[tuple[float, float, float]]
    highest: ClassVar[tuple[float, float, float]]

    def figures(self, x: Floats) -> dict[str, float]:
        """Figures of the coil by the names of coil_impedance.

        Args:
            x: the three numbers [-]

        Returns: figures by name [SI]
        """
        raise NotImplementedError

    def slopes(self, x: Floats, s: Complexes) -> list[Complexes]:
        """Slope of the coil's impedance by each of the three numbers.

        Args:
            x: the three numbers [-]
            s: complex frequency [rad/s]

        Returns: slopes [Ω]
        """
        raise NotImplementedError


class PowerCoil(CoilShape):
    """A coil of s Le + K s^n."""

    start = (0.1, 0.3, 0.65)
    lowest = (0.0, 0.0, EXPONENTS[0])
    highest = (np.inf, np.inf, EXPONENTS[1])

    def figures(self, x: Floats) -> dict[str, float]:
        """Le, K and n.

        Args:
            x: the three numbers [-]

        Returns: figures by name [SI]
        """
        exponent = float(x[2])
        return {
            "le": float(x[0]) * self.base / self.top,
            "coil_factor": float(x[1]) * self.base / self.top**exponent,
            "coil_exponent": exponent,
        }

    def slopes(self, x: Floats, s: Complexes) -> list[Complexes]:
        """By inductance, by factor and by exponent.

        Args:
            x: the three numbers [-]
            s: complex frequency [rad/s]

        Returns: slopes [Ω]
        """
        u = s / self.top
        lossy = self.base * u ** x[2]
        return [self.base * u, lossy, x[1] * lossy * np.log(u)]


class BridgedCoil(CoilShape):
    """A coil of s Le and, in series, an inductance L2 bridged by a resistance R2."""

    start = (0.1, 0.3, 0.5)
    lowest = (0.0, 0.0, 1e-3)
    highest = (np.inf, np.inf, np.inf)

    def figures(self, x: Floats) -> dict[str, float]:
        """Le, L2 and R2.

        Args:
            x: the three numbers [-]

        Returns: figures by name [SI]
        """
        return {
            "le": float(x[0]) * self.base / self.top,
            "second_le": float(x[1]) * self.base / self.top,
            "second_resistance": float(x[2]) * self.base,
        }

    def slopes(self, x: Floats, s: Complexes) -> list[Complexes]:
        """By inductance, by the bridged inductance and by its bridge.

        Args:
            x: the three numbers [-]
            s: complex frequency [rad/s]

        Returns: slopes [Ω]
        """
        u = s / self.top
        a, r = x[1] * u, x[2]
        both = (r + a) ** 2
        return [self.base * u, self.base * u * r**2 / both, self.base * a**2 / both]


SHAPES: tuple[type[CoilShape], ...] = (PowerCoil, BridgedCoil)
