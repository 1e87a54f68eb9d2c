"""What becomes of the factory hole beside a new driver in a door, side by side."""

import math
from dataclasses import dataclass

from acoustics.driver.driver import Driver
from acoustics.enclosure.boxes import Door
from acoustics.enclosure.openings import Radiator, Vent
from acoustics.names import Name
from acoustics.values import require_between, require_positive

# A flanged opening in thin metal moves 8/(3 pi) of its radius of air on each side.
_PISTON_END = 8 / (3 * math.pi)


@dataclass(frozen=True, kw_only=True)
class DoorFates:
    """The same door with its factory hole treated in three ways.

    Attributes:
        blanked: the hole closed with a stiff plate
        left_open: the hole left open
        unplugged: the factory driver left in it, unplugged and insulated
    """

    blanked: Door
    left_open: Door
    unplugged: Door


def door_fates(
    *,
    volume: float,
    ql: float,
    factory: Driver,
    thickness: float,
    area: float | None = None,
    qp: float = math.inf,
) -> DoorFates:
    """Three doors that differ only in what becomes of the factory hole.

    The open hole has its own area, or that of the factory driver's diaphragm where it was not
    measured, and as its length the thickness of the metal and 8/(3 pi) of its radius on each side.

    Args:
        volume: air volume inside the door [m³]
        ql: Q of leakage with the hole closed [-]
        factory: factory driver whose hole it is
        thickness: thickness of the metal around the hole [m]
        area: area of the hole; that of the factory driver's diaphragm unless given [m²]
        qp: Q of the open hole at its resonance with the air of the door; infinite for none [-]

    Returns: the three doors

    Raises:
        OutOfRangeError: a value is not positive; a thickness is negative.

    Valid: as Door; without qp the open hole has no losses, which makes its peak too sharp.

    Source: Rayleigh, The Theory of Sound, vol. II, §§ 302 and 307 (flanged piston);
        unplugged driver: only Qms remains (Small 1972).
    """
    require_positive(Name.VOLUME, volume, "m³")
    require_between(Name.METAL_THICKNESS, thickness, 0.0, 0.1, "m")
    size = factory.sd if area is None else area
    require_positive(Name.HOLE_AREA, size, "m²")
    radius = (size / math.pi) ** 0.5
    hole = Vent(area=size, effective_length=thickness + 2 * _PISTON_END * radius)
    return DoorFates(
        blanked=Door(volume=volume, ql=ql),
        left_open=Door(volume=volume, ql=ql, opening=hole, qp=qp),
        unplugged=Door(volume=volume, ql=ql, opening=Radiator.unplugged(factory)),
    )
