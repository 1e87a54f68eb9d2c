"""What is asked of a box in a cavity, and what is answered."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property

from acoustics.carcass.cavity.fit_build import Facing, Stock
from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.room.arrange import Load
from acoustics.carcass.room.clearance import USUAL, Clearances
from acoustics.carcass.shape.errors import PlacementError
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import positive
from acoustics.carcass.shape.taper import Taper
from acoustics.errors import COUNT, Quantity
from acoustics.findings import Finding
from acoustics.names import Name


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """What a box in a cavity is to be.

    Attributes:
        net_volume: volume of air [m³].
        stock: what it is made of.
        load: drivers and ports.
        facing: where the drivers look: front (−x), rear (+x), top, or side (a cheek).
        clearances: the distances to keep.

    Raises:
        ProfileError: when volume or thickness is not above 0.
        PlacementError: for an unknown way to look, or less than one layer.
    """

    net_volume: float
    stock: Stock
    load: Load = field(default_factory=Load)
    facing: Facing = "front"
    clearances: Clearances = USUAL

    def __post_init__(self) -> None:
        positive(Name.NET_VOLUME, self.net_volume)
        positive(Name.THICKNESS, self.stock.thickness)
        if self.facing not in ("front", "rear", "top", "side"):
            raise PlacementError(code="facing-unknown", facing=self.facing)
        if self.facing == "side" and self.load.drivers > 1:
            raise PlacementError(
                code="several-drivers-in-cheek", drivers=Quantity(self.load.drivers, COUNT)
            )
        if self.stock.layers < 1:
            raise PlacementError(code="layers-too-few", layers=Quantity(self.stock.layers, COUNT))
        if self.facing == "side":
            # The side the driver looks to is the right cheek: the ports stand in a row with it.
            load = replace(self.load, port_face=None, second_face=None)
            object.__setattr__(self, "load", load)


@dataclass(frozen=True, kw_only=True)
class Answer:
    """A box in its cavity, with what speaks for it.

    Attributes:
        best_at: what it is best at: shallowest, least-wood, least-space, simplest-cuts; empty
            for one more of another shape.
        carcass: the box, its profile in the coordinates of the cavity.
        face: the face the drivers sit in.
        z: where its left is across the width of the cavity [m].
        kind: rectangle, slope (one panel leans as the cavity does), outline (follows it), corner
            (a plan past what stands in a corner) or taper (the same, walls leaning).
        space: boot space lost: the box and all behind it, as seen from the driver's side, and
            below it, over the width of the box [m³].
    """

    best_at: tuple[str, ...]
    carcass: Carcass | Taper
    face: str
    z: float
    kind: str
    space: float

    @property
    def net_volume(self) -> float:
        """Volume of air.

        Returns: volume [m³]
        """
        return self.carcass.net_volume

    @property
    def size(self) -> tuple[float, float, float]:
        """Depth, height and width over all.

        Returns: three lengths [m]
        """
        x0, y0, x1, y1 = self.carcass.profile.polygon.bounds
        return x1 - x0, y1 - y0, self.carcass.width

    @cached_property
    def wood(self) -> float:
        """Volume of its panels.

        Returns: volume [m³]
        """
        return sum(p.volume for p in panels(self.carcass))

    @cached_property
    def bevels(self) -> int:
        """Number of edges that are not cut square.

        Returns: number [-]
        """
        return sum(c.bevel > 1e-6 for p in panels(self.carcass) for c in p.cuts)


@dataclass(frozen=True, kw_only=True)
class Limit:
    """One thing that keeps the box from having the litres wanted.

    Attributes:
        what: opening, gap, driver, port, cavity, parts (they need more litres than are wanted), or
            the name of an obstacle.
        volume: net volume that would go if it were not there, the least that goes for parts; None
            for the cavity itself [m³].
        finding: the clearance that fails, with its millimetres, or None.
    """

    what: str
    volume: float | None
    finding: Finding | None = None


@dataclass(frozen=True, kw_only=True)
class Turned:
    """A box that goes where the driver looks another way.

    Attributes:
        facing: where the drivers look.
        answer: the box with the least wood.
    """

    facing: Facing
    answer: Answer


@dataclass(frozen=True, kw_only=True)
class Fit:
    """What goes into a cavity.

    Attributes:
        answers: boxes of the net volume wanted, none when nothing fits.
        largest: the box with the most litres that goes; only looked for when nothing fits.
        smallest: the box with the least litres that holds the parts; only looked for when the
            largest has litres enough.
        limits: what binds, the hardest first; empty when something fits.
        turned: boxes that go where the driver looks another way; only looked for when nothing fits.
    """

    answers: tuple[Answer, ...]
    largest: Answer | None = None
    smallest: Answer | None = None
    limits: tuple[Limit, ...] = ()
    turned: tuple[Turned, ...] = ()
