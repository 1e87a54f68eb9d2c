"""The panels inside a box: stacked layers, cross braces, shelves and struts."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from shapely.geometry import Point as Spot

from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.braces import CrossBrace, Shelf
from acoustics.carcass.shape.contents import Placed, PortBody
from acoustics.carcass.shape.dividers import plate_board, shelf_board, slab_board
from acoustics.carcass.shape.faces import CHEEKS, Face, on_cheek, rectangle_points, runs_upward
from acoustics.carcass.shape.outline import Circle, Figure, rectangle
from acoustics.carcass.shape.panel import Frame, Panel, Seam
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Point, Profile
from acoustics.carcass.shape.slab import Slab

Outline = tuple[Point, ...]


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


def layer_panel(box: Body, index: int, outline: Callable[[Face, float | None], Outline]) -> Panel:
    """Return the panel of a stacked layer.

    Args:
        box: the box.
        index: which of its layers [-].
        outline: gives a face where its inner layers have grown to a share of themselves, its
            outside for None [m].

    Returns: panel

    Source: definition.
    """
    layer = box.layers[index]
    face = box.face(layer.face)
    earlier = [y for y in box.layers[:index] if y.face == layer.face]
    before = sum(y.thickness for y in earlier if y.outside == layer.outside)
    if layer.outside:
        depth = -(before + layer.thickness)
        out = inn = outline(face, None)
    else:
        depth = face.wood + before
        out, inn = (outline(face, (before + part) / face.inner) for part in (0.0, layer.thickness))
    x, y, z = (float(c) for c in face.frame.place(((0.0, 0.0),), depth)[0])
    return Panel(
        name=f"{layer.face} layer {len(earlier) + 1}",
        outside=out,
        inside=inn,
        thickness=layer.thickness,
        frame=replace(face.frame, origin=(x, y, z)),
        seams=touching(box.around(layer.face)),
        grain=box.grain,
        density=box.density,
        holes=holes_in(box, layer.face),
    )


def touching(mates: Iterable[str]) -> tuple[Seam, ...]:
    """Return the seams of a panel that stands inside the box, or lies on it.

    Args:
        mates: names of the panels its edges meet, empty where one meets none.

    Returns: one seam per edge

    Source: definition.
    """
    return tuple(Seam(mate=mate, joint="free", runs_through=False) for mate in mates)


def layer_outline(carcass: Carcass, face: Face, share: float | None) -> Outline:
    """Return a face of a prism as its layers cover it; layers that meet inside are mitred.

    Args:
        carcass: the carcass.
        face: one of its faces.
        share: how far its inner layers have grown, 0 to 1; None for the outside [-].

    Returns: outline in the coordinates of the face [m]

    Source: definition.
    """
    if face.name in CHEEKS:
        profile = carcass.profile if share is None else carcass.air_profile
        return on_cheek(face.name, face.frame, profile)[0]
    if share is None:
        return rectangle_points(0.0, 0.0, *face.size)
    edge, frame = carcass.profile.index(face.name), face.frame
    left, right = carcass.cheeks
    u0, u1 = (right, left) if runs_upward(carcass.profile, edge) else (left, right)
    v = []
    for corner in (edge, (edge + 1) % len(carcass.profile)):
        bare, air = (p.points[corner] for p in (carcass.inner_profile, carcass.air_profile))
        x, y = (a + share * (b - a) for a, b in zip(bare, air, strict=True))
        v.append((x - frame.origin[0]) * frame.v[0] + (y - frame.origin[1]) * frame.v[1])
    return rectangle_points(u0, min(v), carcass.width - u1, max(v))


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
        outline, frame = plate_board(brace, air)
        inner = outline
        holes = tuple(_moved(w, frame.origin) for w in brace.windows) or holes_in(
            carcass, brace.name
        )
    elif isinstance(brace, Shelf):
        outline, inner, frame = shelf_board(brace, air.polygon, start, end)
        holes = brace.windows or holes_in(carcass, brace.name)
        first, last = _walls_met(brace, air)
        if frame.u[2] > 0:  # up on it runs against its way
            first, last = last, first
        ends = ("left", "right") if brace.span is None else ("", "")
        mates = (first, ends[0], last, ends[1])
        if brace.span is not None and grain != "none":  # along a strut
            grain = "up"
    elif isinstance(brace, Slab):
        outline, inner, frame = slab_board(brace)
        mates = ("",) * len(outline)
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
        seams=touching(mates),
        grain=grain,
        density=carcass.density,
        holes=holes,
    )


def _moved(window: Figure, origin: tuple[float, float, float]) -> Figure:
    """A window of a plate, counted from the corner of the plate."""
    x0, y0, _z = origin
    if isinstance(window, Circle):
        return replace(window, centre=(window.centre[0] - x0, window.centre[1] - y0))
    return replace(window, points=tuple((x - x0, y - y0) for x, y in window.points))


def _walls_met(brace: Shelf, air: Profile) -> tuple[str, str]:
    """The walls at both ends of a shelf, the one nearer to its start first."""
    (ax, ay), (bx, by) = brace.start, brace.end
    corners = brace.section(air.polygon).exterior.coords[:-1]
    along = sorted(corners, key=lambda p: (p[0] - ax) * (bx - ax) + (p[1] - ay) * (by - ay))

    def nearest(pair: list[tuple[float, ...]]) -> str:
        return min(air.names, key=lambda name: sum(air.lines[name].distance(Spot(p)) for p in pair))

    return nearest(along[:2]), nearest(along[-2:])
