"""A box whose walls all lean, from its outside measures to its bare wood."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

from acoustics.carcass.braces import CrossBrace, Layer
from acoustics.carcass.errors import JointError, PlacementError
from acoustics.carcass.outline import Loop
from acoustics.carcass.taper import NAMES, Taper, four_sided_taper
from jobs.models import Box

__all__ = ["NAMES", "Taper", "tapered"]

CORNERS: dict[str, Literal["mitre", "butt"] | None] = {
    Box.Corner.USUAL: None,
    Box.Corner.BUTT: "butt",
    Box.Corner.MITRE: "mitre",
}


def tapered(box: Box, wood: Mapping[str, float], layers: tuple[Layer, ...]) -> Taper | None:
    """Return the box with nothing in its faces, or None while a measure is missing."""
    assert box.material is not None
    depth, width, height = box.depth, box.width, box.height
    top_depth, top_width = box.top_depth, box.top_width
    if depth is None or width is None or height is None or top_depth is None or top_width is None:
        return None
    if box.corner_joint not in CORNERS:
        message = "walls that all lean meet in a mitre or a butt joint; a rebate needs square walls"
        raise JointError(message)
    if box.inner_braces:
        message = (
            "shelves, uprights, plates and struts are entered for a box drawn across its width;"
            " where all walls lean, level braces are counted"
        )
        raise PlacementError(message)
    standing = box.runs_through == Box.Through.STANDING
    bare = four_sided_taper(
        bottom=(depth, width),
        top=(top_depth, top_width),
        height=height,
        thickness=wood,
        shift=(box.top_to_rear or 0.0, box.top_to_right or 0.0),
        corner=CORNERS[box.corner_joint],
        through="front and rear" if standing else "sides",
        layers=layers,
        density=box.material.density,
        grain=box.grain if box.material.grained else "none",  # type: ignore[arg-type]
    )
    return replace(bare, braces=_plates(box, bare, box.material.thickness))


def _plates(box: Box, bare: Taper, thickness: float) -> tuple[CrossBrace, ...]:
    """Space level plates unevenly, so that no two fields of a wall ring alike."""
    low, high = bare.air_levels
    count = box.brace_count
    # 0.46 of the field instead of the half: neighbouring fields differ in size.
    levels = [
        low + (high - low) * (number - 0.04) / (count + 1) - thickness / 2
        for number in range(1, count + 1)
    ]
    return tuple(
        CrossBrace(
            name=f"brace {number}",
            at=level,
            thickness=thickness,
            windows=_window(bare, level, thickness, box.brace_opening),
        )
        for number, level in enumerate(levels, start=1)
    )


def _window(bare: Taper, level: float, thickness: float, share: float) -> tuple[Loop, ...]:
    """What both faces of a plate have in common, drawn smaller; none when nothing is open."""
    scale = math.sqrt(max(share, 0.0))
    if not 0 < scale < 1:
        return ()
    common = bare.air_plan(level).intersection(bare.air_plan(level + thickness))
    centre = common.centroid
    points = tuple(
        (centre.x + scale * (x - centre.x), centre.y + scale * (y - centre.y))
        for x, y in common.exterior.coords[:-1]
    )
    return (Loop(points=points),)
