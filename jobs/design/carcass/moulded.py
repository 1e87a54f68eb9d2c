"""A moulded shape from its record: its litres, what its skin and its parts take, how sure."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from acoustics.carcass.panels.moulded import (
    PACKING,
    Litres,
    check_litres,
    filled,
    lined,
    stacked,
)
from acoustics.carcass.shape.errors import CarcassError, PlacementError
from acoustics.errors import MissingError, Quantity
from acoustics.findings import Finding
from acoustics.names import Name
from jobs.design.carcass.contents import load_of
from jobs.design.carcass.slots import is_boarded
from jobs.models import Box
from jobs.models.box.box_kinds import kind_of


@dataclass(frozen=True, kw_only=True)
class Shell:
    """What a moulded shape comes to; volumes in m³."""

    measured: Litres
    # Inside the finished skin, before anything is in it.
    inside: Litres
    # How many fills or areas it rests on, and how far the fills lie apart (standard deviation).
    count: int
    spread: float | None
    taken_by_parts: float
    taken_by_ports: float
    # Of the skin, where its surface and its density are known [kg].
    skin_mass: float | None

    @property
    def net(self) -> float:
        """The air that is left."""
        return self.inside.value - self.taken_by_parts - self.taken_by_ports

    @property
    def tolerance(self) -> float | None:
        """How far off the net volume may be, of itself; None where nothing tells."""
        return None if self.inside.error is None else self.inside.error / self.net

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What is to be said of how sure it is."""
        return check_litres(self.inside, self.net)


def shell(box: Box, port_length: float | None) -> Shell | None:
    """Return a moulded shape with a port of this length in it; None of a box of panels."""
    if box.shape != Box.Shape.MOULDED:
        return None
    if kind_of(box).front_chamber:
        raise PlacementError(code="moulded-is-one-chamber")
    if is_boarded(box):
        raise PlacementError(code="slot-in-prism-only")
    measured, inside = _litres(box)
    load = load_of(box, port_length)
    parts = load.driver.volume * load.drivers if load.driver else 0.0
    parts += load.radiator.volume * load.radiators if load.radiator else 0.0
    ports = sum(port.volume_behind(0.0) * count for port, _face, count in load.tubes)
    fills = [] if box.litres_by == Box.LitresBy.AREAS else list(box.fills or ())
    moulded = Shell(
        measured=measured,
        inside=inside,
        count=len(fills) or len(box.sections or ()),
        spread=float(np.std(fills, ddof=1)) if len(fills) > 1 else None,
        taken_by_parts=parts,
        taken_by_ports=ports,
        skin_mass=_skin_mass(box),
    )
    if moulded.net <= 0:
        raise CarcassError(
            code="no-air-left",
            taken=Quantity(parts + ports, "m³"),
            gross=Quantity(inside.value, "m³"),
        )
    return moulded


def _litres(box: Box) -> tuple[Litres, Litres]:
    """As measured, and inside the finished skin."""
    if box.litres_by == Box.LitresBy.AREAS:
        measured = stacked([(height, area) for height, area in box.sections or ()])
    else:
        granules = box.litres_by == Box.LitresBy.GRANULES
        measured = filled(list(box.fills or ()), packing=PACKING if granules else 0.0)
    if box.measured_in == Box.MeasuredIn.SKIN:
        return measured, measured
    needed = {Name.SKIN_SURFACE: box.skin_area, Name.SKIN_THICKNESS: box.skin_thickness}
    if missing := [name for name, value in needed.items() if value is None]:
        raise MissingError(*missing)
    assert box.skin_area is not None
    assert box.skin_thickness is not None
    inside = lined(
        measured, surface=box.skin_area, thickness=box.skin_thickness, stray=box.skin_stray
    )
    return measured, inside


def _skin_mass(box: Box) -> float | None:
    if box.skin_area is None or box.skin_thickness is None or box.skin_density is None:
        return None
    return box.skin_area * box.skin_thickness * box.skin_density
