"""A box with four leaning walls, from the measures of its bottom and its top."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Literal

from acoustics.carcass.shape.braces import Layer
from acoustics.carcass.shape.leaning import ENDS, Leaning, usual_corner
from acoustics.carcass.shape.panel import Grain
from acoustics.carcass.shape.profile import Profile, positive
from acoustics.carcass.shape.taper import Taper
from acoustics.names import Name

# The panels of a box with four walls.
NAMES = ("right", "rear", "left", "front", *ENDS)


def four_sided_taper(
    *,
    bottom: tuple[float, float],
    top: tuple[float, float],
    height: float,
    thickness: float | Mapping[str, float],
    shift: tuple[float, float] = (0.0, 0.0),
    corner: Literal["mitre", "butt"] | None = None,
    through: Literal["sides", "front and rear"] = "sides",
    layers: tuple[Layer, ...] = (),
    grain: Grain = "none",
    density: float | None = None,
) -> Taper:
    """Return a box with a rectangular bottom, a rectangular top, and four leaning walls.

    Args:
        bottom: outer depth and width of the bottom [m].
        top: outer depth and width of the top [m].
        height: outer height [m].
        thickness: measured thickness of every panel, one or by name [m].
        shift: how far the middle of the top lies to the rear and to the right of the bottom's
            [m].
        corner: how walls meet: mitre or butt; chosen by `usual_corner` when None.
        through: which walls run through where they butt.
        layers: stacked baffles.
        grain: run of the grain on every panel seen from outside.
        density: density of the sheet, or None when not known [kg/m³].

    Returns: box with walls right, rear, left and front

    Raises:
        ProfileError: when a dimension is not above 0 m.
        NoInsideError: when the wood leaves no inside.

    Source: definition.
    """
    (d0, w0), (d1, w1), (rear, right) = bottom, top, shift
    for what, value in (
        (Name.BOTTOM_DEPTH, d0),
        (Name.BOTTOM_WIDTH, w0),
        (Name.TOP_DEPTH, d1),
        (Name.TOP_WIDTH, w1),
        (Name.HEIGHT, height),
    ):
        positive(what, value)
    walls = [
        ("right", (0.0, 0.0), (w0 - w1) / 2 - right),
        ("rear", (d0, 0.0), (d0 - d1) / 2 - rear),
        ("left", (d0, w0), (w0 - w1) / 2 + right),
        ("front", (0.0, w0), (d0 - d1) / 2 + rear),
    ]
    if through != "sides":
        walls = [*walls[-1:], *walls[:-1]]
    wood = thickness if isinstance(thickness, Mapping) else dict.fromkeys(NAMES, thickness)
    leaning = Leaning(
        plan=Profile(
            points=tuple(start for _, start, _ in walls),
            names=tuple(name for name, _, _ in walls),
        ),
        height=height,
        leans=tuple(math.atan2(inward, height) for _, _, inward in walls),
    )
    return Taper(
        plan=leaning.plan,
        height=height,
        leans=leaning.leans,
        thickness=tuple(wood[name] for name in leaning.plan.names),
        end_thickness=(wood["bottom"], wood["top"]),
        corner=corner or usual_corner(leaning),
        layers=layers,
        grain=grain,
        density=density,
    )
