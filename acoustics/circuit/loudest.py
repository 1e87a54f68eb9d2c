"""The question a car asks: what box of these litres plays loudest from here to there.

A box is as loud as the least it can do anywhere in the band: at each frequency the smallest of
heat, cone travel, port air and amplifier decides. Litres and tunings are tried all at once.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from acoustics.air.air import STANDARD, Air
from acoustics.circuit.limits import AUDIBLE_PORT_SPEED, clean_level
from acoustics.circuit.solver import sweep
from acoustics.driver.driver import Driver
from acoustics.enclosure.boxes import Sealed, Vented
from acoustics.enclosure.openings import Vent
from acoustics.enclosure.port import recommended_area
from acoustics.errors import MissingError, NoSolutionError, OutOfRangeError, Quantity
from acoustics.names import Name
from acoustics.values import Floats, Real, require_positive

LITRES = np.geomspace(0.4, 2.0, 17)  # of those at hand, for what more or fewer would give
_TUNINGS, _FINER, _BAND = 60, 41, 40
_CLOSED = 1e-9  # area over length of a port that lets nothing through [m]


@dataclass(frozen=True, kw_only=True)
class Loudest:
    """The loudest box of these litres, and what other litres would give.

    Attributes:
        box: the box
        level: least of the largest clean levels in the band [dB re 20 µPa]
        frequency: where it is so [Hz]
        limit: name of the limit that binds there
        volumes: litres tried [m³]
        levels: the same level of the best box of each [dB re 20 µPa]
        unknown: limits nothing is known of
    """

    box: Sealed | Vented
    level: float
    frequency: float
    limit: str
    volumes: Floats
    levels: Floats
    unknown: tuple[str, ...]


def loudest_box(
    driver: Driver,
    low: float,
    high: float,
    *,
    volume: float,
    vented: bool,
    area: float | None = None,
    second: Vent | None = None,
    losses: Mapping[str, float] | None = None,
    amplifier_voltage: float | None = None,
    amplifier_current: float | None = None,
    series_resistance: float = 0.0,
    port_speed: float = AUDIBLE_PORT_SPEED,
    air: Air = STANDARD,
) -> Loudest:
    """Box of given litres with the highest least clean level between two frequencies.

    Args:
        driver: driver in the box
        low: lower end of the band [Hz]
        high: upper end of the band [Hz]
        volume: litres at hand [m³]
        vented: whether it has a port, whose tuning is then chosen; closed otherwise
        area: area of the ports together; by the rule S = 0.8 fb Vd unless given [m²]
        second: a port unlike the first, open beside it
        losses: further figures of the box by name, such as ql [-]
        amplifier_voltage: largest output voltage, rms; None when unknown [V]
        amplifier_current: largest output current, rms; None when unknown [A]
        series_resistance: resistance of cable and source [Ω]
        port_speed: peak air speed accepted in a port [m/s]
        air: air in the box

    Returns: the box, its level and the trade-off

    Raises:
        MissingError: Xmax is not known.
        NoSolutionError: the second port alone tunes the box above the band.
        OutOfRangeError: a value is not positive, or the band is empty.

    Valid: as the solver; a steady tone, cold coil, no filters; tuning from half the lower end to
        the upper end.

    Source: the solver and clean_level; vent area: see recommended_area.
    """
    require_positive(Name.VOLUME, volume, "m³")
    require_positive(Name.FREQUENCY, low, "Hz")
    if high <= low:
        raise OutOfRangeError(Name.BAND, high, "Hz", above=low)
    if driver.xmax is None:
        raise MissingError(Name.XMAX)
    displacement = float(driver.sd * driver.xmax)
    given = dict(losses or {})

    def boxes(volumes: Real, tunings: Real) -> Sealed | Vented:
        if not vented:
            return Sealed(volume=volumes, **given)
        vent: Any = area
        if vent is None:
            vent = tunings * recommended_area(tuning=1.0, displacement=displacement)
        tuned = Vented.tuned(volume=volumes, frequency=tunings, area=vent, air=air, **given)
        return tuned if second is None else _beside(tuned, second)

    def least(volumes: Floats, tunings: Floats) -> tuple[Floats, Floats, np.ndarray, Any]:
        solved = sweep(
            driver=driver,
            box=boxes(volumes, tunings),
            frequencies=np.geomspace(low, high, _BAND),
            series_resistance=series_resistance,
            air=air,
        )
        clean = clean_level(
            solved,
            amplifier_voltage=amplifier_voltage,
            amplifier_current=amplifier_current,
            port_speed=port_speed,
        )
        worst = clean.spl.argmin(axis=-1)
        at = (np.arange(len(worst)), worst)
        level = clean.spl[at]
        if second is not None:
            # What the second port alone tunes higher no first port brings down.
            level = np.where(_left(volumes, tunings, second, air) > 0, level, -np.inf)
        return level, clean.frequencies[worst], clean.binding[at], clean.unknown

    tried = np.geomspace(0.5 * low, high, _TUNINGS) if vented else np.ones(1)
    volumes = volume * LITRES
    pairs = np.meshgrid(volumes, tried, indexing="ij")
    levels = least(pairs[0].ravel(), pairs[1].ravel())[0].reshape(len(volumes), len(tried))

    near = int(levels[int(np.argmin(np.abs(LITRES - 1.0)))].argmax())
    around = tried[[max(near - 1, 0), min(near + 1, len(tried) - 1)]]
    finer = np.geomspace(around[0], around[1], _FINER) if vented else tried
    level, frequency, limit, unknown = least(np.full_like(finer, volume), finer)
    best = int(level.argmax())
    if second is not None and not np.isfinite(level[best]):
        alone = float(Vented(volume=volume, vent=second).resonance(None, air))
        raise NoSolutionError(
            code="port-beside-tunes-higher",
            value=Quantity(high, "Hz"),
            limit=Quantity(alone, "Hz"),
        )
    return Loudest(
        box=boxes(volume, float(finer[best])),
        level=float(level[best]),
        frequency=float(frequency[best]),
        limit=str(limit[best]),
        volumes=volumes,
        levels=levels.max(axis=-1),
        unknown=unknown,
    )


def _left(volume: Real, tuning: Real, second: Vent, air: Air) -> Real:
    """Area over length that the tuning leaves to the first port; none where it is not above 0."""
    wanted = (2 * np.pi * tuning / air.speed_of_sound) ** 2 * volume
    return wanted - second.area / second.effective_length


def _beside(tuned: Vented, second: Vent) -> Vented:
    """The box with a second port, its first one so much longer that its tuning stays."""
    first = tuned.vent
    left = first.area / first.effective_length - second.area / second.effective_length
    # One that cannot be is left out by its level; here it only needs some length.
    length = first.area / np.maximum(left, _CLOSED)
    return replace(tuned, vent=replace(first, effective_length=_plain(length)), second=second)


def _plain(value: Any) -> Real:
    return value if np.ndim(value) else float(value)
