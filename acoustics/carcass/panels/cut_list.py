"""The list to cut: equal panels on one line, and the bevels a saw cannot reach."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from shapely.geometry import Polygon

from acoustics.carcass.shape.panel import EdgeCut, Panel
from acoustics.carcass.shape.profile import Point
from acoustics.findings import Finding

# Two sizes closer than this are one size to a saw [m].
SAME = 1e-6


@dataclass(frozen=True, kw_only=True)
class CutPart:
    """One line of the list to cut: panels that are one and the same piece of wood.

    Attributes:
        number: number on the list, from 1 [-].
        panels: the panels it stands for.
    """

    number: int
    panels: tuple[Panel, ...]

    @property
    def panel(self) -> Panel:
        """The panel it stands for.

        Returns: first of its panels
        """
        return self.panels[0]

    @property
    def quantity(self) -> int:
        """How many to cut.

        Returns: number of pieces [-]
        """
        return len(self.panels)

    @property
    def name(self) -> str:
        """Names of its panels.

        Returns: names joined by a comma
        """
        return ", ".join(self.names)

    @property
    def names(self) -> tuple[str, ...]:
        """Names of its panels, one by one.

        Returns: names
        """
        return tuple(p.name for p in self.panels)

    @property
    def size(self) -> tuple[float, float]:
        """Finished size along u and along v, long point to long point.

        Returns: two lengths [m]
        """
        return self.panel.size

    @property
    def cuts(self) -> tuple[EdgeCut, ...]:
        """How each edge is cut.

        Returns: cuts in the order of the outline
        """
        return self.panel.cuts


def cut_list(parts: Sequence[Panel]) -> tuple[CutPart, ...]:
    """Gather equal panels into numbered lines.

    Two panels are equal when one can be laid on the other, bevels, holes, rebates and grain
    included. A square-edged panel without holes or rebates may be turned over for that.

    Args:
        parts: the panels.

    Returns: lines, largest area first

    Source: common practice, no source.
    """
    groups: dict[tuple[object, ...], list[Panel]] = {}
    for panel in parts:
        groups.setdefault(_key(panel), []).append(panel)
    ordered = sorted(groups.values(), key=lambda g: (-g[0].area, g[0].name))
    return tuple(CutPart(number=i + 1, panels=tuple(g)) for i, g in enumerate(ordered))


def _key(panel: Panel) -> tuple[object, ...]:
    u0, v0, u1, _ = panel.bounds

    def moved(points: Sequence[Point], *, flip: bool = False) -> tuple[Point, ...]:
        at = [((u1 - u if flip else u - u0), v - v0) for u, v in points]
        return tuple(sorted((round(u / SAME), round(v / SAME)) for u, v in at))

    plain = not panel.holes and not panel.rebated and all(c.bevel == 0 for c in panel.cuts)
    outline = moved(panel.outside)
    if plain:
        outline = min(outline, moved(panel.outside, flip=True))
    holes = tuple((f"{h}",) for h in panel.holes) and (panel.name,)
    rebates = tuple(c.rebate for c in panel.cuts)
    thickness = round(panel.thickness / SAME)
    return thickness, panel.grain, outline, moved(panel.inside) if not plain else (), holes, rebates


def check_whole(parts: Sequence[Panel]) -> tuple[Finding, ...]:
    """Find panels that a slot from wall to wall cuts apart, such as one let into a rebate.

    Args:
        parts: the panels.

    Returns: one finding per panel, with the breadth of the strip that falls off [m]

    Source: definition.
    """
    findings = []
    for panel in parts:
        wood = Polygon(panel.outside)
        for hole in panel.holes:
            # A slot that ends on the edge may miss it by a rounding.
            wood = wood.difference(hole.polygon.buffer(SAME, join_style="mitre"))
        strips = sorted(getattr(wood, "geoms", [wood]), key=lambda piece: piece.area)
        for strip in strips[:-1]:
            left, low, right, high = strip.bounds
            if (breadth := float(min(right - left, high - low))) > 10 * SAME:
                findings.append(
                    Finding(code="panel-cut-apart", detail=(panel.name,), value=breadth, unit="m")
                )
    return tuple(findings)


def check_saw(parts: Sequence[Panel], *, tilt_limit: float = math.pi / 4) -> tuple[Finding, ...]:
    """Find the bevels that a saw cannot tilt to.

    Args:
        parts: the panels.
        tilt_limit: largest tilt of the blade from square [rad].

    Returns: one finding per edge

    Source: common practice, no source.
    """
    return tuple(
        Finding(
            code="bevel-beyond-saw",
            detail=(panel.name, cut.mate),
            value=cut.bevel,
            limit=tilt_limit,
            unit="rad",
        )
        for panel in parts
        for cut in panel.cuts
        if cut.bevel > tilt_limit + 1e-9
    )
