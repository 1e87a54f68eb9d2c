"""Where the litres of a box go."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.errors import NoInsideError
from acoustics.errors import Quantity


@dataclass(frozen=True, kw_only=True)
class Volumes:
    """Where the litres of a box go.

    Attributes:
        gross: inside of the bare panels [m³].
        layers: taken by stacked baffles inside [m³].
        braces: taken by braces [m³].
        parts: taken by drivers, passive radiators and terminal plates, their holes given back [m³].
        ports: taken by ports, their air and their wall [m³].
    """

    gross: float
    layers: float
    braces: float
    parts: float
    ports: float

    @classmethod
    def of(
        cls,
        contents: Sequence[Placed],
        *,
        gross: float,
        layers: float,
        braces: float,
        thickness: Callable[[str], float],
    ) -> Volumes:
        """Gather where the litres go.

        Args:
            contents: parts in the faces.
            gross: inside of the bare panels [m³].
            layers: taken by stacked baffles inside [m³].
            braces: taken by braces [m³].
            thickness: gives the thickness of a face by its name [m].

        Returns: volumes [m³]

        Raises:
            NoInsideError: when nothing is left.
        """
        volumes = cls(
            gross=gross,
            layers=layers,
            braces=braces,
            parts=sum(
                p.part.volume_behind(thickness(p.face))
                for p in contents
                if isinstance(p.part, RoundPart)
            ),
            ports=sum(
                p.part.volume_behind(thickness(p.face))
                for p in contents
                if isinstance(p.part, PortBody)
            ),
        )
        if volumes.net <= 0:
            raise NoInsideError(
                code="no-air-left",
                taken=Quantity(gross - volumes.net, "m³"),
                gross=Quantity(gross, "m³"),
            )
        return volumes

    @property
    def net(self) -> float:
        """Volume of air the drivers work on: gross less all the rest.

        Returns: volume [m³]
        """
        return self.gross - self.layers - self.braces - self.parts - self.ports
