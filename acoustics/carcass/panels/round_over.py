"""Outer edges rounded over: how far a radius may go, and what it takes of flat face and cover."""

from __future__ import annotations

import math
from collections.abc import Iterator

from acoustics.carcass.shape.profile import positive
from acoustics.findings import Finding
from acoustics.names import Name

# Less than this lies on a line [m].
TOUCH = 1e-6


def check_round_over(radius: float, *, board: float, flat: float | None) -> Iterator[Finding]:
    """Find a round-over that is bigger than a board, or that runs into what sits in the face.

    Args:
        radius: radius of the rounded edge [m].
        board: thickness of the thinnest board at the edge [m].
        flat: from the edge to the nearest recess, flange or opening, None where there is none [m].

    Yields: one finding at most

    Raises:
        ProfileError: when the radius is not greater than 0 m.

    Source: definition; a bit deeper than its board cuts through the joint behind it.
    """
    positive(Name.RADIUS, radius)
    if radius > board + TOUCH:
        yield Finding(code="round-over-beyond-board", value=radius, limit=board, unit="m")
    elif flat is not None and flat < radius - TOUCH:
        yield Finding(code="round-over-meets-part", value=flat, limit=radius, unit="m")


def saved_cover(radius: float) -> float:
    """Return how much shorter a cover is that runs over two rounded edges instead of sharp ones.

    Each corner of 2 r becomes a quarter circle of π r / 2: (4 − π) r for both.

    Args:
        radius: radius of both edges [m].

    Returns: length [m]

    Source: definition.
    """
    return (4 - math.pi) * radius
