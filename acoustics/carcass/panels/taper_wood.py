"""From a box whose walls lean to its panels: walls, ends, stacked layers, level plates."""

from __future__ import annotations

from functools import partial

import numpy as np

from acoustics.carcass.panels.inner_wood import Outline, holes_in, layer_panel, touching
from acoustics.carcass.shape.braces import CrossBrace
from acoustics.carcass.shape.faces import Face
from acoustics.carcass.shape.leaning import ENDS
from acoustics.carcass.shape.panel import Frame, Panel, Seam
from acoustics.carcass.shape.planes import Plane, corners, flat, meeting, moved, vector
from acoustics.carcass.shape.taper import Taper


def taper_panels(box: Taper) -> tuple[Panel, ...]:
    """Return every panel: walls in the order of the plan, bottom, top, layers, braces.

    Args:
        box: the box.

    Returns: panels

    Raises:
        NoInsideError: when a panel is too short between its neighbours.

    Source: definition.
    """
    walls = tuple(_wall(box, i) for i in range(len(box.plan)))
    ends = tuple(_end(box, name) for name in ENDS)
    lined = partial(_lined, box)
    layers = tuple(layer_panel(box, i, lined) for i in range(len(box.layers)))
    return (*walls, *ends, *layers, *(_plate(box, brace) for brace in box.braces))


def _panel(
    box: Taper, name: str, faces: tuple[Outline, Outline], frame: Frame, seams: tuple[Seam, ...]
) -> Panel:
    return Panel(
        name=name,
        outside=faces[0],
        inside=faces[1],
        thickness=box.wood[name],
        frame=frame,
        seams=seams,
        grain=box.grain,
        density=box.density,
        holes=holes_in(box, name),
    )


def _wall(box: Taper, wall: int) -> Panel:
    names, count = box.plan.names, len(box.plan)
    name, frame = names[wall], box.face(names[wall]).frame
    low, high = (box.outer[end].moved(box.wood[end]) for end in ENDS)
    around = (low, _cut(box, wall, (wall + 1) % count), high, _cut(box, wall, wall))
    seams = []
    for i, mate in enumerate(box.around(name)):
        if mate in ENDS:
            seams.append(Seam(mate=mate, runs_through=False))
            continue
        other = (wall + 1 if i == 1 else wall - 1) % count
        through = box.corner == "butt" and _through(wall, other)
        seams.append(Seam(mate=mate, joint=box.corner, runs_through=through))
    out, inn = (
        flat(frame, corners(box.outer[name].moved(depth), around))
        for depth in (0.0, box.wood[name])
    )
    return _panel(box, name, (out, inn), frame, tuple(seams))


def _through(wall: int, other: int) -> bool:
    """Every second wall runs through; where an odd number ends, the first of the two."""
    if wall % 2 != other % 2:
        return wall % 2 == 0
    return wall < other


def _cut(box: Taper, wall: int, corner: int) -> Plane:
    """The plane a wall is cut along at a corner; its normal points away from the wall."""
    names = box.plan.names
    other = (corner - 1) % len(names) if corner == wall else corner
    mine, theirs = box.outer[names[wall]], box.outer[names[other]]
    if box.corner == "butt":
        return theirs if _through(wall, other) else theirs.moved(box.wood[names[other]])
    # The mitre holds the outer and the inner line where both walls meet.
    a, b = (meeting(mine, theirs, box.outer[end]) for end in ENDS)
    mine, theirs = (plane.moved(box.wood[names[i]]) for plane, i in ((mine, wall), (theirs, other)))
    normal = np.cross(b - a, meeting(mine, theirs, box.outer["bottom"]) - a)
    normal /= np.linalg.norm(normal)
    along = np.asarray(box.face(names[wall]).frame.u) * (-1.0 if corner == wall else 1.0)
    if normal @ along < 0:
        normal = -normal
    return Plane(normal=vector(normal), distance=float(normal @ a))


def _end(box: Taper, name: str) -> Panel:
    """Bottom or top: it covers the walls, its edges in one plane with their outsides."""
    frame = box.face(name).frame
    around = [box.outer[mate] for mate in box.around(name)]
    out, inn = (
        flat(frame, corners(box.outer[name].moved(depth), around))
        for depth in (0.0, box.wood[name])
    )
    return _panel(box, name, (out, inn), frame, tuple(Seam(mate=n) for n in box.around(name)))


def _lined(box: Taper, face: Face, share: float | None) -> Outline:
    """A face where its inner layers have grown to a share of themselves; the outside for None."""
    grown = dict.fromkeys(box.wood, 0.0)
    if share is not None:
        grown = {n: t + share * (box.lining[n] - t) for n, t in box.wood.items()}
    return flat(face.frame, box.side(face.name, moved(box.outer, grown)))


def _plate(box: Taper, brace: CrossBrace) -> Panel:
    """A level plate, its upper face outside, edges along the walls."""
    out, inn = (
        tuple(box.air_plan(level).exterior.coords)[:-1]
        for level in (brace.at + brace.thickness, brace.at)
    )
    frame = Frame(origin=(0.0, brace.at + brace.thickness, 0.0), u=(0, 0, 1), v=(1, 0, 0))
    return Panel(
        name=brace.name,
        outside=out,
        inside=inn,
        thickness=brace.thickness,
        frame=frame,
        seams=touching(box.plan.names),
        grain=box.grain,
        density=box.density,
        holes=brace.windows,
    )
