"""From a carcass to its panels: true sizes, bevels, and the list to cut."""

from __future__ import annotations

import math
from functools import partial

from acoustics.carcass.panels.inner_wood import brace_panel, holes_in, layer_outline, layer_panel
from acoustics.carcass.panels.taper_wood import taper_panels
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.faces import (
    CHEEKS,
    on_cheek,
    rectangle_points,
    runs_upward,
    wall_frame,
)
from acoustics.carcass.shape.joints import panel_end
from acoustics.carcass.shape.panel import Panel, Rebate, Seam
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Point
from acoustics.carcass.shape.taper import Taper


def panels(carcass: Body) -> tuple[Panel, ...]:
    """Return every panel of a box: walls, cheeks or ends, layers, braces.

    Args:
        carcass: the carcass.

    Returns: panels, walls first in the order of the profile

    Raises:
        NoInsideError: when a panel is too short between its neighbours.
        JointError: when a joint cannot be made.

    Source: definition.
    """
    if isinstance(carcass, Taper):
        return taper_panels(carcass)
    walls = tuple(_wall(carcass, edge) for edge in range(len(carcass.profile)))
    cheeks = tuple(_cheek(carcass, name) for name in CHEEKS)
    outline = partial(layer_outline, carcass)
    layers = tuple(layer_panel(carcass, i, outline) for i in range(len(carcass.layers)))
    braces = tuple(brace_panel(carcass, i) for i in range(len(carcass.braces)))
    return (*walls, *cheeks, *layers, *braces)


def _wall_ends(carcass: Carcass) -> tuple[float, float, float, float]:
    """Where a wall ends in z: outer face low and high, inner face low and high."""
    (left, right), width = carcass.cheeks, carcass.width
    if carcass.cheek_joint == "between":
        return 0.0, width, 0.0, width
    if carcass.cheek_joint == "mitre":
        return 0.0, width, left, width - right
    low, high = left - carcass.cheek_rebate, width - right + carcass.cheek_rebate
    return low, high, low, high


def _wall(carcass: Carcass, edge: int) -> Panel:
    profile, joints, count = carcass.profile, carcass.corner_joints, len(carcass.profile)
    frame = wall_frame(profile, edge, carcass.width)
    ends = [
        panel_end(profile, carcass.wall_thickness, edge=edge, corner=c, joint=joints[c % count])
        for c in (edge, edge + 1)
    ]
    seams = [_corner_seam(carcass, edge, c % count) for c in (edge, edge + 1)]
    side_names = CHEEKS
    spans = _wall_ends(carcass)
    if runs_upward(profile, edge):  # u runs from the right cheek to the left
        spans = tuple(carcass.width - spans[i] for i in (1, 0, 3, 2))  # type: ignore[assignment]
        side_names = ("right", "left")
    else:
        ends.reverse()
        seams.reverse()

    def height(point: Point) -> float:
        x, y = point[0] - frame.origin[0], point[1] - frame.origin[1]
        return x * frame.v[0] + y * frame.v[1]

    (low_out, low_in), (high_out, high_in) = ends
    out = rectangle_points(spans[0], height(low_out), spans[1], height(high_out))
    inn = rectangle_points(spans[2], height(low_in), spans[3], height(high_in))
    joint = "mitre" if carcass.cheek_joint == "mitre" else "butt"
    joint = "rebate" if carcass.cheek_joint == "rebate" else joint
    sides = [
        Seam(mate=n, joint=joint, runs_through=carcass.cheek_joint == "between") for n in side_names
    ]
    run = spans[1] - spans[0]
    taken = sum(s.rebate.width * s.rebate.depth * run for s in seams if s.rebate)
    name = profile.names[edge]
    return Panel(
        name=name,
        outside=out,
        inside=inn,
        thickness=carcass.wall_thickness[edge],
        frame=frame,
        seams=(seams[0], sides[1], seams[1], sides[0]),
        grain=carcass.grain,
        rebated=taken,
        density=carcass.density,
        holes=holes_in(carcass, name),
    )


def _corner_seam(carcass: Carcass, edge: int, corner: int) -> Seam:
    profile, joint = carcass.profile, carcass.corner_joints[corner]
    other = (edge - 1 if corner == edge else edge + 1) % len(profile)
    through = joint.kind != "mitre" and (joint.through == "after") == (corner == edge)
    rebate = None
    if joint.kind == "rebate" and through:
        angle = profile.interior_angle(corner)
        rebate = Rebate(
            width=carcass.wall_thickness[other] / abs(math.sin(angle)),
            depth=joint.depth,
            face="inside" if angle < math.pi else "outside",
        )
    return Seam(mate=profile.names[other], joint=joint.kind, runs_through=through, rebate=rebate)


def _cheek(carcass: Carcass, name: str) -> Panel:
    face, kind = carcass.face(name), carcass.cheek_joint
    full, edges = on_cheek(name, face.frame, carcass.profile)
    small, _ = on_cheek(name, face.frame, carcass.inner_profile)
    thickness = carcass.wall_thickness
    seams = tuple(
        Seam(
            mate=carcass.profile.names[e],
            joint="butt" if kind in ("cover", "between") else kind,
            runs_through=kind in ("cover", "rebate"),
            rebate=Rebate(width=thickness[e], depth=carcass.cheek_rebate, face="inside")
            if kind == "rebate"
            else None,
        )
        for e in edges
    )
    wall_section = carcass.profile.area - carcass.inner_profile.area
    return Panel(
        name=name,
        outside=small if kind == "between" else full,
        inside=full if kind in ("cover", "rebate") else small,
        thickness=face.wood,
        frame=face.frame,
        seams=seams,
        grain=carcass.grain,
        rebated=wall_section * carcass.cheek_rebate,
        density=carcass.density,
        holes=holes_in(carcass, name),
    )
