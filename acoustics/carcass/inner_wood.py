"""The panels inside a box: stacked layers, cross braces, shelves and struts."""

from __future__ import annotations

import math
from dataclasses import replace

from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Spot

from acoustics.carcass.body import Body
from acoustics.carcass.box import Carcass
from acoustics.carcass.braces import CrossBrace, Layer, Shelf
from acoustics.carcass.contents import Placed, PortBody
from acoustics.carcass.faces import CHEEKS, on_cheek, rectangle_points, runs_upward
from acoustics.carcass.outline import Circle, Figure, rectangle
from acoustics.carcass.panel import Frame, Panel, Seam
from acoustics.carcass.profile import Point, Profile

# Two lines closer than this are one line [m].
SAME = 1e-9


def holes_in(carcass: Body, face: str) -> tuple[Figure, ...]:
    """Return the holes in a face.

    Args:
        carcass: the carcass.
        face: name of the face.

    Returns: figures in the coordinates of the face [m]

    Source: definition.
    """
    return tuple(hole_of(carcass, p) for p in carcass.contents if p.face == face)


def hole_of(carcass: Body, placed: Placed) -> Figure:
    """Return the hole a part needs in its face.

    Args:
        carcass: the carcass.
        placed: the part and its place.

    Returns: circle or rectangle in the coordinates of the face [m]

    Source: definition.
    """
    u, v = carcass.centre(placed)
    part = placed.part
    if not isinstance(part, PortBody):
        return Circle(centre=(u, v), radius=part.cutout_diameter / 2)
    half_width, half_height = part.outer_half
    if part.height is None:
        return Circle(centre=(u, v), radius=half_width)
    return rectangle(u - half_width, v - half_height, u + half_width, v + half_height)


def _free(count: int) -> tuple[Seam, ...]:
    return (Seam(mate="", joint="free"),) * count


def layer_panel(carcass: Carcass, index: int) -> Panel:
    """Return the panel of a stacked layer.

    Args:
        carcass: the carcass.
        index: which of its layers [-].

    Returns: panel

    Source: definition.
    """
    layer = carcass.layers[index]
    face = carcass.face(layer.face)
    before = sum(
        y.thickness
        for y in carcass.layers[:index]
        if y.face == layer.face and y.outside == layer.outside
    )
    depth = -(before + layer.thickness) if layer.outside else face.wood + before
    x, y, z = (float(c) for c in face.frame.place(((0.0, 0.0),), depth)[0])
    frame = replace(face.frame, origin=(x, y, z))
    number = sum(y.face == layer.face for y in carcass.layers[: index + 1])
    outline = _layer_outline(carcass, layer, face.frame)
    inner = outline
    if layer.face not in CHEEKS and not layer.outside:
        outline, inner = _inner_layer(carcass, layer, face.frame, before)
    return Panel(
        name=f"{layer.face} layer {number}",
        outside=outline,
        inside=inner,
        thickness=layer.thickness,
        frame=frame,
        seams=_free(len(outline)),
        grain=carcass.grain,
        density=carcass.density,
        holes=holes_in(carcass, layer.face),
    )


def _layer_outline(carcass: Carcass, layer: Layer, frame: Frame) -> tuple[Point, ...]:
    if layer.face in CHEEKS:
        profile = carcass.profile if layer.outside else carcass.air_profile
        return on_cheek(layer.face, frame, profile)[0]
    width, height = carcass.face(layer.face).size
    return rectangle_points(0.0, 0.0, width, height)


def _inner_layer(
    carcass: Carcass, layer: Layer, frame: Frame, before: float
) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """Both faces of a layer inside a wall; where two layered walls meet, the layers are mitred."""
    edge = carcass.profile.index(layer.face)
    left, right = carcass.cheeks
    u0, u1 = (right, left) if runs_upward(carcass.profile, edge) else (left, right)
    whole = carcass.layer_thickness(layer.face, outside=False)
    faces = []
    for depth in (before, before + layer.thickness):
        share = depth / whole
        v = []
        for corner in (edge, (edge + 1) % len(carcass.profile)):
            (x0, y0), (x1, y1) = (
                carcass.inner_profile.points[corner],
                carcass.air_profile.points[corner],
            )
            x, y = x0 + share * (x1 - x0), y0 + share * (y1 - y0)
            v.append((x - frame.origin[0]) * frame.v[0] + (y - frame.origin[1]) * frame.v[1])
        faces.append(rectangle_points(u0, min(v), carcass.width - u1, max(v)))
    return faces[0], faces[1]


def brace_panel(carcass: Carcass, index: int) -> Panel:
    """Return the panel of a brace.

    Args:
        carcass: the carcass.
        index: which of its braces [-].

    Returns: panel

    Source: definition.
    """
    brace = carcass.braces[index]
    start, end = brace.reach(*carcass.air_span)
    air = carcass.air_profile
    holes: tuple[Figure, ...] = ()
    grain = carcass.grain
    mates = air.names
    if isinstance(brace, CrossBrace):
        frame = Frame(origin=(0, 0, brace.at + brace.thickness), u=(1, 0, 0), v=(0, 1, 0))
        outline = inner = air.points
        holes = brace.windows
    elif isinstance(brace, Shelf):
        outline, inner, frame = _shelf(brace, air.polygon, start, end)
        holes = brace.windows
        first, last = _walls_met(brace, air)
        ends = ("left", "right") if brace.span is None else ("", "")
        mates = (first, ends[0], last, ends[1])
        if brace.span is not None and grain != "none":  # along a strut
            grain = "up"
    else:
        (x, y), breadth = brace.at, brace.breadth
        outline = inner = rectangle_points(0.0, 0.0, end - start, breadth)
        origin = (x - breadth / 2, y - brace.thickness / 2, end)
        frame = Frame(origin=origin, u=(0, 0, -1), v=(1, 0, 0))
        grain = "none" if grain == "none" else "across"
        mates = ("", "left", "", "right")
    return Panel(
        name=brace.name,
        outside=outline,
        inside=inner,
        thickness=brace.thickness,
        frame=frame,
        seams=tuple(Seam(mate=mate, joint="free") for mate in mates),
        grain=grain,
        density=carcass.density,
        holes=holes,
    )


def _walls_met(brace: Shelf, air: Profile) -> tuple[str, str]:
    """The walls at both ends of a shelf, the one nearer to its start first."""
    (ax, ay), (bx, by) = brace.start, brace.end
    corners = brace.section(air.polygon).exterior.coords[:-1]
    along = sorted(corners, key=lambda p: (p[0] - ax) * (bx - ax) + (p[1] - ay) * (by - ay))
    ring = [*air.points, air.points[0]]
    walls = {name: LineString(ring[i : i + 2]) for i, name in enumerate(air.names)}

    def nearest(pair: list[tuple[float, ...]]) -> str:
        return min(walls, key=lambda name: sum(walls[name].distance(Spot(p)) for p in pair))

    return nearest(along[:2]), nearest(along[-2:])


def _shelf(
    brace: Shelf, air: Polygon, start: float, end: float
) -> tuple[tuple[Point, ...], tuple[Point, ...], Frame]:
    """Both faces of a shelf from wall to wall, and where it lies."""
    (ax, ay), (bx, by) = brace.start, brace.end
    length = math.dist(brace.start, brace.end)
    vx, vy = (bx - ax) / length, (by - ay) / length
    # The outer face is the one on the right of start → end, as for an edge of the profile.
    half = brace.thickness / 2
    corners = [
        ((x - ax) * vx + (y - ay) * vy, (x - ax) * vy - (y - ay) * vx)
        for x, y in brace.section(air).exterior.coords
    ]
    spans = []
    for side in (half, -half):
        along = [s for s, off in corners if abs(off - side) < SAME]
        along = along if len(along) > 1 else [s for s, _ in corners]
        spans.append((min(along), max(along)))
    base = min(spans[0][0], spans[1][0])
    origin = (ax + base * vx + half * vy, ay + base * vy - half * vx, end)
    frame = Frame(origin=origin, u=(0, 0, -1), v=(vx, vy, 0))
    out, inn = (rectangle_points(0.0, low - base, end - start, high - base) for low, high in spans)
    return out, inn, frame
