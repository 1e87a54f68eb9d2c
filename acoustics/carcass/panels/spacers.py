"""Spacers that hold a ring in its place while a skin is drawn over it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from acoustics.carcass.shape.errors import PlacementError, metres
from acoustics.carcass.shape.profile import positive
from acoustics.errors import COUNT, Quantity
from acoustics.names import Name
from acoustics.values import require_between

MOST_SPACERS = 12
STEEPEST = math.radians(60)


@dataclass(frozen=True, kw_only=True)
class Spacer:
    """A board that stands upright on the base, its top cut to the lean of the ring.

    Attributes:
        number: counted from the high side, seen from above counter-clockwise [-].
        length: its longer side [m].
        shorter: its shorter side [m].
        along: middle of its foot from below the middle of the ring, up the slope [m].
        across: the same to the left of the way up the slope [m].

    Source: definition.
    """

    number: int
    length: float
    shorter: float
    along: float
    across: float


def spacers(
    *, count: int, raised: float, lean: float, circle: float, width: float
) -> tuple[Spacer, ...]:
    """Return the spacers under a ring that leans, evenly round a circle on its lower face.

    At an angle a from the high side: length = raised + circle / 2 · cos a · sin lean, to the
    middle of its top; each stands with its width along the slope, so that every top is cut by the
    lean.

    Args:
        count: number of spacers [-].
        raised: middle of the ring's lower face above the base [m].
        lean: lean of the ring from level [rad].
        circle: diameter of the circle they stand on, on the ring [m].
        width: width of a spacer [m].

    Returns: spacers, that nearest to the high side first

    Raises:
        ProfileError: a length that is not above zero.
        OutOfRangeError: not 3 to 12 spacers, or a lean that is not 0 to 60°.
        PlacementError: a spacer of which nothing is left.

    Source: definition.
    """
    require_between(Name.SPACERS, float(count), 3, MOST_SPACERS, COUNT)
    require_between(Name.LEAN, lean, 0.0, STEEPEST, "rad")
    positive(Name.RAISED, raised)
    positive(Name.SCREW_CIRCLE_DIAMETER, circle)
    positive(Name.SPACER_WIDTH, width)
    step, standing = width / 2 * math.tan(lean), []
    for number in range(1, count + 1):
        turn = math.tau * (number - 0.5) / count
        up, side = circle / 2 * math.cos(turn), circle / 2 * math.sin(turn)
        middle = raised + up * math.sin(lean)
        if middle - step <= 0:
            raise PlacementError(
                code="spacer-vanishes",
                number=Quantity(number, COUNT),
                length=metres(middle - step),
            )
        standing.append(
            Spacer(
                number=number,
                length=middle + step,
                shorter=middle - step,
                along=up * math.cos(lean),
                across=side,
            )
        )
    return tuple(standing)
