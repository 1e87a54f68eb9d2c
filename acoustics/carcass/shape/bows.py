"""Outlines with arcs in them, as straight lines that stay on the safe side."""

from __future__ import annotations

import math
from collections.abc import Sequence

from acoustics.carcass.shape.profile import Point

# A corner across and up, and perhaps how far the edge after it bows outwards [m].
Bowed = Sequence[float]


def straightened(
    corners: Sequence[Bowed], *, within: bool, deviation: float = 1e-3, most: int = 8
) -> tuple[Point, ...]:
    """Return a closed outline whose arcs are replaced by straight lines.

    An edge of length c that bows by b is an arc of radius (c² / 4 + b²) / 2|b| over the angle
    4 · atan(2|b| / c). `within` keeps the lines inside the outline: chords where it bows outwards,
    tangents where it bows inwards; without it every line is a chord.

    Args:
        corners: across and up, and perhaps the bow of the edge after it, outwards above zero [m].
        within: whether nothing may lie outside the outline.
        deviation: how far a line may lie off its arc [m].
        most: lines of one arc at most [-].

    Returns: corners in the order given [m]

    Valid: arcs up to half a circle, |b| ≤ c / 2.

    Source: definition (segment of a circle).
    """
    outwards = math.copysign(1.0, _twice_area(corners))
    points: list[Point] = []
    for here, there in zip(corners, [*corners[1:], *corners[:1]], strict=True):
        points.append((here[0], here[1]))
        bow = here[2] if len(here) > 2 else 0.0
        if bow:
            points += arc_between(
                here, there, bow, outwards, within=within, deviation=deviation, most=most
            )
    return tuple(points)


def _twice_area(corners: Sequence[Bowed]) -> float:
    return sum(
        here[0] * there[1] - there[0] * here[1]
        for here, there in zip(corners, [*corners[1:], *corners[:1]], strict=True)
    )


def arc_between(
    here: Bowed,
    there: Bowed,
    bow: float,
    outwards: float,
    *,
    within: bool = False,
    deviation: float = 1e-3,
    most: int = 8,
) -> list[Point]:
    """Return the points between the two ends of an arc, as `straightened` lays them.

    Args:
        here: where the arc begins [m].
        there: where it ends [m].
        bow: how far its middle lies off the chord, outwards above zero [m].
        outwards: 1 where the outline runs counter-clockwise, -1 where it runs clockwise [-].
        within: whether nothing may lie outside the outline.
        deviation: how far a line may lie off the arc [m].
        most: lines at most [-].

    Returns: points, without the ends [m]

    Source: definition (segment of a circle).
    """
    across, up = there[0] - here[0], there[1] - here[1]
    chord = math.hypot(across, up)
    if chord == 0.0:
        return []
    radius = (chord**2 / 4 + bow**2) / (2 * abs(bow))
    half = 2 * math.atan(2 * abs(bow) / chord)
    along = (across / chord, up / chord)
    side = math.copysign(outwards, bow * outwards)
    apex = (along[1] * side, -along[0] * side)
    middle = ((here[0] + there[0]) / 2, (here[1] + there[1]) / 2)
    centre = tuple(middle[n] + apex[n] * (abs(bow) - radius) for n in (0, 1))
    step = math.acos(max(1 - deviation / radius, -1.0))
    lines = min(max(math.ceil(half / step), 2), most)
    if within and bow < 0:
        angles = [(2 * n + 1) * half / lines - half for n in range(lines)]
        radius /= math.cos(half / lines)
    else:
        angles = [2 * n * half / lines - half for n in range(1, lines)]
    return [
        (
            centre[0] + radius * (math.cos(a) * apex[0] + math.sin(a) * along[0]),
            centre[1] + radius * (math.cos(a) * apex[1] + math.sin(a) * along[1]),
        )
        for a in angles
    ]
