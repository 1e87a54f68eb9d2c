"""Crossover filters and level as coils, capacitors and resistors in front of a resistive load."""

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from acoustics.circuit.filters import Filter, Passes
from acoustics.names import Name
from acoustics.values import Floats, require_between, require_positive


class Component(StrEnum):
    """What a part is.

    Attributes:
        COIL: inductance [H]
        CAPACITOR: capacitance [F]
        RESISTOR: resistance [Ω]
    """

    COIL = "coil"
    CAPACITOR = "capacitor"
    RESISTOR = "resistor"


class Place(StrEnum):
    """Where a part sits.

    Attributes:
        SERIES: in the way to the speaker
        ACROSS: from that way to the return
    """

    SERIES = "series"
    ACROSS = "across"


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One part of a network.

    Attributes:
        component: what it is
        place: where it sits
        value: its value [H, F or Ω by what it is]
    """

    component: Component
    place: Place
    value: float


def network(cut: Filter, load: float) -> tuple[Piece, ...]:
    """Ladder of coils and capacitors that is a crossover filter, from the amplifier to the load.

    With D(s) of the low-pass split into even and odd powers, the ladder is the continued fraction
    of the part with the highest power over the other; L = g R/ω, C = g/(ω R). A high-pass has a
    capacitor 1/(g ω R) for each coil and a coil R/(g ω) for each capacitor.

    Args:
        cut: the crossover filter
        load: the resistance behind it [Ω]

    Returns: the parts, the one at the amplifier first

    Raises:
        OutOfRangeError: the load is not above zero.

    Valid: an amplifier without resistance and a load that is a resistance at every frequency.
        No driver is one: its coil and its resonance move the corner, by an octave if need be.

    Source: ladder with one termination, as in E. A. Guillemin, Synthesis of Passive Networks
        (1957), from memory.
    """
    require_positive(Name.IMPEDANCE, load, "Ω")
    omega = 2.0 * math.pi * cut.corner
    pieces = []
    # From the load: the last part is in series where the order is odd, and across where it is even.
    place = Place.SERIES if cut.order % 2 else Place.ACROSS
    for g in _continued_fraction(cut.denominator):
        pieces.append(_piece(place, g, load, omega, cut.passes))
        place = Place.ACROSS if place is Place.SERIES else Place.SERIES
    return tuple(reversed(pieces))


def _continued_fraction(denominator: Floats) -> list[float]:
    high, low = denominator[0::2].copy(), denominator[1::2].copy()
    elements = []
    for _ in range(len(denominator) - 1):
        g = high[0] / low[0]
        elements.append(float(g))
        rest = high - g * np.pad(low, (0, len(high) - len(low)))
        high, low = low, rest[1:]
    return elements


def _piece(place: Place, g: float, load: float, omega: float, passes: Passes) -> Piece:
    size = g if passes is Passes.LOW else 1.0 / g
    if (place is Place.SERIES) == (passes is Passes.LOW):
        return Piece(component=Component.COIL, place=place, value=size * load / omega)
    return Piece(component=Component.CAPACITOR, place=place, value=size / (omega * load))


def l_pad(load: float, cut: float) -> tuple[Piece, Piece]:
    """Two resistors that take level off a load and show the amplifier the same resistance.

    k = 10^(−cut/20): Rs = Z (1 − k) in series, Rp = Z k/(1 − k) across the load.

    Args:
        load: resistance of the load Z [Ω]
        cut: how much less loud [dB]

    Returns: the resistor in series, and the one across

    Raises:
        OutOfRangeError: the load is not above zero, or the cut not from 0.1 to 40 dB.

    Valid: a load that is a resistance.

    Source: voltage divider.
    """
    require_positive(Name.IMPEDANCE, load, "Ω")
    require_between(Name.GAIN, cut, 0.1, 40.0, "dB")
    k = 10.0 ** (-cut / 20.0)
    return (
        Piece(component=Component.RESISTOR, place=Place.SERIES, value=load * (1.0 - k)),
        Piece(component=Component.RESISTOR, place=Place.ACROSS, value=load * k / (1.0 - k)),
    )
