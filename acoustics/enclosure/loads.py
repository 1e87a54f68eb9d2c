"""The acoustic load of a box, and the one chamber every kind is made of.

A chamber of compliance C, leaking through a resistance and open through branches that lie beside
each other, together A, loads the diaphragm with the impedance N/D, where with E = 1 + s/(w0 QA)
for absorption

    N = E A,    D = (s C + w0 C E / QL) A + E,    A = s M + R  (port)  or  s M + R + 1/(s C) (cone).

Kept as fractions, no branch ever divides by zero at its own resonance.
"""

import math
from dataclasses import dataclass
from typing import ClassVar, Protocol, cast

from acoustics.air.air import Air
from acoustics.driver.driver import Driver
from acoustics.enclosure.openings import Radiator, Vent
from acoustics.values import Complexes, Real, column


@dataclass(frozen=True, kw_only=True)
class Flow:
    """Air moved through one opening, over the diaphragm's, times the load's denominator.

    Attributes:
        numerator: volume velocity over that of the diaphragm, times the denominator [unit of D]
        opening: the opening it passes
    """

    numerator: Complexes | float
    opening: Vent | Radiator


@dataclass(frozen=True, kw_only=True)
class Load:
    """What a box does to the diaphragm: impedance, radiated share and flows as fractions.

    Attributes:
        numerator: N of the acoustic impedance N/D [Pa·s/m³ × unit of D]
        denominator: D of the acoustic impedance N/D [any unit: it cancels]
        output: net volume velocity that leaves the system over the diaphragm's, times D
            [unit of D]
        flows: what passes each opening
    """

    numerator: Complexes | float
    denominator: Complexes | float
    output: Complexes | float
    flows: tuple[Flow, ...] = ()


@dataclass(frozen=True)
class Branch:
    """One way out of a chamber.

    Attributes:
        opening: what sits there
        impedance: its acoustic impedance, losses included [Pa·s/m³]
    """

    opening: Vent | Radiator
    impedance: Complexes


class Box(Protocol):
    """Anything that presents an acoustic load.

    Attributes:
        radiates_directly: whether the diaphragm itself is heard, so that the response has a flat
            passband above the box's own range
    """

    radiates_directly: ClassVar[bool]

    def load(self, s: Complexes, driver: Driver, air: Air) -> Load:
        """Acoustic load at complex frequencies.

        Args:
            s: complex frequency [rad/s]
            driver: driver in the box
            air: air in the box

        Returns: the load, acoustic impedance in [Pa·s/m³]
        """


def closed_resonance(driver: Driver, volume: Real, air: Air) -> Real:
    """Resonance of a driver on a closed volume: fs sqrt(1 + Cms Sd² rho c² / V).

    Args:
        driver: driver on the volume
        volume: effective volume [m³]
        air: air in the volume

    Returns: frequency [Hz]

    Source: Small, JAES 20 (1972) 798-808.
    """
    alpha = driver.cms * driver.sd**2 * air.bulk_modulus / volume
    return cast(Real, driver.fs * (1 + alpha) ** 0.5)


def chamber_load(
    s: Complexes,
    compliance: Real,
    resonance: Real,
    ql: Real,
    qa: Real,
    *branches: Branch,
) -> Load:
    """Acoustic load of one chamber.

    Args:
        s: complex frequency [rad/s]
        compliance: acoustic compliance of the air [m³/Pa]
        resonance: frequency at which the Q of the losses are stated [Hz]
        ql: Q of leakage [-]
        qa: Q of absorption [-]
        branches: what sits in the wall beside the driver, if anything [Pa·s/m³]

    Returns: the load, acoustic impedance in [Pa·s/m³]

    Source: Small, JAES 20 (1972) 798-808, JAES 21 (1973) 363-372, JAES 22 (1974) 592-601.
    """
    w0 = 2 * math.pi * resonance
    squeezed = s * column(compliance)
    leak = column(w0 * compliance / ql)
    # No absorption is by far the usual case; it need not cost a pass over the whole sweep.
    absorbing: Complexes | float = 1.0
    if not (isinstance(qa, float) and math.isinf(qa)):
        absorbing = 1 + s / column(w0 * qa)
    inside = squeezed + leak * absorbing
    if not branches:
        return Load(numerator=absorbing, denominator=inside, output=squeezed)
    first, *others = branches
    together: Complexes = first.impedance
    for other in others:
        together = together * other.impedance / (together + other.impedance)
    # Nor need the branches be multiplied by one.
    absorbed = together if isinstance(absorbing, float) else absorbing * together
    return Load(
        numerator=absorbed,
        denominator=inside * together + absorbing,
        output=squeezed * together,
        flows=tuple(
            # Air divides as the branches let it pass.
            Flow(
                numerator=absorbing * (together / branch.impedance) if others else absorbing,
                opening=branch.opening,
            )
            for branch in branches
        ),
    )
