"""A box whose walls all lean: a plan drawn up over a height, every wall by its own angle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

import numpy as np
from shapely.geometry import LineString, Polygon

from acoustics.carcass.shape.braces import SAME, Brace, CrossBrace, Layer
from acoustics.carcass.shape.contents import Placed
from acoustics.carcass.shape.errors import NoInsideError, PlacementError, metres
from acoustics.carcass.shape.faces import Face, check_face
from acoustics.carcass.shape.inside.chambers import Room, level_rooms, shut_off
from acoustics.carcass.shape.inside.seen import SeenBrace
from acoustics.carcass.shape.leaning import ENDS, Leaning
from acoustics.carcass.shape.lined import Lined
from acoustics.carcass.shape.panel import Frame, Grain, Vector
from acoustics.carcass.shape.planes import Array, Plane, flat, moved, vector
from acoustics.carcass.shape.plate import check_density
from acoustics.carcass.shape.profile import Point, Profile, per_edge, positive
from acoustics.carcass.shape.volumes import Volumes
from acoustics.errors import Id
from acoustics.names import Name


@dataclass(frozen=True, kw_only=True)
class Taper(Leaning, Lined):
    """A box over a plan whose walls lean inwards or outwards, closed by a bottom and a top.

    Attributes:
        plan, height, leans: as of `Leaning` [m, rad].
        thickness: measured thickness of the walls, one for all or one per wall [m].
        end_thickness: thickness of bottom and top, one or (bottom, top); that of the first wall
            when None [m].
        corner: how walls meet: mitre, or butt, where every second wall runs through, the first
            of the plan among them.
        layers: stacked baffles.
        braces: level plates; `at` counts up from the outside of the bottom, windows lie in (z, x).
        contents: parts in its faces.
        grain: run of the grain on every panel seen from outside: across, up or none.
        density: density of the sheet, or None when not known [kg/m³].

    Raises:
        ProfileError: as `Leaning`, or a thickness that is not above 0.
        WallsMeetError: walls that meet, outside or inside, below the top.
        NoInsideError: wood that leaves no inside.
        PlacementError: a part, a layer or a brace where the box has no such place.

    Valid: bottom and top cover the walls' ends.
    """

    thickness: float | Sequence[float]
    end_thickness: float | tuple[float, float] | None = None
    corner: Literal["mitre", "butt"] = "mitre"
    layers: tuple[Layer, ...] = ()
    braces: tuple[CrossBrace, ...] = ()
    contents: tuple[Placed, ...] = ()
    grain: Grain = "none"
    density: float | None = None

    def __post_init__(self) -> None:
        super().__post_init__()
        for name, wood in self.wood.items():
            positive(Name.THICKNESS, wood, of=name)
        check_density(self.density)
        for named in (self.layers, self.contents):
            for item in named:
                check_face(item.face, tuple(self.wood))
        _ = self.volumes  # an inside that vanishes is found at birth

    @cached_property
    def wall_thickness(self) -> tuple[float, ...]:
        """Thickness of each wall.

        Returns: one per wall [m]
        """
        return per_edge(self.thickness, len(self.plan), Name.THICKNESS)

    @cached_property
    def wood(self) -> dict[str, float]:
        """Thickness of every panel, layers not counted.

        Returns: thickness by name [m]
        """
        thickness = self.wall_thickness[0] if self.end_thickness is None else self.end_thickness
        ends = per_edge(thickness, 2, Name.END_THICKNESS)
        names = (*self.plan.names, *ENDS)
        return dict(zip(names, (*self.wall_thickness, *ends), strict=True))

    @cached_property
    def lining(self) -> dict[str, float]:
        """Thickness of every panel with the layers inside it.

        Returns: thickness by name [m]
        """
        return {n: t + self.layer_thickness(n, outside=False) for n, t in self.wood.items()}

    def _between(self, depth: dict[str, float]) -> tuple[float, float]:
        low, high = depth["bottom"], self.height - depth["top"]
        if low >= high:
            raise NoInsideError(
                code="ends-leave-no-inside",
                bottom=metres(low),
                top=metres(depth["top"]),
                height=metres(self.height),
            )
        return low, high

    @cached_property
    def air_span(self) -> tuple[float, float]:
        """Where the air begins and ends, above the outside of the bottom.

        Returns: two heights [m]
        """
        return self._between(self.lining)

    @cached_property
    def volumes(self) -> Volumes:
        """Where the litres go.

        Returns: volumes [m³]

        Raises:
            NoInsideError: when nothing is left.
            PlacementError: when a brace does not fit.

        Source: prismatoid formula, from memory of any solid geometry text.
        """
        gross = self.prismatoid(*self._between(self.wood), self.wood)
        air = self.prismatoid(*self.air_span, self.lining)
        return Volumes.of(
            self.contents,
            gross=gross,
            layers=gross - air,
            braces=sum(self._brace_volume(b) for b in self.braces),
            thickness=lambda name: self.face(name).thickness,
            shut_off=shut_off(self),
        )

    @cached_property
    def rooms(self) -> tuple[Room, ...]:
        """Its air, parted by closed level plates.

        Returns: rooms, from the bottom up [m³]
        """
        return level_rooms(
            self.air_span,
            self.braces,
            lambda low, high: self.prismatoid(low, high, self.lining),
            self._brace_volume,
        )

    def _brace_volume(self, brace: CrossBrace) -> float:
        low, high = self.air_span
        ends = brace.at, brace.at + brace.thickness
        if not (low - SAME <= ends[0] and ends[1] <= high + SAME):
            raise PlacementError(
                code="brace-beyond-height",
                name=Id(brace.name),
                low=metres(ends[0]),
                high=metres(ends[1]),
                start=metres(low),
                end=metres(high),
            )
        for level in ends:
            brace.section(self.air_plan(level))
        return self.prismatoid(*ends, self.lining) - brace.thickness * sum(
            window.area for window in brace.windows
        )

    def air_plan(self, height: float) -> Polygon:
        """Return a level section of the air as a brace lies in it.

        Args:
            height: height above the outside of the bottom [m].

        Returns: polygon in (z, x), coordinates in [m]
        """
        points = self.section(height, depth=self.lining).points
        return Polygon([(self.left - y, x) for x, y in points])

    def plate_air(self, at: float, thickness: float) -> Polygon:
        """Return what both faces of a level plate see of the air, as a brace lies in it.

        Args:
            at: height of its lower face above the outside of the bottom [m].
            thickness: its thickness [m].

        Returns: polygon in (z, x), coordinates in [m]
        """
        return self.air_plan(at).intersection(self.air_plan(at + thickness))

    @property
    def faces(self) -> tuple[str, ...]:
        """Names of its faces: the walls round the plan, bottom and top."""
        return tuple(self.wood)

    @property
    def between_cheeks(self) -> tuple[str, ...]:
        """Names of the faces between two cheeks: it has none."""
        return ()

    @cached_property
    def air_profile(self) -> Profile:
        """Outline of the side view less the wood, every panel drawn square to its edge.

        Returns: profile [m]
        """
        return self.profile.inset([self.lining[name] for name in self.profile.names])

    def seen_braces(self) -> list[SeenBrace]:
        """Return its level plates cut through in the middle, open where they have a window.

        Returns: outlines (x, y) [m]
        """
        shown = []
        for brace in self.braces:
            ends = [(y, self.air_plan(y).bounds) for y in brace.reach(*self.air_span)]
            (low, (_, front, _, rear)), (high, (_, far_front, _, far_rear)) = ends
            windows = sorted(window.polygon.bounds for window in brace.windows)
            cuts = [x for _, first, _, last in windows for x in (first, last)]
            starts = [(front, far_front), *((x, x) for x in cuts[1::2])]
            stops = [*((x, x) for x in cuts[::2]), (rear, far_rear)]
            for (a, b), (c, d) in zip(starts, stops, strict=True):
                corners = ((a, low), (c, low), (d, high), (b, high))
                shown.append(SeenBrace(outline=corners, cut=True))
        return shown

    def section_of(self, brace: Brace) -> Polygon:
        """Return a plate in the air, at the larger of its two faces.

        Args:
            brace: one of its braces.

        Returns: polygon in (z, x), coordinates in [m]
        """
        plans = [self.air_plan(level) for level in brace.reach(*self.air_span)]
        return brace.section(max(plans, key=lambda plan: float(plan.area)))

    @cached_property
    def air(self) -> dict[str, Plane]:
        """The plane where the air begins behind every face.

        Returns: planes by name
        """
        return moved(self.outer, self.lining)

    @cached_property
    def air_corners(self) -> Array:
        """Every corner of the air, those of the bottom first, in the order of the plan.

        Returns: rows (x, y, z) [m]
        """
        points = {n: self.side(n, self.air) for n in self.plan.names}
        low = [points[n][0] for n in self.plan.names]
        return np.array([*low, *(points[n][3] for n in self.plan.names)])

    def face(self, name: str) -> Face:
        """Return a face as seen from outside; u and v count from the rectangle round it.

        Args:
            name: name of a wall, or bottom or top.

        Returns: face

        Raises:
            PlacementError: when there is no such face.
        """
        check_face(name, tuple(self.wood))
        if name in ENDS:
            u: Vector = (0.0, 0.0, 1.0 if name == "top" else -1.0)
            v: Vector = (1.0, 0.0, 0.0)
        else:
            ex, ey = self.plan.direction(self.plan.index(name))
            u = (ex, 0.0, -ey)
            v = vector(np.cross(self.outer[name].normal, u))
        points = self.side(name, self.outer)
        frame = Frame(origin=vector(points[0]), u=u, v=v)
        left, low, right, high = Polygon(flat(frame, points)).bounds
        origin = vector(frame.place(((left, low),))[0])
        return Face(
            name=name,
            frame=replace(frame, origin=origin),
            size=(right - left, high - low),
            wood=self.wood[name],
            inner=self.layer_thickness(name, outside=False),
            outer=self.layer_thickness(name, outside=True),
        )

    def outline(self, name: str) -> tuple[Point, ...]:
        """Return the wood of a face seen from outside.

        Args:
            name: name of the face.

        Returns: corners (u, v), counter-clockwise [m]
        """
        return flat(self.face(name).frame, self.side(name, self.outer))

    def air_outline(self, name: str) -> tuple[Point, ...]:
        """Return where a face has air behind it.

        Args:
            name: name of the face.

        Returns: corners (u, v), counter-clockwise [m]
        """
        return flat(self.face(name).frame, self.side(name, self.air))

    def reach(self, name: str, v: float | None = None) -> tuple[float, float]:
        """Return where the wood of a face begins and ends at a height on it.

        Args:
            name: name of the face.
            v: height on the face, half of it when None [m].

        Returns: left and right end along u [m]
        """
        width, height = self.face(name).size
        level = height / 2 if v is None else v
        met = Polygon(self.outline(name)).intersection(
            LineString(((-1.0, level), (width + 1.0, level)))
        )
        left, _, right, _ = (0.0, 0.0, width, 0.0) if met.is_empty else met.bounds
        return left, right

    def centre(self, placed: Placed) -> Point:
        """Return where a part sits on its face.

        Args:
            placed: the part and its face.

        Returns: point (u, v) [m]
        """
        middle = sum(self.reach(placed.face, placed.v)) / 2
        height = self.face(placed.face).size[1]
        return (
            middle if placed.u is None else placed.u,
            height / 2 if placed.v is None else placed.v,
        )
