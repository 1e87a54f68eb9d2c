"""A box whose walls all lean: a plan drawn up over a height, every wall by its own angle."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np

from acoustics.carcass.contents import Placed, PortBody
from acoustics.carcass.errors import NoInsideError, PlacementError, ProfileError
from acoustics.carcass.panel import Frame, Grain, Panel, Seam, Vector
from acoustics.carcass.planes import Array, Plane, meeting
from acoustics.carcass.profile import Point, Profile, per_edge, positive

ENDS = ("bottom", "top")


@dataclass(frozen=True, kw_only=True)
class Taper:
    """A box over a plan whose walls lean inwards or outwards, closed by a bottom and a top.

    The plan lies in x (front to rear) and y (left to right); z runs up. Every horizontal section
    is the plan with each edge moved in by height · tan(lean), so volumes follow from three
    sections by the prismatoid formula.

    Attributes:
        plan: outer outline at the bottom [m].
        height: outer height [m].
        leans: lean of each wall from upright, inwards positive, one for all or one per wall
            [rad].
        thickness: measured thickness of the walls, one for all or one per wall [m].
        end_thickness: thickness of bottom and top, that of the first wall when None [m].
        corner: how walls meet: mitre, or butt, where every second wall runs through.
        contents: parts in its faces; they take litres.
        grain: run of the grain on every panel.
        density: density of the sheet, or None when not known [kg/m³].

    Raises:
        ProfileError: a dimension that is not above 0, or a lean of 90° or more.
        NoInsideError: walls that meet below the top, or wood that leaves no inside.
        PlacementError: a part on a face that is not there.

    Valid: any plan whose walls do not meet below the top; bottom and top cover the walls' ends.

    Source: definition.
    """

    plan: Profile
    height: float
    leans: float | Sequence[float]
    thickness: float | Sequence[float]
    end_thickness: float | None = None
    corner: Literal["mitre", "butt"] = "mitre"
    contents: tuple[Placed, ...] = ()
    grain: Grain = "none"
    density: float | None = None

    def __post_init__(self) -> None:
        positive("height", self.height)
        for name, wood in zip(self.plan.names, self.walls, strict=True):
            positive(f"thickness of panel '{name}'", wood)
        positive("thickness of bottom and top", self.ends)
        for lean in self.angles:
            if not abs(lean) < math.pi / 2:
                message = f"a wall leans {lean:g} rad; it must be less than {math.pi / 2:g} rad"
                raise ProfileError(message)
        if self.height <= 2 * self.ends:
            message = (
                f"bottom and top of {self.ends:g} m leave no inside in a height of"
                f" {self.height:g} m"
            )
            raise NoInsideError(message)
        for placed in self.contents:
            if placed.face not in (*self.plan.names, *ENDS):
                message = f"a part is put on '{placed.face}', which is no face of this box"
                raise PlacementError(message)
        if self.net_volume <= 0:
            message = f"parts take more than the {self.gross_volume:g} m³ there are"
            raise NoInsideError(message)

    @cached_property
    def walls(self) -> tuple[float, ...]:
        """Thickness of each wall.

        Returns: one per wall [m]

        Source: definition.
        """
        return per_edge(self.thickness, len(self.plan), "thickness")

    @cached_property
    def angles(self) -> tuple[float, ...]:
        """Lean of each wall.

        Returns: one per wall [rad]

        Source: definition.
        """
        return per_edge(self.leans, len(self.plan), "lean")

    @property
    def ends(self) -> float:
        """Thickness of bottom and top.

        Returns: thickness [m]

        Source: definition.
        """
        return self.walls[0] if self.end_thickness is None else self.end_thickness

    def section(self, z: float, *, inside: bool = False) -> Profile:
        """Return the outline of a horizontal section.

        Args:
            z: height above the outside of the bottom [m].
            inside: whether the outline of the inside is meant.

        Returns: profile [m]

        Raises:
            NoInsideError: when walls have met below this height.

        Source: definition.
        """
        wood = self.walls if inside else (0.0,) * len(self.plan)
        return self.plan.inset(
            [
                z * math.tan(lean) + t / math.cos(lean)
                for lean, t in zip(self.angles, wood, strict=True)
            ]
        )

    def _prismatoid(self, low: float, high: float, *, inside: bool) -> float:
        areas = [self.section(z, inside=inside).area for z in (low, (low + high) / 2, high)]
        return (high - low) * (areas[0] + 4 * areas[1] + areas[2]) / 6

    @cached_property
    def outer_volume(self) -> float:
        """Volume of the outline of the box.

        Returns: volume [m³]

        Source: prismatoid formula, from memory of any solid geometry text.
        """
        return self._prismatoid(0.0, self.height, inside=False)

    @cached_property
    def gross_volume(self) -> float:
        """Volume between the panels.

        Returns: volume [m³]

        Source: prismatoid formula, from memory of any solid geometry text.
        """
        return self._prismatoid(self.ends, self.height - self.ends, inside=True)

    @cached_property
    def net_volume(self) -> float:
        """Volume of air: gross less drivers and ports.

        Returns: volume [m³]

        Source: definition.
        """
        taken = 0.0
        for placed in self.contents:
            part = placed.part
            name = placed.face
            wood = self.ends if name in ENDS else self.walls[self.plan.index(name)]
            taken += part.volume_behind(wood) if isinstance(part, PortBody) else part.volume
        return self.gross_volume - taken

    def plane(self, wall: int) -> Plane:
        """Return the outer plane of a wall.

        Args:
            wall: index of its edge in the plan [-].

        Returns: plane

        Source: definition.
        """
        wall %= len(self.plan)
        (nx, ny), lean = self.plan.normal(wall), self.angles[wall]
        normal = (nx * math.cos(lean), ny * math.cos(lean), math.sin(lean))
        x, y = self.plan.points[wall]
        return Plane(normal=normal, distance=normal[0] * x + normal[1] * y)

    def dihedral(self, corner: int) -> float:
        """Return the angle inside the box between two neighbouring walls.

        cos(dihedral) = −n1 · n2 of the outward normals.

        Args:
            corner: index of the corner, where the edge of the same index begins [-].

        Returns: angle, more than π where the plan turns inward [rad]

        Source: definition.
        """
        one, two = self.plane(corner - 1).normal, self.plane(corner).normal
        between = math.acos(max(-1.0, min(1.0, float(np.dot(one, two)))))
        inward = self.plan.interior_angle(corner % len(self.plan)) > math.pi
        return math.pi + between if inward else math.pi - between

    def face_angle(self, wall: int, corner: int) -> float:
        """Return by how much an end of a wall is cut off square to its foot, on its outer face.

        For n equal walls leaning t it is the mitre of a compound mitre:
        tan(angle) = sin t · tan(π / n).

        Args:
            wall: index of the wall [-].
            corner: index of one of its two corners [-].

        Returns: angle, positive where the wall grows narrower upwards [rad]

        Source: definition (line where two planes meet).
        """
        one, two = self.plane(corner - 1), self.plane(corner)
        line = np.cross(one.normal, two.normal)
        line = line * (1 if line[2] > 0 else -1)
        ex, ey = self.plan.direction(wall % len(self.plan))
        along = float(line[0] * ex + line[1] * ey)
        towards = along if corner % len(self.plan) == wall % len(self.plan) else -along
        return math.asin(towards / float(np.linalg.norm(line)))

    def panels(self) -> tuple[Panel, ...]:
        """Return every panel, walls first in the order of the plan, then bottom and top.

        Returns: panels

        Raises:
            NoInsideError: when a panel is too short between its neighbours.

        Source: definition.
        """
        walls = tuple(self._wall(i) for i in range(len(self.plan)))
        return (*walls, self._end(top=False), self._end(top=True))

    def _wall(self, wall: int) -> Panel:
        count = len(self.plan)
        outer = self.plane(wall)
        low = Plane(normal=(0, 0, -1), distance=-self.ends)
        high = Plane(normal=(0, 0, 1), distance=self.height - self.ends)
        start, end = self._side(wall, wall), self._side(wall, (wall + 1) % count)
        ex, ey = self.plan.direction(wall)
        v = np.cross(outer.normal, (ex, ey, 0.0))
        foot = meeting(outer, low, start)
        frame = Frame(origin=_vector(foot), u=(ex, ey, 0.0), v=_vector(v))
        around = (low, end, high, start)
        names = ("bottom", self.plan.names[(wall + 1) % count], "top", self.plan.names[wall - 1])
        seams = []
        for i, mate in enumerate(names):
            if i % 2 == 0:
                seams.append(Seam(mate=mate, joint="butt", runs_through=False))
                continue
            other = (wall + 1 if i == 1 else wall - 1) % count
            through = self.corner == "butt" and self._through(wall, other)
            seams.append(Seam(mate=mate, joint=self.corner, runs_through=through))
        faces = [
            tuple(_flat(frame, meeting(plane, around[i - 1], around[i])) for i in range(4))
            for plane in (outer, outer.moved(self.walls[wall]))
        ]
        # Corner i lies between side i − 1 and side i: the outline begins at start and low.
        return Panel(
            name=self.plan.names[wall],
            outside=faces[0],
            inside=faces[1],
            thickness=self.walls[wall],
            frame=frame,
            seams=tuple(seams),
            grain=self.grain,
            density=self.density,
        )

    def _through(self, wall: int, other: int) -> bool:
        """Every second wall runs through; where an odd number ends, the first of the two."""
        if wall % 2 != other % 2:
            return wall % 2 == 0
        return wall < other

    def _side(self, wall: int, corner: int) -> Plane:
        """The plane a wall is cut along at a corner; its normal points away from the wall."""
        count = len(self.plan)
        other = (corner - 1) % count if corner == wall else corner
        mine, theirs = self.plane(wall), self.plane(other)
        if self.corner == "butt":
            convex = self.plan.interior_angle(corner) < math.pi
            outside = self._through(wall, other) == convex
            return theirs if outside else theirs.moved(self.walls[other])
        # The mitre holds the outer and the inner line where both walls meet.
        level = Plane(normal=(0, 0, 1), distance=0.0)
        above = Plane(normal=(0, 0, 1), distance=self.height)
        a, b = meeting(mine, theirs, level), meeting(mine, theirs, above)
        inner = meeting(mine.moved(self.walls[wall]), theirs.moved(self.walls[other]), level)
        normal = np.cross(b - a, inner - a)
        normal /= np.linalg.norm(normal)
        ex, ey = self.plan.direction(wall)
        away = -1.0 if corner == wall else 1.0
        if (normal[0] * ex + normal[1] * ey) * away < 0:
            normal = -normal
        return Plane(normal=_vector(normal), distance=float(normal @ a))

    def _end(self, *, top: bool) -> Panel:
        t, z = self.ends, self.height if top else 0.0
        inner = self.section(z - t if top else t).points
        outer = self.section(z).points
        names = list(self.plan.names)
        if top:
            frame = Frame(origin=(0, 0, z), u=(1, 0, 0), v=(0, 1, 0))
        else:  # seen from below, left and right change places
            frame = Frame(origin=(0, 0, 0), u=(-1, 0, 0), v=(0, 1, 0))
            outer, inner = (tuple((-x, y) for x, y in p[::-1]) for p in (outer, inner))
            names = [*names[-2::-1], names[-1]]
        return Panel(
            name="top" if top else "bottom",
            outside=outer,
            inside=inner,
            thickness=t,
            frame=frame,
            seams=tuple(Seam(mate=name) for name in names),
            grain=self.grain,
            density=self.density,
        )


def _vector(values: Array) -> Vector:
    x, y, z = (float(v) for v in values)
    return x, y, z


def _flat(frame: Frame, point: Array) -> Point:
    """A point on a face in the coordinates of the face."""
    step = point - np.asarray(frame.origin)
    return float(step @ np.asarray(frame.u)), float(step @ np.asarray(frame.v))


def four_sided_taper(
    *,
    bottom: tuple[float, float],
    top: tuple[float, float],
    height: float,
    thickness: float,
    shift: tuple[float, float] = (0.0, 0.0),
    corner: Literal["mitre", "butt"] = "mitre",
) -> Taper:
    """Return a box with a rectangular bottom, a rectangular top, and four leaning walls.

    Args:
        bottom: outer depth and width of the bottom [m].
        top: outer depth and width of the top [m].
        height: outer height [m].
        thickness: measured thickness of every panel [m].
        shift: how far the middle of the top lies to the rear and to the right of the bottom's
            [m].
        corner: how walls meet: mitre or butt.

    Returns: box with walls left, rear, right, front

    Raises:
        ProfileError: when a dimension is not above 0 m.
        NoInsideError: when the wood leaves no inside.

    Source: definition.
    """
    (d0, w0), (d1, w1), (sx, sy) = bottom, top, shift
    for what, value in (("depth", d0), ("width", w0), ("depth at the top", d1)):
        positive(what, value)
    positive("width at the top", w1)
    positive("height", height)
    plan = Profile(
        points=((0.0, 0.0), (d0, 0.0), (d0, w0), (0.0, w0)),
        names=("left", "rear", "right", "front"),
    )
    inward = (
        (w0 - w1) / 2 + sy,
        (d0 - d1) / 2 - sx,
        (w0 - w1) / 2 - sy,
        (d0 - d1) / 2 + sx,
    )
    leans = tuple(math.atan2(i, height) for i in inward)
    return Taper(plan=plan, height=height, leans=leans, thickness=thickness, corner=corner)
