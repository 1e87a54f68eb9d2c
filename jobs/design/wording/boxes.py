"""What the findings about drivers, boxes and their wood say, and what cures them."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

BOXES: dict[str, tuple[Promise, Promise]] = {
    # -- the driver and what was measured of it
    "driver-parameters-contradict": (
        _("{where} is given as {value}, but the driver's other figures lead to {limit}."),
        _("Read the data sheet again and correct the figure, or measure the driver."),
    ),
    "sweep-not-symmetric": (
        _(
            "The measured impedance leans to one side of resonance: its middle is at {value}, "
            "that of the fitted driver at {limit}."
        ),
        _("Measure again: driver in free air, lower level, finer steps around the peak."),
    ),
    "sweep-fits-badly": (
        _(
            "No driver fits the measured impedance well: the curves differ by {value}, {limit} "
            "is good enough."
        ),
        _("Listen for a rattle, take the driver out of any box, and measure again."),
    ),
    "coil-resistance-fitted": (
        _(
            "{where}: Re ({value}) was fitted; this coil loses so much at resonance that a fit may "
            "take its losses for resistance."
        ),
        _("Measure the resistance across the terminals with a meter and enter it."),
    ),
    # -- the finished box by its impedance
    "box-tuned-off": (
        _("{where}: the finished box resonates at {value}; drawn was {limit}."),
        _(
            "Trim the port or the added mass and measure again. A closed box: look for litres that "
            "were lost or won, and whether the driver is the one that was reckoned with."
        ),
    ),
    "box-leaks": (
        _(
            "{where}: what the finished box loses, taken as one leak, is a QL of {value}; a sound "
            "box of its kind has {limit} or more."
        ),
        _(
            "Feel along gasket, terminals and seams while it plays low; seal, and measure again. "
            "Lining looks the same."
        ),
    ),
    "losses-not-one-leak": (
        _(
            "{where}: a single leak does not explain what the finished box loses: it misses the "
            "curve by {value}, losses in port and lining beside it by {limit}."
        ),
        _("Look at the port: sharp edges, cloth or lining before its mouth, too narrow a bend."),
    ),
    "box-sweep-fits-badly": (
        _(
            "{where}: no box of its kind fits the measured impedance well: the curves differ by "
            "{value}, {limit} is good enough."
        ),
        _("Listen for a rattle or a loose panel, tighten the driver, and measure again."),
    ),
    "box-sweep-cannot-be-used": (
        _("The sweep of {where} proves nothing: {value}."),
        _("Measure again, or correct the text of the sweep."),
    ),
    "measured-differs-from-catalogue": (
        _("{where} was measured as {value}; the catalogue says {limit}."),
        _("Measure again. If it stays so, correct the catalogue or design with what you measured."),
    ),
    "sweep-cannot-be-used": (
        _("The sweep of {where} tells nothing: {value}."),
        _("Measure again, or correct the text of the sweep."),
    ),
    "xmax-unknown": (
        _("How far {where} may move (Xmax) is not entered, so its excursion cannot be checked."),
        _("Enter Xmax from the part maker's sheet in the catalogue."),
    ),
    "radiator-xmax-unknown": (
        _("How far {where} may move as a passive radiator (Xmax) is not entered."),
        _("Enter Xmax from the part maker's sheet in the catalogue."),
    ),
    "radiator-above-xmax": (
        _("{where}: the passive radiator would move {value}; its maker allows {limit}."),
        _("Take a larger one or two, add or raise the high-pass, or lower the level."),
    ),
    "filter-shape-unknown": (
        _("{where}: a filter of its channel has a frequency but no shape, so it is not counted."),
        _("Choose the shape on the channel's page."),
    ),
    "driver-size-unknown": (
        _("Depth or cut-out of {where} is not entered, so nobody knows whether it fits."),
        _("Enter them from the part maker's sheet, or measure the driver."),
    ),
    # -- what the box does
    "box-without-driver": (
        _("{where} has no driver yet."),
        _("Choose one on the box page."),
    ),
    "box-cannot-be": (
        _("{where} cannot be worked out: {value}."),
        _("Correct or add the figure it names."),
    ),
    "leakage-assumed": (
        _("{where}: no leakage is entered; the usual QL of its kind, {value}, is counted."),
        _("Enter QL when it is known: a sweep of the finished box tells it."),
    ),
    "factory-hole-unsaid": (
        _(
            "{where}: nobody said what becomes of the factory hole; it is worked out as blanked "
            "off."
        ),
        _("Say whether it is blanked off, left open, or keeps its driver."),
    ),
    "box-without-channel": (
        _("{where}: no channel feeds it; the curves are at {value}, without filters or cable."),
        _("Choose the channel that plays its driver."),
    ),
    "box-could-have-channel": (
        _(
            "{where}: this channel plays its driver, but none is chosen to feed the box; the "
            "curves are at {value}, without filters or cable."
        ),
        _("Choose it on the box page, so that amplifier, filters and cable count."),
    ),
    "drivers-wired-apart": (
        _(
            "{where}: {value} drivers share its air, but the channel that feeds it plays {limit}: "
            "a driver that is fed apart moves against the others as a leak does."
        ),
        _("Feed all drivers of one chamber from one channel, or divide the chamber."),
    ),
    "band-top-unknown": (
        _("{where} has its first standing wave at {value}; nobody said how high it plays."),
        _("Enter the low-pass of its channel: below it there may be something to do."),
    ),
    "amplifier-above-coil": (
        _(
            "{where}: music limited hard, or clipped now and then, puts {value} into a driver's "
            "coil when it fills the amplifier; its maker says {limit}."
        ),
        _(
            "Lower the channel's gain, or add a high-pass. The maker's figure is that of a named "
            "test: it is no promise for this box, a hot cabin or a clipped signal."
        ),
    ),
    "programme-above-coil": (
        _(
            "{where}: ordinary music puts {value} into a driver's coil when its peaks fill the "
            "amplifier; its maker says {limit}."
        ),
        _("Lower the channel's gain before it is played, or take more or larger drivers."),
    ),
    "gain-spares-coil": (
        _("{where}: {value} less gain keeps limited music within what the coil bears."),
        _("Set the channel's gain so; a clipped signal needs less still."),
    ),
    "high-pass-spares-coil": (
        _("{where}: with the volume left as it is, a high-pass at {value}, 24 dB/oct, spares it."),
        _("Set it on the channel's page, and look at what it takes from the curve."),
    ),
    "coil-power-unknown": (
        _("What the coil of {where} bears is not entered, so the amplifier was not held to it."),
        _("Enter the power from the part maker's sheet in the catalogue."),
    ),
    "excursion-above-xmax": (
        _(
            "{where}: the cone would move {value} at this voltage, filters as set; its maker "
            "allows {limit}."
        ),
        _(
            "Add or raise the high-pass, lower the level, change the box, or take a driver that "
            "moves further. The part maker's limits come first."
        ),
    ),
    "spread-crosses-xmax": (
        _(
            "{where}: with usual tolerances one build in twenty moves its cone {value} or more; "
            "its maker allows {limit}."
        ),
        _("Lower the level, add or raise the high-pass, or change the box."),
    ),
    "spread-crosses-port-speed": (
        _(
            "{where}: with usual tolerances the air in the port reaches {value} or more in one "
            "build of twenty; above {limit} it chuffs."
        ),
        _("Take a larger port, or lower the level."),
    ),
    "port-noisy": (
        _("Air in the port of {where} reaches {value}; above {limit} it chuffs."),
        _("Take a larger port and make it longer, round its ends, or use a passive radiator."),
    ),
    "port-rings-in-band": (
        _("The port of {where} rings as a pipe at {value}; the box is heard up to {limit}."),
        _("Make it shorter, cross over lower or steeper, or turn its mouth away from the ears."),
    ),
    "port-area-by-rule": (
        _("{where}: no port opening is typed; by the area rule each port is {value} across."),
        _("Type the bore of the tube that is really used."),
    ),
    "second-port-not-in-wood": (
        _("{where}: the second port is counted in the air, but it is not in the wood."),
        _("Cut its hole by hand and take its litres off; or use equal ports."),
    ),
    "volume-off-target": (
        _("{where} comes out at {value} net; {limit} was wanted."),
        _("Change the outside dimensions, or accept the new volume after a look at the curves."),
    ),
    "standing-wave-in-band": (
        _("{where} has a standing wave at {value}, below the highest frequency used ({limit})."),
        _(
            "Put absorbing material on the walls the wave runs between, cross over lower, or "
            "divide the box."
        ),
    ),
    "standing-waves-above-band": (
        _("{where} has its first standing wave at {value}, above all it is used for ({limit})."),
        _("Nothing to do. Damping for it would only take litres."),
    ),
    "box-shape-matters": (
        _(
            "The shape of {where} puts its first standing wave at {value}; a square box of the "
            "same volume has it at {limit}."
        ),
        _("Compare both: other waves fall into the band. A slope moves waves, it removes none."),
    ),
    "box-shape-does-not-matter": (
        _(
            "The sloped panel of {where} gains nothing: the first standing wave is at {value}, "
            "in a square box at {limit}, with as many in the band."
        ),
        _("Choose the shape that fits the car and is easy to build."),
    ),
    # -- into the car
    "box-does-not-pass-opening": (
        _("{where}: the box does not go through. It needs {value}, the opening has {limit}."),
        _("Build it smaller, or in parts that are joined inside the car."),
    ),
    "box-passes-turned": (
        _("{where}: {value} of the box against {limit}: it goes through only turned askew."),
        _("Try it with a template in the trim, two people and the opening covered."),
    ),
    "box-too-near": (
        _("{where}: the gap to the box is {value}; {limit} should stay free."),
        _("Make it smaller, or move it. Nothing may rub, and the cover must go on."),
    ),
    "cavity-cannot-be": (
        _("The cavity of {where} cannot be used: {value}."),
        _("Correct its corners, its width or the gap to keep."),
    ),
    "cavity-width-unknown": (
        _("{where}: the cavity has an outline but no width, so the box was not held against it."),
        _("Measure how wide it is at its narrowest."),
    ),
    "opening-unknown": (
        _("{where}: nobody measured the opening it must pass; it may not go in."),
        _("Measure the clear width and height of the door or hatch, trim in place."),
    ),
    "mass-unknown": (
        _("The mass of {where} is not known; the rest of the box weighs {value}."),
        _("Weigh it, or enter the mass from the maker's sheet."),
    ),
    "braces-across-cure": (
        _(
            "{where}: {value} brace(s) across the box in all, no more than {limit} apart, lift it "
            "out of the band."
        ),
        _("Enter so many inner braces; make the bays a little unequal."),
    ),
    "braces-level-cure": (
        _(
            "{where}: {value} level brace(s) in all, no more than {limit} apart, lift it out of "
            "the band."
        ),
        _("Enter so many inner braces; make the bays a little unequal."),
    ),
    "braces-along-cure": (
        _(
            "{where}: {value} brace(s) along the width, no more than {limit} apart, lift it out of "
            "the band."
        ),
        _(
            "Enter shelves, in a lying panel uprights, where they divide it into such bays; or use "
            "thicker wood."
        ),
    ),
    "braces-between-walls-cure": (
        _(
            "{where}: {value} brace(s) behind it, no more than {limit} apart, lift it out of the "
            "band."
        ),
        _("Enter shelves or uprights that divide it into such bays, or use thicker wood."),
    ),
    "board-unknown": (
        _(
            "{where}: stiffness or density of the sheet is not known; whether a panel rings was "
            "not worked out."
        ),
        _("Enter Young's modulus and density of the sheet in the catalogue."),
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
        _("Make the box deeper, put the driver elsewhere, or add a spacer ring."),
    ),
    "driver-near-back": (
        _("Behind {where} are {value}; the driver and its air need {limit}."),
        _("Make the box deeper, put the driver elsewhere, or add a spacer ring."),
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
    "rear-port-not-in-wood": (
        _("The rear port of {where} is not in its wood yet: its length is not entered."),
        _("Enter the length that is worked out for it."),
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
