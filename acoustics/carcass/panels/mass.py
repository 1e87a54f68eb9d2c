"""What a box weighs with everything in it that is known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import kind_of
from acoustics.carcass.shape.panel import Panel
from acoustics.findings import Finding


@dataclass(frozen=True, kw_only=True)
class Mass:
    """The mass of a box.

    Attributes:
        wood: its panels, holes taken off; None when the density of the sheet is not known [kg].
        parts: what is known of drivers, ports and plates [kg].
        unknown: kinds of parts whose mass is not known; "wood" for the sheet.
    """

    wood: float | None
    parts: float
    unknown: tuple[str, ...]

    @property
    def known(self) -> float:
        """Sum of what is known; the box weighs at least this.

        Returns: mass [kg]
        """
        return (self.wood or 0.0) + self.parts


def box_mass(carcass: Body, wood: Sequence[Panel] | None = None) -> Mass:
    """Return the mass of a box with what is in it; what is not known is said, never zero.

    Glue, screws, terminals, damping and paint are not counted.

    Args:
        carcass: the box.
        wood: its panels, if they were worked out already.

    Returns: mass [kg]

    Source: definition.
    """
    unknown = [] if carcass.density is not None else ["wood"]
    parts = 0.0
    for placed in carcass.contents:
        if placed.part.mass is None:
            unknown.append(kind_of(placed.part))
        else:
            parts += placed.part.mass
    board = None
    if carcass.density is not None:
        board = sum(panel.mass for panel in (panels(carcass) if wood is None else wood))
    return Mass(wood=board, parts=parts, unknown=tuple(dict.fromkeys(unknown)))


def check_mass(mass: Mass) -> tuple[Finding, ...]:
    """Say of what the mass is not known.

    Args:
        mass: the mass of a box.

    Returns: one finding per kind of part, its value the mass of the rest [kg]

    Source: definition.
    """
    return tuple(
        Finding(code="mass-unknown", detail=(kind,), value=mass.known, unit="kg")
        for kind in mass.unknown
    )
