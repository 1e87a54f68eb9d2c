"""What sits where in the faces of a box: drivers, ports, passive radiators, terminal plate."""

from __future__ import annotations

from dataclasses import replace

from shapely.geometry import LineString

from acoustics.carcass.room.inner_clearance import face_outlines
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import Leg, Part, Placed, PortBody, RoundPart
from acoustics.carcass.shape.taper import Taper
from acoustics.errors import MissingError
from jobs.design.wording.names import Needed
from jobs.models import Box, Driver, EquipmentItem

LEFT, RIGHT = "left", "right"
VENTED_KINDS = (Box.Kind.VENTED, Box.Kind.BAND_PASS_4, Box.Kind.BAND_PASS_6)
# From the end of the face, and from the next port, to a port that was given no place [m].
BESIDE = 0.01
# A terminal plate: how far its rim covers the hole, and how deep it is. Common practice, no source.
PLATE_RIM, PLATE_DEPTH = 0.01, 0.025


def contents(box: Box, bare: Body, face: str, port_length: float | None) -> tuple[Placed, ...]:
    """Put everything in its place; what was given no place is spread over its face."""
    return (
        *_drivers(box, bare, face),
        *_ports(box, bare, face, port_length),
        *_radiators(box),
        *_terminal(box),
    )


def _solid(item: EquipmentItem | None) -> RoundPart | None:
    part: Driver | None = getattr(item.part, "driver", None) if item else None
    return solid(part, str(part)) if part else None


def _spread(row: tuple[float, float], count: int, first: float | None) -> list[float]:
    """Places in a row: even fields, or from the first place given to its mirror image."""
    start, end = row
    if first is None:
        return [start + (end - start) * (number + 0.5) / count for number in range(count)]
    step = (start + end - 2 * first) / (count - 1) if count > 1 else 0.0
    return [first + step * number for number in range(count)]


def _row(bare: Body, face: str, v: float | None) -> tuple[float, float]:
    """Where the wood of a face begins and ends at a height on it."""
    return bare.reach(face, v) if isinstance(bare, Taper) else (0.0, bare.face(face).size[0])


def _air_ends(bare: Body, face: str, v: float, half: float) -> float:
    """Where the air behind a face ends on its right, over the height of a port."""
    width = bare.face(face).size[0]
    if not isinstance(bare, Taper):
        return width - (bare.width - bare.air_span[1])
    _wood, air = face_outlines(bare, bare.face(face))
    # A wall leans evenly: it is nearest at the lower or the upper end of the port.
    levels = [LineString(((-1.0, at), (width + 1.0, at))) for at in (v - half, v + half)]
    return min(
        (float(air.intersection(one).bounds[2]) for one in levels if air.intersects(one)),
        default=width,
    )


def _drivers(box: Box, bare: Body, face: str) -> list[Placed]:
    solid = _solid(box.driver)
    if solid is None:
        return []
    aside = _room_for_port(box, face) / 2 if box.driver_u is None else 0.0
    places = _spread(_row(bare, face, box.driver_v), box.driver_count, box.driver_u)
    return [Placed(part=solid, face=face, u=u - aside, v=box.driver_v) for u in places]


def _room_for_port(box: Box, face: str) -> float:
    """How far the drivers move aside for a port in the same face."""
    if box.kind not in VENTED_KINDS or (box.port_face or face) != face or box.port_u is not None:
        return 0.0
    slot = box.port_shape == Box.PortShape.SLOT
    width = (box.port_width if slot else box.port_diameter) or 0.0
    return (width + 2 * box.port_wall + BESIDE) * box.port_count


def _ports(box: Box, bare: Body, driver_face: str, length: float | None) -> list[Placed]:
    """Put ports without a place at the right end of the driver's face, or up the middle."""
    solid = _port(box, length)
    if solid is None:
        return []
    name = box.port_face or driver_face
    height, count = bare.face(name).size[1], box.port_count
    if box.port_u is not None:
        places = _spread(_row(bare, name, box.port_v), count, box.port_u)
        return [Placed(part=solid, face=name, u=u, v=box.port_v) for u in places]
    if name != driver_face:
        places = _spread((0.0, height), count, box.port_v)
        return [Placed(part=solid, face=name, v=v) for v in places]
    outer = 2 * solid.outer_half[0]
    level = height / 2 if box.port_v is None else box.port_v
    right = _air_ends(bare, name, level, solid.outer_half[1]) - BESIDE
    return [
        Placed(part=solid, face=name, u=right - outer / 2 - (outer + BESIDE) * number, v=box.port_v)
        for number in range(count)
    ]


def _port(box: Box, length: float | None) -> PortBody | None:
    slot = box.port_shape == Box.PortShape.SLOT
    width = box.port_width if slot else box.port_diameter
    if length is None or width is None or box.kind not in VENTED_KINDS:
        return None
    legs: tuple[Leg, ...] = (Leg(heading="in", length=length),)
    if box.port_bend:
        if box.port_straight is None:
            raise MissingError(Needed.PORT_STRAIGHT)
        bent = Leg(heading=box.port_bend, length=length - box.port_straight)  # type: ignore[arg-type]
        legs = (Leg(heading="in", length=box.port_straight), bent)
    return PortBody(
        name="port",
        width=width,
        height=box.port_height if slot else None,
        wall=box.port_wall,
        legs=legs,
    )


def _radiators(box: Box) -> list[Placed]:
    """Put passive radiators into the side panels in turn: pushing apart, they hold still."""
    solid = _solid(box.radiator) if box.kind == Box.Kind.PASSIVE_RADIATOR else None
    if solid is None:
        return []
    part: Part = replace(solid, kind="passive radiator", name=passive(solid.name))
    faces = [box.radiator_face] * 2 if box.radiator_face else [RIGHT, LEFT]
    return [Placed(part=part, face=faces[number % 2]) for number in range(box.radiator_count)]


def passive(name: str) -> str:
    """What a passive radiator of this name is called in the box."""
    return f"{name} (passive)"


def _terminal(box: Box) -> list[Placed]:
    if not box.terminal_face or box.terminal_diameter is None:
        return []
    hole = box.terminal_diameter
    plate = RoundPart(
        name="terminal plate",
        kind="terminal plate",
        cutout_diameter=hole,
        flange_diameter=hole + 2 * PLATE_RIM,
        basket_depth=PLATE_DEPTH,
        motor_diameter=hole,
    )
    return [Placed(part=plate, face=box.terminal_face, u=box.terminal_u, v=box.terminal_v)]


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
