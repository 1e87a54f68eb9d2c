"""From a window on a room to a box of wood in its cavity, looked at as closely as any other box."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import shapely
from shapely.geometry import Polygon, box

from acoustics.carcass.cavity.cavity import Cavity, check_cavity
from acoustics.carcass.cavity.fit_bases import Base, Task
from acoustics.carcass.cavity.fit_search import Window
from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.room.clearance import check_contents
from acoustics.carcass.shape.braces import Layer
from acoustics.carcass.shape.errors import CarcassError, metres
from acoustics.carcass.shape.panel import Grain
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import STRAIGHT, Profile
from acoustics.findings import Finding

Facing = Literal["front", "rear", "top", "side"]
# Rows of the turn from (x, y) of the car to (a, b): a runs away from the driver's face.
TURNS: dict[Facing, tuple[tuple[int, int], tuple[int, int]]] = {
    "front": ((1, 0), (0, 1)),
    "rear": ((-1, 0), (0, 1)),
    "top": ((0, -1), (1, 0)),
    "side": ((1, 0), (0, 1)),
}
BAFFLE, SIDE = "front", "right"


@dataclass(frozen=True, kw_only=True)
class Stock:
    """What the box is made of.

    Attributes:
        thickness: measured thickness [m].
        layers: layers of the panel the drivers sit in [-].
        density: density of the sheet, or None when not known [kg/m³].
        grain: run of the grain on every panel.
    """

    thickness: float
    layers: int = 1
    density: float | None = None
    grain: Grain = "none"


@dataclass(frozen=True, kw_only=True)
class Built:
    """A box in its cavity.

    Attributes:
        carcass: the box, its profile in the coordinates of the cavity.
        face: the face the drivers sit in.
        z: where its left is across the width of the cavity [m].
        kind: rectangle, slope or outline.
        faults: what a closer look found, none in an answer.
    """

    carcass: Carcass
    face: str
    z: float
    kind: str
    faults: tuple[Finding, ...]


def turned(shape: Polygon, facing: Facing, *, back: bool = False) -> Polygon:
    """Turn a polygon so that the driver's face looks to −x, or back.

    Args:
        shape: the polygon, coordinates in [m].
        facing: where the driver looks.
        back: whether it is turned back.

    Returns: polygon, coordinates in [m]

    Source: definition.
    """
    (a, b), (c, d) = TURNS[facing]
    b, c = (c, b) if back else (b, c)
    return shapely.affinity.affine_transform(shape, (a, b, c, d, 0, 0))


def build(
    base: Base,
    window: Window,
    *,
    task: Task,
    stock: Stock,
    cavity: Cavity,
    facing: Facing,
    width: float | None = None,
) -> Built:
    """Make the box of a window, at the width that gives the volume wanted or at one given.

    Args:
        base: the shape it is cut from.
        window: left, right, low and high of the window [m].
        task: what is wanted.
        stock: what it is made of.
        cavity: the cavity.
        facing: where the driver looks.
        width: outer width, or None for the one that gives the volume [m].

    Returns: the box with its faults

    Raises:
        CarcassError: when it leaves no inside or a panel vanishes.

    Source: definition.
    """
    left, right, low, high = window
    cut = base.outer & box(left, low, right, high)
    pieces = [p for p in getattr(cut, "geoms", [cut]) if isinstance(p, Polygon)]
    if not pieces:
        raise CarcassError(code="window-cuts-nothing", left=metres(left), right=metres(right))
    section = _clean(max(pieces, key=lambda p: p.area), stock.thickness)
    profile, baffle = named(turned(section, facing, back=True), facing)
    face = SIDE if facing == "side" else baffle
    extra = Layer(face=face, thickness=stock.thickness)
    bare = Carcass(
        profile=profile,
        width=width or base.room.width,
        thickness=stock.thickness,
        layers=(extra,) * (stock.layers - 1),
        density=stock.density,
        grain=stock.grain,
    )
    if width is None:
        width = (task.volume + task.taken) / bare.air_profile.area + task.walls
        bare = replace(bare, width=width)
    full = replace(bare, contents=task.load.arrange(bare, face))
    panels(full)  # a panel too short between its neighbours is found here
    z = base.room.start + (base.room.width - width) / 2
    faults = [f for f in check_contents(full, task.clearances) if f.severity != "note"]
    faults += check_cavity(full, cavity, x=0.0, y=0.0, z=z)
    return Built(carcass=full, face=face, z=z, kind=base.kind, faults=tuple(faults))


def _clean(section: Polygon, thickness: float) -> Polygon:
    """Leave corners out that no panel could follow: straight ones, and slivers' ends.

    What is left lies within what there was.
    """
    points = list(shapely.geometry.polygon.orient(section).exterior.coords)[:-1]
    while len(points) > 3:
        gone = next(_needless(points, thickness), None)
        if gone is None:
            break
        points.pop(gone)
    return Polygon(points)


def _needless(points: list[tuple[float, ...]], thickness: float) -> Iterator[int]:
    count = len(points)
    for i, p in enumerate(points):
        a, b = points[i - 1], points[(i + 1) % count]
        turn = (p[0] - a[0]) * (b[1] - p[1]) - (p[1] - a[1]) * (b[0] - p[0])
        size = math.dist(a, p) * math.dist(p, b)
        straight = abs(turn) <= math.sin(2 * STRAIGHT) * size
        if straight or math.dist(p, b) < 1.2 * thickness:
            nearest = sorted((i, (i + 1) % count, i - 1 if i else count - 1), key=lambda j: j != i)
            yield from (j for j in nearest if _may_go(points, j))


def _may_go(points: list[tuple[float, ...]], i: int) -> bool:
    """Whether the outline without one corner stays simple and within what it was."""
    rest = Polygon([p for j, p in enumerate(points) if j != i])
    return bool(rest.is_valid and Polygon(points).buffer(1e-7).covers(rest))


def named(section: Polygon, facing: Facing) -> tuple[Profile, str]:
    """Return a section as a profile with names, its last edge the one the driver sits in.

    Args:
        section: the outline, coordinates in [m].
        facing: where the driver looks.

    Returns: profile [m], and the name of the driver's edge

    Raises:
        ProfileError: when it is no outline.

    Source: definition.
    """
    points = tuple(shapely.geometry.polygon.orient(section).exterior.coords)[:-1]
    plain = Profile(points=points)
    (ax, ay), _ = TURNS[facing]
    # Straight against a, longest first: the face the driver looks out of.
    facing_way = [
        (-(ax * nx + ay * ny) * plain.length(e) ** 0.25, e)
        for e in range(len(plain))
        for nx, ny in [plain.normal(e)]
    ]
    baffle = max(facing_way)[1]
    names = []
    for e in range(len(plain)):
        nx, ny = plain.normal(e)
        side = "bottom" if ny < -0.8 else "top" if ny > 0.8 else "rear" if nx > 0 else "fore"
        names.append(BAFFLE if e == baffle else side)
    count = {name: names.count(name) for name in names}
    seen: dict[str, int] = {}
    for i, name in enumerate(names):
        seen[name] = seen.get(name, 0) + 1
        if count[name] > 1:
            names[i] = f"{name} {seen[name]}"
    start = (baffle + 1) % len(plain)
    order = [*range(start, len(plain)), *range(start)]
    return (
        Profile(points=tuple(points[i] for i in order), names=tuple(names[i] for i in order)),
        BAFFLE,
    )
