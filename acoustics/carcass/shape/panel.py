"""One panel of wood: two parallel faces, and every edge cut straight between them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from acoustics.carcass.shape.errors import CarcassError, NoInsideError, metres
from acoustics.carcass.shape.outline import Figure
from acoustics.carcass.shape.profile import Point
from acoustics.errors import Id

Vector = tuple[float, float, float]
Grain = Literal["across", "up", "none"]


@dataclass(frozen=True, kw_only=True)
class Frame:
    """Where a face lies in the box: an origin and two axes on its outer surface.

    Seen from outside, u runs to the right and v up; u × v points out of the box.

    Attributes:
        origin: the point u = v = 0 [m].
        u: unit vector of u [-].
        v: unit vector of v [-].
    """

    origin: Vector
    u: Vector
    v: Vector

    @property
    def normal(self) -> NDArray[np.float64]:
        """The unit vector that points out of the box [-]."""
        return np.cross(self.u, self.v)

    def place(self, points: tuple[Point, ...], depth: float = 0.0) -> NDArray[np.float64]:
        """Turn points (u, v) at a depth below the surface into points of the box.

        Args:
            points: points on the face (u, v) [m].
            depth: how far below the outer surface [m].

        Returns:
            One row (x, y, z) per point [m].
        """
        uv = np.asarray(points, dtype=float).reshape(-1, 2)
        start = np.asarray(self.origin) - depth * self.normal
        placed: NDArray[np.float64] = start + uv[:, :1] * self.u + uv[:, 1:] * self.v
        return placed


@dataclass(frozen=True, kw_only=True)
class Rebate:
    """A step cut along an edge to take the end of another panel.

    Attributes:
        width: from the edge inwards along the face [m].
        depth: into the wood [m].
        face: face it is cut in: inside or outside.
    """

    width: float
    depth: float
    face: Literal["inside", "outside"]


@dataclass(frozen=True, kw_only=True)
class EdgeCut:
    """How one edge of a panel is cut.

    Attributes:
        mate: name of the panel it meets.
        joint: butt, mitre, rebate, or "free" where it meets none.
        runs_through: whether this panel hides the other's end.
        length: length of the cut along its longer face [m].
        bevel: tilt of the saw from square [rad].
        slant: how far the edge runs off the panel's own u or v, whichever is nearer; with a
            bevel it is the mitre gauge of a compound cut [rad].
        longer_face: which face comes out longer: outside, inside or equal.
        rebate: rebate cut along this edge, or None.
    """

    mate: str
    joint: str
    runs_through: bool
    length: float
    bevel: float
    slant: float
    longer_face: Literal["outside", "inside", "equal"]
    rebate: Rebate | None = None


@dataclass(frozen=True, kw_only=True)
class Seam:
    """What an edge of a panel meets, before it is known how it is cut.

    Attributes:
        mate: name of the panel it meets.
        joint: butt, mitre, rebate, or "free" where it meets none.
        runs_through: whether this panel hides the other's end.
        rebate: rebate cut along this edge, or None.
    """

    mate: str
    joint: str = "butt"
    runs_through: bool = True
    rebate: Rebate | None = None


@dataclass(frozen=True, kw_only=True)
class Panel:
    """A panel as it comes off the saw.

    The wood lies between two outlines with the same corners; corresponding corners are joined
    straight, so volume is thickness · (A_out + 4 A_mid + A_in) / 6 less its rebates.

    Attributes:
        name: what the panel is called.
        outside: outline of the outer face, counter-clockwise from outside (u, v) [m].
        inside: outline of the inner face, corner for corner [m].
        thickness: measured thickness [m].
        frame: where the face lies in the box.
        seams: what each edge meets, in the order of the outline.
        grain: along u, along v, or none to keep.
        rebated: volume taken out by rebates [m³].
        density: density of the sheet, or None when not known [kg/m³].
        holes: holes through it (u, v) [m].

    Raises:
        NoInsideError: when a face of the panel vanishes or turns over.

    Source: prismatoid formula, from memory of any solid geometry text.
    """

    name: str
    outside: tuple[Point, ...]
    inside: tuple[Point, ...]
    thickness: float
    frame: Frame
    seams: tuple[Seam, ...]
    grain: Grain = "none"
    rebated: float = 0.0
    density: float | None = None
    holes: tuple[Figure, ...] = ()

    def __post_init__(self) -> None:
        for polygon in self._polygons:
            if not (polygon.is_valid and polygon.exterior.is_ccw and polygon.area > 0):
                raise NoInsideError(
                    code="panel-too-short", name=Id(self.name), thickness=metres(self.thickness)
                )

    @cached_property
    def _polygons(self) -> tuple[Polygon, Polygon]:
        return Polygon(self.outside), Polygon(self.inside)

    @cached_property
    def _outlines(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        return np.asarray(self.outside), np.asarray(self.inside)

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """The finished rectangle around both faces: u least, v least, u most, v most [m]."""
        both = np.vstack(self._outlines)
        (u0, v0), (u1, v1) = both.min(axis=0), both.max(axis=0)
        return float(u0), float(v0), float(u1), float(v1)

    @property
    def size(self) -> tuple[float, float]:
        """The finished size along u and along v, long point to long point [m]."""
        u0, v0, u1, v1 = self.bounds
        return u1 - u0, v1 - v0

    @property
    def area(self) -> float:
        """The area of the larger face [m²]."""
        return float(max(face.area for face in self._polygons))

    @cached_property
    def volume(self) -> float:
        """The volume of its wood, holes not taken off [m³]."""
        out, inn = self._outlines
        middle = Polygon((out + inn) / 2).area
        ends = sum(face.area for face in self._polygons)
        return float(self.thickness * (ends + 4 * middle) / 6 - self.rebated)

    @property
    def mass(self) -> float:
        """The mass of its wood, holes taken off [kg]."""
        if self.density is None:
            raise CarcassError(code="panel-mass-unknown", name=Id(self.name))
        holes = sum(h.area for h in self.holes) * self.thickness
        return (self.volume - holes) * self.density

    @cached_property
    def cuts(self) -> tuple[EdgeCut, ...]:
        """How each edge is cut, in the order of the outline."""
        out, inn = self._outlines
        cuts = []
        for i, seam in enumerate(self.seams):
            j = (i + 1) % len(out)
            along = (out[j] - out[i]) / math.dist(out[j], out[i])
            outward = np.array([along[1], -along[0]])
            overhang = float((out[i] - inn[i]) @ outward)
            if abs(overhang) < 1e-9:
                overhang = 0.0
            slant = abs(
                (math.atan2(along[1], along[0]) + math.pi / 4) % (math.pi / 2) - math.pi / 4
            )
            cuts.append(
                EdgeCut(
                    mate=seam.mate,
                    joint=seam.joint,
                    runs_through=seam.runs_through,
                    length=max(math.dist(out[i], out[j]), math.dist(inn[i], inn[j])),
                    bevel=math.atan2(abs(overhang), self.thickness),
                    slant=slant if slant > 1e-9 else 0.0,
                    longer_face="outside" if overhang > 0 else "inside" if overhang else "equal",
                    rebate=seam.rebate,
                )
            )
        return tuple(cuts)

    def corners(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return the corners of both faces in the box.

        Returns:
            Rows (x, y, z) of the outer face and of the inner face, corner for corner [m].
        """
        return (
            self.frame.place(self.outside),
            self.frame.place(self.inside, self.thickness),
        )
