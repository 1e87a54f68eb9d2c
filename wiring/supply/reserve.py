"""Batteries with the engine off: reserve time while playing, and drain with the key off."""

from dataclasses import dataclass

import numpy as np

from wiring.errors import (
    require_between,
    require_not_negative,
    require_positive,
)
from wiring.findings import Finding
from wiring.names import Name
from wiring.sources import Source

# A battery that has given this share of its capacity may not start the engine (25 °C): common
# practice, no source.
NO_START_SHARE = 0.4
KEY_OFF_ADDED = 0.010  # most the added equipment may draw asleep
KEY_OFF_TOTAL = 0.050  # most the whole car may draw asleep; sources say 50, 75 and 85 mA


@dataclass(frozen=True, kw_only=True)
class Battery:
    """A battery as Peukert's law describes it; the rating's base is named.

    Attributes:
        capacity: rated capacity at the rated time; 1 A·h is 3600 C [C]
        rated_time: discharge time of the rating, 72 000 s for a 20-hour rating [s]
        peukert: Peukert exponent [-]
        usable_share: share of a full discharge that may be used [-]

    Raises:
        OutOfRangeError: the capacity or the time is not above 0, the exponent is not within 1 to
            1.6, or the share is not within 0 to 1.

    Source: W. Peukert, Elektrotechnische Zeitschrift 18 (1897) 287; exponents of lead-acid and
        lithium batteries lie within 1 to 1.6 (battery references).
    """

    capacity: float
    rated_time: float
    peukert: float
    usable_share: float

    def __post_init__(self) -> None:
        """Refuse a battery that cannot exist."""
        require_positive(name=Name.CAPACITY, value=self.capacity, unit="C")
        require_positive(name=Name.RATED_TIME, value=self.rated_time, unit="s")
        require_between(name=Name.PEUKERT_EXPONENT, value=self.peukert, low=1.0, high=1.6, unit="-")
        require_positive(name=Name.USABLE_SHARE, value=self.usable_share, unit="-")
        require_between(
            name=Name.USABLE_SHARE, value=self.usable_share, low=0.0, high=1.0, unit="-"
        )

    def reserve_time(self, current: float) -> float:
        """Time the battery feeds a constant current with the engine off.

        t = share · H·(C / (I·H))^k, with C the capacity at the H-hour rate. Below the rated
        current the law would promise more than the rated capacity; there the rated capacity is
        taken (the safe side).

        Args:
            current: constant current [A]

        Returns: time [s]

        Raises:
            OutOfRangeError: the current is not above 0.

        Valid: new battery, fully charged, 25 °C.

        Source: Peukert's law in the form with a named base.
        """
        require_positive(name=Name.CURRENT, value=current, unit="A")
        time = peukert_time(
            current=current,
            capacity=self.capacity,
            rated_time=self.rated_time,
            exponent=self.peukert,
        )
        return self.usable_share * min(time, self.capacity / current)


def peukert_time(*, current: float, capacity: float, rated_time: float, exponent: float) -> float:
    """Time of a full discharge at a constant current.

    t = H·(C / (I·H))^k, with the base H named: C is the capacity at that rate.

    Args:
        current: constant current [A]
        capacity: capacity at the rated time [C]
        rated_time: discharge time of the rating [s]
        exponent: Peukert exponent [-]

    Returns: time [s]

    Raises:
        OutOfRangeError: a value is not above 0, or the exponent is below 1.

    Source: W. Peukert, Elektrotechnische Zeitschrift 18 (1897) 287, rewritten for any base.
    """
    require_positive(name=Name.CURRENT, value=current, unit="A")
    require_positive(name=Name.CAPACITY, value=capacity, unit="C")
    require_positive(name=Name.RATED_TIME, value=rated_time, unit="s")
    _require_exponent(exponent)
    return float(rated_time * (capacity / (current * rated_time)) ** exponent)


def key_off_time(*, usable_capacity: float, current: float) -> float:
    """Time a parked vehicle stands before the usable capacity is gone.

    t = Q / I; self-discharge comes on top and shortens it.

    Args:
        usable_capacity: charge that may be used before the engine no longer starts [C]
        current: key-off current after the vehicle has gone to sleep [A]

    Returns: time [s]

    Raises:
        OutOfRangeError: a value is not above 0.

    Valid: weeks, not months; new battery at 25 °C.

    Source: definition.
    """
    require_positive(name=Name.USABLE_CAPACITY, value=usable_capacity, unit="C")
    require_positive(name=Name.KEY_OFF_CURRENT, value=current, unit="A")
    return usable_capacity / current


def check_reserve(
    *, battery: Battery | None, current: float, wanted: float | None
) -> tuple[Finding, ...]:
    """Findings on the time the equipment plays with the engine off.

    Args:
        battery: the battery that feeds it, None when its figures are not known
        current: average current with the engine off [A]
        wanted: time it is to play, None when nobody asked for one [s]

    Returns: findings

    Raises:
        OutOfRangeError: the current or the time is not above 0.

    Source: Peukert's law; the wish comes from the brief
    """
    require_positive(name=Name.CURRENT, value=current, unit="A")
    if battery is None:
        sheet = (Source.BATTERY_SHEET,)
        return (Finding(code="reserve-unknown", detail=("battery",), unit="s", source=sheet),)
    if wanted is None:
        return ()
    require_positive(name=Name.WANTED_TIME, value=wanted, unit="s")
    time = battery.reserve_time(current)
    if time >= wanted:
        return ()
    source = (Source.PEUKERT, Source.BRIEF)
    return (Finding(code="reserve-short", value=time, limit=wanted, unit="s", source=source),)


def check_key_off(*, added: float | None, total: float | None) -> tuple[Finding, ...]:
    """Findings on the key-off current of the added equipment and of the whole vehicle.

    Args:
        added: key-off current of the added equipment after sleep, None when not measured [A]
        total: key-off current of the whole vehicle after sleep, None when not measured [A]

    Returns: findings

    Raises:
        OutOfRangeError: a current is negative, or the added one is above the total.

    Source: vehicle-maker service texts give 50, 75 and 85 mA for the vehicle; 50 mA is the
        lowest. 10 mA for the added equipment is common practice, no source.
    """
    if added is not None:
        require_not_negative(name=Name.ADDED_KEY_OFF, value=added, unit="A")
    if total is not None:
        require_between(
            name=Name.TOTAL_KEY_OFF, value=total, low=added or 0.0, high=np.inf, unit="A"
        )
    findings = []
    for code, unknown, value, limit, source in (
        (
            "key-off-added-high",
            "key-off-added-unknown",
            added,
            KEY_OFF_ADDED,
            Source.COMMON_PRACTICE,
        ),
        ("key-off-total-high", "key-off-total-unknown", total, KEY_OFF_TOTAL, Source.SERVICE_TEXTS),
    ):
        if value is None:
            code = unknown
        elif value <= limit:
            continue
        findings.append(
            Finding(
                code=code,
                detail=("battery",),
                value=value,
                limit=limit,
                unit="A",
                source=(source,),
            )
        )
    return tuple(findings)


def _require_exponent(exponent: float) -> None:
    require_between(name=Name.PEUKERT_EXPONENT, value=exponent, low=1.0, high=np.inf, unit="-")
