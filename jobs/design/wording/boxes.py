"""What the findings about drivers, boxes and their wood say, and what cures them."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

BOXES: dict[str, tuple[Promise, Promise]] = {
    # -- the driver
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
    "hole-noisy": (
        _("Air in the open hole of {where} reaches {value}; above {limit} it chuffs."),
        _("Blank the hole off, or leave its driver in."),
    ),
    "hole-loss-assumed": (
        _("{where}: no loss of the open hole is entered; a QP of {value} is counted."),
        _("Enter QP when it is known; a smaller one flattens the hole's own peak."),
    ),
    "port-rings-in-band": (
        _("The port of {where} rings as a pipe at {value}; the box is heard up to {limit}."),
        _("Make it shorter, cross over lower or steeper, or turn its mouth away from the ears."),
    ),
    "port-area-by-rule": (
        _("{where}: no port opening is typed; by the area rule each port is {value} across."),
        _("Type the bore of the tube that is really used."),
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
}
