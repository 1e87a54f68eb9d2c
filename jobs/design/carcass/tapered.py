"""Boxes whose walls may all lean, from their outside measures to their bare wood."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

from acoustics.carcass.shape.braces import Layer
from acoustics.carcass.shape.bracing import spaced_plates
from acoustics.carcass.shape.errors import JointError, PlacementError
from acoustics.carcass.shape.four_sided import four_sided_taper
from acoustics.carcass.shape.leaning import Leaning, usual_corner
from acoustics.carcass.shape.panel import Grain
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.taper import Taper
from jobs.design.carcass.braces import is_parted
from jobs.models import Box, BoxCorner

CORNERS: dict[str, Literal["mitre", "butt"] | None] = {
    Box.Corner.USUAL: None,
    Box.Corner.BUTT: "butt",
    Box.Corner.MITRE: "mitre",
}


def walls_of(box: Box) -> tuple[str, ...] | None:
    """Name the walls of a box over a plan of its own; None while it has no plan."""
    return tuple(name for name, _at, _lean in _walls(box)) if box.plan else None


def _walls(box: Box) -> list[tuple[str, tuple[float, float], float]]:
    """Name, first corner and lean of each wall, counter-clockwise however a tape went round it."""
    rows = [BoxCorner.read(plain) for plain in box.plan or ()]
    walls = [(f"side {n}", (row.x, row.y), row.lean) for n, row in enumerate(rows, start=1)]
    ends = zip(rows, [*rows[1:], *rows[:1]], strict=True)
    if sum(here.x * there.y - there.x * here.y for here, there in ends) >= 0:
        return walls
    # Run the other way a wall begins where it ended.
    corners = [at for _name, at, _lean in walls]
    after = zip(walls, [*corners[1:], *corners[:1]], strict=True)
    return [(name, at, lean) for (name, _at, lean), at in after][::-1]


def planned(box: Box, wood: Mapping[str, float], layers: tuple[Layer, ...]) -> Taper | None:
    """Return a box over a plan of its own with nothing in its faces; None without a height."""
    if box.height is None:
        return None
    walls = _walls(box)
    leaning = Leaning(
        plan=Profile(points=tuple(at for _n, at, _l in walls), names=tuple(n for n, *_ in walls)),
        height=box.height,
        leans=tuple(lean for _name, _at, lean in walls),
    )
    _check(box)
    bare = Taper(
        plan=leaning.plan,
        height=leaning.height,
        leans=leaning.leans,
        thickness=tuple(wood[name] for name in leaning.plan.names),
        end_thickness=(wood["bottom"], wood["top"]),
        corner=CORNERS[box.corner_joint] or usual_corner(leaning),
        layers=layers,
        density=box.material.density if box.material else None,
        grain=_grain(box),
    )
    return _braced(box, bare)


def _check(box: Box) -> None:
    """Refuse what no box of leaning walls has."""
    if box.corner_joint not in CORNERS:
        raise JointError(code="rebate-where-walls-lean")
    if box.inner_braces or is_parted(box):
        raise PlacementError(code="braces-where-walls-lean")


def _grain(box: Box) -> Grain:
    grained = box.material is not None and box.material.grained
    return box.grain if grained else "none"  # type: ignore[return-value]


def _braced(box: Box, bare: Taper) -> Taper:
    assert box.material is not None
    plates = spaced_plates(
        bare, box.brace_count, opening=box.brace_opening, thickness=box.material.thickness
    )
    return replace(bare, braces=plates)


def tapered(box: Box, wood: Mapping[str, float], layers: tuple[Layer, ...]) -> Taper | None:
    """Return the box with nothing in its faces, or None while a measure is missing."""
    assert box.material is not None
    depth, width, height = box.depth, box.width, box.height
    top_depth, top_width = box.top_depth, box.top_width
    if depth is None or width is None or height is None or top_depth is None or top_width is None:
        return None
    _check(box)
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
        grain=_grain(box),
    )
    return _braced(box, bare)
