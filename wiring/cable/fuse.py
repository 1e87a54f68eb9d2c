"""Fuses and breakers: what they carry, what they break, how fast they open.

API: `Fuse`, `FittedFuse`, `usable_current`, `opening_time`, `breaking_need_by_cca`.
"""

import math
from bisect import bisect_right
from dataclasses import dataclass

from wiring.errors import (
    COUNT,
    OutOfRangeError,
    OutsideTableError,
    UnknownDataError,
    WiringError,
    require_between,
    require_not_negative,
    require_positive,
)
from wiring.names import Name

CONTINUOUS_SHARE = 0.75  # of the rating, fuse maker's application text
RERATING = 0.005  # per °C above 25 °C, the steepest slope a retrieved guide gives
RERATING_AMBIENT = 25.0


@dataclass(frozen=True, kw_only=True)
class Fuse:
    """A fuse or circuit breaker as its maker's sheet describes it.

    Attributes:
        kind: shape, such as "blade type C", or any other word
        rating: rated current [A]
        breaking_capacity: largest current it opens safely, None if unknown [A]
        opening: points (multiple of rating, longest opening time) [- , s]
        voltage: rated voltage, None if unknown [V]
        rerating: share lost per kelvin above 25 °C by its maker, None for the steepest [1/K]

    Raises:
        OutOfRangeError: if a number is not possible
        WiringError: if a larger current would open the fuse later

    Valid: multiples above 1, rising; times not rising
    Source: definition; ISO 8820-1, operating times
    """

    kind: str
    rating: float
    breaking_capacity: float | None = None
    opening: tuple[tuple[float, float], ...] = ()
    voltage: float | None = None
    rerating: float | None = None

    def __post_init__(self) -> None:
        require_positive(name=Name.FUSE_RATING, value=self.rating, unit="A")
        if self.breaking_capacity is not None:
            require_positive(name=Name.BREAKING_CAPACITY, value=self.breaking_capacity, unit="A")
        if self.voltage is not None:
            require_positive(name=Name.FUSE_VOLTAGE, value=self.voltage, unit="V")
        if self.rerating is not None:
            require_between(name=Name.RERATING, value=self.rerating, low=0, high=0.02, unit="1/K")
        for multiple, time in self.opening:
            require_positive(name=Name.OPENING_TIME, value=time, unit="s")
            if not 1 < multiple < math.inf:
                raise OutOfRangeError(Name.RATING_MULTIPLE, multiple, COUNT, above=1)
        for (m1, t1), (m2, t2) in zip(self.opening, self.opening[1:], strict=False):
            if m2 <= m1 or t2 > t1:
                raise WiringError(Name.OPENING_POINTS, m2, COUNT, to_be="opens-sooner")


@dataclass(frozen=True, kw_only=True)
class FittedFuse:
    """A fuse at one end of a run.

    Attributes:
        fuse: the part
        distance: cable between that end of the run and the fuse, None if unknown [m]
        ambient: temperature of the air around it, None for that of the run [°C]
        sheathed: whether that cable is in a sheath or enclosure all the way

    Raises:
        OutOfRangeError: if the distance is negative
    """

    fuse: Fuse
    distance: float | None = 0.0
    ambient: float | None = None
    sheathed: bool = False

    def __post_init__(self) -> None:
        if self.distance is not None:
            require_not_negative(name=Name.FUSE_DISTANCE, value=self.distance, unit="m")


def warm_rating(fuse: Fuse, *, ambient: float) -> float:
    """Rating of a fuse in warm air.

    I = I_n · (1 - 0.005 · (T_a - 25)), no credit below 25 °C

    Args:
        fuse: the part
        ambient: temperature of the air around the fuse [°C]

    Returns:
        current [A]

    Raises:
        OutOfRangeError: if the air is so hot that nothing is left, or a number is not possible

    Valid: up to 150 °C; use the maker's curve where there is one
    Source: fuse maker's application guide, 0.5 %/°C (others print 0.1 to 0.2)
    """
    if not -60 <= ambient <= 150:
        raise OutOfRangeError(Name.FUSE_AMBIENT, ambient, "°C", between=(-60, 150))
    slope = RERATING if fuse.rerating is None else fuse.rerating
    left = 1.0 - slope * max(0.0, ambient - RERATING_AMBIENT)
    if left <= 0:
        raise OutOfRangeError(Name.FUSE_AMBIENT, ambient, "°C", below=RERATING_AMBIENT + 1 / slope)
    return fuse.rating * left


def usable_current(fuse: Fuse, *, ambient: float) -> float:
    """Current a fuse carries continuously.

    I = 0.75 · I_n · (1 - 0.005 · (T_a - 25))

    Args:
        fuse: the part
        ambient: temperature of the air around the fuse [°C]

    Returns:
        current [A]

    Raises:
        OutOfRangeError: if a number is not possible

    Valid: up to 150 °C
    Source: fuse maker's application guide, continuous load at most 75 % of the rating
    """
    return CONTINUOUS_SHARE * warm_rating(fuse, ambient=ambient)


def opening_time(fuse: Fuse, current: float) -> float:
    """Longest time a fuse takes to open, read from the entered points of its curve.

    Between two points a straight line on double-logarithmic paper; above the last point I²t stays
    what it is there: a fuse too fast to lose heat melts at constant I²t.

    Args:
        fuse: the part, with opening points
        current: current through it [A]

    Returns:
        time; infinite below the first point, where opening is not promised [s]

    Raises:
        UnknownDataError: if no opening point was entered
        OutOfRangeError: if the current is not above zero

    Valid: makers' curves are hollow on that paper, so the chord lies above them
    Source: common practice, no source (reading of a time-current curve)
    """
    require_positive(name=Name.CURRENT, value=current, unit="A")
    if not fuse.opening:
        raise UnknownDataError(Name.OPENING_POINTS)
    multiples = [m for m, _ in fuse.opening]
    index = bisect_right(multiples, current / fuse.rating) - 1
    if index < 0:
        return math.inf
    low, time = fuse.opening[index]
    if index == len(multiples) - 1:
        return time * (low * fuse.rating / current) ** 2
    high, next_time = fuse.opening[index + 1]
    share = math.log(current / fuse.rating / low) / math.log(high / low)
    return float(time * (next_time / time) ** share)


def breaking_need_by_cca(cold_cranking: float, *, main: bool) -> float:
    """Breaking capacity a fuse needs by the cold-cranking rating of the batteries behind it.

    Args:
        cold_cranking: cold-cranking amperes, batteries in parallel added [A]
        main: whether the fuse is the first one from the battery

    Returns:
        least breaking capacity [A]

    Raises:
        OutsideTableError: above 2 200 A, where the battery maker's figure is needed
        OutOfRangeError: if the rating is not above zero

    Valid: 12 to 24 V lead-acid; the warm physics can ask for more, then that counts
    Source: ABYC E-11, Table V-A
    """
    require_positive(name=Name.COLD_CRANKING, value=cold_cranking, unit="A")
    if cold_cranking > 2200:
        raise OutsideTableError(Name.COLD_CRANKING, cold_cranking, "A", at_most=2200)
    for up_to, need in ((650, 1500.0), (1100, 3000.0), (2200, 5000.0)):
        if cold_cranking <= up_to:
            return need if main else need / 2
    raise AssertionError
