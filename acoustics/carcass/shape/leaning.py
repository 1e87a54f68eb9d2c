"""The outline of a box whose walls all lean: a plan drawn up, every wall by its own angle."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from shapely.geometry import MultiPoint
from shapely.geometry.polygon import orient

from acoustics.carcass.shape.errors import NoInsideError, ProfileError, WallsMeetError, metres
from acoustics.carcass.shape.faces import Extent
from acoustics.carcass.shape.panel import Vector
from acoustics.carcass.shape.planes import Array, Plane, corners, vector
from acoustics.carcass.shape.profile import Point, Profile, per_edge, positive
from acoustics.errors import Quantity
from acoustics.names import Name

ENDS = ("bottom", "top")


@dataclass(frozen=True, kw_only=True)
class Leaning:
    """The solid over a plan whose walls lean inwards or outwards, bottom and top level.

    The plan is seen from above: x from front to rear, y from the right to the left of someone
    who faces the front. Every level section is the plan with each edge moved in by
    height · tan(lean). In space it lies as a prism does: x to the rear, y up, z from its left
    to its right; z = 0 at its leftmost.

    Attributes:
        plan: outer outline at the bottom, turning inward nowhere [m].
        height: outer height [m].
        leans: lean of each wall from upright, inwards positive, one for all or one per wall
            [rad].

    Raises:
        ProfileError: a height that is not above 0, a lean of 90° or more, or a plan that turns
            inward.
        WallsMeetError: walls that meet below the top.
    """

    plan: Profile
    height: float
    leans: float | Sequence[float]

    def __post_init__(self) -> None:
        positive(Name.HEIGHT, self.height)
        for lean in self.angles:
            if not abs(lean) < math.pi / 2:
                raise ProfileError(
                    code="lean-too-steep",
                    lean=Quantity(lean, "rad"),
                    steepest=Quantity(math.pi / 2, "rad"),
                )
        if any(self.plan.interior_angle(i) > math.pi for i in range(len(self.plan))):
            raise ProfileError(code="plan-turns-inward")
        _ = self.outer_volume  # walls that meet are found at birth

    @cached_property
    def angles(self) -> tuple[float, ...]:
        """Lean of each wall.

        Returns: one per wall [rad]
        """
        return per_edge(self.leans, len(self.plan), Name.LEAN)

    def section(self, height: float, *, depth: Mapping[str, float] | None = None) -> Profile:
        """Return the outline of a level section in the coordinates of the plan.

        Args:
            height: height above the outside of the bottom [m].
            depth: how far within the outside of each wall, square to it; the outside itself
                when None [m].

        Returns: profile [m]

        Raises:
            WallsMeetError: when walls have met before this height.
        """
        woods = [0.0 if depth is None else depth[name] for name in self.plan.names]
        steps = [
            height * math.tan(lean) + t / math.cos(lean)
            for lean, t in zip(self.angles, woods, strict=True)
        ]
        try:
            return self.plan.inset(steps)
        except NoInsideError as error:
            raise WallsMeetError(code="walls-meet", height=metres(height)) from error

    def prismatoid(
        self, low: float, high: float, depth: Mapping[str, float] | None = None
    ) -> float:
        """Return the volume between two levels, (h / 6) · (A1 + 4 Am + A2).

        Args:
            low: the lower level [m].
            high: the upper level [m].
            depth: as for `section` [m].

        Returns: volume [m³]

        Raises:
            WallsMeetError: when walls have met on the way.

        Source: prismatoid formula, from memory of any solid geometry text.
        """
        areas = [self.section(z, depth=depth).area for z in (low, (low + high) / 2, high)]
        return (high - low) * (areas[0] + 4 * areas[1] + areas[2]) / 6

    @cached_property
    def outer_volume(self) -> float:
        """Volume of the outline of the box, layers outside not counted.

        Returns: volume [m³]

        Source: prismatoid formula, from memory of any solid geometry text.
        """
        return self.prismatoid(0.0, self.height)

    @cached_property
    def left(self) -> float:
        """How far left in the plan z = 0 lies: at the leftmost of the box.

        Returns: distance [m]
        """
        return max(y for z in (0.0, self.height) for _, y in self.section(z).points)

    def place(self, point: Point, height: float) -> Vector:
        """Return a point of the plan at a height in the coordinates of the box.

        Args:
            point: point of the plan [m].
            height: height above the outside of the bottom [m].

        Returns: point (x, y, z) [m]
        """
        return point[0], height, self.left - point[1]

    @cached_property
    def outer(self) -> dict[str, Plane]:
        """The outer plane of every face, walls first, then bottom and top.

        Returns: planes by name
        """
        planes = {}
        for i, name in enumerate(self.plan.names):
            (nx, ny), lean = self.plan.normal(i), self.angles[i]
            normal = (nx * math.cos(lean), math.sin(lean), -ny * math.cos(lean))
            foot = self.place(self.plan.points[i], 0.0)
            planes[name] = Plane(normal=normal, distance=float(np.dot(normal, foot)))
        planes["bottom"] = Plane(normal=(0.0, -1.0, 0.0), distance=0.0)
        planes["top"] = Plane(normal=(0.0, 1.0, 0.0), distance=self.height)
        return planes

    def around(self, name: str) -> tuple[str, ...]:
        """Return the faces next to one, counter-clockwise seen from outside.

        Args:
            name: name of the face.

        Returns: names, for a wall from its foot on
        """
        names = self.plan.names
        if name == "top":
            return names
        if name == "bottom":  # seen from below the plan runs the other way
            return (*names[-2::-1], names[-1])
        i = self.plan.index(name)
        return ("bottom", names[(i + 1) % len(names)], "top", names[i - 1])

    def side(self, name: str, planes: Mapping[str, Plane]) -> Array:
        """Return the corners of one side of the solid between planes.

        Args:
            name: name of the face.
            planes: one plane per face.

        Returns: one row (x, y, z) per corner, counter-clockwise seen from outside [m]
        """
        return corners(planes[name], [planes[other] for other in self.around(name)])

    @property
    def extents(self) -> tuple[Extent, ...]:
        """Depth and width of the bottom and of the top.

        Returns: ends along x and z of each [m]
        """
        ends = []
        for name in ENDS:
            side = self.side(name, self.outer)
            (x0, _, z0), (x1, _, z1) = side.min(axis=0).tolist(), side.max(axis=0).tolist()
            ends.append((x0, x1, z0, z1))
        return tuple(ends)

    def way_out(self, name: str) -> Vector:
        """Return the way from the middle of the corners to the middle of a face.

        Args:
            name: name of the face.

        Returns: vector (x, y, z) [m]
        """
        return vector(self.side(name, self.outer).mean(axis=0) - self.corners.mean(axis=0))

    def dihedral(self, corner: int) -> float:
        """Return the angle inside the box between two neighbouring walls.

        cos(dihedral) = -n1 · n2 of the outward normals.

        Args:
            corner: index of the corner, where the edge of the same index begins [-].

        Returns: angle [rad]
        """
        names = self.plan.names
        first, second = (self.outer[names[i % len(names)]].normal for i in (corner - 1, corner))
        return math.pi - math.acos(max(-1.0, min(1.0, float(np.dot(first, second)))))

    @cached_property
    def corners(self) -> Array:
        """Every outer corner, those of the bottom first, in the order of the plan.

        Returns: rows (x, y, z) [m]
        """
        levels = (0.0, self.height)
        return np.array([self.place(p, z) for z in levels for p in self.section(z).points])

    @cached_property
    def profile(self) -> Profile:
        """Outline of the side view, what stands out farthest counted.

        Its edges are called as bottom, the wall that faces the rear most, top, and the wall that
        faces the front most.

        Returns: profile [m]
        """
        hull = orient(MultiPoint(self.corners[:, :2]).convex_hull.simplify(1e-9))
        points = tuple((float(x), float(y)) for x, y in hull.exterior.coords[:-1])
        first = min(range(len(points)), key=lambda i: (round(points[i][1], 9), points[i][0]))
        points = points[first:] + points[:first]
        walls = sorted(self.plan.names, key=lambda name: self.outer[name].normal[0])
        names = ("bottom", walls[-1], "top", walls[0]) if len(points) == 4 else ()
        return Profile(points=points, names=names)

    @cached_property
    def width(self) -> float:
        """Greatest extent across, bottom and top counted.

        Returns: width [m]
        """
        return float(np.ptp(self.corners[:, 2]))


def usual_corner(box: Leaning) -> Literal["mitre", "butt"]:
    """Choose how the walls meet so that the saw tilts less.

    A butt needs the tilt |90° - φ| (φ the dihedral angle inside), a mitre 90° - φ / 2.

    Args:
        box: the outline.

    Returns: mitre or butt, the same for every corner

    Source: common practice, no source.
    """
    angles = [box.dihedral(i) for i in range(len(box.plan))]
    butt = max(abs(math.pi / 2 - angle) for angle in angles)
    mitre = max(math.pi / 2 - angle / 2 for angle in angles)
    return "mitre" if mitre < butt - 1e-9 else "butt"
