"""Where returns meet metal: bare or painted, measured or not, shared, beside a sensor, humming."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from wiring.cable.ampacity import ZONE_AMBIENT, ampacity, assumed
from wiring.cable.conductor import Conductor
from wiring.cable.drop import DROP_LIMIT, NOMINAL_VOLTAGE
from wiring.errors import WiringError
from wiring.findings import ABOVE, Finding
from wiring.sources import Source

# Ω: above 50 A 50 mV at 100 A, common practice, no source; else AC 43.13-1B, 11-188f.
HEAVY, HEAVY_LIMIT, LIGHT_LIMIT = 50.0, 0.5e-3, 2.5e-3
MOST_LUGS = 4  # on one stud, AC 43.13-1B, 11-174b
LINE_LEVEL = 2.0  # V, usual full level between units; common practice, no source


@dataclass(frozen=True, kw_only=True)
class Return:
    """The minus of one run at one ground point.

    Attributes:
        run: id of the run
        current: the most that flows back through it, None if unknown [A]
        audio: whether a source or an amplifier of sound hangs on it
    """

    run: str
    current: float | None
    audio: bool = False


@dataclass(frozen=True, kw_only=True)
class Ground:
    """A ground point with the returns that meet there; None means unknown.

    Attributes:
        id: what it is known by; findings hand it back
        kind: "body", "post", "sensor" or "block"
        bare: whether the metal under the lug is bare
        resistance: to the battery's minus, measured [Ω]
        conductor: the cable that leads on from it and that all share, if any
        length: length of that cable [m]
        returns: what meets there
        together: the most that flows back there at once, None if not worked out [A]
    """

    id: str
    kind: str
    bare: bool | None
    resistance: float | None
    returns: tuple[Return, ...]
    conductor: Conductor | None = None
    length: float | None = None
    together: float | None = None

    @property
    def current(self) -> float:
        """What flows back through it together: worked out in every state, or the sum of the most.

        Returns:
            current [A]

        Source: Kirchhoff's laws
        """
        if self.together is not None:
            return self.together
        return sum(back.current or 0.0 for back in self.returns)

    @property
    def shared_resistance(self) -> float | None:
        """Resistance all of them share on the way on: measured, or that of the shared cable, warm.

        Returns:
            resistance, None if unknown [Ω]

        Source: Ohm's law
        """
        if self.resistance is not None:
            return self.resistance
        if self.conductor is None or self.length is None:
            return None
        return hot_resistance(self.conductor, self.length)


def hot_resistance(conductor: Conductor, length: float) -> float:
    """A cable as warm as its insulation allows.

    R = L · r(T_class)

    Args:
        conductor: the cable core
        length: its length [m]

    Returns:
        resistance [Ω]

    Valid: an unknown class counts as the coolest of the table
    Source: definition; the safe side, for a drop and for the least short-circuit current
    """
    hottest = assumed(conductor).insulation
    assert hottest is not None
    return conductor.resistance(hottest) * length


def check_grounds(grounds: Sequence[Ground], *, commanded: bool | None) -> Iterator[Finding]:
    """Findings on every ground point that something ends at.

    Args:
        grounds: the points
        commanded: whether the car commands its charging by a sensor on the battery's minus

    Returns:
        the findings

    Source: AC 43.13-1B (1998), 11-174 and 11-188; vehicle makers' service texts; common practice
    """
    used = [ground for ground in grounds if ground.returns]
    for ground in used:
        if commanded and ground.kind == "post":
            yield Finding(
                code="ground-on-sensed-post",
                about=ground.id,
                source=(Source.VEHICLE_INSTRUCTIONS,),
            )
        if ground.kind == "body":
            yield from _body(ground)
        if len(ground.returns) > MOST_LUGS and ground.kind != "block":
            yield Finding(
                code="ground-lugs-many",
                about=ground.id,
                value=float(len(ground.returns)),
                limit=float(MOST_LUGS),
                unit="",
                source=(Source.LUGS,),
            )
        if ground.conductor is not None:
            yield from _shared(ground, ground.conductor)
    yield from _hum(used)


def _body(ground: Ground) -> Iterator[Finding]:
    if not ground.bare:
        code = "ground-surface-unknown" if ground.bare is None else "ground-not-bare"
        yield Finding(code=code, about=ground.id, source=(Source.LUGS,))
    limit = HEAVY_LIMIT if ground.current > HEAVY else LIGHT_LIMIT
    if ground.resistance is None or ground.resistance > limit * ABOVE:
        known = ground.resistance is not None
        yield Finding(
            code="ground-resistance-high" if known else "ground-resistance-unknown",
            about=ground.id,
            value=ground.resistance,
            limit=limit,
            unit="Ω",
            source=(Source.GROUND_LIMIT,),
        )


def _shared(ground: Ground, conductor: Conductor) -> Iterator[Finding]:
    try:
        warm = max(ZONE_AMBIENT["boot"], ZONE_AMBIENT["cabin"])
        carries = ampacity(assumed(conductor), ambient=warm).current
    except WiringError:
        carries = 0.0
    if ground.current > carries * ABOVE:
        yield Finding(
            code="shared-return-over-ampacity",
            about=ground.id,
            value=ground.current,
            limit=carries,
            unit="A",
            source=(Source.CONDUCTOR_TABLE,),
        )
    shared = ground.shared_resistance
    lost = None if shared is None else shared * ground.current
    allowed = DROP_LIMIT * NOMINAL_VOLTAGE / 2  # the way out takes the other half
    if lost is None or lost > allowed * ABOVE:
        yield Finding(
            code="shared-return-drop",
            about=ground.id,
            value=lost,
            limit=allowed,
            unit="V",
            source=(Source.THREE_PERCENT,),
        )


def _hum(grounds: Sequence[Ground]) -> Iterator[Finding]:
    """Sound grounded at several places, and what a shared way back shifts the grounds by."""
    heard = [ground for ground in grounds if any(back.audio for back in ground.returns)]
    if len(heard) > 1:
        yield Finding(
            code="hum-grounds-apart",
            about=heard[0].id,
            detail=tuple(ground.id for ground in heard[1:]),
            value=_apart(heard),
            unit="dB",
            source=(Source.HUM, Source.COMMON_PRACTICE),
        )
    for ground in heard:
        shared = ground.shared_resistance
        if len(ground.returns) > 1 and shared and ground.current:
            yield Finding(
                code="hum-shared-drop",
                about=ground.id,
                value=_below_line(shared * ground.current),
                unit="dB",
                source=(Source.HUM, Source.COMMON_PRACTICE),
            )


def _apart(heard: Sequence[Ground]) -> float | None:
    """What the grounds of two stages differ by at most; None where one of them is not known."""
    lifted = [(ground.shared_resistance, ground.current) for ground in heard]
    known = [resistance * current for resistance, current in lifted if resistance is not None]
    if len(known) < len(heard) or max(known) <= min(known):
        return None
    return _below_line(max(known) - min(known))


def _below_line(volts: float) -> float:
    return 20 * math.log10(volts / LINE_LEVEL)
