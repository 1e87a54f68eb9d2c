"""A slot port made of the box's own panels, from its record."""

from __future__ import annotations

from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.inside.wall_slot import BoardedSlot, WallSlot, board_slot, slot_opening
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.taper import Taper
from jobs.design.carcass.braces import is_parted
from jobs.models import Box
from jobs.models.box.box_kinds import kind_of

# Any length: the bore of a slot does not ask for it [m].
SOME = 0.1


def is_boarded(box: Box) -> bool:
    """Whether its port shares walls of the box."""
    return bool(kind_of(box).port and box.port_shape == Box.PortShape.SLOT and box.port_lies)


def ports(box: Box) -> int:
    """How many ports the wood has, and the air with it: a slot along a wall is one."""
    return 1 if is_boarded(box) else box.port_count


def boarded(box: Box, bare: Carcass, face: str, length: float | None) -> BoardedSlot | None:
    """Return the boards and the port of a slot along a wall; None without one, or its length."""
    if not is_boarded(box) or length is None or box.port_height is None:
        return None
    return board_slot(bare, _slot(box, face, length))


def bore(box: Box, bare: Body, face: str) -> tuple[float, float, float] | None:
    """Return width, height and the room above a slot along a wall; None while it has no height."""
    if not is_boarded(box) or box.port_height is None:
        return None
    if isinstance(bare, Taper):
        return None
    return slot_opening(bare, _slot(box, face, SOME))


def walls_shared(box: Box) -> int:
    """How many walls of the box are walls of a slot along one."""
    return _slot(box, "", SOME).shared


def _slot(box: Box, driver_face: str, length: float) -> WallSlot:
    wall, _, side = box.port_lies.partition(" ")
    face = box.port_face or ("front" if is_parted(box) else driver_face)
    assert box.port_height is not None
    assert box.material is not None
    return WallSlot(
        face=face,
        wall=wall,
        height=box.port_height,
        width=None if wall in ("left", "right") else box.port_width,
        side=side or None,
        length=length,
        bent=bool(box.port_bend),
        thickness=box.material.thickness,
    )
