"""Where the boards inside a box stand on its panels: the strips a hand draws before it glues."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from shapely.geometry import MultiPoint, Polygon
from shapely.geometry.polygon import orient

from acoustics.carcass.shape.panel import Panel
from acoustics.carcass.shape.profile import Point

# What is nearer to a face than this lies on it [m].
ON_IT = 1e-6
# Less than this is an edge or a corner that touches, no strip [m²].
LEAST = 1e-7


@dataclass(frozen=True, kw_only=True)
class Strip:
    """Where a board stands on a panel.

    Attributes:
        board: name of the board.
        face: face of the panel it stands on.
        outline: the strip in the coordinates of the panel, counter-clockwise (u, v) [m].

    Source: definition.
    """

    board: str
    face: Literal["inside", "outside"]
    outline: tuple[Point, ...]


def standing_on(panels: Sequence[Panel], boards: Collection[str]) -> dict[str, tuple[Strip, ...]]:
    """Return where each board stands, by the panel it stands on.

    Args:
        panels: every panel of a box.
        boards: names of those that stand inside, which may stand on each other.

    Returns: strips by the name of the panel

    Source: definition.
    """
    inner = [panel for panel in panels if panel.name in boards]
    return {
        host.name: tuple(
            strip
            for board in inner
            if board is not host
            for strip in _strips(host, board, both=host.name in boards)
        )
        for host in panels
    }


def _strips(host: Panel, board: Panel, *, both: bool) -> Iterator[Strip]:
    """What of a board lies in a face of its host: a wall has the inner one, a board two."""
    corners = np.vstack(board.corners())
    frame = host.frame
    off = corners - np.asarray(frame.origin)
    depth = -(off @ frame.normal)
    at = np.column_stack([off @ np.asarray(frame.u), off @ np.asarray(frame.v)])
    faces: list[tuple[Literal["inside", "outside"], float, tuple[Point, ...]]] = [
        ("inside", host.thickness, host.inside)
    ]
    if both:
        faces.append(("outside", 0.0, host.outside))
    for face, level, outline in faces:
        touching = at[np.abs(depth - level) < ON_IT]
        if len(touching) < 3:
            continue
        strip = MultiPoint(touching).convex_hull.intersection(Polygon(outline))
        if isinstance(strip, Polygon) and strip.area > LEAST:
            ring = orient(strip.simplify(ON_IT)).exterior.coords[:-1]
            yield Strip(
                board=board.name, face=face, outline=tuple((float(u), float(v)) for u, v in ring)
            )
