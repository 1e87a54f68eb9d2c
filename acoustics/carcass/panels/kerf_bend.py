"""Boards bent round a radius over saw kerfs: how many, how far apart, how deep, how long flat."""

from __future__ import annotations

import math
from dataclasses import dataclass

from acoustics.carcass.shape.errors import CarcassError, metres
from acoustics.carcass.shape.profile import positive
from acoustics.errors import COUNT, Quantity
from acoustics.names import Name

# A rib between two kerfs that is thinner breaks out: common practice, no source [m].
LEAST_RIB = 0.001
MOST_KERFS = 400


@dataclass(frozen=True, kw_only=True)
class KerfBend:
    """A bend whose kerfs lie in the inner face and close when it is bent.

    A kerf w wide and d deep closes at its mouth when both its sides have turned towards each other
    by 2 atan(w / 2 d); that many turns make the bend. They are spread evenly over the middle of
    the skin that is left, which is as long bent as flat.

    Attributes:
        thickness: thickness of the board [m].
        skin: wood that is left under each kerf, at the outer face [m].
        blade: width of a kerf [m].
        radius: radius of the outer face [m].
        angle: how far the board turns [rad].

    Raises:
        ProfileError: when a length is not greater than 0 m.
        CarcassError: when the skin is as thick as the board, the radius leaves no room for the
            board inside, the angle is not between 0 and a full turn, the kerfs would overlap, or
            there are more than 400.

    Valid: wood that stands the bend of its skin; a trial strip says whether it does.

    Source: geometry of a wedge that closes.
    """

    thickness: float
    skin: float
    blade: float
    radius: float
    angle: float

    def __post_init__(self) -> None:
        positive(Name.THICKNESS, self.thickness)
        positive(Name.SKIN, self.skin)
        positive(Name.BLADE, self.blade)
        positive(Name.RADIUS, self.radius)
        if self.skin >= self.thickness:
            raise CarcassError(
                code="skin-thicker-than-board",
                skin=metres(self.skin),
                thickness=metres(self.thickness),
            )
        if self.radius <= self.thickness:
            raise CarcassError(
                code="bend-too-tight", radius=metres(self.radius), thickness=metres(self.thickness)
            )
        if not 0 < self.angle <= 2 * math.pi:
            raise CarcassError(code="bend-beyond-turn", angle=Quantity(self.angle, "rad"))
        if self.count > MOST_KERFS:
            raise CarcassError(code="kerfs-too-many", kerfs=Quantity(self.count, COUNT))
        if self.rib < LEAST_RIB:
            raise CarcassError(
                code="kerfs-overlap",
                spacing=metres(self.spacing),
                blade=metres(self.blade),
                wanted=metres(self.blade + LEAST_RIB),
            )

    @property
    def depth(self) -> float:
        """How deep each kerf is.

        Returns: depth [m]
        """
        return self.thickness - self.skin

    @property
    def turn(self) -> float:
        """How far a kerf turns the board until its mouth is closed, 2 atan(w / 2 d).

        Returns: angle [rad]
        """
        return 2 * math.atan(self.blade / (2 * self.depth))

    @property
    def count(self) -> int:
        """How many kerfs it takes: the next whole number, so that none is asked to close further.

        Returns: number [-]
        """
        return math.ceil(self.angle / self.turn - 1e-9)

    @property
    def length(self) -> float:
        """The length of the bend when flat, along the middle of the skin, (R − s / 2) θ.

        Returns: length [m]
        """
        return (self.radius - self.skin / 2) * self.angle

    @property
    def spacing(self) -> float:
        """From the middle of one kerf to that of the next.

        Returns: length [m]
        """
        return self.length / self.count

    @property
    def rib(self) -> float:
        """Wood between two kerfs at the inner face.

        Returns: length [m]
        """
        return self.spacing - self.blade

    @property
    def open_mouth(self) -> float:
        """How far the mouth of each kerf is still open when the board is bent.

        Returns: length [m]
        """
        return self.blade - 2 * self.depth * math.tan(self.angle / self.count / 2)

    def places(self, start: float) -> tuple[float, ...]:
        """Return where the middle of each kerf lies along the flat board.

        Half a spacing from either end of the bend, so that both ends run on straight.

        Args:
            start: where the bend begins [m].

        Returns: places along the board [m]

        Source: definition.
        """
        return tuple(start + (n + 0.5) * self.spacing for n in range(self.count))
