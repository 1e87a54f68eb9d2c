"""Where drivers, ports and passive radiators go: as said, or in a row spread over their face."""

from __future__ import annotations

from dataclasses import dataclass, replace

from shapely.geometry import LineString, Polygon

from acoustics.carcass.room.clearance import USUAL, Clearances
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.errors import PlacementError
from acoustics.errors import COUNT, Quantity

# Wood left between two ports, and between the last port and the cheek [m].
BESIDE = 0.010
LEFT, RIGHT = "left", "right"
# u and v of the first part of a row on its face, None where nobody has said [m].
At = tuple[float | None, float | None]
ANYWHERE: At = (None, None)


@dataclass(frozen=True, kw_only=True)
class Load:
    """What goes into a box: drivers, ports in the same face or in another, passive radiators.

    Attributes:
        driver: the driver, or None for none.
        drivers: how many of them [-].
        driver_at: where the first of them sits on its face, None where nobody has said [m].
        port: the port, or None for none.
        ports: how many of them [-].
        port_face: the face the ports go into; that of the drivers when None.
        port_at: where the first of them sits on its face, None where nobody has said [m].
        radiator: the passive radiator, or None for none.
        radiators: how many of them [-].
        radiator_face: the face they go into; the two cheeks in turn when None: pushing apart,
            they hold still.

    Raises:
        PlacementError: when there is less than one driver or port.
    """

    driver: RoundPart | None = None
    drivers: int = 1
    driver_at: At = ANYWHERE
    port: PortBody | None = None
    ports: int = 1
    port_face: str | None = None
    port_at: At = ANYWHERE
    radiator: RoundPart | None = None
    radiators: int = 1
    radiator_face: str | None = None

    def __post_init__(self) -> None:
        if min(self.drivers, self.ports) < 1:
            raise PlacementError(
                code="nothing-to-place",
                drivers=Quantity(self.drivers, COUNT),
                ports=Quantity(self.ports, COUNT),
            )

    @property
    def row_of_ports(self) -> float:
        """How much of the face's width its ports take, the wood beside each counted.

        Returns: breadth [m]

        Source: common practice, no source.
        """
        if self.port is None or self.port_face is not None or self.port_at[0] is not None:
            return 0.0
        return self.ports * (2 * self.port.outer_half[0] + BESIDE)

    def arrange(self, bare: Body, face: str) -> tuple[Placed, ...]:
        """Place everything.

        Args:
            bare: the box without contents.
            face: the face the drivers sit in.

        Returns: the parts on their faces

        Source: common practice, no source.
        """
        if self.port_face == face:
            return replace(self, port_face=None).arrange(bare, face)
        return (*self._drivers(bare, face), *self._ports(bare, face), *self._radiators())

    def _drivers(self, bare: Body, face: str) -> list[Placed]:
        if self.driver is None:
            return []
        first, v = self.driver_at
        aside = self._aside(bare, face, v) if first is None else 0.0
        places = _spread(bare.reach(face, v), self.drivers, first)
        return [Placed(part=self.driver, face=face, u=u - aside, v=v) for u in places]

    def _aside(self, bare: Body, face: str, v: float | None) -> float:
        """How far the drivers make room for ports in their face, and for a wall leaning there."""
        if self.port is None or not self.row_of_ports:
            return 0.0
        wood, air = Polygon(bare.outline(face)), Polygon(bare.air_outline(face))
        square = bare.reach(face, v)[1] - (wood.bounds[2] - air.bounds[2]) - BESIDE
        leans = square - self.port.outer_half[0] - self._rightmost(bare, face)
        return float(self.row_of_ports + max(leans, 0.0)) / 2

    def _rightmost(self, bare: Body, face: str) -> float:
        """Where the last port in the drivers' face has its middle, clear of the wall beside it."""
        assert self.port is not None
        half, high = self.port.outer_half
        v = self.port_at[1]
        level = bare.face(face).size[1] / 2 if v is None else v
        air = Polygon(bare.air_outline(face))
        if self.port.height is None:
            # Nowhere nearer to the wood than the gap: a tube is round, and meets a slope late.
            return _end(air.buffer(-(half + BESIDE)), level, air.bounds[2] - BESIDE - half)
        # A wall leans evenly: it is nearest at the lower or the upper end of a slot.
        ends = (_end(air, at, air.bounds[2]) for at in (level - high, level + high))
        return min(ends) - BESIDE - half

    def _ports(self, bare: Body, driver_face: str) -> list[Placed]:
        """Ports without a place stand at the right end of the driver's face, or up the middle."""
        if self.port is None:
            return []
        name, (first, v) = self.port_face or driver_face, self.port_at
        height = bare.face(name).size[1]
        if first is not None:
            places = _spread(bare.reach(name, v), self.ports, first)
            return [Placed(part=self.port, face=name, u=u, v=v) for u in places]
        if name != driver_face:
            places = _spread((0.0, height), self.ports, v)
            return [Placed(part=self.port, face=name, v=v) for v in places]
        half, right = self.port.outer_half[0], self._rightmost(bare, name)
        return [
            Placed(part=self.port, face=name, u=right - (2 * half + BESIDE) * number, v=v)
            for number in range(self.ports)
        ]

    def _radiators(self) -> list[Placed]:
        if self.radiator is None:
            return []
        faces = [self.radiator_face] * 2 if self.radiator_face else [RIGHT, LEFT]
        return [
            Placed(part=self.radiator, face=faces[number % 2]) for number in range(self.radiators)
        ]

    def least_width(self, cheek: float, clearances: Clearances = USUAL) -> float:
        """Return the least outer width at which all keep their distances in a wall's face.

        Args:
            cheek: thickness of a cheek [m].
            clearances: the distances to keep.

        Returns: width [m]
        """
        least = self.row_of_ports + 2 * cheek
        if self.port is not None and self.port_face is not None:
            # The tube starts at the outside of one cheek; its mouth faces the other.
            least += self.port.length - cheek + clearances.port_mouths * self.port.mouth
        if self.driver is None:
            return least
        flange = self.driver.flange_diameter
        wood = cheek + clearances.cutout_to_edge + self.driver.cutout_diameter / 2
        half = max(wood, flange / 2)
        if self.row_of_ports:
            half = max(half, flange / 2 + clearances.apart + cheek)
        if self.drivers > 1:
            half = max(half, (flange + clearances.apart - self.row_of_ports) / 2)
        return max(least, 2 * self.drivers * (half + self.row_of_ports / 2))

    def taken(self, *, baffle: float, thickness: float) -> float:
        """Return the litres all of it takes from the box.

        Args:
            baffle: of the panel the drivers sit in, layers and all [m].
            thickness: of the panel the ports go through, layers and all [m].

        Returns: volume [m³]
        """
        parts = 0.0 if self.driver is None else self.drivers * self.driver.volume_behind(baffle)
        ports = 0.0 if self.port is None else self.ports * self.port.volume_behind(thickness)
        return parts + ports


def _spread(row: tuple[float, float], count: int, first: float | None) -> list[float]:
    """Places in a row: even fields, or from the first place given to its mirror image."""
    start, end = row
    if first is None:
        return [start + (end - start) * (number + 0.5) / count for number in range(count)]
    step = (start + end - 2 * first) / (count - 1) if count > 1 else 0.0
    return [first + step * number for number in range(count)]


def _end(area: Polygon, v: float, otherwise: float) -> float:
    """Where an area ends on its right at this height."""
    if area.is_empty:
        return otherwise
    left, _, right, _ = area.bounds
    across = area.intersection(LineString(((left - 1.0, v), (right + 1.0, v))))
    return otherwise if across.is_empty else float(across.bounds[2])
