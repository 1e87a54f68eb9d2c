"""Whether what goes into a box has room there: in the wood, behind it, and beside each other."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from acoustics.carcass.panels.inner_wood import hole_of
from acoustics.carcass.room.inner_clearance import (
    TOUCH,
    brace_gap,
    room_ahead,
    shared_wood,
    wall_gap,
)
from acoustics.carcass.room.solids import Solid, gap, solids_of
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart, numbered
from acoustics.carcass.shape.errors import PlacementError, metres
from acoustics.carcass.shape.faces import Face
from acoustics.carcass.shape.inside.fastener import check_fastener
from acoustics.carcass.shape.inside.slab import Slab
from acoustics.errors import Id
from acoustics.findings import Finding

# Less wood than this is rounding: a cubic millimetre [m³].
CRUMB = 1e-9


@dataclass(frozen=True, kw_only=True)
class Clearances:
    """The distances to keep.

    Attributes:
        cutout_to_edge: from a hole to the next panel, on the inside [m].
        behind: behind a driver, along its axis [m].
        beside: from a basket or a motor to any wall [m].
        wood_at_screw: wood around a screw [m].
        apart: between two parts [m].
        port_mouths: from the mouth of a port to the wall it faces, in mouth diameters [-].

    Raises:
        PlacementError: when one is negative or not a number.

    Source: common practice, no source.
    """

    cutout_to_edge: float = 0.015
    behind: float = 0.010
    beside: float = 0.005
    wood_at_screw: float = 0.005
    apart: float = 0.010
    port_mouths: float = 1.0

    def __post_init__(self) -> None:
        for value in vars(self).values():
            if not (math.isfinite(value) and value >= 0):
                raise PlacementError(code="clearance-negative", value=metres(value))


USUAL = Clearances()


def check_contents(carcass: Body, clearances: Clearances = USUAL) -> tuple[Finding, ...]:
    """Check every part of a carcass against its face, the walls, the braces and the other parts.

    Values and limits are distances in metres; a value below its limit fails.

    Args:
        carcass: the carcass with its contents.
        clearances: the distances to keep.

    Returns: findings, none when all is well

    Source: common practice, no source.
    """
    findings: list[Finding] = []
    bodies: list[tuple[str, Placed, tuple[Solid, ...]]] = []
    for name, placed in zip(numbered(carcass.contents), carcass.contents, strict=True):
        face = carcass.face(placed.face)
        solids = solids_of(placed.part, face, *carcass.centre(placed))
        bodies.append((name, placed, solids))
        own = [*_in_face(carcass, placed, face, clearances)]
        if isinstance(placed.part, PortBody):
            own += _port_room(carcass, placed, placed.part, solids, clearances)
        else:
            own += _part_room(carcass, placed, placed.part, solids, clearances)
        findings += [replace(finding, detail=(name, placed.face)) for finding in own]
        for brace, gaps in _braces(carcass, placed, solids):
            findings += _apart(gaps, (name, brace), clearances)
    for (name, first, body), (other_name, second, other) in itertools.combinations(bodies, 2):
        findings += _apart(
            _between(carcass, first, body, second, other), (name, other_name), clearances
        )
    return (*findings, *_crossings(carcass))


def _crossings(carcass: Body) -> Iterator[Finding]:
    """Braces that stand in each other: their wood is counted twice, and somebody has to notch."""
    for first, second in itertools.combinations(carcass.braces, 2):
        shared = shared_wood(carcass, first, second)
        if shared > CRUMB:
            detail = (first.name, second.name)
            yield Finding(code="braces-cross", detail=detail, value=shared, limit=0.0, unit="m³")


def _finding(code: str, value: float, limit: float) -> Finding:
    return Finding(code=code, value=value, limit=limit, unit="m")


def _in_face(
    carcass: Body, placed: Placed, face: Face, clearances: Clearances
) -> Iterator[Finding]:
    """Hole, flange and screws against the face."""
    part = placed.part
    wood, air = Polygon(carcass.outline(face.name)), Polygon(carcass.air_outline(face.name))
    u, v = carcass.centre(placed)
    spot = shapely.Point(u, v)
    if isinstance(part, RoundPart):
        largest = 2 * float(shapely.maximum_inscribed_circle(wood).length)
        if part.flange_diameter > largest + TOUCH:
            yield _finding("part-larger-than-face", part.flange_diameter, largest)
            return
        edge = _signed(spot, wood) - part.flange_diameter / 2
        if edge < -TOUCH:
            yield _finding("flange-over-edge", edge, 0.0)
        margin = _signed(spot, air) - part.cutout_diameter / 2
        yield from _recess(part, face)
        wood_left = face.thickness - part.recess
        if part.fastener is not None and wood_left > 0:
            yield from check_fastener(part.fastener, wood_left)
        yield from _screws(part, _signed(spot, wood), clearances)
    else:
        if part.boarded is not None:  # its mouth ends where the walls it shares begin
            return
        hole = hole_of(carcass, placed).polygon
        margin = _signed_outline(hole, air)
    if margin < -TOUCH:
        yield _finding("cut-out-breaks-edge", margin, 0.0)
    elif isinstance(part, RoundPart) and margin < clearances.cutout_to_edge - TOUCH:
        yield _finding("cut-out-near-edge", margin, clearances.cutout_to_edge)


def _recess(part: RoundPart, face: Face) -> Iterator[Finding]:
    """What a recess leaves of the panel it is milled into; layers behind it do not count."""
    if part.recess >= face.wood - TOUCH:
        yield _finding("recess-through-panel", part.recess, face.wood)
    elif part.recess > (face.wood + face.inner) / 2 + TOUCH:
        yield _finding("recess-weakens-panel", part.recess, (face.wood + face.inner) / 2)


def _screws(part: RoundPart, to_edge: float, clearances: Clearances) -> Iterator[Finding]:
    inside = part.wood_at_screws
    if part.bolt_circle_diameter is None or inside is None:
        yield Finding(code="screw-circle-unknown", unit="m")
        return
    outside = to_edge - (part.bolt_circle_diameter + part.screw_diameter) / 2
    wood = min(inside, outside)
    if wood < clearances.wood_at_screw - TOUCH:
        yield _finding("screws-off-wood", wood, clearances.wood_at_screw)


def _signed(spot: shapely.Point, area: Polygon) -> float:
    """Distance of a point to the outline of an area, negative outside."""
    distance = float(area.exterior.distance(spot))
    return distance if area.contains(spot) else -distance


def _signed_outline(figure: Polygon, area: Polygon) -> float:
    """Least distance from a figure inside an area to its outline, or how far it reaches out."""
    if area.contains(figure):
        return float(figure.distance(area.exterior))
    return -max(
        (float(area.distance(shapely.Point(p))) for p in figure.exterior.coords), default=0.0
    )


def _part_room(
    carcass: Body,
    placed: Placed,
    part: RoundPart,
    solids: tuple[Solid, ...],
    clearances: Clearances,
) -> Iterator[Finding]:
    """The depth behind a driver along the real slope, and the walls beside it."""
    if not solids:
        return
    depth = depth_behind(carcass, placed)
    needed = part.mounting_depth
    if depth < needed - TOUCH:
        yield _finding("driver-deeper-than-box", depth, needed)
        return
    if depth < needed + clearances.behind - TOUCH:
        yield _finding("driver-near-back", depth, needed + clearances.behind)
    beside = min(wall_gap(carcass, s, placed.face) for s in solids)
    if beside < -TOUCH:
        yield _finding("part-hits-wall", beside, 0.0)
    elif beside < clearances.beside - TOUCH:
        yield _finding("part-near-wall", beside, clearances.beside)


def depth_behind(carcass: Body, placed: Placed) -> float:
    """Return the depth there is for a driver's motor, from the mounting face to the far wall.

    Args:
        carcass: the carcass.
        placed: a round part and its place.

    Returns: depth along its axis, within the whole breadth of its motor [m]

    Raises:
        PlacementError: when the part is a port.

    Source: definition.
    """
    if isinstance(placed.part, PortBody):
        raise PlacementError(code="depth-of-port", name=Id(placed.part.name))
    face = carcass.face(placed.face)
    surface = face.frame.place((carcass.centre(placed),), -face.outer)[0]
    return room_ahead(
        carcass,
        surface,
        -face.frame.normal,
        placed.part.motor_diameter / 2,
        start=face.thickness,
    )


def _port_room(
    carcass: Body,
    placed: Placed,
    part: PortBody,
    solids: tuple[Solid, ...],
    clearances: Clearances,
) -> Iterator[Finding]:
    """Whether a port lies inside the box, and how near its mouth is to the wall it faces."""
    face = carcass.face(placed.face)
    if not solids:
        return
    last = solids[-1]
    way = (last.end - last.start) / np.linalg.norm(last.end - last.start)
    half = _half_in_side_view(last)
    length = float(np.linalg.norm(last.end - last.start))
    sides = None
    if not last.is_round:
        across = zip(last.half_end, last.across, strict=True)
        across_width, across_height = (half_side * axis for half_side, axis in across)
        sides = across_width, across_height
    room = room_ahead(carcass, last.start, way, half, sides=sides)
    past_panel = face.thickness if len(solids) == 1 else 0.0
    # Its first leg comes through the face; a later one may not lie in that wood either.
    first = len(solids) - len(part.legs) + 1
    beside = min(
        wall_gap(carcass, solid, placed.face if number < first else None)
        for number, solid in enumerate(solids)
    )
    if TOUCH < room < length - TOUCH:
        yield _finding("port-does-not-fit", room + past_panel, length + past_panel)
        return
    if beside < -TOUCH and part.boarded is None:
        yield _finding("port-does-not-fit", beside, 0.0)
        return
    limit = clearances.port_mouths * part.mouth
    if room - length < limit - TOUCH:
        yield _finding("port-mouth-near-wall", room - length, limit)


def _half_in_side_view(solid: Solid) -> float:
    """Half the breadth of a solid's end as the side view shows it."""
    in_plane = [
        half for half, axis in zip(solid.half_end, solid.across, strict=True) if abs(axis[2]) < 0.5
    ]
    return max(in_plane, default=max(solid.half_end))


def _braces(
    carcass: Body, placed: Placed, solids: tuple[Solid, ...]
) -> Iterator[tuple[str, list[float]]]:
    """Gaps to each plate but the one it sits in; a window of a brace gives the room of it."""
    for brace in carcass.braces:
        # A port touches its own boards, a part the plate it sits in.
        boarded = isinstance(placed.part, PortBody) and placed.part.boarded is not None
        if brace.name == placed.face or (boarded and isinstance(brace, Slab)):
            continue
        yield brace.name, [brace_gap(carcass, brace, solid) for solid in solids]


def _between(
    carcass: Body, first: Placed, body: tuple[Solid, ...], second: Placed, other: tuple[Solid, ...]
) -> list[float]:
    """Gaps between two parts, in the box and, on one face, outside it."""
    gaps = [gap(a, b) for a in body for b in other]
    if first.face == second.face:
        (u, v), (s, t) = carcass.centre(first), carcass.centre(second)
        reach = _reach(first, s - u, t - v) + _reach(second, u - s, v - t)
        gaps.append(math.hypot(s - u, t - v) - reach)
    return gaps


def _reach(placed: Placed, du: float, dv: float) -> float:
    """How far a part covers the face in one direction, a slot by its outline."""
    part = placed.part
    if isinstance(part, RoundPart):
        return part.flange_diameter / 2
    half_width, half_height = part.outer_half
    if part.height is None:
        return half_width
    length = math.hypot(du, dv) or 1.0
    reach = [h * length / abs(d) for h, d in ((half_width, du), (half_height, dv)) if d]
    return min(reach, default=half_width)


def _apart(gaps: list[float], detail: tuple[str, ...], clearances: Clearances) -> Iterator[Finding]:
    """The least of some gaps, where there are any, against what is to be kept."""
    least = min(gaps, default=math.inf)
    if least <= TOUCH:
        yield replace(_finding("parts-collide", min(least, 0.0), 0.0), detail=detail)
    elif least < clearances.apart - TOUCH:
        yield replace(_finding("parts-crowded", least, clearances.apart), detail=detail)
