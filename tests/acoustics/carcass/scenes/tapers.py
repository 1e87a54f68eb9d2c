"""Boxes whose walls all lean."""

from __future__ import annotations

import math
from dataclasses import replace

from acoustics.carcass.shape.braces import CrossBrace, Layer
from acoustics.carcass.shape.bracing import (
    spaced_plates,
)
from acoustics.carcass.shape.contents import Placed
from acoustics.carcass.shape.four_sided import four_sided_taper
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.taper import Taper
from tests.acoustics.carcass.scenes.parts import MID, SUB, TERMINAL, TUBE


def pyramid() -> Taper:
    """Four leaning walls, mitred, top moved aside; plates with windows, boards laid on."""
    bare = four_sided_taper(
        bottom=(0.46, 0.62),
        top=(0.33, 0.41),
        height=0.4,
        thickness=0.018,
        shift=(0.03, -0.02),
        layers=(
            Layer(face="front", thickness=0.012),
            Layer(face="front", thickness=0.003, outside=True),
            Layer(face="bottom", thickness=0.006),
        ),
        grain="across",
        density=680.0,
    )
    return replace(
        bare,
        braces=spaced_plates(bare, 1, opening=0.4, thickness=0.015),
        contents=(
            Placed(part=SUB, face="front", v=0.17),
            Placed(part=TUBE, face="top", u=0.15, v=0.19),
            Placed(part=TERMINAL, face="rear"),
        ),
    )


def through() -> Taper:
    """The same butted, front and rear through, a wall of its own thickness each."""
    return four_sided_taper(
        bottom=(0.36, 0.5),
        top=(0.4, 0.44),
        height=0.33,
        thickness={
            "right": 0.015,
            "rear": 0.016,
            "left": 0.018,
            "front": 0.025,
            "bottom": 0.019,
            "top": 0.021,
        },
        corner="butt",
        through="front and rear",
        density=680.0,
    )


def five() -> Taper:
    """Five walls in plan, each with a lean of its own, two chambers above each other."""
    plan = Profile(
        points=((0.0, 0.0), (0.47, 0.0), (0.5, 0.3), (0.26, 0.46), (0.0, 0.38)),
        names=("a", "b", "c", "d", "e"),
    )
    bare = Taper(
        plan=plan,
        height=0.43,
        leans=tuple(math.radians(lean) for lean in (5.0, 0.0, 9.0, -3.0, 0.0)),
        thickness=0.016,
        end_thickness=(0.018, 0.022),
        corner="butt",
        density=700.0,
    )
    return replace(
        bare,
        braces=(CrossBrace(name="floor", at=0.21, thickness=0.018),),
        contents=(
            Placed(part=MID, face="a", u=0.23, v=0.12),
            Placed(part=MID, face="b", u=0.14, v=0.32),
            Placed(part=SUB, face="top", u=0.2, v=0.24),
        ),
    )
