"""The outer edges of a box that are rounded over: which panels, by how much, whether that goes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shapely.geometry import Point as Spot
from shapely.geometry import Polygon

from acoustics.carcass.panels.inner_wood import hole_of
from acoustics.carcass.panels.round_over import check_round_over
from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import RoundPart
from acoustics.findings import Finding
from jobs.design.carcass.carcass import FRONT, Wood
from jobs.models import Box

# A recess is so much wider than the flange all round: common practice, no source [m].
ROUND_FLANGE = 0.001


def rounded_panels(box: Box, wood: Wood) -> dict[str, float]:
    """Return the radius of each panel whose outer edges are rounded over, all round."""
    if not box.round_over:
        return {}
    faces = wood.carcass.faces
    # A driver in a divider is not seen: then it is the front.
    own = wood.face if wood.face in faces else FRONT
    return dict.fromkeys(faces if box.round_all else (own,), box.round_over)


def check_rounding(box: Box, wood: Wood) -> Iterator[Finding]:
    """Hold each rounded panel to its boards and to what sits in it, the worst of them once."""
    panels = {panel.name: panel for panel in wood.panels}
    for name, radius in rounded_panels(box, wood).items():
        if name not in panels:
            continue
        mates = [panels[cut.mate] for cut in panels[name].cuts if cut.mate in panels]
        board = min(panel.thickness for panel in (panels[name], *mates))
        for finding in check_round_over(radius, board=board, flat=_flat(wood.carcass, name)):
            yield replace(finding, detail=(name,))


def _flat(body: Body, name: str) -> float | None:
    """From the edge of a face to the nearest flange, recess or mouth in it; below zero beyond."""
    outline = Polygon(body.outline(name))
    distances = []
    for placed in body.contents:
        if placed.face != name:
            continue
        part = placed.part
        if isinstance(part, RoundPart):
            spot = Spot(body.centre(placed))
            away = float(outline.exterior.distance(spot))
            rim = part.flange_diameter / 2 + (ROUND_FLANGE if part.recess else 0.0)
            distances.append((away if outline.contains(spot) else -away) - rim)
        elif part.boarded is None:
            distances.append(float(outline.exterior.distance(hole_of(body, placed).polygon)))
    return min(distances, default=None)
