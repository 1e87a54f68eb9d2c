"""Cover from the roll: how much of its length some rectangles take, laid side by side."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from acoustics.carcass.shape.errors import SheetError, metres
from acoustics.carcass.shape.profile import positive
from acoustics.errors import Id
from acoustics.names import Name

# Cover is ordered in steps of this, rounded up [m].
ORDER_STEP = 0.1
# Two lengths closer than this are one [m].
TOUCH = 1e-9


@dataclass(frozen=True, kw_only=True)
class Cut:
    """A rectangle that is cut off a roll.

    Attributes:
        name: what it covers.
        across: its size across the roll [m].
        along: its size along the roll [m].
        turns: whether it may lie the other way round.
    """

    name: str
    across: float
    along: float
    turns: bool


@dataclass(frozen=True, kw_only=True)
class Laid:
    """Where a rectangle lies on the roll.

    Attributes:
        name: what it covers.
        x: its left side from the left edge of the roll [m].
        y: its beginning from the end of the roll [m].
        across: its size across the roll as it lies [m].
        along: its size along the roll as it lies [m].
    """

    name: str
    x: float
    y: float
    across: float
    along: float


@dataclass(frozen=True, kw_only=True)
class Roll:
    """A length of roll with what is cut from it.

    Attributes:
        width: width of the roll [m].
        laid: what lies where.
    """

    width: float
    laid: tuple[Laid, ...]

    @property
    def length(self) -> float:
        """How much of the roll is cut into.

        Returns: length [m]
        """
        return max((piece.y + piece.along for piece in self.laid), default=0.0)

    @property
    def order(self) -> float:
        """The length to order, in steps of 0.1 m, rounded up.

        Returns: length [m]
        """
        return math.ceil(self.length / ORDER_STEP - 1e-6) * ORDER_STEP


def lay_on_roll(cuts: Sequence[Cut], *, width: float) -> Roll:
    """Lay rectangles on a roll so that little of its length is taken.

    Each is laid as near to the end of the roll as it goes, large ones first, in several orders;
    the shortest result counts. It need not be the shortest there is.

    Args:
        cuts: what is cut.
        width: width of the roll [m].

    Returns: the roll

    Valid: rectangles, edge to edge; what a knife or scissors need beside the line is in the turn.

    Raises:
        ProfileError: when the roll has no width.
        SheetError: when a piece is wider than the roll.

    Source: B. S. Baker, E. G. Coffman, R. L. Rivest, "Orthogonal Packings in Two Dimensions",
        SIAM J. Comput. 9 (1980), bottom-left rule, from memory.
    """
    positive(Name.ROLL_WIDTH, width)
    for cut in cuts:
        if min(cut.across, cut.along if cut.turns else cut.across) > width + TOUCH:
            raise SheetError(
                code="cover-wider-than-roll",
                name=Id(cut.name),
                across=metres(cut.across),
                width=metres(width),
            )
    orders = (
        sorted(cuts, key=lambda cut: (-cut.along, -cut.across)),
        sorted(cuts, key=lambda cut: (-cut.across, -cut.along)),
        sorted(cuts, key=lambda cut: -cut.across * cut.along),
        sorted(cuts, key=lambda cut: -max(cut.across, cut.along)),
    )
    rolls = [_laid(order, width, first) for order in orders for first in _FIRST]
    return min(rolls, key=lambda roll: round(roll.length, 9))


# What decides how a piece that may turn is laid: where it ends, or that it lies flat, or upright.
_FIRST: tuple[Callable[[Laid], float], ...] = (
    lambda at: 0.0,
    lambda at: round(at.along, 9),
    lambda at: round(at.across, 9),
)


def _laid(cuts: Sequence[Cut], width: float, first: Callable[[Laid], float]) -> Roll:
    """Lay them one after the other, each as near to the end of the roll as it goes."""
    placed: list[Laid] = []
    for cut in cuts:
        spots = [
            Laid(name=cut.name, x=x, y=y, across=across, along=along)
            for across, along in _ways(cut, width)
            for x, y in _spots(placed, across, along, width)
        ]
        placed.append(min(spots, key=lambda at: (first(at), _end(at), at.y, at.x)))
    return Roll(width=width, laid=tuple(placed))


def _end(at: Laid) -> float:
    return round(at.y + at.along, 9)


def _ways(cut: Cut, width: float) -> list[tuple[float, float]]:
    ways = [(cut.across, cut.along)]
    if cut.turns and abs(cut.across - cut.along) > TOUCH:
        ways.append((cut.along, cut.across))
    return [(across, along) for across, along in ways if across <= width + TOUCH]


def _spots(
    placed: Sequence[Laid], across: float, along: float, width: float
) -> Iterator[tuple[float, float]]:
    """Where it can lie: beside or after what is laid, nowhere upon it."""
    xs = {0.0, *(piece.x + piece.across for piece in placed)}
    ys = {0.0, *(piece.y + piece.along for piece in placed)}
    for x in sorted(xs):
        if x + across > width + TOUCH:
            continue
        for y in sorted(ys):
            if not any(
                x < piece.x + piece.across - TOUCH
                and piece.x < x + across - TOUCH
                and y < piece.y + piece.along - TOUCH
                and piece.y < y + along - TOUCH
                for piece in placed
            ):
                yield x, y
                break
