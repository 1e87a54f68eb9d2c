"""A box whose walls all lean, from its outside measures to its bare wood."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

from acoustics.carcass.shape.braces import Layer
from acoustics.carcass.shape.bracing import spaced_plates
from acoustics.carcass.shape.errors import JointError, PlacementError
from acoustics.carcass.shape.four_sided import four_sided_taper
from acoustics.carcass.shape.taper import Taper
from jobs.design.carcass.braces import is_parted
from jobs.models import Box

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
        raise JointError(code="rebate-where-walls-lean")
    if box.inner_braces or is_parted(box):
        raise PlacementError(code="braces-where-walls-lean")
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
    plates = spaced_plates(
        bare, box.brace_count, opening=box.brace_opening, thickness=box.material.thickness
    )
    return replace(bare, braces=plates)
