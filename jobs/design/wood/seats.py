"""Where the boards in a box stand on its panels, each counted from the panel's own corner."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from acoustics.carcass.panels.cut_list import CutPart
from acoustics.carcass.panels.standing import standing_on
from acoustics.carcass.shape.outline import Loop
from acoustics.carcass.shape.panel import Panel
from acoustics.carcass.shape.profile import Point

# Two corners closer than this are one [m].
SAME = 1e-6
Ring = tuple[Point, ...]


@dataclass(frozen=True, kw_only=True)
class Seat:
    """Where something stands on a piece, or the piece on it, seen through it: never cut."""

    outline: Loop
    # Of a board in a box: its number in the list. What a floor stands on is numbered in its order.
    label: str = ""
    # Where panels are cut alike and it stands not on all of them: on which.
    panels: tuple[str, ...] = ()
    # Of a board that stands on another: it may be the outer face.
    outer: bool = False


def seats_of(
    parts: Sequence[CutPart], boards: Collection[str], letter: str
) -> dict[int, tuple[Seat, ...]]:
    """Return the seats of each line of a cut list, by its number."""
    panels = [panel for part in parts for panel in part.panels]
    number = {panel.name: f"{letter}{part.number}" for part in parts for panel in part.panels}
    strips = standing_on(panels, boards)
    seats: dict[int, tuple[Seat, ...]] = {}
    for part in parts:
        on: dict[tuple[str, bool, Ring], list[str]] = {}
        rings: dict[tuple[str, bool, Ring], Ring] = {}
        for panel in part.panels:
            for strip in strips[panel.name]:
                ring = _laid(strip.outline, panel, part.panel)
                key = (number[strip.board], strip.face == "outside", _rounded(ring))
                on.setdefault(key, []).append(panel.name)
                rings.setdefault(key, ring)
        seats[part.number] = tuple(
            Seat(
                outline=Loop(points=rings[key]),
                label=key[0],
                outer=key[1],
                panels=() if len(names) == len(part.panels) else tuple(names),
            )
            for key, names in on.items()
        )
    return seats


def _laid(ring: Ring, panel: Panel, drawn: Panel) -> Ring:
    """A strip from the lower left corner of its panel, as the panel lies on the one drawn."""
    u0, v0, u1, _v1 = panel.bounds
    if _outline(panel) == _outline(drawn):
        return tuple((u - u0, v - v0) for u, v in ring)
    return tuple((u1 - u, v - v0) for u, v in reversed(ring))  # cut alike and turned over


def _outline(panel: Panel) -> Ring:
    u0, v0, _u1, _v1 = panel.bounds
    return _rounded([(u - u0, v - v0) for u, v in panel.outside])


def _rounded(ring: Sequence[Point]) -> Ring:
    return tuple(sorted((round(u / SAME) * SAME, round(v / SAME) * SAME) for u, v in ring))
