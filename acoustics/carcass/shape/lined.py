"""What every box of panels and stacked layers answers alike, whichever way it is built up."""

from __future__ import annotations

from typing import Protocol

from acoustics.carcass.shape.braces import Layer
from acoustics.carcass.shape.volumes import Volumes


class Lined(Protocol):
    """A box with layers on its faces and litres inside."""

    @property
    def layers(self) -> tuple[Layer, ...]:
        """Stacked baffles."""

    @property
    def volumes(self) -> Volumes:
        """Where the litres go [m³]."""

    def layer_thickness(self, face: str, *, outside: bool) -> float:
        """Return the thickness of all layers on one side of a face.

        Args:
            face: name of the face.
            outside: whether the layers outside are meant.

        Returns: thickness [m]
        """
        return sum(y.thickness for y in self.layers if y.face == face and y.outside == outside)

    @property
    def gross_volume(self) -> float:
        """Inside of the bare panels.

        Returns: volume [m³]
        """
        return self.volumes.gross

    @property
    def net_volume(self) -> float:
        """Volume of air: gross less drivers, ports, braces and stacked baffles.

        Returns: volume [m³]
        """
        return self.volumes.net
