"""The room a part takes inside a box, as a few convex solids, and how far two of them are apart."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import nnls
from shapely.geometry import MultiPoint
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry.base import BaseGeometry

from acoustics.carcass.shape.contents import Part, PortBody
from acoustics.carcass.shape.faces import Face

Array = NDArray[np.float64]

# Corners that stand for a circle; they lie outside it, so a gap comes out up to 0.2 % of the
# radius too small, which is the safe side.
RING = 48
# Weight that holds the shares of a hull to a sum of one; the gap is in metres, so 1e3 is plenty.
HOLD = 1e3


@dataclass(frozen=True, kw_only=True, eq=False)
class Solid:
    """A frustum, a cylinder or a rectangular duct between two parallel ends.

    Attributes:
        start: centre of one end (x, y, z) [m].
        end: centre of the other end (x, y, z) [m].
        across: two unit vectors square to the axis and to each other [-].
        half_start: half extents of the first end along them; equal when round [m].
        half_end: half extents of the other end along them [m].
        is_round: whether the ends are circles.
    """

    start: Array
    end: Array
    across: tuple[Array, Array]
    half_start: tuple[float, float]
    half_end: tuple[float, float]
    is_round: bool

    @cached_property
    def hull(self) -> Array:
        """Points whose convex hull contains the solid.

        Returns: rows (x, y, z) [m]
        """
        if self.is_round:
            angle = 2 * math.pi * np.arange(RING) / RING
            ring = np.column_stack((np.cos(angle), np.sin(angle))) / math.cos(math.pi / RING)
        else:
            ring = np.array([(1, 1), (-1, 1), (-1, -1), (1, -1)], dtype=float)
        axes = np.stack(self.across)
        ends = (
            (self.start, np.asarray(self.half_start)),
            (self.end, np.asarray(self.half_end)),
        )
        return np.vstack([centre + (ring * half) @ axes for centre, half in ends])

    @cached_property
    def side_view(self) -> tuple[BaseGeometry, float]:
        """The solid seen along the width: a figure, and a radius by which it is fatter.

        A round solid square to the width shows its true outline, one along the width a circle.

        Returns: figure with coordinates in [m], and radius [m]
        """
        axis = self.end - self.start
        if not self.is_round:
            return MultiPoint(self.hull[:, :2]).convex_hull, 0.0
        if np.hypot(axis[0], axis[1]) < 1e-9 * np.linalg.norm(axis):
            radius = max(*self.half_start, *self.half_end)
            return ShapelyPoint(self.start[:2]), radius
        flat = np.array([-axis[1], axis[0]]) / np.hypot(axis[0], axis[1])
        corners = [
            centre[:2] + sign * half[0] * flat
            for centre, half in ((self.start, self.half_start), (self.end, self.half_end))
            for sign in (1, -1)
        ]
        return MultiPoint(corners).convex_hull, 0.0

    def farthest(self, way: Array) -> float:
        """Return how far the solid reaches along a direction.

        Args:
            way: unit vector [-].

        Returns: greatest way · point of the solid [m]

        Source: definition (support function of a disc and of a rectangle).
        """
        ends = []
        for centre, half in ((self.start, self.half_start), (self.end, self.half_end)):
            reach = [h * abs(float(way @ a)) for h, a in zip(half, self.across, strict=True)]
            ends.append(float(way @ centre) + (math.hypot(*reach) if self.is_round else sum(reach)))
        return max(ends)

    def span(self, axis: int) -> tuple[float, float]:
        """Return where the solid begins and ends along an axis of the box.

        Args:
            axis: 0 front to rear, 1 up, 2 across [-].

        Returns: least and greatest coordinate [m]
        """
        way = np.eye(3)[axis]
        return -self.farthest(-way), self.farthest(way)


def gap(solid: Solid, other: Solid) -> float:
    """Return the distance between two convex solids, 0 when they touch or overlap.

    The nearest points are the non-negative least-squares solution for the shares of the
    corners of both hulls.

    Args:
        solid: one solid.
        other: the other.

    Returns: distance, up to 0.2 % of a radius on the small side [m]

    Source: C. L. Lawson and R. J. Hanson, "Solving Least Squares Problems" (1974), ch. 23,
        from memory.
    """
    a, b = solid.hull, other.hull
    middle = (a.mean(axis=0) + b.mean(axis=0)) / 2
    a, b = a - middle, b - middle
    matrix = np.zeros((5, len(a) + len(b)))
    matrix[:3, : len(a)], matrix[:3, len(a) :] = a.T, -b.T
    matrix[3, : len(a)] = HOLD
    matrix[4, len(a) :] = HOLD
    shares, _ = nnls(matrix, np.array([0.0, 0.0, 0.0, HOLD, HOLD]))
    first, second = shares[: len(a)], shares[len(a) :]
    distance = float(np.linalg.norm(first @ a / first.sum() - second @ b / second.sum()))
    return 0.0 if distance < 1e-6 else distance


def solids_of(part: Part, face: Face, u: float, v: float) -> tuple[Solid, ...]:
    """Return the solids a part takes inside the box; what lies in the panel is left out.

    Args:
        part: the part.
        face: the face it sits on.
        u: where on the face [m].
        v: where on the face [m].

    Returns: solids, from the face inwards

    Source: definition.
    """
    axes = {
        "u": np.asarray(face.frame.u, dtype=float),
        "v": np.asarray(face.frame.v, dtype=float),
        "n": -face.frame.normal,
    }
    surface = face.frame.place(((u, v),), -face.outer)[0]
    if isinstance(part, PortBody):
        return _port(part, surface, axes, face.thickness)
    across = (axes["u"], axes["v"])
    solids = []
    for (d0, r0), (d1, r1) in zip(part.stations, part.stations[1:], strict=False):
        if d1 <= face.thickness:
            continue
        if d0 < face.thickness:
            r0 += (r1 - r0) * (face.thickness - d0) / (d1 - d0)
            d0 = face.thickness
        solids.append(
            Solid(
                start=surface + d0 * axes["n"],
                end=surface + d1 * axes["n"],
                across=across,
                half_start=(r0, r0),
                half_end=(r1, r1),
                is_round=True,
            )
        )
    return tuple(solids)


def _port(
    part: PortBody, surface: Array, axes: dict[str, Array], thickness: float
) -> tuple[Solid, ...]:
    """The legs of a port; at an elbow each runs on to the outer corner."""
    half_width, half_height = part.outer_half
    # What lies square to each heading, and how far the duct reaches there.
    sections = {
        "n": (("u", half_width), ("v", half_height)),
        "v": (("u", half_width), ("n", half_height)),
        "u": (("v", half_height), ("n", half_width)),
    }
    solids = []
    point = surface
    for i, leg in enumerate(part.legs):
        letter = leg.heading[-1]  # "in" ends in n
        way = axes[letter] * (-1.0 if leg.heading[0] == "-" else 1.0)
        section = sections[letter]
        before = after = 0.0
        if i:
            before = dict(sections[letter])[part.legs[i - 1].heading[-1]]
        if i + 1 < len(part.legs):
            after = dict(section)[part.legs[i + 1].heading[-1]]
        start = point + way * (thickness if i == 0 else -before)
        point = point + way * leg.length
        half = (section[0][1], section[1][1])
        if i or leg.length + after > thickness:
            solids.append(
                Solid(
                    start=start,
                    end=point + way * after,
                    across=(axes[section[0][0]], axes[section[1][0]]),
                    half_start=half,
                    half_end=half,
                    is_round=part.height is None,
                )
            )
    return tuple(solids)
