"""Panels as planes, and the corners where three of them meet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from acoustics.carcass.shape.errors import ProfileError
from acoustics.carcass.shape.panel import Frame, Vector
from acoustics.carcass.shape.profile import Point

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Plane:
    """A plane n · x = d; n points out of the box.

    Attributes:
        normal: unit vector [-].
        distance: distance of the plane from the origin, along the normal [m].
    """

    normal: Vector
    distance: float

    def moved(self, depth: float) -> Plane:
        """Return the plane moved into the box.

        Args:
            depth: how far [m].

        Returns: plane
        """
        return Plane(normal=self.normal, distance=self.distance - depth)


def vector(values: Array) -> Vector:
    """Return three numbers as a tuple.

    Args:
        values: three numbers [m or -].

    Returns: the same [m or -]

    Source: definition.
    """
    x, y, z = (float(v) for v in values)
    return x, y, z


def meeting(first: Plane, second: Plane, third: Plane) -> Array:
    """Return the point where three planes meet.

    Args:
        first: a plane.
        second: another.
        third: a third.

    Returns: point (x, y, z) [m]

    Raises:
        ProfileError: when they do not meet in one point.

    Source: definition (three linear equations).
    """
    planes = (first, second, third)
    matrix = np.array([p.normal for p in planes])
    if abs(np.linalg.det(matrix)) < 1e-9:
        raise ProfileError(code="panels-meet-in-no-corner")
    return np.linalg.solve(matrix, np.array([p.distance for p in planes]))


def corners(plane: Plane, around: Sequence[Plane]) -> Array:
    """Return the corners of a side: corner i lies between neighbour i - 1 and neighbour i.

    Args:
        plane: the plane of the side.
        around: the planes that end it, counter-clockwise seen from outside.

    Returns: one row (x, y, z) per corner [m]

    Raises:
        ProfileError: when neighbours do not meet in one point.

    Source: definition.
    """
    return np.array([meeting(plane, around[i - 1], side) for i, side in enumerate(around)])


def moved(planes: Mapping[str, Plane], depths: Mapping[str, float]) -> dict[str, Plane]:
    """Return planes, each moved into the box by its own depth.

    Args:
        planes: planes by name.
        depths: how far each is moved [m].

    Returns: planes by name

    Source: definition.
    """
    return {name: plane.moved(depths[name]) for name, plane in planes.items()}


def flat(frame: Frame, points: Array) -> tuple[Point, ...]:
    """Return points of the box in the coordinates of a face, their depth left out.

    Args:
        frame: frame of the face.
        points: rows (x, y, z) [m].

    Returns: points (u, v) [m]

    Source: definition.
    """
    steps = np.atleast_2d(points) - np.asarray(frame.origin)
    axes = np.stack((frame.u, frame.v), axis=1)
    return tuple((float(u), float(v)) for u, v in steps @ axes)
