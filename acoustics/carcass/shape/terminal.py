"""The usual terminal plate."""

from __future__ import annotations

from acoustics.carcass.shape.contents import RoundPart

# A terminal plate: how far its rim covers the hole, and how deep it is. Common practice, no source.
PLATE_RIM, PLATE_DEPTH = 0.01, 0.025


def terminal_plate(hole: float) -> RoundPart:
    """Return a usual terminal plate for a hole.

    Args:
        hole: diameter of the hole [m].

    Returns: terminal plate

    Raises:
        PlacementError: as `RoundPart`.

    Source: common practice, no source.
    """
    return RoundPart(
        name="terminal plate",
        kind="terminal plate",
        cutout_diameter=hole,
        flange_diameter=hole + 2 * PLATE_RIM,
        basket_depth=PLATE_DEPTH,
        motor_diameter=hole,
    )
