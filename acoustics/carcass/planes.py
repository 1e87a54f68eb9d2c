"""Panels as planes, and the corners where three of them meet."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from acoustics.carcass.errors import ProfileError
from acoustics.carcass.panel import Vector

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Plane:
    """A plane n · x = d; n points out of the box.

    Attributes:
        normal: unit vector [-].
        distance: distance of the plane from the origin, along the normal [m].

    Source: definition.
    """

    normal: Vector
    distance: float

    def moved(self, depth: float) -> Plane:
        """Return the plane moved into the box.

        Args:
            depth: how far [m].

        Returns: plane

        Source: definition.
        """
        return Plane(normal=self.normal, distance=self.distance - depth)


def meeting(one: Plane, two: Plane, three: Plane) -> Array:
    """Return the point where three planes meet.

    Args:
        one: a plane.
        two: another.
        three: a third.

    Returns: point (x, y, z) [m]

    Raises:
        ProfileError: when they do not meet in one point.

    Source: definition (three linear equations).
    """
    planes = (one, two, three)
    matrix = np.array([p.normal for p in planes])
    if abs(np.linalg.det(matrix)) < 1e-9:
        message = "three panels do not meet in one corner"
        raise ProfileError(message)
    return np.linalg.solve(matrix, np.array([p.distance for p in planes]))
