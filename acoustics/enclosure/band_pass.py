"""Band-pass boxes: a driver between two chambers, and the chambers for a band."""

from dataclasses import dataclass
from typing import ClassVar

from acoustics.air.air import Air
from acoustics.driver.driver import Driver
from acoustics.enclosure.loads import Box, Flow, Load
from acoustics.values import Complexes


@dataclass(frozen=True, kw_only=True)
class BandPass:
    """A driver between two boxes, heard only through their openings.

    Sealed behind and vented in front it is of the fourth order, vented on both sides of the sixth.

    Attributes:
        rear: box behind the diaphragm
        front: box before the diaphragm

    Valid: as the two boxes; heard in its band only, where the lumped model holds.

    Source: E. R. Geddes, "An Introduction to Band-Pass Loudspeaker Systems", JAES 37 (1989)
        308-342 (kinds); the equations are those of the two chambers in series.
    """

    rear: Box
    front: Box
    radiates_directly: ClassVar[bool] = False

    def load(self, s: Complexes, driver: Driver, air: Air) -> Load:
        """Acoustic load at complex frequencies: both chambers in series.

        Args:
            s: complex frequency [rad/s]
            driver: driver between the boxes
            air: air in the boxes

        Returns: the load, acoustic impedance in [Pa·s/m³]
        """
        rear, front = self.rear.load(s, driver, air), self.front.load(s, driver, air)
        return Load(
            numerator=rear.numerator * front.denominator + front.numerator * rear.denominator,
            denominator=rear.denominator * front.denominator,
            # The front moves against the rear: what one compresses the other expands.
            output=rear.output * front.denominator - front.output * rear.denominator,
            flows=_scaled(rear.flows, front.denominator) + _scaled(front.flows, rear.denominator),
        )


def _scaled(flows: tuple[Flow, ...], factor: Complexes | float) -> tuple[Flow, ...]:
    return tuple(Flow(numerator=f.numerator * factor, opening=f.opening) for f in flows)
