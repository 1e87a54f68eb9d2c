"""A box's outside dimensions as wood: its carcass, its litres and its cut list."""

from __future__ import annotations

import math
from dataclasses import dataclass

from acoustics.carcass.assembly import panels
from acoustics.carcass.box import Carcass
from acoustics.carcass.braces import CrossBrace, Layer
from acoustics.carcass.clearance import check_contents
from acoustics.carcass.contents import Placed, PortBody, RoundPart
from acoustics.carcass.cut_list import CutPart, check_saw, cut_list
from acoustics.carcass.outline import Loop
from acoustics.carcass.profile import Profile
from acoustics.carcass.shapes import rectangle_profile, sloped_rear_profile
from acoustics.findings import Finding
from jobs.design import drivers
from jobs.models import Box, Driver

# What a drawing meets in a carcass.
__all__ = ["CrossBrace", "Loop", "PortBody", "RoundPart", "Wood", "build", "wood"]

FRONT, RIGHT = "front", "right"
VENTED_KINDS = (Box.Kind.VENTED, Box.Kind.BAND_PASS_4, Box.Kind.BAND_PASS_6)


@dataclass(frozen=True, kw_only=True)
class Wood:
    """A carcass with what is printed of it."""

    carcass: Carcass
    parts: tuple[CutPart, ...]
    findings: tuple[Finding, ...]


def profile_of(box: Box) -> Profile | None:
    """Return the outer side view, or None while a dimension is missing."""
    if box.shape == Box.Shape.PROFILE:
        return Profile(points=tuple((x, y) for x, y in box.profile)) if box.profile else None
    if box.depth is None or box.height is None:
        return None
    if box.shape == Box.Shape.SLOPED:
        if box.top_depth is None:
            return None
        return sloped_rear_profile(box.depth, box.top_depth, box.height)
    return rectangle_profile(box.depth, box.height)


def front_of(profile: Profile) -> str:
    """Name the face the driver sits in: the front, or the first edge of an own profile."""
    return FRONT if FRONT in profile.names else profile.names[-1]


def build(box: Box, *, port_length: float | None) -> Carcass | None:
    """Return the carcass with everything in it, or None while it has no size or no wood."""
    profile = profile_of(box)
    if profile is None or box.width is None or box.material is None:
        return None
    thickness = box.material.thickness
    face = front_of(profile)
    layers = tuple(Layer(face=face, thickness=thickness) for _ in range(box.baffle_layers - 1))
    bare = Carcass(profile=profile, width=box.width, thickness=thickness, layers=layers)
    return Carcass(
        profile=profile,
        width=box.width,
        thickness=thickness,
        layers=layers,
        braces=_braces(box, bare, thickness),
        contents=(*_drivers(box, bare, face), *_ports(box, bare, face, port_length)),
        density=box.material.density,
        grain="across" if box.material.grained else "none",
    )


def wood(box: Box, *, port_length: float | None) -> Wood | None:
    """Return the carcass with its cut list and what is wrong with either."""
    carcass = build(box, port_length=port_length)
    if carcass is None:
        return None
    every = panels(carcass)
    return Wood(
        carcass=carcass,
        parts=cut_list(every),
        findings=(*check_saw(every), *check_contents(carcass)),
    )


def _braces(box: Box, bare: Carcass, thickness: float) -> tuple[CrossBrace, ...]:
    """Space braces unevenly, so that no two panel fields ring alike."""
    start, end = bare.air_span
    outline = bare.air_profile.polygon
    share = math.sqrt(max(box.brace_opening, 0.0))
    windows: tuple[Loop, ...] = ()
    if 0 < share < 1:
        centre = outline.representative_point()
        windows = (
            Loop(
                points=tuple(
                    (centre.x + share * (x - centre.x), centre.y + share * (y - centre.y))
                    for x, y in outline.exterior.coords[:-1]
                )
            ),
        )
    count = box.brace_count
    # 0.46 of the field instead of the half: neighbouring fields differ in size.
    places = [(number - 0.04) / (count + 1) for number in range(1, count + 1)]
    return tuple(
        CrossBrace(
            name=f"brace {number}",
            at=start + (end - start) * place - thickness / 2,
            thickness=thickness,
            windows=windows,
        )
        for number, place in enumerate(places, start=1)
    )


def _drivers(box: Box, bare: Carcass, face: str) -> list[Placed]:
    part: Driver | None = getattr(box.driver.part, "driver", None) if box.driver else None
    solid = drivers.body(part, str(part)) if part else None
    if solid is None:
        return []
    share = bare.width / box.driver_count
    room = _room_for_port(box)
    return [
        Placed(part=solid, face=face, u=(number + 0.5) * share - room / 2)
        for number in range(box.driver_count)
    ]


def _room_for_port(box: Box) -> float:
    """How far the drivers move aside for a port in the same face."""
    if box.port_in_side:
        return 0.0
    if box.kind not in VENTED_KINDS:
        return 0.0
    if box.port_shape == Box.PortShape.SLOT:
        return (box.port_width or 0.0) + 2 * box.port_wall
    return ((box.port_diameter or 0.0) + 2 * box.port_wall) * box.port_count


def _ports(box: Box, bare: Carcass, face: str, length: float | None) -> list[Placed]:
    """Put the ports at the right end of the front, or into the right cheek one above the other."""
    slot = box.port_shape == Box.PortShape.SLOT
    width = box.port_width if slot else box.port_diameter
    if length is None or width is None or box.kind not in VENTED_KINDS:
        return []
    solid = PortBody.straight(
        "port",
        width=width,
        height=box.port_height if slot else None,
        length=length,
        wall=box.port_wall,
    )
    outer = width + 2 * box.port_wall
    if box.port_in_side:
        low, high = bare.air_profile.polygon.bounds[1::2]
        share = (high - low) / box.port_count
        return [
            Placed(part=solid, face=RIGHT, v=low + share * (number + 0.5))
            for number in range(box.port_count)
        ]
    right = bare.air_span[1]
    return [
        Placed(part=solid, face=face, u=right - outer * (number + 0.5) - 0.01)
        for number in range(box.port_count)
    ]
