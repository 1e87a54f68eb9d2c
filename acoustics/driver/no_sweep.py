"""What is refused though it has the form of a sweep: other units, or no single driver."""

from collections.abc import Callable, Mapping

import numpy as np

from acoustics.errors import FitError, Quantity
from acoustics.names import Name
from acoustics.values import Floats

# All of them are our choice.
SECOND_PEAK = 0.25  # prominence of a second peak over the first's, in ln |Z|
CLEAR_PEAK = 0.3  # the least prominence of a peak that noise does not make, in ln |Z|
SWINGS = 1.5  # largest over least magnitude of a curve with a resonance in it
CLEARLY = 0.9  # misfit read as decibels over that read as ohms, both as written
LIKELIER = 1000.0  # how much decibels have to be before ohms are given up
EXACT = 1e-5  # misfit below which a curve is taken as ohms without a second reading
DECIBELS = 20 / np.log(10)  # in a change of ln |Z| by one
MOST_DECIBELS = 60.0  # of an ohm: a kilohm; no peak of a loudspeaker is higher
SHORTED = 0.5  # least peak of any loudspeaker, and what an amplifier across it leaves of it [Ω]
# What a loudspeaker can be; beyond it the columns are in other units.
PLAUSIBLE = {"fs": (5.0, 5000.0, "Hz"), "re": (0.1, 100.0, "Ω")}


def refuse_radians(magnitude: Floats, phase: Floats | None) -> None:
    """Refuse a phase that never leaves ±π/2 though the magnitude swings: it is no degrees.

    Args:
        magnitude: magnitude of the impedance [Ω]
        phase: phase as it is written, or None [°]

    Raises:
        FitError: phase-in-radians.

    Source: definition.
    """
    if phase is None or float(magnitude.max() / magnitude.min()) < SWINGS:
        return
    largest = float(np.abs(phase).max())
    if largest <= np.pi / 2:
        raise FitError(code="phase-in-radians", value=Quantity(np.deg2rad(largest), "rad"))


def refuse_second_peak(frequencies: Floats, prominences: Floats) -> None:
    """Refuse a curve with two peaks of rank: a vented box, or two drivers.

    Args:
        frequencies: frequencies of the peaks [Hz]
        prominences: how far each stands out, in ln |Z| [-]

    Raises:
        FitError: two-peaks.

    Source: definition.
    """
    order = np.argsort(prominences)[::-1]
    least = max(SECOND_PEAK * float(prominences.max()), CLEAR_PEAK)
    if len(order) < 2 or float(prominences[order[1]]) < least:
        return
    low, high = sorted(float(frequencies[place]) for place in order[:2])
    raise FitError(code="two-peaks", value=Quantity(low, "Hz"), limit=Quantity(high, "Hz"))


def refuse_other_units(values: Mapping[str, float]) -> None:
    """Refuse a resonance or a coil no loudspeaker has: kilohertz, milliohms, kilohms.

    Args:
        values: fitted figures by name [SI]

    Raises:
        FitError: not-in-hertz-and-ohms.

    Source: definition.
    """
    for name, (low, high, unit) in PLAUSIBLE.items():
        if not low <= values[name] <= high:
            raise FitError(
                code="not-in-hertz-and-ohms",
                name=Name(name),
                value=Quantity(values[name], unit),
                low=Quantity(low, unit),
                high=Quantity(high, unit),
            )


def refuse_amplifier(magnitude: Floats) -> None:
    """Refuse a curve that never reaches the impedance of any coil: something lies across it.

    Args:
        magnitude: magnitude of the impedance [Ω]

    Raises:
        FitError: amplifier-connected.

    Valid: a short circuit levels the curve; one in kilohms keeps its peak and is not meant.

    Source: definition; the output of an amplifier is a short circuit of hundredths of an ohm.
    """
    highest = float(magnitude.max())
    if highest < SHORTED and highest < SWINGS * float(magnitude.min()):
        value, limit = Quantity(highest, "Ω"), Quantity(SHORTED, "Ω")
        raise FitError(code="amplifier-connected", value=value, limit=limit)


def refuse_decibels(
    magnitude: Floats, phase: Floats | None, misfit: float, as_decibels: Callable[[], float]
) -> None:
    """Refuse magnitudes that are likelier to be decibels of an ohm than ohms.

    A driver is fitted either way, with as many figures, so that the likelier reading is the one
    with the smaller misfit in the numbers as they are written: ohms miss by their own share,
    decibels by 20/ln 10 of it.

    Args:
        magnitude: magnitude as it is written [Ω]
        phase: phase, or None; with it the two cannot be mistaken for each other [°]
        misfit: root mean square of the misfit in ln |Z|, read as ohms [-]
        as_decibels: works out the same misfit read as decibels [-]

    Raises:
        FitError: looks-like-decibels.

    Source: definition; H. Akaike, IEEE Trans. Automatic Control 19 (1974) 716-723, from memory.
    """
    if phase is not None or misfit < EXACT or float(magnitude.max()) > MOST_DECIBELS:
        return
    ohms = misfit * float(np.exp(np.mean(np.log(magnitude))))
    decibels = DECIBELS * as_decibels()
    least = np.exp(-np.log(LIKELIER) / len(magnitude))
    if decibels < min(CLEARLY, least) * ohms:
        raise FitError(code="looks-like-decibels", value=Quantity(ohms), limit=Quantity(decibels))
