"""Where drivers, ports and passive radiators go: as said, or in a row spread over their face."""

from __future__ import annotations

from dataclasses import dataclass, replace

from shapely.geometry import LineString, Polygon

from acoustics.carcass.room.clearance import USUAL, Clearances
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.errors import PlacementError
from acoustics.errors import COUNT, Quantity

# Wood left between two ports, and between the last port and the cheek: what parts keep from each
# other, and the little by which a tube is taken for larger where it is held against others [m].
BESIDE = 0.012
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
        second: a port unlike the first, beside it, or None for none.
        second_face: the face it goes into; that of the drivers when None.
        second_at: where it sits on its face, None where nobody has said [m].
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
    second: PortBody | None = None
    second_face: str | None = None
    second_at: At = ANYWHERE
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
    def tubes(self) -> tuple[tuple[PortBody, str | None, int], ...]:
        """Every kind of port, the face it goes into and how many of it there are.

        Returns: ports, faces (None for that of the drivers) and counts [-]
        """
        kinds = ((self.port, self.port_face, self.ports), (self.second, self.second_face, 1))
        return tuple((port, face, count) for port, face, count in kinds if port is not None)

    @property
    def _row(self) -> list[tuple[PortBody, float | None]]:
        """The ports at the right end of the drivers' face, from there, with how high they sit."""
        first = self.port_face is None and _free(self.port_at)
        row = [(self.port, self.port_at[1])] * self.ports if first else []
        if self.second_face is None and _free(self.second_at):
            row.append((self.second, self.second_at[1]))
        return [(port, v) for port, v in row if port is not None]

    @property
    def row_of_ports(self) -> float:
        """How much of the face's width its ports take, the wood beside each counted.

        Returns: breadth [m]

        Source: common practice, no source.
        """
        return sum((2 * port.outer_half[0] + BESIDE for port, _ in self._row), 0.0)

    def arrange(self, bare: Body, face: str) -> tuple[Placed, ...]:
        """Place everything.

        Args:
            bare: the box without contents.
            face: the face the drivers sit in.

        Returns: the parts on their faces

        Source: common practice, no source.
        """
        if face in (self.port_face, self.second_face):
            port, second = (
                None if own == face else own for own in (self.port_face, self.second_face)
            )
            return replace(self, port_face=port, second_face=second).arrange(bare, face)
        return (
            *self._drivers(bare, face),
            *self._ports(bare, face),
            *self._second(bare, face),
            *self._radiators(),
        )

    def _drivers(self, bare: Body, face: str) -> list[Placed]:
        if self.driver is None:
            return []
        first, v = self.driver_at
        aside = self._aside(bare, face, v) if first is None else 0.0
        places = _spread(bare.reach(face, v), self.drivers, first)
        return [Placed(part=self.driver, face=face, u=u - aside, v=v) for u in places]

    def _aside(self, bare: Body, face: str, v: float | None) -> float:
        """How far the drivers make room for ports in their face, and for a wall leaning there."""
        if not self._row:
            return 0.0
        last, level = self._row[0]
        wood, air = Polygon(bare.outline(face)), Polygon(bare.air_outline(face))
        square = bare.reach(face, v)[1] - (wood.bounds[2] - air.bounds[2]) - BESIDE
        leans = square - last.outer_half[0] - _rightmost(bare, face, last, level)
        return float(self.row_of_ports + max(leans, 0.0)) / 2

    def _in_row(self, bare: Body, face: str) -> list[Placed]:
        """Ports nobody gave a place, at the right end of the drivers' face."""
        placed: list[Placed] = []
        for port, v in self._row:
            u = _rightmost(bare, face, port, v)
            if placed:
                before = placed[-1]
                assert isinstance(before.part, PortBody)
                assert before.u is not None
                u = before.u - before.part.outer_half[0] - BESIDE - port.outer_half[0]
            placed.append(Placed(part=port, face=face, u=u, v=v))
        return placed

    def _ports(self, bare: Body, driver_face: str) -> list[Placed]:
        """Ports without a place stand at the right end of the driver's face, or up the middle."""
        if self.port is None:
            return []
        name, (first, v) = self.port_face or driver_face, self.port_at
        if first is not None:
            places = _spread(bare.reach(name, v), self.ports, first)
            return [Placed(part=self.port, face=name, u=u, v=v) for u in places]
        if name != driver_face:
            places = self._up(bare, name)[: self.ports]
            return [Placed(part=self.port, face=name, v=v) for v in places]
        return [placed for placed in self._in_row(bare, name) if placed.part is self.port]

    def _second(self, bare: Body, driver_face: str) -> list[Placed]:
        """The unlike port stands beside the others, unless it has a place or a face of its own."""
        if self.second is None:
            return []
        name, (u, v) = self.second_face or driver_face, self.second_at
        if u is None and name == driver_face:
            return [placed for placed in self._in_row(bare, name) if placed.part is self.second]
        if self._shares_middle:
            v = self._up(bare, name)[-1]
        return [Placed(part=self.second, face=name, u=u, v=v)]

    @property
    def _shares_middle(self) -> bool:
        """Whether the unlike port stands up the middle of a face with the others."""
        return (
            self.port is not None
            and self.second is not None
            and self.second_face == self.port_face
            and _free(self.port_at)
            and self.second_at == ANYWHERE
        )

    def _up(self, bare: Body, face: str) -> list[float]:
        """How high the ports up the middle of a face sit, the unlike one last."""
        count = self.ports + self._shares_middle
        return _spread((0.0, bare.face(face).size[1]), count, self.port_at[1])

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
        # A tube in a cheek starts at its outside; its mouth faces the other cheek.
        beyond = [
            port.length - cheek + clearances.port_mouths * port.mouth
            for port, face, _ in self.tubes
            if face is not None
        ]
        least += max(beyond, default=0.0)
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
            thickness: of the panels that ports of another face go through [m].

        Returns: volume [m³]
        """
        parts = 0.0 if self.driver is None else self.drivers * self.driver.volume_behind(baffle)
        ports = (
            count * port.volume_behind(baffle if face is None else thickness)
            for port, face, count in self.tubes
        )
        return parts + sum(ports)


def _free(at: At) -> bool:
    """Whether nobody has said how far to the right it sits."""
    return at[0] is None


def _rightmost(bare: Body, face: str, port: PortBody, v: float | None) -> float:
    """Where the last port in the drivers' face has its middle, clear of the wall beside it."""
    half, high = port.outer_half
    level = bare.face(face).size[1] / 2 if v is None else v
    air = Polygon(bare.air_outline(face))
    if port.height is None:
        # Nowhere nearer to the wood than the gap: a tube is round, and meets a slope late.
        return _end(air.buffer(-(half + BESIDE)), level, air.bounds[2] - BESIDE - half)
    # A wall leans evenly: it is nearest at the lower or the upper end of a slot.
    ends = (_end(air, at, air.bounds[2]) for at in (level - high, level + high))
    return min(ends) - BESIDE - half


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
