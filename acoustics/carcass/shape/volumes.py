"""Where the litres of a box go."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from acoustics.carcass.shape.braces import SAME, Brace
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.errors import NoInsideError, PlacementError, metres
from acoustics.errors import Id, Quantity


@dataclass(frozen=True, kw_only=True)
class Volumes:
    """Where the litres of a box go.

    Attributes:
        gross: inside of the bare panels [m³].
        layers: taken by stacked baffles inside [m³].
        braces: taken by braces [m³].
        parts: taken by drivers, passive radiators and terminal plates, their holes given back [m³].
        ports: taken by ports, their air and their wall [m³].
        shut_off: air in chambers where no driver has its motor [m³].
    """

    gross: float
    layers: float
    braces: float
    parts: float
    ports: float
    shut_off: float = 0.0

    @classmethod
    def of(
        cls,
        contents: Sequence[Placed],
        *,
        gross: float,
        layers: float,
        braces: float,
        thickness: Callable[[str], float],
        shut_off: float = 0.0,
    ) -> Volumes:
        """Gather where the litres go.

        Args:
            contents: parts in the faces.
            gross: inside of the bare panels [m³].
            layers: taken by stacked baffles inside [m³].
            braces: taken by braces [m³].
            thickness: gives the thickness of a face by its name [m].
            shut_off: air in chambers where no driver has its motor [m³].

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
            shut_off=shut_off,
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
        taken = self.layers + self.braces + self.parts + self.ports
        return self.gross - taken - self.shut_off


def check_reach(braces: Sequence[Brace], start: float, end: float) -> None:
    """Refuse a brace of a prism that reaches beyond its width.

    Args:
        braces: its braces.
        start: where the air begins across the width [m].
        end: where it ends [m].

    Raises:
        PlacementError: when one does.

    Source: definition.
    """
    for brace in braces:
        low, high = brace.reach(start, end)
        if not start - SAME <= low <= high <= end + SAME:
            raise PlacementError(
                code="brace-beyond-width",
                name=Id(brace.name),
                low=metres(low),
                high=metres(high),
                start=metres(start),
                end=metres(end),
            )
