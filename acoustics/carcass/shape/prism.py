"""A carcass: a profile drawn out over a width, with its wood, its contents and its litres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from shapely.geometry import Polygon

from acoustics.carcass.shape.braces import Brace, CrossBrace, Layer, Shelf
from acoustics.carcass.shape.chambers import Room, is_closed, prism_rooms, shut_off
from acoustics.carcass.shape.contents import Placed
from acoustics.carcass.shape.dividers import divider_board, divider_face
from acoustics.carcass.shape.errors import NoInsideError, metres
from acoustics.carcass.shape.faces import (
    CHEEKS,
    Extent,
    Face,
    check_face,
    on_cheek,
    rectangle_points,
    runs_upward,
    wall_frame,
)
from acoustics.carcass.shape.joints import CheekJoint, Joint, check_joints, usual_joints
from acoustics.carcass.shape.lined import Lined
from acoustics.carcass.shape.panel import Frame, Grain, Vector
from acoustics.carcass.shape.plate import check_density
from acoustics.carcass.shape.profile import Point, Profile, per_edge, positive
from acoustics.carcass.shape.seen import SeenBrace
from acoustics.carcass.shape.volumes import Volumes, check_reach
from acoustics.names import Name


@dataclass(frozen=True, kw_only=True)
class Carcass(Lined):
    """A box whose side view is a polygon, drawn out over its width between two cheeks.

    Attributes:
        profile: outer outline of the side view [m].
        width: outer width over the cheeks [m].
        thickness: measured thickness of the panels, one for all or one per edge [m].
        cheek_thickness: measured thickness of the cheeks, one or (left, right); that of the
            first edge when None [m].
        joints: one joint per corner; chosen by `usual_joints` when None.
        cheek_joint: cover (cheeks hide the wall ends), between (walls hide the cheeks' edges),
            mitre, or rebate (walls let into the cheeks).
        cheek_rebate: depth of that rebate [m].
        layers: stacked baffles.
        braces: braces.
        contents: parts in its faces.
        grain: run of the grain on every panel seen from outside: across, up or none.
        density: density of the sheet, or None when not known [kg/m³].

    Raises:
        ProfileError: a dimension that is not greater than 0 m, or a wrong number of values.
        NoInsideError: the panels leave no inside.
        JointError: joints that do not go together.
        PlacementError: a part, a layer or a brace on a face that is not there.

    Valid: any simple profile.
    """

    profile: Profile
    width: float
    thickness: float | Sequence[float]
    cheek_thickness: float | tuple[float, float] | None = None
    joints: tuple[Joint, ...] | None = None
    cheek_joint: CheekJoint = "cover"
    cheek_rebate: float = 0.0
    layers: tuple[Layer, ...] = ()
    braces: tuple[Brace, ...] = ()
    contents: tuple[Placed, ...] = ()
    grain: Grain = "none"
    density: float | None = None

    def __post_init__(self) -> None:
        for name, value in zip(self.profile.names, self.wall_thickness, strict=True):
            positive(Name.THICKNESS, value, of=name)
        for name, value in zip(CHEEKS, self.cheeks, strict=True):
            positive(Name.THICKNESS, value, of=name)
        positive(Name.WIDTH, self.width)
        check_joints(
            corners=len(self.profile),
            joints=self.joints,
            of_corners=self.corner_joints,
            cheek_joint=self.cheek_joint,
            cheek_rebate=self.cheek_rebate,
            cheeks=self.cheeks,
        )
        check_density(self.density)
        for layer in self.layers:
            check_face(layer.face, self.faces)
        for placed in self.contents:
            check_face(placed.face, (*self.faces, *self.dividers))
        _ = self.volumes  # an inside that vanishes is found at birth

    @property
    def faces(self) -> tuple[str, ...]:
        """Names of its faces: the walls round the profile, then the cheeks."""
        return (*self.profile.names, *CHEEKS)

    @property
    def between_cheeks(self) -> tuple[str, ...]:
        """Names of the walls: rectangles from cheek to cheek."""
        return self.profile.names

    @cached_property
    def wall_thickness(self) -> tuple[float, ...]:
        """Thickness of the panel on each edge.

        Returns: one thickness per edge [m]
        """
        return per_edge(self.thickness, len(self.profile), Name.THICKNESS)

    @cached_property
    def cheeks(self) -> tuple[float, float]:
        """Thickness of the left and the right cheek.

        Returns: two thicknesses [m]
        """
        thickness = self.wall_thickness[0] if self.cheek_thickness is None else self.cheek_thickness
        left, right = per_edge(thickness, 2, Name.CHEEK_THICKNESS)
        return left, right

    @cached_property
    def corner_joints(self) -> tuple[Joint, ...]:
        """The joint at each corner of the profile.

        Returns: one joint per corner
        """
        return usual_joints(self.profile) if self.joints is None else self.joints

    @cached_property
    def inner_profile(self) -> Profile:
        """Outline of the inside of the bare panels.

        Returns: profile [m]
        """
        return self.profile.inset(self.wall_thickness)

    @cached_property
    def air_profile(self) -> Profile:
        """Outline of the air: the inside less the stacked baffles.

        Returns: profile [m]
        """
        names = self.profile.names
        return self.inner_profile.inset([self.layer_thickness(n, outside=False) for n in names])

    @property
    def inner_width(self) -> float:
        """Width between the bare cheeks.

        Returns: width [m]
        """
        return self.width - sum(self.cheeks)

    @cached_property
    def air_span(self) -> tuple[float, float]:
        """Where the air begins and ends across the width, from the outside of the left cheek.

        Returns: distance of the left and of the right end [m]

        Raises:
            NoInsideError: when the cheeks and their layers leave no inside.
        """
        left, right = (
            t + self.layer_thickness(name, outside=False)
            for t, name in zip(self.cheeks, CHEEKS, strict=True)
        )
        if self.width - left - right <= 0:
            raise NoInsideError(
                code="cheeks-leave-no-inside",
                left=metres(left),
                right=metres(right),
                width=metres(self.width),
            )
        return left, self.width - right

    @cached_property
    def volumes(self) -> Volumes:
        """Where the litres go.

        Returns: volumes [m³]

        Raises:
            NoInsideError: when nothing is left.
            PlacementError: when a brace does not fit.
        """
        start, end = self.air_span
        air = self.air_profile.polygon
        gross = self.inner_profile.area * self.inner_width
        check_reach(self.braces, start, end)
        return Volumes.of(
            self.contents,
            gross=gross,
            layers=gross - self.air_profile.area * (end - start),
            braces=sum(b.volume(air, end - start) for b in self.braces),
            thickness=lambda name: self.face(name).thickness,
            shut_off=shut_off(self),
        )

    @cached_property
    def rooms(self) -> tuple[Room, ...]:
        """Its air, parted by closed plates and shelves.

        Returns: rooms, from the left cheek on [m³]
        """
        return prism_rooms(self.air_profile.polygon, self.air_span, self.braces)

    @cached_property
    def dividers(self) -> dict[str, CrossBrace | Shelf]:
        """Closed plates and shelves, in which parts may sit.

        Returns: plates and shelves by name
        """
        return {
            brace.name: brace
            for brace in self.braces
            if isinstance(brace, CrossBrace | Shelf) and is_closed(brace)
        }

    @property
    def outer_volume(self) -> float:
        """Volume of the outline of the box, layers outside not counted.

        Returns: volume [m³]
        """
        return self.profile.area * self.width

    def face(self, name: str) -> Face:
        """Return a face as seen from outside, or a divider as seen from its outer side.

        Args:
            name: name of an edge of the profile, left or right, or a closed plate or shelf.

        Returns: face

        Raises:
            PlacementError: when there is no such face.
        """
        if name in self.dividers:
            return divider_face(self.dividers[name], self.air_profile, self.air_span)
        check_face(name, self.faces)
        x0, y0, x1, y1 = self.profile.polygon.bounds
        inner = self.layer_thickness(name, outside=False)
        outer = self.layer_thickness(name, outside=True)
        if name in CHEEKS:
            size, wood = (x1 - x0, y1 - y0), self.cheeks[CHEEKS.index(name)]
            if name == "right":
                frame = Frame(origin=(x0, y0, self.width), u=(1, 0, 0), v=(0, 1, 0))
            else:
                frame = Frame(origin=(x1, y0, 0), u=(-1, 0, 0), v=(0, 1, 0))
        else:
            edge = self.profile.index(name)
            size, wood = (self.width, self.profile.length(edge)), self.wall_thickness[edge]
            frame = wall_frame(self.profile, edge, self.width)
        return Face(name=name, frame=frame, size=size, wood=wood, inner=inner, outer=outer)

    def plate_air(self, at: float, thickness: float) -> Polygon:
        """Return the air that a plate across the box sees: the same wherever it stands.

        Args:
            at: distance of its nearer face from the outside of the left cheek [m].
            thickness: its thickness [m].

        Returns: polygon in (x, y), coordinates in [m]
        """
        return self.air_profile.polygon

    def section_of(self, brace: Brace) -> Polygon:
        """Return a brace seen end on from the side.

        Args:
            brace: one of its braces.

        Returns: polygon in (x, y), coordinates in [m]
        """
        return brace.section(self.air_profile.polygon)

    def outline(self, name: str) -> tuple[Point, ...]:
        """Return the wood of a face seen from outside.

        Args:
            name: name of the face.

        Returns: corners (u, v), counter-clockwise [m]
        """
        if name in self.dividers:
            return divider_board(self.dividers[name], self.air_profile, self.air_span)[0]
        face = self.face(name)
        if name in CHEEKS:
            return on_cheek(name, face.frame, self.profile)[0]
        return rectangle_points(0.0, 0.0, *face.size)

    def air_outline(self, name: str) -> tuple[Point, ...]:
        """Return where a face has air behind it.

        Args:
            name: name of the face.

        Returns: corners (u, v), counter-clockwise [m]
        """
        if name in self.dividers:
            return self.outline(name)
        frame, air = self.face(name).frame, self.air_profile
        if name in CHEEKS:
            return on_cheek(name, frame, air)[0]
        edge = self.profile.index(name)
        heights = [
            (x - frame.origin[0]) * frame.v[0] + (y - frame.origin[1]) * frame.v[1]
            for x, y in (air.points[edge], air.points[(edge + 1) % len(air)])
        ]
        start, end = self.air_span
        if runs_upward(self.profile, edge):
            start, end = self.width - end, self.width - start
        return rectangle_points(start, min(heights), end, max(heights))

    def reach(self, name: str, v: float | None = None) -> tuple[float, float]:
        """Return where the wood of a face begins and ends, the same at every height on it.

        Args:
            name: name of the face.
            v: height on the face [m].

        Returns: left and right end along u [m]
        """
        return 0.0, self.face(name).size[0]

    @property
    def extents(self) -> tuple[Extent, ...]:
        """Depth and width over all.

        Returns: ends along x and z [m]
        """
        x0, _, x1, _ = self.profile.polygon.bounds
        return ((x0, x1, 0.0, self.width),)

    def way_out(self, name: str) -> Vector:
        """Return the way from the middle of the box to the middle of a face.

        Args:
            name: name of the face.

        Returns: vector (x, y, z) [m]
        """
        if name in CHEEKS:
            return 0.0, 0.0, self.width / 2 * (1 if name == "right" else -1)
        middle, wall = self.profile.polygon.centroid, self.profile.lines[name].centroid
        return wall.x - middle.x, wall.y - middle.y, 0.0

    def seen_braces(self) -> list[SeenBrace]:
        """Return the wood inside as the side view shows it.

        Returns: outlines (x, y) [m]
        """
        air = self.air_profile.polygon
        return [seen for brace in self.braces for seen in brace.seen(air)]

    def around(self, name: str) -> tuple[str, ...]:
        """Return the faces next to one, counter-clockwise seen from outside.

        Args:
            name: name of the face.

        Returns: names, of a wall from its lower end on
        """
        names = self.profile.names
        if name in CHEEKS:
            _, edges = on_cheek(name, self.face(name).frame, self.profile)
            return tuple(names[edge] for edge in edges)
        edge = self.profile.index(name)
        before, after = names[edge - 1], names[(edge + 1) % len(names)]
        if runs_upward(self.profile, edge):  # u runs from the right cheek to the left
            return before, "left", after, "right"
        return after, "right", before, "left"

    def centre(self, placed: Placed) -> Point:
        """Return where a part sits on its face.

        Args:
            placed: the part and its face.

        Returns: point (u, v) [m]
        """
        width, height = self.face(placed.face).size
        return (
            width / 2 if placed.u is None else placed.u,
            height / 2 if placed.v is None else placed.v,
        )
