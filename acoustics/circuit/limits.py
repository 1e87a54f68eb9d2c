"""How loud it plays cleanly, what stops it, and the high-pass that protects it.

The system is linear, so every limit is a voltage: the one at which heat, excursion, port air or
the amplifier reaches what it bears. The smallest of them binds.
"""

import math
from dataclasses import dataclass
from typing import cast

import numpy as np

from acoustics.circuit.solver import HALF_POWER, Sweep
from acoustics.enclosure.openings import Radiator
from acoustics.errors import MissingError
from acoustics.names import Name
from acoustics.values import Floats, Real, column, require_positive

# Five per cent of the speed of sound, above which a port is heard.
AUDIBLE_PORT_SPEED = 17.0


@dataclass(frozen=True, kw_only=True)
class CleanLevel:
    """The largest clean level at each frequency and what binds it.

    Attributes:
        frequencies: frequencies of the curves [Hz]
        spl: largest clean sound pressure level [dB re 20 µPa]
        voltage: source voltage it takes, rms [V]
        allowed: voltage each known limit allows, by its name [V]
        binding: name of the limit that binds at each frequency [-]
        unknown: limits left out because nothing is known of them; never taken as harmless
    """

    frequencies: Floats
    spl: Floats
    voltage: Floats
    allowed: dict[str, Floats]
    binding: np.ndarray
    unknown: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class HighPass:
    """A protective Butterworth high-pass and what it does to the response.

    Attributes:
        frequency: corner, 3 dB down [Hz]
        order: order of the filter [-]
        spl: level with the filter [dB re 20 µPa]
        excursion: excursion with the filter, one way, peak [m]
        loss: level the filter takes away at each frequency [dB]
        f3: half-power frequency with the filter; None when outside the sweep [Hz]
    """

    frequency: float
    order: int
    spl: Floats
    excursion: Floats
    loss: Floats
    f3: float | None


def clean_level(
    solved: Sweep,
    *,
    amplifier_voltage: Real | None = None,
    amplifier_current: Real | None = None,
    port_speed: float = AUDIBLE_PORT_SPEED,
) -> CleanLevel:
    """Largest clean level at each frequency and the limit that binds.

    Heat: I² Re at the power rating; excursion: Xmax of driver and of passive radiator; port: peak
    air speed; amplifier: its voltage, and its current into the impedance at that frequency.

    Args:
        solved: the system at any voltage
        amplifier_voltage: largest output voltage, rms; None when unknown [V]
        amplifier_current: largest output current, rms; None when unknown [A]
        port_speed: peak air speed accepted in a port [m/s]

    Returns: the level, its voltage and what binds

    Raises:
        MissingError: no limit at all is known.
        OutOfRangeError: a limit is not positive.

    Valid: cold voice coil; heat of a steady tone.

    Source: Small 1972, JAES 20, 383-395 (excursion and heat); port speed of 5 % of the speed of
        sound: common practice, no source.
    """
    driver = solved.driver
    radiators = [f.opening for f in solved.load.flows if isinstance(f.opening, Radiator)]
    radiator_xmax = radiators[0].xmax if radiators else None
    for name, value, unit in (
        (Name.AMPLIFIER_VOLTAGE, amplifier_voltage, "V"),
        (Name.AMPLIFIER_CURRENT, amplifier_current, "A"),
        (Name.PORT_SPEED, port_speed, "m/s"),
    ):
        if value is not None:
            require_positive(name, value, unit)

    volts = column(solved.voltage)
    impedance = np.abs(solved.impedance)
    power = driver.power_rating
    amperes = None if power is None else np.sqrt(power / driver.re)
    # name: reach at the sweep's voltage, limit; a reach of None does not exist in this box.
    current = volts / impedance
    pairs: dict[str, tuple[Floats | None, Real | None]] = {
        "heat": (current, amperes),
        "excursion": (solved.excursion, driver.xmax),
        "port": (solved.port_speed, port_speed),
        "radiator": (solved.radiator_excursion, radiator_xmax),
        "amplifier-voltage": (np.ones_like(current) * volts, amplifier_voltage),
        "amplifier-current": (current, amplifier_current),
    }
    present = {name: pair for name, pair in pairs.items() if pair[0] is not None}
    unknown = tuple(Name(name) for name, (_, limit) in present.items() if limit is None)
    # What stands still sets no limit: a cone at the tuning of a box without losses.
    with np.errstate(divide="ignore"):
        allowed = {
            name: volts * column(limit) / reach
            for name, (reach, limit) in present.items()
            if limit is not None and reach is not None
        }
    if not allowed:
        raise MissingError(*unknown)
    stacked = np.stack(np.broadcast_arrays(*allowed.values()))
    voltage = stacked.min(axis=0)
    return CleanLevel(
        frequencies=solved.frequencies,
        spl=solved.spl + 20 * np.log10(voltage / volts),
        voltage=voltage,
        allowed=allowed,
        binding=np.array(list(allowed))[stacked.argmin(axis=0)],
        unknown=unknown,
    )


def protective_high_pass(solved: Sweep, *, order: int = 4) -> HighPass | None:
    """Lowest Butterworth high-pass that keeps every excursion at its limit or below.

    |H|² = 1 / (1 + (fc/f)^2n); an excursion x at f asks for fc = f ((x/Xmax)² - 1)^(1/2n), and
    the largest of these over the sweep is the corner.

    Args:
        solved: the system at the voltage it will see
        order: order n of the filter [-]

    Returns: the filter with its effect, or None when nothing exceeds its limit

    Raises:
        MissingError: the driver's Xmax is unknown.
        OutOfRangeError: order is not positive.

    Valid: one candidate; the range of the sweep. A corner above f3 says that the box cannot
        play this loud, not that the filter cures it.

    Source: definition of the Butterworth filter; excursion by the solver.
    """
    require_positive(Name.FILTER_ORDER, order, "-")
    if solved.driver.xmax is None:
        raise MissingError(Name.XMAX)
    over = solved.excursion / solved.driver.xmax
    for flow in solved.load.flows:
        if isinstance(flow.opening, Radiator) and flow.opening.xmax is not None:
            over = np.maximum(over, cast(Floats, solved.radiator_excursion) / flow.opening.xmax)
    if over.max() <= 1:
        return None
    f = solved.frequencies
    corners = f * np.maximum(over**2 - 1, 0.0) ** (1 / (2 * order))
    corner = float(corners.max())
    loss = 10 * np.log10(1 + (corner / f) ** (2 * order))
    spl = solved.spl - loss
    return HighPass(
        frequency=corner,
        order=order,
        spl=spl,
        excursion=solved.excursion * 10 ** (-loss / 20),
        loss=loss,
        f3=_f3(f, spl, float(solved.reference)),
    )


def _f3(f: Floats, spl: Floats, reference: float) -> float | None:
    """Half-power frequency of a curve, straight between its points over log frequency."""
    below = np.flatnonzero(spl[: spl.argmax()] < reference - HALF_POWER)
    if not below.size or spl.max() < reference - HALF_POWER:
        return None
    k = int(below[-1])
    share = (reference - HALF_POWER - spl[k]) / (spl[k + 1] - spl[k])
    return math.exp(math.log(f[k]) + float(share) * math.log(f[k + 1] / f[k]))
