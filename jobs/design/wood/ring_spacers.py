"""What a ring stands on in a moulded box, from its record: spacers, and how each is cut."""

from __future__ import annotations

from dataclasses import dataclass

from acoustics.carcass.panels.spacers import Spacer, spacers
from acoustics.carcass.shape.outline import Loop
from acoustics.carcass.shape.profile import Point
from jobs.design.wood.outlines import need
from jobs.design.wood.pieces import Piece
from jobs.design.wording.names import Needed
from jobs.models import Ring


@dataclass(frozen=True, kw_only=True)
class SpacerCut:
    """One spacer, with the piece it is cut as."""

    spacer: Spacer
    piece: Piece


def spacers_of(ring: Ring, label: str, *, circle: float, thickness: float) -> tuple[SpacerCut, ...]:
    """Return the spacers of a ring that sits in a moulded box, none of any other ring."""
    if ring.box_id is None:
        return ()
    width = need(ring.spacer_width, Needed.SPACER_WIDTH)
    standing = spacers(
        count=ring.spacers,
        raised=need(ring.raised, Needed.RAISED),
        lean=ring.lean,
        circle=circle,
        width=width,
    )
    return tuple(
        SpacerCut(spacer=spacer, piece=_piece(ring, label, spacer, width, thickness))
        for spacer in standing
    )


def _piece(ring: Ring, label: str, spacer: Spacer, width: float, thickness: float) -> Piece:
    """A board with its high corner at the right, up the slope."""
    corners: tuple[Point, ...] = (
        (0.0, 0.0),
        (width, 0.0),
        (width, spacer.length),
        (0.0, spacer.shorter),
    )
    return Piece(
        label=f"{label}S{spacer.number}",
        name=ring.name,
        quantity=ring.quantity,
        thickness=thickness,
        outline=Loop(points=corners),
        grain="y" if ring.material and ring.material.grained else "",
    )
