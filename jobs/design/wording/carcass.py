"""What the wood refused: code of the calculator -> what is said."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from acoustics.carcass.shape.errors import (
    CarcassError,
    CavityError,
    JointError,
    NoInsideError,
    PlacementError,
    ProfileError,
    SheetError,
    WallsMeetError,
)

# The code says what is wrong; the kind of error says what it stands in the way of.
KINDS: tuple[tuple[type[CarcassError], Promise], ...] = (
    (ProfileError, _("the side profile cannot be built")),
    (WallsMeetError, _("the walls meet before they reach the bottom or the top")),
    (NoInsideError, _("nothing is left inside the walls")),
    (JointError, _("the panels cannot be joined so")),
    (PlacementError, _("something does not fit where it is put")),
    (SheetError, _("a piece cannot be cut from the sheet")),
    (CavityError, _("the cavity cannot be used so")),
    (CarcassError, _("the carcass cannot be built")),
)
CARCASS: dict[str, Promise] = {
    # -- profile and outlines
    "measure-not-positive": _("{measure} is {value}; it must be more than zero"),
    "measure-of-part-not-positive": _("{of}, {measure}: {value}; it must be more than zero"),
    "measure-too-large": _("{measure} is {value}; it must be less than {other}, {limit}"),
    "values-not-one-per-edge": _(
        "{measure}: {values} values for {edges} edges; give one, or one for each edge"
    ),
    "too-few-corners": _("an outline needs 3 corners or more"),
    "corner-not-finite": _("one of its corners is not a number"),
    "edge-names-wrong": _("its {corners} edges need as many different names; they have {names}"),
    "outline-crosses-itself": _(
        "its outline crosses or touches itself; give its corners one after the other, all round"
    ),
    "outline-runs-clockwise": _("its corners run clockwise; give them the other way round"),
    "no-such-edge": _("the box has no side {name}; it has {names}"),
    "corner-straight": _("the corner where {name} begins is straight; leave it out"),
    "rectangle-encloses-nothing": _("a rectangle of {width} by {height} encloses nothing"),
    "loop-encloses-nothing": _(
        "an outline of {corners} corners encloses nothing or crosses itself"
    ),
    "slope-too-steep": _("the lean from upright is {slope}; it must be less than {steepest}"),
    "slope-meets-front": _(
        "with a lean of {slope} the rear meets the front below the top; it must be less than "
        "{steepest}"
    ),
    "flats-too-few": _("{flats} flats cannot follow an arch; take 2 or more"),
    "sides-too-few": _("{sides} sides cannot follow a round well; take 5 or more"),
    "lean-too-steep": _("the lean from upright is {lean}; it must be less than {steepest}"),
    "plan-turns-inward": _("the plan turns inward; walls that lean must all face outward"),
    "walls-meet": _("the leaning walls meet below a height of {height}; let them lean less"),
    # -- nothing left inside
    "edge-has-no-inside": _(
        "panels {thinnest} to {thickest} thick leave no inside at {name}, which is {length} long "
        "outside; take thinner panels or make it longer"
    ),
    "panels-cross": _(
        "panels {thinnest} to {thickest} thick leave no inside, opposite ones cross; take thinner "
        "panels or a larger box"
    ),
    "cheeks-leave-no-inside": _(
        "side panels of {left} and {right} leave no inside in a width of {width}; make it wider"
    ),
    "ends-leave-no-inside": _(
        "bottom and top of {bottom} and {top} leave no inside in a height of {height}; make it "
        "higher"
    ),
    "no-air-left": _(
        "wood and parts inside take {taken}, the inside has {gross}; make the box larger"
    ),
    "panel-too-short": _(
        "{name}, {thickness} thick, is too short between its neighbours; take thinner wood, or "
        "leave the short side out"
    ),
    "panels-meet-in-no-corner": _("three panels do not meet in one corner"),
    # -- joints
    "joint-unknown": _("there is no such joint"),
    "joints-not-one-per-corner": _("{joints} joints are given for {corners} corners"),
    "cheek-joint-unknown": _("there is no such joint of a side panel"),
    "mitred-cheeks-need-mitres": _(
        "mitred side panels close only where every corner is mitred too"
    ),
    "rebate-depth-wrong": _("a rebate needs a depth, and no other joint has one; it is {depth}"),
    "rebate-through-cheeks": _(
        "a rebate {rebate} deep goes through side panels {cheek} thick; make it shallower"
    ),
    "rebate-through-panel": _(
        "a rebate {rebate} deep goes through {name}, {thickness} thick; make it shallower"
    ),
    "rebate-where-walls-lean": _(
        "walls that all lean meet in a mitre or a butt joint; a rebate needs square walls"
    ),
    # -- parts and braces
    "no-such-face": _("the box has no side {face}; it has {faces}"),
    "thickness-of-no-side": _("a thickness is given for {name}, but the sides are {sides}"),
    "brace-without-length": _("{name} starts and ends at one point"),
    "brace-outside": _("{name} does not lie inside the box"),
    "brace-beyond-width": _(
        "{name} reaches from {low} to {high} from the left; the inside runs from {start} to {end}"
    ),
    "brace-beyond-height": _(
        "{name} reaches from {low} to {high} up from the bottom; the inside runs from {start} to "
        "{end}"
    ),
    "braces-where-walls-lean": _(
        "where all walls lean, only level braces can be entered, by their number"
    ),
    "window-rim-too-thin": _(
        "the window of {name} leaves a rim of {rim}; {wanted} is wanted: cut less out of it"
    ),
    "window-reaches-wall": _("the window of {name} reaches a wall; cut less out of it"),
    "windows-leave-no-wood": _("the windows of {name} leave no wood; cut less out of it"),
    "window-cuts-nothing": _("the window from {left} to {right} cuts nothing out"),
    "motor-depth-negative": _("{name}, magnet height: {depth}; it must be zero or more"),
    "motor-wider-than-cut-out": _(
        "the motor of {name}, {motor} across, does not pass through its cut-out of {hole}; "
        "correct the part"
    ),
    "flange-inside-cut-out": _(
        "the flange of {name}, {flange} across, does not cover its cut-out of {hole}; correct the "
        "part"
    ),
    "heading-unknown": _("a port cannot bend that way"),
    "first-leg-not-inward": _("the first piece of {name} must lead inward"),
    "port-turns-back": _("{name} cannot turn back into itself"),
    "port-shorter-than-bend": _(
        "{name} is {length} long, but its straight piece before the bend takes {straight}; shorten "
        "that piece or leave the bend out"
    ),
    "slot-higher-than-box": _(
        "the slot and its board take {height}, the box has {room} there; make the slot flatter"
    ),
    "slot-wider-than-box": _(
        "the slot and its boards take {width}, the box has {room} there; make it narrower, or "
        "leave its width empty: then it runs from wall to wall"
    ),
    "slot-needs-square-corner": _(
        "a slot made of the box's own panels needs {face} and {wall} square to each other; put it "
        "elsewhere, or give it walls of its own"
    ),
    "slot-mouth-in-cheek": _(
        "a slot made of the box's own panels cannot open in the {face} side; it opens in one of "
        "{sides}"
    ),
    "slot-board-cut": _(
        "{name} is cut into by another wall of the box; make the port shorter or put it elsewhere"
    ),
    "slot-in-prism-only": _(
        "where all walls lean, a slot has walls of its own; take a box with square walls"
    ),
    "depth-of-port": _("{name} is a port; a depth is asked of a driver"),
    "clearance-negative": _("a gap to keep is {value}; it must be zero or more"),
    "facing-unknown": _("a driver cannot look that way"),
    "several-drivers-in-cheek": _("only one driver goes into a side panel"),
    "layers-too-few": _("{layers} layers of wood; it must be 1 or more"),
    "nothing-to-place": _("{drivers} drivers and {ports} ports; each must be 1 or more"),
    "driver-outline-unknown": _(
        "outer diameter, cut-out, depth or magnet diameter of the driver is missing"
    ),
    "port-or-tuning-unknown": _("the port's diameter or the tuning wanted is missing"),
    "too-many": _("{count} {things} are too many; at most {most} are worked out"),
    # -- rings and trim
    "screw-circle-off-wood": _(
        "the screw circle is {circle} across; for its screws to have wood it must be {low} to "
        "{high}"
    ),
    "ring-incomplete": _(
        "a ring of {layers} layers with {screws} screws, tilted {tilt}; it needs 1 layer, 3 screws "
        "and a tilt of 0° to 45°"
    ),
    "sections-coincide": _("two areas are given at a height of {height}; take one out"),
    "sections-enclose-nothing": _("its areas enclose nothing; one at least is above zero"),
    "skin-too-small": _(
        "a surface of {area} cannot hold so much: a ball would have {least}; measure it with its "
        "floor"
    ),
    "skin-fills-shape": _("the skin takes {taken}, the mould holds {volume}; correct one of them"),
    "moulded-is-one-chamber": _(
        "a moulded shape is one chamber; two chambers are built of panels, with a divider"
    ),
    "spacer-vanishes": _(
        "spacer {number} would be {length} long; raise the middle of the ring, or let it lean less"
    ),
    "opening-reaches-rim": _(
        "an opening with a reveal of {reveal} reaches the rim of the trim panel or another opening"
    ),
    "round-beside-curve": _(
        "corner {corner} cannot be rounded beside a curved edge; round it by the curve itself"
    ),
    "round-too-large": _(
        "corner {corner} rounded by {radius} takes more than its edges have; {limit} is the most"
    ),
    "station-off-batten": _(
        "a station {along} along the batten of corner {corner} lies off it; it is {limit} long"
    ),
    "stations-coincide": _(
        "two stations of the batten of corner {corner} are at one place; take one out"
    ),
    "no-such-corner": _("a batten lies after corner {corner}, and the outline has {most}"),
    "gap-closes-outline": _(
        "{gap} off every edge leaves nothing of it, or closes one of its edges; make the gap "
        "narrower, or leave the short edge out"
    ),
    "floor-on-no-support": _(
        "a floor needs something to stand on; enter its battens or blocks, each by its middle"
    ),
    "floor-thicker-than-level": _(
        "the floor and its cover take {taken}, and its top is to lie {level} high: nothing is left "
        "of its supports; raise it, or lay it on the metal as a trim panel"
    ),
    "lid-vanishes": _(
        "gap and cover take {taken} of a hatch of {width} by {height}; make the hatch larger"
    ),
    "lid-falls-through": _(
        "a ledge of {ledge} does not reach under the lid, beyond gap and cover; make it {wanted}"
    ),
    "ledge-closes-hatch": _(
        "a ledge of {ledge} on every side closes the hatch; make it narrower, or the hatch larger"
    ),
    "finger-hole-off-lid": _(
        "a finger hole of {diameter} does not go into the lid of the hatch; with the cover turned "
        "into it and wood left round it, it must be {low} to {high}"
    ),
    # -- boards bent over kerfs
    "skin-thicker-than-board": _(
        "{skin} are to be left under the kerfs and the board is {thickness}; leave less"
    ),
    "bend-too-tight": _(
        "a radius of {radius} outside leaves no room inside for a board of {thickness}"
    ),
    "bend-beyond-turn": _("a board bends by 0° to 360°; {angle} are asked"),
    "kerfs-too-many": _("the bend takes {kerfs} kerfs, more than are worked out; bend it less"),
    "kerfs-overlap": _(
        "the kerfs would stand {spacing} apart and are {blade} wide; they need {wanted}: take a "
        "larger radius, a wider blade, or leave more under them"
    ),
    "bend-off-panel": _(
        "the bend runs from {start} to {end} and the flat panel is {width} wide; move it, or make "
        "the panel wider"
    ),
    # -- wood as a plate
    "panel-mass-unknown": _("{name} has no mass: the density of its sheet is not known"),
    "density-not-positive": _("the density of the sheet is {density}; it must be more than zero"),
    "panel-size-not-positive": _(
        "a panel of {length} by {width} by {thickness}; each must be more than zero"
    ),
    "band-top-not-positive": _("the band ends at {frequency}; it must be more than zero"),
    "board-impossible": _(
        "a sheet of {modulus} and {density} with a Poisson's ratio of {poisson}; the first two "
        "must be more than zero, the last 0 to 0.5"
    ),
    # -- sheets
    "sheet-size-not-positive": _("the sheet {name} measures {value}; it must be more than zero"),
    "part-size-not-positive": _("the part {name} measures {value}; it must be more than zero"),
    "part-count-too-small": _("the part {name} is needed {quantity} times; it must be 1 or more"),
    "kerf-or-trim-negative": _(
        "the kerf is {kerf} and the edge to trim off {trim}; both must be zero or more"
    ),
    "cover-wider-than-roll": _(
        "the cover of {name} is {across} wide and the roll {width}; take a wider roll, or cover it "
        "in two pieces with a seam the customer has seen"
    ),
    "cutting-unknown": _("there is no such way of cutting"),
    "no-parts": _("there is no part to lay on the sheet {name}"),
    "trim-leaves-no-sheet": _("with {trim} trimmed off each edge nothing of the sheet is left"),
    "part-beyond-sheet": _(
        "the part {name}, {length} by {width}, is larger than the sheet {sheet}, trimmed to "
        "{room_length} by {room_width}"
    ),
    "part-beyond-grain": _(
        "the part {name}, {length} by {width}, is larger along the grain than the sheet {sheet}, "
        "trimmed to {room_length} by {room_width}"
    ),
    # -- cavity
    "cavity-without-outline": _("the cavity has no outline or no width"),
    "gap-negative": _("the gap is {gap}; it must be zero or more"),
    "gap-fills-cavity": _("a gap of {gap} leaves no room in the cavity"),
    "obstacle-encloses-nothing": _("the outline of “{name}” encloses nothing or crosses itself"),
    "obstacle-ends-before-it-begins": _("“{name}” ends at {end}, before it begins at {start}"),
}


def kind_of(error: CarcassError) -> str:
    """Say what the refusal stands in the way of."""
    return str(next(words for kind, words in KINDS if isinstance(error, kind)))
