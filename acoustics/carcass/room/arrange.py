"""Where drivers and ports go when nobody has said: in a row at half height, ports to the right."""

from __future__ import annotations

from dataclasses import dataclass

from acoustics.carcass.room.clearance import USUAL, Clearances
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.errors import PlacementError
from acoustics.carcass.shape.prism import Carcass
from acoustics.errors import COUNT, Quantity

# Wood left between two ports, and between the last port and the cheek [m].
BESIDE = 0.010
SIDE = "right"


@dataclass(frozen=True, kw_only=True)
class Load:
    """What goes into a box: drivers, and ports in the same face or in the right cheek.

    Attributes:
        driver: the driver, or None for none.
        drivers: how many of them [-].
        port: the port, or None for none.
        ports: how many of them [-].
        port_in_side: whether the ports go into the right cheek.

    Raises:
        PlacementError: when there is less than one driver or port.
    """

    driver: RoundPart | None = None
    drivers: int = 1
    port: PortBody | None = None
    ports: int = 1
    port_in_side: bool = False

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
        if self.port is None or self.port_in_side:
            return 0.0
        return self.ports * (2 * self.port.outer_half[0] + BESIDE)

    def arrange(self, bare: Carcass, face: str) -> tuple[Placed, ...]:
        """Place everything.

        Args:
            bare: the carcass without contents.
            face: the face the drivers sit in.

        Returns: the parts on their faces

        Source: common practice, no source.
        """
        width, placed = bare.face(face).size[0], []
        if self.driver is not None:
            places = [
                width * (number + 0.5) / self.drivers - self.row_of_ports / 2
                for number in range(self.drivers)
            ]
            placed = [Placed(part=self.driver, face=face, u=u) for u in places]
        if self.port is None:
            return tuple(placed)
        if self.port_in_side:
            height = bare.face(SIDE).size[1]
            places = [height * (number + 0.5) / self.ports for number in range(self.ports)]
            return (*placed, *(Placed(part=self.port, face=SIDE, v=v) for v in places))
        half = self.port.outer_half[0]
        right = width - (bare.width - bare.air_span[1]) - BESIDE - half
        places = [right - (2 * half + BESIDE) * number for number in range(self.ports)]
        return (*placed, *(Placed(part=self.port, face=face, u=u) for u in places))

    def least_width(self, cheek: float, clearances: Clearances = USUAL) -> float:
        """Return the least outer width at which all keep their distances in a wall's face.

        Args:
            cheek: thickness of a cheek [m].
            clearances: the distances to keep.

        Returns: width [m]
        """
        least = self.row_of_ports + 2 * cheek
        if self.port is not None and self.port_in_side:
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

    def taken(self, thickness: float) -> float:
        """Return the litres all of it takes from the box.

        Args:
            thickness: of the panel the ports go through, layers and all [m].

        Returns: volume [m³]
        """
        parts = 0.0 if self.driver is None else self.drivers * self.driver.volume
        ports = 0.0 if self.port is None else self.ports * self.port.volume_behind(thickness)
        return parts + ports
