"""What goes through a face into the box: drivers, passive radiators, terminal plates, ports."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from acoustics.carcass.shape.errors import PlacementError, metres
from acoustics.carcass.shape.inside.fastener import Fastener
from acoustics.carcass.shape.profile import positive
from acoustics.errors import Id
from acoustics.names import Name

PartKind = Literal["driver", "passive radiator", "terminal plate"]
Heading = Literal["in", "+u", "-u", "+v", "-v"]


def frustum_volume(radius: float, other_radius: float, height: float) -> float:
    """Return the volume of a frustum of a cone, π h (r1² + r2² + r1 r2) / 3.

    Args:
        radius: radius of one end [m].
        other_radius: radius of the other end [m].
        height: distance between the ends [m].

    Returns: volume [m³]

    Source: from memory of any solid geometry text.
    """
    return math.pi * height * (radius**2 + other_radius**2 + radius * other_radius) / 3


@dataclass(frozen=True, kw_only=True)
class RoundPart:
    """A driver, a passive radiator or a terminal plate in a round hole.

    Behind its mounting face it is a basket that narrows from the cut-out to the motor, and then
    the motor as a cylinder. A plate that is not round is described by the circle around it.

    Attributes:
        name: what it is called.
        kind: driver, passive radiator or terminal plate.
        cutout_diameter: diameter of the hole [m].
        flange_diameter: largest diameter of the part that stays outside [m].
        basket_depth: from the mounting face to the motor [m].
        motor_diameter: largest diameter of the motor, or of the back of a part without one [m].
        motor_depth: length of the motor, 0 for a part without one [m].
        bolt_circle_diameter: diameter of the circle of screws, or None when not known [m].
        screw_diameter: diameter of a screw [m].
        screws: number of screws, 0 when not known [-].
        pilot: diameter of the hole for a screw or its insert, None when not known [m].
        fastener: what its screws hold by, None when nobody has chosen it.
        recess: depth of the recess its flange lies in; the part is described as it lies [m].
        displacement: measured displacement, or None to estimate it [m³].
        mass: its mass, or None when not known [kg].

    Raises:
        PlacementError: when a length is not greater than 0 m, or the flange does not cover the
            cut-out, or the motor does not pass through it.

    Valid: parts mounted from outside with the motor in the box.

    Source: common practice, no source.
    """

    name: str
    kind: PartKind = "driver"
    cutout_diameter: float
    flange_diameter: float
    basket_depth: float
    motor_diameter: float
    motor_depth: float = 0.0
    bolt_circle_diameter: float | None = None
    screw_diameter: float = 0.005
    screws: int = 0
    pilot: float | None = None
    fastener: Fastener | None = None
    recess: float = 0.0
    displacement: float | None = None
    mass: float | None = None

    def __post_init__(self) -> None:
        for name in ("cutout_diameter", "flange_diameter", "basket_depth", "motor_diameter"):
            positive(Name(name.replace("_", "-")), getattr(self, name), of=self.name)
        if not (math.isfinite(self.motor_depth) and self.motor_depth >= 0):
            raise PlacementError(
                code="motor-depth-negative", name=Id(self.name), depth=metres(self.motor_depth)
            )
        if self.motor_diameter > self.cutout_diameter:
            raise PlacementError(
                code="motor-wider-than-cut-out",
                name=Id(self.name),
                motor=metres(self.motor_diameter),
                hole=metres(self.cutout_diameter),
            )
        if self.flange_diameter <= self.cutout_diameter:
            raise PlacementError(
                code="flange-inside-cut-out",
                name=Id(self.name),
                flange=metres(self.flange_diameter),
                hole=metres(self.cutout_diameter),
            )

    @property
    def mounting_depth(self) -> float:
        """Depth behind the mounting face.

        Returns: depth [m]
        """
        return self.basket_depth + self.motor_depth

    @property
    def stations(self) -> tuple[tuple[float, float], ...]:
        """Shape of the body behind the mounting face: depth and radius, front to back.

        Returns: pairs of depth and radius [m]
        """
        hole, motor = self.cutout_diameter / 2, self.motor_diameter / 2
        basket = ((0.0, hole), (self.basket_depth, motor))
        return (*basket, (self.mounting_depth, motor)) if self.motor_depth else basket

    @property
    def wood_at_screws(self) -> float | None:
        """Wood between the cut-out and a screw: (screw circle − screw − cut-out) / 2.

        Returns: width, negative where a screw stands in the cut-out; None when the screw circle
            is not known [m]
        """
        if self.bolt_circle_diameter is None:
            return None
        return (self.bolt_circle_diameter - self.screw_diameter - self.cutout_diameter) / 2

    def sunk(self, depth: float) -> RoundPart:
        """Return the part with its flange in a recess: everything lies so much deeper.

        Args:
            depth: depth of the recess [m].

        Returns: part, its basket counted from the face as before

        Source: definition.
        """
        below = self.volume + math.pi / 4 * self.cutout_diameter**2 * depth
        return replace(
            self, basket_depth=self.basket_depth + depth, displacement=below, recess=depth
        )

    @property
    def volume(self) -> float:
        """Volume behind its mounting face: as measured, else motor cylinder plus basket frustum.

        The estimate is good to about 20 %.

        Returns: volume [m³]

        Source: common practice, no source.
        """
        if self.displacement is not None:
            return self.displacement
        hole, motor = self.cutout_diameter / 2, self.motor_diameter / 2
        basket = frustum_volume(hole, motor, self.basket_depth)
        return basket + frustum_volume(motor, motor, self.motor_depth)

    def volume_behind(self, thickness: float) -> float:
        """Return what it takes from the box: its body less the hole cut for it, volume − A · t.

        The hole was wood, and what of it the body leaves is air of the box: a flat part in thick
        wood takes less than nothing.

        Args:
            thickness: thickness of the wood it goes through, all layers counted [m].

        Returns: volume [m³]

        Source: definition.
        """
        return self.volume - math.pi / 4 * self.cutout_diameter**2 * thickness


@dataclass(frozen=True, kw_only=True)
class Leg:
    """One straight piece of a bent port.

    Attributes:
        heading: in (away from the face), or along the face: +u, -u, +v, -v.
        length: length of its centre line [m].

    Raises:
        PlacementError: when the length is not greater than 0 m.
    """

    heading: Heading
    length: float

    def __post_init__(self) -> None:
        if self.heading not in ("in", "+u", "-u", "+v", "-v"):
            raise PlacementError(code="heading-unknown", heading=self.heading)
        positive(Name.PORT_LENGTH, self.length)


@dataclass(frozen=True, kw_only=True)
class PortBody:
    """A port as a solid: a round tube, or a slot, straight or bent.

    Attributes:
        name: what it is called.
        width: inner width, the diameter of a round tube [m].
        height: inner height of a slot, or None for a round tube [m].
        wall: thickness of its wall [m].
        legs: straight pieces from the outer face of the panel inwards; the first heads in.
        mass: its mass, or None when not known [kg].
        boarded: what it takes of the box where its walls are the box's own panels and boards; None
            for a port with walls of its own [m³].

    Raises:
        PlacementError: when a length is not greater than 0 m, there is no leg, the first does
            not head in, or one leg turns straight back or goes on straight.

    Valid: bends are mitred elbows; the length is that of the centre line.

    Source: common practice, no source.
    """

    name: str
    width: float
    height: float | None = None
    wall: float
    legs: tuple[Leg, ...]
    mass: float | None = None
    boarded: float | None = None

    def __post_init__(self) -> None:
        positive(Name.INNER_WIDTH, self.width, of=self.name)
        if self.height is not None:
            positive(Name.INNER_HEIGHT, self.height, of=self.name)
        positive(Name.PORT_WALL, self.wall, of=self.name)
        if not self.legs or self.legs[0].heading != "in":
            raise PlacementError(code="first-leg-not-inward", name=Id(self.name))
        for before, after in zip(self.legs, self.legs[1:], strict=False):
            if before.heading[-1] == after.heading[-1]:
                raise PlacementError(code="port-turns-back", name=Id(self.name))

    @classmethod
    def straight(
        cls, name: str, *, width: float, length: float, wall: float, height: float | None = None
    ) -> PortBody:
        """Return a port without bends.

        Args:
            name: what it is called.
            width: inner width, the diameter of a round tube [m].
            length: length from the outer face of the panel [m].
            wall: thickness of its wall [m].
            height: inner height of a slot, or None for a round tube [m].

        Returns: port of one leg [m]

        Raises:
            PlacementError: as the class.
        """
        legs = (Leg(heading="in", length=length),)
        return cls(name=name, width=width, height=height, wall=wall, legs=legs)

    def bent(self, heading: Heading, *, after: float) -> PortBody:
        """Return the port with its last leg bent once, its length kept.

        Args:
            heading: where it turns.
            after: how much of the leg stays straight before the bend [m].

        Returns: port of one leg more [m]

        Raises:
            PlacementError: as the class.
        """
        *before, last = self.legs
        if after >= last.length:
            raise PlacementError(
                code="port-shorter-than-bend",
                name=Id(self.name),
                length=metres(last.length),
                straight=metres(after),
            )
        straight = Leg(heading=last.heading, length=after)
        turned = Leg(heading=heading, length=last.length - after)
        return replace(self, legs=(*before, straight, turned))

    @property
    def length(self) -> float:
        """Length of the centre line.

        Returns: length [m]
        """
        return sum(leg.length for leg in self.legs)

    @property
    def mouth(self) -> float:
        """Smallest inner dimension of the mouth: the diameter of a tube, the lesser side of a slot.

        Returns: length [m]
        """
        return self.width if self.height is None else min(self.width, self.height)

    @property
    def outer_half(self) -> tuple[float, float]:
        """Half the outer width and half the outer height; walls that are boards are not its own.

        Returns: half width and half height [m]
        """
        height = self.width if self.height is None else self.height
        wall = self.wall if self.boarded is None else 0.0
        return self.width / 2 + wall, height / 2 + wall

    @property
    def outer_area(self) -> float:
        """Area of its cross-section, wall included.

        Returns: area [m²]
        """
        half_width, half_height = self.outer_half
        if self.height is None:
            return math.pi * half_width**2
        return 4 * half_width * half_height

    def volume_behind(self, thickness: float) -> float:
        """Return the volume it takes from the box, its air and its wall, panel thickness left out.

        Args:
            thickness: thickness of the panel it goes through [m].

        Returns: volume [m³]

        Source: definition (outer cross-section times centre line).
        """
        if self.boarded is not None:
            return self.boarded
        return self.outer_area * max(self.length - thickness, 0.0)


Part = RoundPart | PortBody


@dataclass(frozen=True, kw_only=True)
class Placed:
    """A part on a face of the box.

    Attributes:
        part: the part.
        face: name of the face.
        u: distance from the left edge of the face seen from outside, middle when None [m].
        v: distance from its lower edge, middle when None [m].
    """

    part: Part
    face: str
    u: float | None = None
    v: float | None = None


def numbered(contents: Sequence[Placed]) -> tuple[str, ...]:
    """Name every part by its kind and its number among those, such as "driver 2".

    Args:
        contents: what is in a box.

    Returns: one name for each, in their order

    Source: definition.
    """
    count: Counter[str] = Counter()
    names = []
    for placed in contents:
        kind = kind_of(placed.part)
        count[kind] += 1
        names.append(f"{kind} {count[kind]}")
    return tuple(names)


def kind_of(part: Part) -> str:
    """Say what kind of part it is.

    Args:
        part: the part.

    Returns: kind of a round part, or "port"

    Source: definition.
    """
    return "port" if isinstance(part, PortBody) else part.kind
