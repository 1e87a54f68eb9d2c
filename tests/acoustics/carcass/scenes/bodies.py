"""Boxes of wood that between them take every branch of their geometry. All of them invented."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.bows import straightened
from acoustics.carcass.shape.braces import CrossBrace, Layer, Shelf, Strut
from acoustics.carcass.shape.bracing import (
    plate,
    shelf,
    spaced_plates,
    strut_across,
    strut_between_walls,
)
from acoustics.carcass.shape.contents import Leg, Placed, PortBody
from acoustics.carcass.shape.inside.slab import Slab
from acoustics.carcass.shape.inside.wall_slot import WallSlot, board_slot
from acoustics.carcass.shape.joints import by_slope, same_joints
from acoustics.carcass.shape.outline import Circle
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.shapes import (
    cut_corner_profile,
    double_slope_profile,
    l_profile,
    leaning_rear_profile,
    rectangle_profile,
    round_well_profile,
    sloped_rear_profile,
    step_profile,
    wedge_profile,
    wheel_arch_profile,
)
from tests.acoustics.carcass.scenes.parts import MID, PASSIVE, SUB, TERMINAL, TUBE
from tests.acoustics.carcass.scenes.tapers import five, pyramid, through


def plain() -> Carcass:
    """A rectangle with a driver, a tube and a terminal in it, joined as usual."""
    return Carcass(
        profile=rectangle_profile(0.36, 0.42),
        width=0.61,
        thickness=0.018,
        density=690.0,
        grain="across",
        contents=(
            Placed(part=SUB, face="front", u=0.21, v=0.2),
            Placed(part=TUBE, face="front", u=0.5, v=0.11),
            Placed(part=TERMINAL, face="rear", u=0.1, v=0.09),
        ),
    )


def sloped() -> Carcass:
    """A leaning rear, cheeks between the walls, boards laid on, plates and a shelf inside."""
    bare = Carcass(
        profile=sloped_rear_profile(0.41, 0.29, 0.37),
        width=0.83,
        thickness=(0.018, 0.015, 0.018, 0.021),
        cheek_thickness=(0.018, 0.022),
        cheek_joint="between",
        layers=(
            Layer(face="front", thickness=0.012),
            Layer(face="front", thickness=0.003, outside=True),
            Layer(face="rear", thickness=0.009),
            Layer(face="left", thickness=0.006),
        ),
        grain="up",
        density=640.0,
    )
    return replace(
        bare,
        braces=(
            *spaced_plates(bare, 2, opening=0.45, thickness=0.015),
            shelf("shelf", bare, 0.31, level=True, opening=0.0, thickness=0.012),
        ),
        contents=(
            Placed(part=SUB.sunk(0.006), face="front", u=0.16, v=0.17),
            Placed(part=replace(SUB, fastener=None), face="front", u=0.67, v=0.17),
            Placed(part=TERMINAL, face="rear", u=0.4),
        ),
    )


def knee() -> Carcass:
    """Two slopes, mitred all round, a shelf with a window, struts and a slot round the corner."""
    profile = double_slope_profile(
        bottom_depth=0.46, knee_depth=0.38, knee_height=0.16, top_depth=0.24, height=0.43
    )
    bare = Carcass(
        profile=profile,
        width=0.72,
        thickness=0.019,
        joints=same_joints(profile, "mitre", through=(), depth=0.0),
        cheek_joint="mitre",
        layers=(Layer(face="top", thickness=0.006),),
        density=700.0,
    )
    return replace(
        bare,
        braces=(
            shelf("shelf", bare, 0.16, level=False, opening=0.3, thickness=0.018),
            strut_across("stick", bare, (0.3, 0.09), breadth=0.04, thickness=0.02),
            strut_between_walls(
                "prop", bare, (0.25, 0.5), level=True, breadth=0.05, thickness=0.018
            ),
        ),
        contents=(Placed(part=MID, face="front"), Placed(part=PASSIVE, face="upper rear")),
    )


def slotted(**changes: object) -> Carcass:
    """A rectangle with a slot of boards that the given changes bend, shorten or move."""
    bare = Carcass(
        profile=rectangle_profile(0.44, 0.39), width=0.58, thickness=0.018, density=650.0
    )
    asked = {"face": "front", "wall": "bottom", "height": 0.045, "length": 0.31, "thickness": 0.016}
    slot = board_slot(bare, WallSlot(**(asked | changes)))
    return replace(
        bare,
        braces=slot.boards,
        contents=(Placed(part=SUB, face="front", u=0.25, v=0.23), slot.placed),
    )


def step() -> Carcass:
    """A step over something, rebated everywhere."""
    profile = step_profile(depth=0.45, height=0.4, step_depth=0.15, step_height=0.12)
    return Carcass(
        profile=profile,
        width=0.66,
        thickness=0.018,
        joints=same_joints(
            profile, "rebate", through=by_slope(profile, standing=True), depth=0.006
        ),
        cheek_joint="rebate",
        cheek_rebate=0.005,
        density=720.0,
        grain="across",
        contents=(Placed(part=SUB, face="rear", u=0.3, v=0.14), Placed(part=TUBE, face="top")),
    )


def butted() -> Carcass:
    """A toe in front, butted with the standing walls between the lying ones."""
    profile = l_profile(depth=0.42, height=0.41, toe_depth=0.16, toe_height=0.19)
    return Carcass(
        profile=profile,
        width=0.55,
        thickness=0.016,
        joints=same_joints(profile, "butt", through=by_slope(profile, standing=False), depth=0.0),
        braces=(
            # Its upper half meets the riser, its lower half runs on over the toe.
            Shelf(name="corner", start=(0.2, 0.174), end=(0.35, 0.174), thickness=0.02),
        ),
        contents=(Placed(part=MID, face="riser"), Placed(part=PASSIVE, face="left", u=0.14, v=0.2)),
    )


def arch() -> Carcass:
    """Round a wheel, the driver in a cheek, a tube that turns twice."""
    tube = PortBody(
        name="tube",
        width=0.068,
        wall=0.0025,
        legs=(
            Leg(heading="in", length=0.13),
            Leg(heading="+u", length=0.11),
            Leg(heading="+v", length=0.09),
        ),
    )
    return Carcass(
        profile=wheel_arch_profile(depth=0.52, height=0.55, radius=0.27, flats=4),
        width=0.33,
        thickness=0.018,
        cheek_thickness=0.025,
        density=680.0,
        contents=(
            Placed(part=SUB, face="right", u=0.17, v=0.36),
            Placed(part=tube, face="top", u=0.16, v=0.13),
        ),
    )


def wedge() -> Carcass:
    """Three sides; corners sharper than a right angle."""
    return Carcass(
        profile=wedge_profile(0.39, 0.47),
        width=0.6,
        thickness=0.015,
        joints=None,
        contents=(Placed(part=MID, face="front", u=0.2, v=0.2),),
    )


def cut_corner() -> Carcass:
    """A corner cut away, a leaning board across, everything entered by hand."""
    return Carcass(
        profile=cut_corner_profile(depth=0.47, height=0.38, cut_depth=0.17, cut_height=0.13),
        width=0.64,
        thickness=0.018,
        grain="up",
        density=700.0,
        braces=(
            Shelf(name="leaning", start=(0.06, 0.12), end=(0.31, 0.27), thickness=0.012),
            Strut(name="stick", at=(0.37, 0.32), breadth=0.03, thickness=0.024),
        ),
        contents=(Placed(part=SUB, face="front", u=0.2, v=0.19),),
    )


def well() -> Carcass:
    """A spare wheel's well of eight sides, lying on its cheek."""
    return Carcass(
        profile=round_well_profile(diameter=0.56, sides=8),
        width=0.19,
        thickness=0.015,
        cheek_thickness=(0.018, 0.021),
        density=690.0,
        contents=(Placed(part=SUB, face="right", u=0.28, v=0.28),),
    )


def bowed() -> Carcass:
    """A free outline with bows, drawn straight from within."""
    points = straightened(
        ((0.0, 0.0), (0.45, 0.0, 0.03), (0.43, 0.39), (0.02, 0.36, -0.025)), within=True
    )
    return Carcass(profile=Profile(points=points), width=0.5, thickness=0.012)


def leaning() -> Carcass:
    """A rear that leans outwards, and one shelf from wall to wall at a slant."""
    return Carcass(
        profile=leaning_rear_profile(0.28, 0.35, math.radians(-14)),
        width=0.7,
        thickness=0.018,
        braces=(
            Shelf(
                name="slant",
                start=(0.05, 0.2),
                end=(0.2, 0.26),
                thickness=0.018,
                span=(0.2, 0.31),
            ),
        ),
        density=600.0,
        grain="across",
    )


def chambered() -> Carcass:
    """A driver behind a closed plate, a tube in the front chamber: a band-pass box."""
    bare = Carcass(profile=rectangle_profile(0.36, 0.38), width=0.8, thickness=0.018, density=690.0)
    front = PortBody.straight("tube", width=0.093, length=0.12, wall=0.004)
    return replace(
        bare,
        braces=(
            plate("divider", bare, 0.37, opening=0.0, thickness=0.022),
            strut_across("stick", bare, (0.33, 0.32), breadth=0.02, thickness=0.03),
        ),
        contents=(
            Placed(part=SUB, face="divider", u=0.16, v=0.17),
            Placed(part=front, face="front", u=0.62, v=0.18),
            Placed(part=TERMINAL, face="rear", u=0.1, v=0.3),
        ),
    )


def shelved() -> Carcass:
    """A shelf parts two drivers unlike, a third room is shut off; tubes in one of them."""
    bare = Carcass(
        profile=rectangle_profile(0.33, 0.58), width=0.52, thickness=0.018, density=690.0
    )
    return replace(
        bare,
        braces=(
            shelf("middle", bare, 0.31, level=True, opening=0.0, thickness=0.018),
            CrossBrace(name="far", at=0.37, thickness=0.015),
        ),
        contents=(
            Placed(part=MID, face="front", u=0.17, v=0.15),
            Placed(part=MID, face="front", u=0.19, v=0.44),
            Placed(part=replace(TUBE, mass=0.2), face="front", u=0.06, v=0.15),
            Placed(part=replace(TERMINAL, mass=None), face="rear", u=0.45, v=0.44),
            Placed(part=replace(PASSIVE, mass=0.3), face="right", u=0.16, v=0.15),
        ),
    )


def crowded() -> Carcass:
    """Nothing in it has the room it wants."""
    bare = Carcass(profile=rectangle_profile(0.13, 0.3), width=0.68, thickness=0.018, density=690.0)
    long = PortBody.straight("tube", width=0.06, length=0.1, wall=0.003)
    oblong = PortBody.straight("slot", width=0.09, height=0.03, length=0.06, wall=0.009)
    return replace(
        bare,
        braces=(
            CrossBrace(
                name="ring",
                at=0.3,
                thickness=0.018,
                windows=(Circle(centre=(0.06, 0.14), radius=0.03),),
            ),
            Strut(name="stick", at=(0.06, 0.26), breadth=0.03, thickness=0.02),
        ),
        contents=(
            Placed(part=replace(SUB, recess=0.013), face="front", u=0.13, v=0.15),
            Placed(part=replace(MID, recess=0.019), face="front", u=0.24, v=0.07),
            Placed(part=long, face="front", u=0.36, v=0.2),
            Placed(part=oblong, face="rear", u=0.33, v=0.2),
            Placed(part=replace(MID, bolt_circle_diameter=0.124), face="top", u=0.5, v=0.06),
            Placed(part=replace(MID, bolt_circle_diameter=None), face="rear", u=0.07, v=0.225),
            Placed(part=oblong, face="front", u=0.6, v=0.02),
        ),
    )


def boarded() -> Carcass:
    """Free boards inside that meet each other, a cheek and a wall."""
    bare = Carcass(profile=rectangle_profile(0.4, 0.4), width=0.5, thickness=0.018, density=690.0)
    lying = ((0.018, 0.1), (0.25, 0.1), (0.25, 0.112), (0.018, 0.112))
    standing = ((0.25, 0.018), (0.262, 0.018), (0.262, 0.3), (0.25, 0.3))
    return replace(
        bare,
        braces=(
            Slab(name="lying", outline=lying, span=(0.018, 0.3), thickness=0.012, way=(1.0, 0.0)),
            Slab(
                name="standing",
                outline=standing,
                span=(0.018, 0.3),
                thickness=0.012,
                way=(0.0, 1.0),
            ),
            Slab(
                name="flat",
                outline=((0.018, 0.018), (0.25, 0.018), (0.25, 0.1), (0.018, 0.1)),
                span=(0.3, 0.312),
                thickness=0.012,
            ),
        ),
    )


BODIES: dict[str, Callable[[], Body]] = {
    "plain": plain,
    "sloped": sloped,
    "knee": knee,
    "slot-straight": slotted,
    "slot-bent": lambda: slotted(length=0.62, bent=True),
    "slot-narrow": lambda: slotted(width=0.19),
    "slot-narrow-left": lambda: slotted(width=0.19, side="left", length=0.6, bent=True),
    "slot-narrow-right": lambda: slotted(width=0.19, side="right", wall="top"),
    "slot-cheek": lambda: slotted(wall="left"),
    "slot-cheek-bent": lambda: slotted(wall="right", length=0.64, bent=True),
    "slot-rear": lambda: slotted(face="rear", wall="top", width=0.2, side="left"),
    "slot-rear-bent": lambda: slotted(face="rear", wall="right", length=0.66, bent=True),
    "slot-top": lambda: slotted(face="top", wall="rear", length=0.66, bent=True),
    "step": step,
    "butted": butted,
    "arch": arch,
    "wedge": wedge,
    "cut-corner": cut_corner,
    "well": well,
    "bowed": bowed,
    "leaning": leaning,
    "chambered": chambered,
    "shelved": shelved,
    "crowded": crowded,
    "boarded": boarded,
    "pyramid": pyramid,
    "through": through,
    "five": five,
}
