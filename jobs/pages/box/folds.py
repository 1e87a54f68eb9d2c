"""The five folded groups of a box's form: what stands in each, and which of them is open."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext_lazy as _

from jobs.design.carcass.carcass import drawn_from
from jobs.design.carcass.slots import is_boarded
from jobs.models import Box
from jobs.models.box.box_kinds import Behind, kind_of

WHAT, DRIVER, SIZE, AIR = _("What it is"), _("Driver"), _("Size"), _("Air")
SEATED = _("Where the driver sits")
PORT, FRONT_CHAMBER, REAR_PORT_FIELDS = _("Port"), _("Front chamber"), _("Rear port")
# One field for two things: what sits in a door's hole acts as a passive radiator.
CONE = _("Passive radiator, or the factory driver of a door")
RADIATOR, DOOR = _("Passive radiator"), _("Door")
MOULDED = _("Litres, and the skin")
CARCASS, LEANING = _("Carcass, outside"), _("Top, where all walls lean")
SHEETS, JOINTS = _("Sheets and braces"), _("Joints")
SQUARE_JOINTS, TERMINAL = _("Side panels and rebates"), _("Terminal plate")
HELD, CAVITY = _("Held in a crash"), _("Cavity in the car")
SIZES = ("width", "height", "depth", "wanted_volume")


@dataclass(frozen=True, kw_only=True)
class Fold:
    """A folded group: its heading, what is found in it, its fieldsets."""

    slug: str
    title: Any
    holds: Any
    headings: Sequence[Any]


FOLDS = (
    Fold(
        slug="what",
        title=_("What it is and what plays in it"),
        holds=_("kind, driver, channel"),
        headings=(WHAT, DRIVER),
    ),
    Fold(
        slug="air",
        title=_("Air"),
        holds=_("losses, port, passive radiator, door"),
        headings=(AIR, PORT, FRONT_CHAMBER, REAR_PORT_FIELDS, CONE, RADIATOR, DOOR),
    ),
    Fold(
        slug="carcass",
        title=_("Shape"),
        holds=_("slopes, steps, own corners"),
        headings=(CARCASS, LEANING, MOULDED),
    ),
    Fold(
        slug="wood",
        title=_("Wood"),
        holds=_("sheet, driver's place, braces, joints, terminal plate"),
        headings=(SHEETS, SEATED, JOINTS, SQUARE_JOINTS, TERMINAL),
    ),
    Fold(
        slug="cavity",
        title=_("Cavity in the car"),
        holds=_("how it is held, outline, what stands in it, the way in"),
        headings=(HELD, CAVITY),
    ),
)


def lacking(box: Box) -> set[str]:
    """Name the groups in which something is still empty that this kind of box needs."""
    needed = {
        "what": (box.name, box.driver_id),
        "air": _air(box),
        "carcass": tuple(getattr(box, name) for name in drawn_from(box.shape)),
        "wood": (box.material_id,),
    }
    if box.shape == Box.Shape.MOULDED:
        by_areas = box.litres_by == Box.LitresBy.AREAS
        skin = (box.skin_area, box.skin_thickness)
        needed["carcass"] = (
            (box.sections if by_areas else box.fills) or None,
            *(skin if box.measured_in == Box.MeasuredIn.MOULD else ()),
        )
        needed["wood"] = ()
    if box.shape == Box.Shape.SLOPED:
        depth, height, *either = (getattr(box, name) for name in drawn_from(box.shape))
        needed["carcass"] = (depth, height, next(filter(None, either), None))
    return {slug for slug, values in needed.items() if any(_is_empty(value) for value in values)}


def _is_empty(value: Any) -> bool:
    return value is None or value == ""


def _air(box: Box) -> tuple[Any, ...]:
    kind = kind_of(box)
    needed: list[Any] = []
    if kind.port:
        slot = box.port_shape == Box.PortShape.SLOT
        # A tuning is enough for a round port: its size and its length follow from it.
        needed += [box.port_height] if slot else []
        # One along a wall runs from side to side where it has no width.
        needed += [box.port_width] if slot and not is_boarded(box) else []
        needed.append(box.wanted_tuning or (box.port_length and (slot or box.port_diameter)))
    if kind.front_chamber:
        needed.append(box.front_volume)
    if kind.front_chamber and kind.behind is Behind.PORT:
        needed += [box.rear_port_diameter, box.rear_port_length or box.rear_wanted_tuning]
    if kind.radiator or kind.hole:
        needed.append(box.radiator_id)
    if kind.hole:
        needed += [box.hole, box.ql]
    return tuple(needed)
