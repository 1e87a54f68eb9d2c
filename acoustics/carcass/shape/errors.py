"""What can be impossible about a box of wood, as data: a code and the figures it turns on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from acoustics.errors import COUNT, AcousticsError, Quantity
from acoustics.names import Name

# code -> what is given with it. The comment says when it is raised, where the code does not.
CODES: dict[str, tuple[str, ...]] = {
    # --- profile and outlines; cure: correct the measure or the corners ---------------------------
    "measure-not-positive": ("measure", "value"),
    "measure-of-part-not-positive": ("measure", "of", "value"),
    "measure-too-large": ("measure", "value", "other", "limit"),  # other: the measure it must be in
    "values-not-one-per-edge": ("measure", "values", "edges"),
    "too-few-corners": ("corners",),
    "corner-not-finite": (),
    "edge-names-wrong": ("corners", "names"),  # every edge needs a name of its own
    "outline-crosses-itself": (),
    "outline-runs-clockwise": (),
    "no-such-edge": ("name", "names"),
    "corner-straight": ("name",),  # the corner where this edge begins is none
    "rectangle-encloses-nothing": ("width", "height"),
    "loop-encloses-nothing": ("corners",),
    "slope-too-steep": ("slope", "steepest"),
    "slope-meets-front": ("slope", "steepest"),  # below the top
    "flats-too-few": ("flats",),
    "sides-too-few": ("sides",),
    "lean-too-steep": ("lean", "steepest"),
    "plan-turns-inward": (),
    "walls-meet": ("height",),  # leaning walls, below this height
    # --- nothing left inside; cure: thinner wood, a larger box ------------------------------------
    "edge-has-no-inside": ("thinnest", "thickest", "name", "length"),
    "panels-cross": ("thinnest", "thickest"),
    "cheeks-leave-no-inside": ("left", "right", "width"),
    "ends-leave-no-inside": ("bottom", "top", "height"),
    "no-air-left": ("taken", "gross"),  # wood and parts take more than the inside has
    "panel-too-short": ("name", "thickness"),  # between its neighbours: a face of it vanishes
    "panels-meet-in-no-corner": (),
    # --- joints; cure: another joint, a shallower rebate ------------------------------------------
    "joint-unknown": ("kind", "through"),
    "joints-not-one-per-corner": ("joints", "corners"),
    "cheek-joint-unknown": ("kind",),
    "mitred-cheeks-need-mitres": (),
    "rebate-depth-wrong": ("kind", "depth"),  # a rebate without depth, or a depth without rebate
    "rebate-through-cheeks": ("rebate", "cheek"),
    "rebate-through-panel": ("rebate", "name", "thickness"),
    "rebate-where-walls-lean": (),
    # --- parts and braces put where there is no such place; cure: move or correct them ------------
    "no-such-face": ("face", "faces"),
    "thickness-of-no-side": ("name", "sides"),
    "brace-without-length": ("name",),
    "brace-outside": ("name",),
    "brace-beyond-width": ("name", "low", "high", "start", "end"),
    "brace-beyond-height": ("name", "low", "high", "start", "end"),
    "braces-where-walls-lean": (),  # other than level ones
    "window-rim-too-thin": ("name", "rim", "wanted"),
    "window-reaches-wall": ("name",),
    "windows-leave-no-wood": ("name",),
    "window-cuts-nothing": ("left", "right"),
    "motor-depth-negative": ("name", "depth"),
    "motor-wider-than-cut-out": ("name", "motor", "hole"),
    "flange-inside-cut-out": ("name", "flange", "hole"),
    "heading-unknown": ("heading",),
    "first-leg-not-inward": ("name",),
    "port-turns-back": ("name",),
    "port-shorter-than-bend": ("name", "length", "straight"),
    "slot-higher-than-box": ("height", "room"),  # boards and all
    "slot-wider-than-box": ("width", "room"),
    "slot-needs-square-corner": ("face", "wall"),
    "slot-mouth-in-cheek": ("face", "sides"),  # its boards run from cheek to cheek
    "slot-board-cut": ("name",),  # another wall cuts into it
    "slot-in-prism-only": (),
    "depth-of-port": ("name",),  # a depth is asked of a driver only
    "clearance-negative": ("value",),
    "facing-unknown": ("facing",),
    "several-drivers-in-cheek": ("drivers",),
    "layers-too-few": ("layers",),
    "nothing-to-place": ("drivers", "ports"),
    "driver-outline-unknown": (),  # outer diameter, cut-out, depth or magnet diameter
    "port-or-tuning-unknown": (),
    # --- moulded shapes; cure: correct what was measured ------------------------------------------
    "sections-coincide": ("height",),  # two areas at one height
    "sections-enclose-nothing": (),
    "skin-too-small": ("area", "least"),  # a ball of these litres has more surface
    "skin-fills-shape": ("taken", "volume"),
    "moulded-is-one-chamber": (),  # raised by the bridge: a band-pass box is made of panels
    "spacer-vanishes": ("number", "length"),  # the ring lies too low there for its lean
    # --- lists beyond what is worked out; cure: fewer ---------------------------------------------
    "too-many": ("things", "count", "most"),
    # --- rings and trim; cure: correct the measure ------------------------------------------------
    "screw-circle-off-wood": ("circle", "low", "high"),
    "ring-incomplete": ("layers", "screws", "tilt"),  # 1 layer, 3 screws, 0 to 45° at least
    "opening-reaches-rim": ("reveal",),
    "round-beside-curve": ("corner",),  # only a corner between straight edges is rounded
    "round-too-large": ("corner", "radius", "limit"),
    "station-off-batten": ("corner", "along", "limit"),
    "stations-coincide": ("corner",),
    "no-such-corner": ("corner", "most"),  # a batten along an edge that is not there
    "gap-closes-outline": ("gap",),  # nothing is left between the gaps, or an edge vanishes
    "floor-on-no-support": (),  # a floor needs battens or blocks
    "floor-thicker-than-level": ("level", "taken"),  # nothing is left of its supports
    "lid-vanishes": ("width", "height", "taken"),  # gap and cover take all of the opening
    "lid-falls-through": ("ledge", "wanted"),  # between its ledges
    "ledge-closes-hatch": ("ledge",),
    "finger-hole-off-lid": ("diameter", "low", "high"),
    # --- boards bent over kerfs; cure: another skin, blade, radius, place -------------------------
    "skin-thicker-than-board": ("skin", "thickness"),
    "bend-too-tight": ("radius", "thickness"),  # no room for the board inside its own bend
    "bend-beyond-turn": ("angle",),  # 0 to 360°
    "kerfs-too-many": ("kerfs",),
    "kerfs-overlap": ("spacing", "blade", "wanted"),  # no rib is left between two of them
    "bend-off-panel": ("start", "end", "width"),
    # --- wood as a plate; cure: correct the sheet -------------------------------------------------
    "panel-mass-unknown": ("name",),  # density not entered
    "density-not-positive": ("density",),
    "panel-size-not-positive": ("length", "width", "thickness"),
    "band-top-not-positive": ("frequency",),
    "board-impossible": ("modulus", "density", "poisson"),
    # --- sheets; cure: a larger sheet, less trim --------------------------------------------------
    "sheet-size-not-positive": ("name", "value"),
    "part-size-not-positive": ("name", "value"),
    "part-count-too-small": ("name", "quantity"),
    "kerf-or-trim-negative": ("kerf", "trim"),
    "cover-wider-than-roll": ("name", "across", "width"),
    "cutting-unknown": ("mode",),
    "no-parts": ("name",),
    "trim-leaves-no-sheet": ("name", "trim"),
    "part-beyond-sheet": ("name", "length", "width", "sheet", "room_length", "room_width"),
    "part-beyond-grain": ("name", "length", "width", "sheet", "room_length", "room_width"),
    # --- cavity; cure: correct it -----------------------------------------------------------------
    "cavity-without-outline": (),
    "gap-negative": ("gap",),
    "gap-fills-cavity": ("gap",),
    "obstacle-encloses-nothing": ("name",),
    "obstacle-ends-before-it-begins": ("name", "start", "end"),
}


def metres(value: float) -> Quantity:
    """Give a length its unit.

    Args:
        value: length [m]

    Returns: the length with its unit

    Source: definition.
    """
    return Quantity(value, "m")


class CarcassError(AcousticsError):
    """A carcass that cannot be built as described."""

    codes: ClassVar[Mapping[str, tuple[str, ...]]] = CODES


class ProfileError(CarcassError):
    """A profile that is no simple outline, or dimensions that cannot make one."""


class NoInsideError(CarcassError):
    """Panels so thick that a panel or the whole inside vanishes."""


class WallsMeetError(NoInsideError):
    """Leaning walls that meet before they reach the bottom or the top."""


class JointError(CarcassError):
    """A joint that these panels cannot have."""


class PlacementError(CarcassError):
    """A part or a brace put where the carcass has no such place."""


class SheetError(CarcassError):
    """A part that no sheet can hold, or a sheet that leaves nothing to cut."""


def at_most(count: int, most: int, things: Name, kind: type[CarcassError] = CarcassError) -> None:
    """Refuse so many of a thing that a loop over them would not end in time.

    Args:
        count: how many there are [-]
        most: how many are worked out [-]
        things: what they are called
        kind: the error to raise

    Raises:
        CarcassError: when there are more.

    Source: definition.
    """
    if count > most:
        number, limit = Quantity(count, COUNT), Quantity(most, COUNT)
        raise kind(code="too-many", things=things, count=number, most=limit)


class CavityError(CarcassError):
    """A cavity that is no space at all."""
