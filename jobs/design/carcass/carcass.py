"""A box's outside dimensions as wood: its carcass, its litres and its cut list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.cut_list import CutPart, cut_list
from acoustics.carcass.panels.mass import Mass, box_mass
from acoustics.carcass.panels.supplies import Supplies, supplies
from acoustics.carcass.room.clearance import check_contents
from acoustics.carcass.room.parted import OPENINGS, check_chambers
from acoustics.carcass.shape import shapes
from acoustics.carcass.shape.body import Body, Drawn
from acoustics.carcass.shape.braces import Layer
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart, kind_of, numbered
from acoustics.carcass.shape.errors import PlacementError
from acoustics.carcass.shape.faces import CHEEKS
from acoustics.carcass.shape.four_sided import NAMES
from acoustics.carcass.shape.inside.chambers import chambers, drivers_in
from acoustics.carcass.shape.inside.seen import SeenBrace
from acoustics.carcass.shape.joints import Joint, JointKind, by_slope, same_joints, usual_joints
from acoustics.carcass.shape.leaning import ENDS
from acoustics.carcass.shape.panel import Frame, Panel
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.taper import Taper
from acoustics.errors import AcousticsError, Id
from acoustics.findings import Finding
from jobs.design.carcass.braces import DIVIDER, braces, is_parted
from jobs.design.carcass.contents import contents, own_port
from jobs.design.carcass.slots import boarded, bore, is_boarded, ports
from jobs.design.carcass.tapered import planned, tapered, walls_of
from jobs.design.records.findings import Term, Word
from jobs.models import Box, SheetMaterial

# What a drawing meets in a carcass.
__all__ = [
    "Drawn",
    "Frame",
    "Panel",
    "Placed",
    "PortBody",
    "RoundPart",
    "SeenBrace",
    "Taper",
    "Wood",
    "build",
    "kind_of",
    "wood",
]

FRONT = "front"
# Parts nobody gave a name.
OWN_PARTS = ("port", "second port", "rear port", "terminal plate")
JOINTS: dict[str, JointKind] = {
    Box.Corner.BUTT: "butt",
    Box.Corner.MITRE: "mitre",
    Box.Corner.REBATE: "rebate",
}
# Which measures a shape needs, in the order its builder takes them.
NEEDS: dict[str, tuple[str, ...]] = {
    Box.Shape.RECTANGLE: ("depth", "height"),
    Box.Shape.SLOPED: ("depth", "height"),
    Box.Shape.WEDGE: ("depth", "height"),
    Box.Shape.KNEE: ("depth", "height", "cut_depth", "cut_height", "top_depth"),
    Box.Shape.STEP: ("depth", "height", "cut_depth", "cut_height"),
    Box.Shape.TOE: ("depth", "height", "cut_depth", "cut_height"),
    Box.Shape.CORNER: ("depth", "height", "cut_depth", "cut_height"),
    Box.Shape.ARCH: ("depth", "height", "cut_height"),
    Box.Shape.WELL: ("depth",),
    Box.Shape.TAPER: ("depth", "height", "top_depth", "top_width"),
    Box.Shape.PROFILE: ("profile",),
    Box.Shape.PLAN: ("plan", "height"),
    # It is measured, not drawn: `moulded.py`.
    Box.Shape.MOULDED: (),
}
# Of these either one completes it.
EITHER: dict[str, tuple[str, ...]] = {Box.Shape.SLOPED: ("top_depth", "rear_slope")}


def drawn_from(shape: str) -> tuple[str, ...]:
    """Name the measures a shape has a use for, beside its width."""
    return NEEDS[shape] + EITHER.get(shape, ())


@dataclass(frozen=True, kw_only=True)
class Wood:
    """A carcass with what is printed of it."""

    carcass: Body
    parts: tuple[CutPart, ...]
    findings: tuple[Finding, ...]
    # The face the driver sits in.
    face: str

    @property
    def panels(self) -> list[Panel]:
        """Its panels one by one."""
        return [panel for part in self.parts for panel in part.panels]

    @property
    def front_volume(self) -> float | None:
        """The air a driver in a divider looks into; None without one."""
        return front_volume(self.carcass)

    @cached_property
    def mass(self) -> Mass:
        """What it weighs as far as it is known."""
        return box_mass(self.carcass, self.panels)

    @property
    def supplies(self) -> Supplies:
        """What to have at hand to glue, screw and seal it."""
        return supplies(self.carcass, self.panels)

    @property
    def places(self) -> dict[str, Word]:
        """What people call the parts that findings name, one by one and by their kind."""
        inside = self.carcass.contents
        # Where ports differ, the kind is called as the first of them.
        names = {kind_of(placed.part): placed.part.name for placed in reversed(inside)}
        names |= dict(zip(numbered(inside), (placed.part.name for placed in inside), strict=True))
        return {key: Term((name,)) if name in OWN_PARTS else name for key, name in names.items()}


def front_volume(body: Body) -> float | None:
    """Return the air of the chambers that drivers in a divider look into; None without one."""
    fronts = [chamber.volume for chamber in chambers(body) if drivers_in(body, chamber.facing)]
    return sum(fronts) if fronts else None


def profile_of(box: Box) -> Profile | None:
    """Return the outer side view, or None while a dimension is missing."""
    needed = [getattr(box, name) for name in NEEDS[box.shape]]
    if any(value is None for value in needed):
        return None
    if box.shape == Box.Shape.PROFILE:
        return Profile(points=tuple((x, y) for x, y in box.profile)) if box.profile else None
    if box.shape == Box.Shape.SLOPED:
        return _sloped(box, *needed)
    return _shaped(box.shape, *needed)


def _sloped(box: Box, depth: float, height: float) -> Profile | None:
    """The lean of a seat back is measured as an angle or as a second depth."""
    if box.top_depth is not None:
        return shapes.sloped_rear_profile(depth, box.top_depth, height)
    if box.rear_slope is not None:
        return shapes.leaning_rear_profile(depth, height, box.rear_slope)
    return None


def _shaped(shape: str, depth: float, height: float = 0.0, *rest: float) -> Profile:
    if shape == Box.Shape.WEDGE:
        return shapes.wedge_profile(depth, height)
    if shape == Box.Shape.KNEE:
        knee_depth, knee_height, top_depth = rest
        return shapes.double_slope_profile(
            bottom_depth=depth,
            knee_depth=knee_depth,
            knee_height=knee_height,
            top_depth=top_depth,
            height=height,
        )
    if shape == Box.Shape.ARCH:
        return shapes.wheel_arch_profile(depth=depth, height=height, radius=rest[0])
    if shape == Box.Shape.WELL:
        return shapes.round_well_profile(diameter=depth)
    size = {"depth": depth, "height": height}
    if shape == Box.Shape.STEP:
        return shapes.step_profile(**size, step_depth=rest[0], step_height=rest[1])
    if shape == Box.Shape.TOE:
        return shapes.l_profile(**size, toe_depth=rest[0], toe_height=rest[1])
    if shape == Box.Shape.CORNER:
        return shapes.cut_corner_profile(**size, cut_depth=rest[0], cut_height=rest[1])
    return shapes.rectangle_profile(depth, height)


def driver_face(box: Box, names: Sequence[str]) -> str:
    """Name the face the driver sits in: its divider, as chosen, the front, or a profile's last."""
    if is_parted(box):
        return DIVIDER
    if box.driver_face:
        return box.driver_face
    if box.shape == Box.Shape.WELL:  # its flat sides stand around it; it opens upwards
        return "right"
    return FRONT if FRONT in names else names[-1]


def build(box: Box, *, port_length: float | None) -> Body | None:
    """Return the box with everything in it, or None while it has no size or no wood."""
    if box.material is None or box.shape == Box.Shape.MOULDED:
        return None
    if box.shape in (Box.Shape.TAPER, Box.Shape.PLAN):
        return _leaning(box, box.material, port_length)
    if box.width is None:
        return None
    profile = profile_of(box)
    if profile is None:
        return None
    return _prism(box, profile, box.width, box.material, port_length)


def _leaning(box: Box, material: SheetMaterial, port_length: float | None) -> Taper | None:
    """Return a box whose walls may all lean: over a rectangle, or over a plan of its own."""
    if is_boarded(box):
        raise PlacementError(code="slot-in-prism-only")
    walls = walls_of(box) if box.shape == Box.Shape.PLAN else NAMES[:-2]
    if walls is None:
        return None
    face = driver_face(box, walls)
    wood = _thicknesses(box, material, (*walls, *ENDS))
    layers = _layers(box, face, wood.get(face, material.thickness))
    make = planned if box.shape == Box.Shape.PLAN else tapered
    taper = make(box, wood, layers)
    return taper and replace(taper, contents=contents(box, taper, face, port_length))


def _thicknesses(box: Box, material: SheetMaterial, names: Sequence[str]) -> dict[str, float]:
    """Give every side the thickness of the sheet, or its own."""
    own = dict(box.thicknesses or {})
    for name in own:
        if name not in names:
            raise PlacementError(
                code="thickness-of-no-side", name=Id(name), sides=tuple(map(Id, names))
            )
    return dict.fromkeys(names, material.thickness) | own


def _layers(box: Box, face: str, thickness: float) -> tuple[Layer, ...]:
    """The sheets glued onto the driver's face; a divider is one board, and a finding says so."""
    if face == DIVIDER:
        return ()
    return (Layer(face=face, thickness=thickness),) * (box.baffle_layers - 1)


def _prism(
    box: Box, profile: Profile, width: float, material: SheetMaterial, port_length: float | None
) -> Carcass:
    thickness = material.thickness
    wood = _thicknesses(box, material, (*profile.names, *CHEEKS))
    walls = tuple(wood[name] for name in profile.names)
    left, right = (wood[name] for name in CHEEKS)
    face = driver_face(box, profile.names)
    depth = box.rebate_depth or min(*walls, left, right) / 2
    bare = Carcass(
        profile=profile,
        width=width,
        thickness=walls,
        cheek_thickness=(left, right),
        joints=_joints(box, profile, depth),
        cheek_joint=box.cheek_joint,  # type: ignore[arg-type]
        cheek_rebate=depth if box.cheek_joint == Box.Cheek.REBATE else 0.0,
        layers=_layers(box, face, wood.get(face, thickness)),
        density=material.density,
        grain=box.grain if material.grained else "none",  # type: ignore[arg-type]
    )
    slot = boarded(box, bare, face, port_length)
    inner = (*braces(box, bare, thickness), *(slot.boards if slot else ()))
    braced = replace(bare, braces=inner)
    port = (slot.placed,) if slot else ()
    return replace(braced, contents=(*contents(box, braced, face, port_length), *port))


def _joints(box: Box, profile: Profile, depth: float) -> tuple[Joint, ...]:
    """Return a joint per corner; panels that run through come first where two could."""
    through = by_slope(profile, standing=box.runs_through == Box.Through.STANDING)
    if box.corner_joint == Box.Corner.USUAL:
        return usual_joints(profile, through=through)
    return same_joints(profile, JOINTS[box.corner_joint], through=through, depth=depth)


def slot_bore(box: Box) -> tuple[float, float, float] | None:
    """Return width, height and the room above a slot along a wall of the box; None without one."""
    bare = build(box, port_length=None)
    return bore(box, bare, driver_face(box, bare.profile.names)) if bare else None


def taken_by_port(box: Box, length: float) -> float | None:
    """Return what the port of this length takes of the inside, walls and boards with it.

    None while neither its wood nor a tube says so, or where the wood has no room for it.
    """
    try:
        empty, filled = build(box, port_length=None), build(box, port_length=length)
        if empty is not None and filled is not None:
            before, after = empty.volumes, filled.volumes
            return after.ports + after.braces - before.ports - before.braces
        tube = own_port(box, length)
    except AcousticsError:
        return None
    return tube.outer_area * tube.length * ports(box) if tube else None


def _inside(carcass: Body) -> tuple[Finding, ...]:
    """What is wrong inside.

    Of an opening that runs into another part nobody knows which chamber it serves, so that none
    is said to lack one: moved out of the way it serves its own.
    """
    clear, parted = check_contents(carcass), check_chambers(carcass)
    openings = {
        name
        for name, placed in zip(numbered(carcass.contents), carcass.contents, strict=True)
        if kind_of(placed.part) in OPENINGS
    }
    hit = any(f.code == "parts-collide" and not openings.isdisjoint(f.detail) for f in clear)
    return (
        *clear,
        *(f for f in parted if not (hit and f.code == "chamber-without-opening")),
    )


def wood(box: Box, *, port_length: float | None) -> Wood | None:
    """Return the carcass with its cut list and what is wrong with what is in it."""
    carcass = build(box, port_length=port_length)
    if carcass is None:
        return None
    walls = carcass.plan.names if isinstance(carcass, Taper) else carcass.profile.names
    return Wood(
        carcass=carcass,
        parts=cut_list(panels(carcass)),
        findings=_inside(carcass),
        face=driver_face(box, walls),
    )
