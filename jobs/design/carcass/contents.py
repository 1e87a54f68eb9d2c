"""What goes into the faces of a box, from its record: drivers, ports, radiators, terminal plate."""

from __future__ import annotations

import math
from dataclasses import replace

from acoustics.carcass.room.arrange import Load
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.inside.fastener import Fastener
from acoustics.carcass.shape.inside.terminal import terminal_plate
from acoustics.enclosure.port import recommended_area
from acoustics.errors import MissingError
from jobs.design.carcass.braces import is_parted
from jobs.design.carcass.slots import is_boarded, ports
from jobs.design.wording.names import Needed
from jobs.models import Box, Driver, EquipmentItem, Supply
from jobs.models.box.box_kinds import Behind, kind_of
from jobs.models.parts.supply import BARRELS


def contents(box: Box, bare: Body, face: str, port_length: float | None) -> tuple[Placed, ...]:
    """Put everything in its place; what was given no place is spread over its face."""
    load = load_of(box, port_length)
    return (*load.arrange(bare, face), *_rear_port(box), *_terminal(box))


def load_of(box: Box, port_length: float | None) -> Load:
    """Return what goes into its faces, but for a rear port and a terminal plate."""
    solid_driver = _solid(box.driver)
    if solid_driver and box.isobaric:
        solid_driver = pair(solid_driver, box.isobaric_gap)
    if solid_driver and box.driver_recess:
        solid_driver = solid_driver.sunk(box.driver_recess)
    port_face = box.port_face or FRONT_CHAMBER_IN.get(box.divider if is_parted(box) else "") or None
    return Load(
        driver=solid_driver,
        # An isobaric pair needs one hole.
        drivers=max(box.driver_count // 2, 1) if box.isobaric else box.driver_count,
        driver_at=(box.driver_u, box.driver_v),
        port=own_port(box, port_length),
        ports=ports(box),
        port_face=port_face,
        port_at=(box.port_u, box.port_v),
        second=second_port_body(box),
        second_face=box.second_port_face or port_face,
        second_at=(box.second_port_u, box.second_port_v),
        radiator=_radiator(box),
        radiators=box.radiator_count,
        radiator_face=box.radiator_face or None,
    )


# Where the ports of both chambers go when nobody has said, by the divider.
FRONT_CHAMBER_IN = {"upright": "front", "shelf": "top", "plate": "right"}
REAR_CHAMBER_IN = {"upright": "rear", "shelf": "bottom", "plate": "left"}


def pair(driver: RoundPart, gap: float | None) -> RoundPart:
    """Return the solid an isobaric pair is in the box: face to face one driver, else two in a row.

    One behind the other stand in a tunnel as wide as the flange; its wood counts as taken.
    """
    mass = None if driver.mass is None else 2 * driver.mass
    if gap is None:
        return replace(driver, mass=mass)
    tunnel = math.pi / 4 * driver.flange_diameter**2 * gap
    return replace(
        driver,
        basket_depth=gap + driver.basket_depth,
        motor_diameter=driver.cutout_diameter,
        displacement=tunnel + driver.volume,
        mass=mass,
    )


def _rear_port(box: Box) -> tuple[Placed, ...]:
    sixth = kind_of(box).behind is Behind.PORT
    if not (is_parted(box) and sixth and box.rear_port_diameter and box.rear_port_length):
        return ()
    tube = PortBody.straight(
        "rear port", width=box.rear_port_diameter, wall=box.port_wall, length=box.rear_port_length
    )
    return (Placed(part=tube, face=box.rear_port_face or REAR_CHAMBER_IN[box.divider]),)


def _solid(item: EquipmentItem | None) -> RoundPart | None:
    part: Driver | None = getattr(item.part, "driver", None) if item else None
    plain = solid(part, str(part)) if part else None
    if plain is None or item is None or item.fastener is None:
        return plain
    held = fastener_of(item.fastener)
    # A barrel takes the wood of its hole; a wood screw is thicker than its pilot hole.
    wide = held.hole if held.kind in BARRELS and held.hole else plain.screw_diameter
    return replace(plain, fastener=held, pilot=held.hole, screw_diameter=wide)


def fastener_of(supply: Supply) -> Fastener:
    """Return what a supply is where a screw goes into wood."""
    return Fastener(
        name=str(supply),
        kind=supply.use,  # type: ignore[arg-type]
        thread=supply.thread,
        barrel=supply.barrel if supply.use in BARRELS else None,
        hole=supply.hole,
    )


def own_port(box: Box, length: float | None) -> PortBody | None:
    """Return a port with walls of its own as a solid, or None while its size is not known."""
    slot = box.port_shape == Box.PortShape.SLOT
    width = box.port_width if slot else port_diameter(box)
    if length is None or width is None or not kind_of(box).port or is_boarded(box):
        return None
    height = box.port_height if slot else None
    tube = PortBody.straight("port", width=width, height=height, wall=box.port_wall, length=length)
    if not box.port_bend:
        return tube
    if box.port_straight is None:
        raise MissingError(Needed.PORT_STRAIGHT)
    return tube.bent(box.port_bend, after=box.port_straight)  # type: ignore[arg-type]


def second_port_body(box: Box) -> PortBody | None:
    """Return the port unlike the first as a solid, None while its size is not known."""
    if not kind_of(box).rear_tuning or not (box.second_port_diameter and box.second_port_length):
        return None
    return PortBody.straight(
        "second port",
        width=box.second_port_diameter,
        wall=box.port_wall,
        length=box.second_port_length,
    )


def by_area_rule(box: Box) -> bool:
    """Whether its port is round and no bore is typed: then the tuning decides how wide it is."""
    return box.port_diameter is None and box.port_shape != Box.PortShape.SLOT


def port_diameter(box: Box) -> float | None:
    """Diameter of each round port: as typed, or where only a tuning is, by the area rule."""
    if not by_area_rule(box):
        return box.port_diameter
    part: Driver | None = getattr(box.driver.part, "driver", None) if box.driver else None
    if not box.wanted_tuning or box.port_length is not None or part is None:
        return None
    if part.sd is None or part.xmax is None:
        return None
    moved = part.sd * part.xmax * box.driver_count / (2 if box.isobaric else 1)
    area = recommended_area(tuning=box.wanted_tuning, displacement=moved)
    return float(2 * (area / ports(box) / math.pi) ** 0.5)


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
        screws=part.screws or 0,
        pilot=part.screw_hole,
        displacement=part.displacement,
        mass=part.mass,
    )
