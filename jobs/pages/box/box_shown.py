"""Which groups and fields of a box's form mean anything for which kind, shape and port."""

from __future__ import annotations

from typing import Any

from jobs.design.carcass.carcass import drawn_from
from jobs.models import Box
from jobs.models.box.box_kinds import Behind, kinds_with
from jobs.pages.box.folds import (
    CAVITY,
    CONE,
    DOOR,
    FRONT_CHAMBER,
    HELD,
    JOINTS,
    LEANING,
    MOULDED,
    PORT,
    RADIATOR,
    REAR_PORT_FIELDS,
    SEATED,
    SHEETS,
    SQUARE_JOINTS,
    TERMINAL,
)

SHAPES_WITH = {
    measure: tuple(other for other in Box.Shape if measure in drawn_from(other))
    for shape in Box.Shape
    for measure in drawn_from(shape)
}
# A plan says the width by itself.
PANELS = tuple(shape for shape in Box.Shape if shape != Box.Shape.MOULDED)
SHAPES_WITH["width"] = tuple(shape for shape in PANELS if shape != Box.Shape.PLAN)
LEANING_SHAPES = (Box.Shape.TAPER, Box.Shape.PLAN)
# Losses and litres a kind has no use for.
ONLY_FOR_KINDS = {
    "wanted_volume": kinds_with(lambda kind: kind.behind is not Behind.OPEN),
    "ql": kinds_with(lambda kind: kind.behind is not Behind.OPEN),
    "qa": kinds_with(lambda kind: kind.behind not in (Behind.OPEN, Behind.DOOR)),
    "qp": kinds_with(lambda kind: kind.port or kind.hole),
    "fill": kinds_with(lambda kind: kind.behind is Behind.CLOSED),
}
REAR_PORT = kinds_with(lambda kind: kind.front_chamber and kind.behind is Behind.PORT)
# A port with walls of its own: round, or a slot that no panel of the box is a wall of.
OWN_WALLS = (Box.PortShape.ROUND, "free")
SECOND_PORT = kinds_with(lambda kind: kind.rear_tuning)
ONLY_FOR: dict[Any, tuple[str, ...]] = {
    PORT: kinds_with(lambda kind: kind.port),
    FRONT_CHAMBER: kinds_with(lambda kind: kind.front_chamber),
    REAR_PORT_FIELDS: REAR_PORT,
    CONE: kinds_with(lambda kind: kind.radiator or kind.hole),
    RADIATOR: kinds_with(lambda kind: kind.radiator),
    DOOR: kinds_with(lambda kind: kind.hole),
    HELD: kinds_with(lambda kind: kind.behind not in (Behind.OPEN, Behind.DOOR)),
    LEANING: (Box.Shape.TAPER,),
    SQUARE_JOINTS: tuple(shape for shape in PANELS if shape not in LEANING_SHAPES),
    MOULDED: (Box.Shape.MOULDED,),
    **dict.fromkeys((SHEETS, SEATED, JOINTS, TERMINAL, CAVITY), PANELS),
}
# What a shape is drawn up from; all others have no use for it.
FIELD_ONLY_FOR: dict[str, tuple[str, ...]] = {
    **SHAPES_WITH,
    **ONLY_FOR_KINDS,
    "port_diameter": (Box.PortShape.ROUND,),
    "port_flare": (Box.PortShape.ROUND,),
    "isobaric_gap": ("isobaric",),
    "slot_walls": ("free",),
    "port_count": OWN_WALLS,
    "port_wall": (*OWN_WALLS, *REAR_PORT, "second"),
    "port_u": ("placed",),
    "port_v": ("placed",),
    "port_straight": ("bent",),
    "second_port_diameter": SECOND_PORT,
    "second_port_length": ("second",),
    "second_port_face": ("second-placed",),
    "second_port_u": ("second-placed",),
    "second_port_v": ("second-placed",),
    "rear_port_diameter": REAR_PORT,
    "rear_port_length": REAR_PORT,
    "rear_wanted_tuning": REAR_PORT,
    "port_width": ("wide",),
    "port_height": (Box.PortShape.SLOT,),
    "port_lies": (Box.PortShape.SLOT,),
    "port_face": PANELS,
    "fills": (Box.LitresBy.WATER, Box.LitresBy.GRANULES),
    "sections": (Box.LitresBy.AREAS,),
    "skin_stray": (Box.MeasuredIn.MOULD,),
}
