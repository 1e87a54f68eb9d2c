"""What goes into the faces of a box, from its record: drivers, ports, radiators, terminal plate."""

from __future__ import annotations

import math
from dataclasses import replace

from acoustics.carcass.room.arrange import Load
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart, terminal_plate
from acoustics.enclosure.port import recommended_area
from acoustics.errors import MissingError
from jobs.design.wording.names import Needed
from jobs.models import Box, Driver, EquipmentItem
from jobs.models.box_kinds import kind_of


def contents(box: Box, bare: Body, face: str, port_length: float | None) -> tuple[Placed, ...]:
    """Put everything in its place; what was given no place is spread over its face."""
    load = Load(
        driver=_solid(box.driver),
        drivers=box.driver_count,
        driver_at=(box.driver_u, box.driver_v),
        port=_port(box, port_length),
        ports=box.port_count,
        port_face=box.port_face or None,
        port_at=(box.port_u, box.port_v),
        radiator=_radiator(box),
        radiators=box.radiator_count,
        radiator_face=box.radiator_face or None,
    )
    return (*load.arrange(bare, face), *_terminal(box))


def _solid(item: EquipmentItem | None) -> RoundPart | None:
    part: Driver | None = getattr(item.part, "driver", None) if item else None
    return solid(part, str(part)) if part else None


def _port(box: Box, length: float | None) -> PortBody | None:
    slot = box.port_shape == Box.PortShape.SLOT
    width = box.port_width if slot else port_diameter(box)
    if length is None or width is None or not kind_of(box).port:
        return None
    height = box.port_height if slot else None
    tube = PortBody.straight("port", width=width, height=height, wall=box.port_wall, length=length)
    if not box.port_bend:
        return tube
    if box.port_straight is None:
        raise MissingError(Needed.PORT_STRAIGHT)
    return tube.bent(box.port_bend, after=box.port_straight)  # type: ignore[arg-type]


def port_diameter(box: Box, tuning: float | None = None) -> float | None:
    """Diameter of each round port: as typed, or where only a tuning is, by the area rule.

    Another tuning than the box's own may be asked about.
    """
    tuning = tuning or box.wanted_tuning
    if box.port_diameter is not None or box.port_shape == Box.PortShape.SLOT:
        return box.port_diameter
    part: Driver | None = getattr(box.driver.part, "driver", None) if box.driver else None
    if not tuning or box.port_length is not None or part is None:
        return None
    if part.sd is None or part.xmax is None:
        return None
    moved = part.sd * part.xmax * box.driver_count / (2 if box.isobaric else 1)
    area = recommended_area(tuning=tuning, displacement=moved)
    return float(2 * (area / box.port_count / math.pi) ** 0.5)


def passive(name: str) -> str:
    """What a passive radiator of this name is called in the box."""
    return f"{name} (passive)"


def _radiator(box: Box) -> RoundPart | None:
    solid = _solid(box.radiator) if kind_of(box).radiator else None
    return solid and replace(solid, kind="passive radiator", name=passive(solid.name))


def _terminal(box: Box) -> tuple[Placed, ...]:
    if not box.terminal_face or box.terminal_diameter is None:
        return ()
    plate = terminal_plate(box.terminal_diameter)
    return (Placed(part=plate, face=box.terminal_face, u=box.terminal_u, v=box.terminal_v),)


def is_measured(part: Driver) -> bool:
    """Whether every dimension of a solid is known; whether they go together is not asked."""
    dimensions = (part.outer_diameter, part.cutout_diameter, part.depth, part.magnet_diameter)
    return None not in dimensions


def solid(part: Driver, name: str) -> RoundPart | None:
    """Return the driver as a solid, or None while its dimensions are not known."""
    if (
        part.outer_diameter is None
        or part.cutout_diameter is None
        or part.depth is None
        or part.magnet_diameter is None
    ):
        return None
    motor_depth = part.magnet_height or 0.0
    return RoundPart(
        name=name,
        cutout_diameter=part.cutout_diameter,
        flange_diameter=part.outer_diameter,
        basket_depth=part.depth - motor_depth,
        motor_diameter=part.magnet_diameter,
        motor_depth=motor_depth,
        bolt_circle_diameter=part.bolt_circle,
        displacement=part.displacement,
        mass=part.mass,
    )
