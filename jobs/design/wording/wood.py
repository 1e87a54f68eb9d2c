"""What the findings about wood say: panels, holes, chambers, how a box is held; and their cures."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

WOOD: dict[str, tuple[Promise, Promise]] = {
    # -- moulded shapes
    "litres-error-unknown": (
        _("{where}: nothing tells how sure its {value} are; the bands reckon with 3 % as usual."),
        _("Fill it again, measure more areas, or measure how even the skin is."),
    ),
    "litres-unsure": (
        _("{where}: its litres may be off by {value} of themselves; {limit} is usual."),
        _("Fill it more often, measure more areas, or measure how even the skin is."),
    ),
    # -- wood
    "bevel-beyond-saw": (
        _("The bevel at {where} is {value}; the saw tilts to {limit}."),
        _("Choose another joint, or use a jig that holds the panel safely."),
    ),
    "part-larger-than-sheet": (
        _("{where}: the part is {value} long there; the trimmed sheet has {limit}."),
        _("Take a larger sheet, let the grain go, or make the panel smaller or of two pieces."),
    ),
    "driver-deeper-than-box": (
        _("{where}: behind the mounting face are {value}, but the driver is {limit} deep."),
        _("Make the box deeper, move the driver or the divider it sits in, or add a ring."),
    ),
    "driver-near-back": (
        _("Behind {where} are {value}; the driver and its air need {limit}."),
        _("Make the box deeper, move the driver or the divider it sits in, or add a ring."),
    ),
    "part-hits-wall": (
        _("{where}: it reaches {amount} into the wall beside it."),
        _("Move it away from the wall, or make the box larger."),
    ),
    "part-near-wall": (
        _("{where}: it stands {value} from the wall beside it; {limit} should stay free."),
        _("Move it away from the wall, or accept that air passes less freely."),
    ),
    "part-larger-than-face": (
        _("{where}: the flange is {value} across, its panel has room for {limit}."),
        _("Make the panel larger or choose a smaller driver."),
    ),
    "flange-over-edge": (
        _("{where}: the flange stands {amount} over the edge of its panel."),
        _("Move the driver towards the middle, or make the panel larger."),
    ),
    "cut-out-breaks-edge": (
        _("{where}: the hole cuts {amount} into the panel next to it."),
        _("Move the hole, or make its panel larger. Do not cut it so."),
    ),
    "cut-out-near-edge": (
        _("{where}: only {value} of wood is left beside the hole; {limit} is wanted."),
        _("Move the hole away from the edge."),
    ),
    "screws-off-wood": (
        _("{where}: the screws have {value} of wood around them; they need {limit}."),
        _("Move the driver, or glue a ring of wood behind the hole so that the screws hold."),
    ),
    "screw-circle-unknown": (
        _("The screw circle of {where} is not entered."),
        _("Measure it on the part and enter it in the catalogue."),
    ),
    "port-does-not-fit": (
        _("The port at {where} does not fit: there is {value} of room against {limit}."),
        _("Bend it, make the box larger, take a smaller port, or use a passive radiator."),
    ),
    "port-mouth-near-wall": (
        _("The inner mouth of the port at {where} is {value} from the wall; {limit} is wanted."),
        _("Bend the port, move it, or make it shorter and work the tuning out again."),
    ),
    "parts-collide": (
        _("{where} touch, or are in the same place."),
        _("Move one of the two."),
    ),
    "braces-cross": (
        _("{where} cross; up to {value} of wood is counted twice."),
        _(
            "Slot each half-way through, as wide as the other is thick, and push them into each "
            "other; or move one."
        ),
    ),
    "support-beyond-floor": (
        _("{where} stands {value} beyond the floor it is to carry."),
        _("Move it under the floor, or make the floor larger."),
    ),
    "support-under-opening": (
        _("{where} stands under an opening: it carries nothing."),
        _("Move it under the wood, or leave it out."),
    ),
    "support-under-hatch": (
        _("{where}: the support stands where the hatch and its ledge are."),
        _("Move the support or the hatch; the ledge needs 30 mm beside the opening."),
    ),
    "floor-tips": (
        _("{where} tips over: the middle of its weight lies {value} beyond its supports."),
        _("Put a batten or block on that side."),
    ),
    "floor-overhangs": (
        _("{where} reaches {value} beyond its supports; {limit} is the most that is usual."),
        _("Put a batten or block there: who kneels on that edge tips or breaks it."),
    ),
    "floor-sags": (
        _("{where} bends by {value} under its load between its supports; {limit} is usual."),
        _("Put a batten or block under the middle of the span, or take a thicker board."),
    ),
    "panel-cut-apart": (
        _("{where}: an opening from wall to wall cuts a strip {value} broad off its panel."),
        _("Glue the strip in by itself, or choose a joint without a rebate for that corner."),
    ),
    "round-over-beyond-board": (
        _("{where}: a round-over of {value} is bigger than the board there, {limit} thick."),
        _("Take a smaller bit: a bigger one cuts through the joint behind the board."),
    ),
    "round-over-meets-part": (
        _("{where}: {value} of wood lie beside what sits in it; its round-over takes {limit}."),
        _("Take a smaller bit, or move what sits there towards the middle."),
    ),
    "opening-in-bend": (
        _("{where}: an opening lies where the board is bent over its kerfs; it tears there."),
        _("Move the opening out of the bend, or the bend."),
    ),
    "floor-edge-sags": (
        _("{where} bends by {value} under its load at an edge nothing carries; {limit} is usual."),
        _("Put a batten along that edge, or take a thicker board."),
    ),
    "floor-may-break": (
        _("{where} is strained by {value} under its load; a third of its strength is {limit}."),
        _("Take a thicker or stronger board, or spread the load: who kneels on it breaks it."),
    ),
    "floor-strength-unknown": (
        _("{where} is strained by {value} under its load; nobody knows what its sheet bears."),
        _("Enter the bending strength of the sheet in the catalogue, from its maker's sheet."),
    ),
    "floor-load-unknown": (
        _("{where} spans {value} free, and nobody has said what it has to bear."),
        _("Enter the heaviest load in one place: a person who kneels on it, a spare wheel."),
    ),
    "floor-stiffness-unknown": (
        _("{where} spans {value} free, and nobody knows how stiff its sheet is."),
        _("Enter Young's modulus of the sheet in the catalogue, from its maker's sheet."),
    ),
    "lid-hardly-lies": (
        _("{where}: only {value} of the lid lies on the ledge; {limit} is wanted."),
        _("Make the ledge broader, or the gap narrower."),
    ),
    "hatch-narrow": (
        _("{where}: {value} are open with the lid off; a hand needs {limit}."),
        _("Make the hatch larger, or say in an accepted finding how one gets at what is under it."),
    ),
    "lid-without-grip": (
        _("Nothing lifts the lid of {where}: it has no finger hole."),
        _("Enter a finger hole, or accept it with what lifts the lid instead, such as a strap."),
    ),
    "cover-sample-open": (
        _("{where}: nobody has noted which sample of the cover the customer approved."),
        _("Show the sample in daylight; note its number and when it was approved."),
    ),
    "cover-thickness-unknown": (
        _("{where}: nobody knows how thick the cover {value} is; its edges were counted as bare."),
        _("Measure it pressed and with its glue, and enter it in the catalogue or on the panel."),
    ),
    "cover-roll-unknown": (
        _("{where}: the roll of {value} has no width yet; no metres were worked out."),
        _("Enter the width of the roll in the catalogue."),
    ),
    "cover-wider-than-roll": (
        _("{where}: its cover is {value} across the roll, which has {limit}."),
        _(
            "Take a wider roll, let the pile run the other way, or plan a seam the customer has "
            "seen; its metres are not among those to order."
        ),
    ),
    "mount-beyond-board": (
        _("{where} reaches {value} over the edge of its board."),
        _("Move it, or make the board larger."),
    ),
    "mount-over-opening": (
        _("{where} stands over an opening of its board."),
        _("Move one of the two."),
    ),
    "mounts-collide": (
        _("{where} stand in each other on their board."),
        _("Move one of the two, or make the board larger."),
    ),
    "mounts-crowded": (
        _("Between {where} is {value} of air; {limit} is what their makers ask for."),
        _("Move one of the two, or make the board larger."),
    ),
    "mount-higher-than-room": (
        _("{where} is {limit} high; over the board are {value}."),
        _("Lay the board lower, or put it elsewhere."),
    ),
    "mount-without-air": (
        _("{where} and the air over it take {limit}; over the board are {value}."),
        _("Lay the board lower, or lead its heat away with a fan."),
    ),
    "mount-air-unknown": (
        _("Nobody knows how much air {where} needs round it."),
        _("Read it in the maker's sheet and enter it in the catalogue."),
    ),
    "mount-height-unknown": (
        _("Whether {where} has air over it is not known: its height or the room is missing."),
        _("Enter its height in the catalogue, and on the board how much room is over it."),
    ),
    "mount-holes-unknown": (
        _("Where {where} is screwed down is not known; no holes are drilled for it."),
        _("Measure its holes, or take them from the maker's sheet, and enter them."),
    ),
    "mount-size-unknown": (
        _("How long and broad {where} is, nobody has entered; the board does not count it."),
        _("Enter its size in the catalogue."),
    ),
    "mount-not-listed": (
        _("{where} is on the board and not on the equipment list."),
        _("Put it on the equipment list, or take it off the board."),
    ),
    "grille-hits-cone": (
        _("The grille of {where} has {value} under it; surround and cone travel take {limit}."),
        _("Make the grille higher, or let the driver's flange into the panel."),
    ),
    "grille-near-cone": (
        _("The grille of {where} has {value} under it; {limit} keep it clear of the cone."),
        _("Make the grille higher, or let the driver's flange into the panel."),
    ),
    "grille-not-checked": (
        _("Whether the grille of {where} clears the cone is not known."),
        _("Measure how far the surround stands before the flange; enter it in the catalogue."),
    ),
    "recess-weakens-panel": (
        _("{where}: the recess is {value} deep; more than {limit} leaves less than half the wood."),
        _("Glue another layer behind the panel, or make the recess shallower."),
    ),
    "recess-through-panel": (
        _("{where}: the recess is {value} deep, the panel {limit} thick."),
        _("Take a thicker panel, or a recess of less than half its thickness."),
    ),
    "box-unfixed": (
        _("{where} stands loose in the car; in a crash it flies with many times its weight."),
        _(
            "Hold it at the vehicle maker's own points first, else by brackets or bolts into body "
            "metal, as the vehicle maker allows."
        ),
    ),
    "box-fixing-unknown": (
        _("Nobody has said how {where} is held in a crash."),
        _("Say it on the box: the vehicle maker's own points first, else what into which metal."),
    ),
    "fixing-into-nothing": (
        _("{where} is held by brackets or bolts, and nobody has said into what metal."),
        _("Write down what they go into and with what; ask the vehicle maker where in doubt."),
    ),
    "panel-unfixed": (
        _("{where} lies loose in the car; in a crash it flies, and what stands on it too."),
        _(
            "Hold it at the vehicle maker's own points first, else by brackets or bolts into body "
            "metal, as the vehicle maker allows."
        ),
    ),
    "panel-fixing-unknown": (
        _("Nobody has said how {where} is held in a crash."),
        _("Say it on the panel: the vehicle maker's own points first, else what into which metal."),
    ),
    "panel-into-nothing": (
        _("{where} is held by brackets or bolts, and nobody has said into what."),
        _("Write down what they go into and with what; ask the vehicle maker where in doubt."),
    ),
    "equipment-unfixed": (
        _("{where} stands loose in the car; in a crash it flies with many times its weight."),
        _(
            "Hold it at the vehicle maker's own points first, else by brackets or bolts into body "
            "metal, or on a board that is bolted down itself."
        ),
    ),
    "equipment-fixing-unknown": (
        _("Nobody has said how {where} is held in a crash."),
        _(
            "Say it on the equipment list: the vehicle maker's own points first, else what into "
            "which metal, or what carries it."
        ),
    ),
    "equipment-into-nothing": (
        _("{where} is held by brackets, bolts or a board, and nobody has said into what."),
        _("Write down what it is held to and with what; ask the vehicle maker where in doubt."),
    ),
    "carried-by-nothing-held": (
        _("{where} stands on a box, board or floor, and none of this job is held to the car."),
        _("Say what carries it under Box or Wood, and how that is held; or how this is held."),
    ),
    "battery-not-listed": (
        _(
            "{where} is a battery beside the car's own and not on the equipment list: nobody is "
            "asked how heavy it is and how it is held."
        ),
        _("Put it on the equipment list, and choose it at its place in the power tree."),
    ),
    "beneath-unknown": (
        _("{where}: nobody has said which fuses and terminals lie under it."),
        _(
            "List each with its place, then say that every one is listed. What nobody reaches, "
            "nobody changes."
        ),
    ),
    "beneath-not-listed": (
        _("{where}: {value} is no fuse and no terminal of this job."),
        _("Choose it anew by what is printed on it now, or take it off the list."),
    ),
    "beneath-place-unknown": (
        _("{where}: where {value} lies under it is not entered."),
        _("Measure to its middle from the lower left corner of the panel."),
    ),
    "beneath-without-hatch": (
        _("{where}: no hatch lies over {value}."),
        _("Move a hatch so that a hand reaches it, add one, or lay it elsewhere."),
    ),
    "payload-exceeded": (
        _("{where} would become {value} heavier; it may carry {limit} more as it came in."),
        _("Leave something out or build lighter. The vehicle maker's papers set the limit."),
    ),
    "axle-may-be-overloaded": (
        _("{where}: what goes in weighs {value} in all; the axle may bear {limit} more."),
        _(
            "Weigh the axle before hand-over. What stands behind the rear axle loads it with more "
            "than its own weight."
        ),
    ),
    "axles-exceeded": (
        _("{where} would become {value} heavier; both axles together may bear {limit} more."),
        _("Leave something out or build lighter. The vehicle maker's papers set the limit."),
    ),
    "axle-spare-unknown": (
        _("{where}: nobody has said what the axle may still bear; what goes in weighs {value}."),
        _("Weigh the car as it came in and enter on its page what its papers leave for the axle."),
    ),
    "job-mass-unknown": (
        _("The kilograms of {where} lack these, which nobody has weighed: {value}."),
        _("Weigh them, or enter the mass from the maker's sheet in the catalogue."),
    ),
    "finish-thicker-than-reveal": (
        _("{where}: its cover, {value} thick at the edges, fills the gap of {limit} that shows."),
        _("Make the gap at least the cover's thickness plus 1 mm, or take a thinner cover."),
    ),
    "built-litres-off": (
        _("{where} holds {value} as built; {limit} were drawn."),
        _("Look at the curves with the built litres: trim the port, fill it up, or accept it."),
    ),
    "built-finds-more": (
        _("{where}, as built, trips over what the drawn one does not: {value}."),
        _("Open what was measured and look; put it right, or accept it with a reason."),
    ),
    "opening-shut-off": (
        _("{where} opens into a chamber where no driver plays: a closed plate stands between."),
        _("Cut a window into the plate, or move one of the two."),
    ),
    "terminal-shut-off": (
        _("{where} lies in a chamber without a driver: the cable must pass a closed plate."),
        _("Move it, or seal a cable gland into the plate."),
    ),
    "air-shut-off": (
        _("{value} behind a closed plate, {where}, are not counted: no driver plays there."),
        _("Cut a window into the plate, or accept it as dead space."),
    ),
    "chambers-unlike": (
        _("The drivers have unlike air: {value} for one, {limit} for another."),
        _("Move the closed plate until the chambers are alike."),
    ),
    "chamber-without-opening": (
        _("One chamber of {where} lacks the port or radiator that it needs."),
        _("Give every chamber its own, in its own wood."),
    ),
    "box-without-divider": (
        _(
            "{where} has two chambers and no divider yet: no wood is worked out, nothing of it is "
            "on the cut sheet."
        ),
        _("Choose the divider that carries the driver, and where it stands."),
    ),
    "divider-one-layer": (
        _("{where} asks for {value} layers where the driver sits; its divider is one board."),
        _("Choose a thicker sheet, or enter one layer."),
    ),
    "front-volume-off-target": (
        _("The front chamber of {where} has {value}; {limit} are wanted."),
        _("Move the divider, or leave its place empty: then it is worked out."),
    ),
    "parts-crowded": (
        _("{where} are only {value} apart; {limit} should stay between them."),
        _("Move one of the two, or accept it if both can be fitted and taken out."),
    ),
    "panel-mode-in-band": (
        _("The panel {where} rings at {value}, inside the band in use (up to {limit})."),
        _("Add the proposed brace, or use thicker wood."),
    ),
}
