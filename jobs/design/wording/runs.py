"""What the findings about speaker, line and control runs, their ends and routes say."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

RUNS: dict[str, tuple[Promise, Promise]] = {
    # -- speaker runs
    "speaker-load-unknown": (
        _("{where}: the impedance of the speakers is not entered."),
        _("Enter it from the part maker's sheet, or measure it."),
    ),
    "speaker-run-resistance-unknown": (
        _("{where}: length or cable of the speaker run is not entered."),
        _("Measure the length, choose the cable, and enter both."),
    ),
    "speaker-run-ampacity-unknown": (
        _("{where}: what the speaker cable may carry where it lies is not known."),
        _("Enter the cable, its temperature class and its zone."),
    ),
    "speaker-run-over-ampacity": (
        _("{where}: the speaker cable carries {value} at rated output; it may carry {limit}."),
        _("Take larger cable."),
    ),
    "speaker-run-loss": (
        _("{where}: the speaker cable takes {value}; {limit} is the usual bound."),
        _("Take larger or shorter cable, or accept the loss."),
    ),
    "load-held-up-by-cable": (
        _("{where}: the speakers have {value}, the amplifier allows {limit}. Only cable helps."),
        _("Connect the speakers otherwise. Cable resistance is no load to rely on."),
    ),
    "bridged-output-has-no-ground": (
        _("{where} is bridged: both of its speaker cables carry a signal, none is ground."),
        _("Keep both insulated and never connect either to the chassis."),
    ),
    # -- line and control runs
    "run-length-unknown": (
        _("The length of run {where} is not entered."),
        _("Measure it along the real route and enter it."),
    ),
    "line-treble-loss": (
        _("Line run {where} takes {value} at 20 kHz; {limit} is the bound."),
        _("Shorten it, or take cable with less capacitance or a source that drives it better."),
    ),
    "line-treble-unknown": (
        _("Line run {where}: source resistance or cable capacitance is not entered."),
        _("Enter both from the part makers' sheets if the run is long."),
    ),
    "line-beside-power": (
        _("Line run {where} lies along a power run for {value}."),
        _("Move it to the other side of the car; where they must meet, cross at a right angle."),
    ),
    "line-beside-power-unknown": (
        _("Nobody noted what line run {where} lies beside."),
        _("Look along its route and enter it."),
    ),
    "line-shares-panel": (
        _("Line run {where} passes behind the same panel as power runs: {value}."),
        _("Keep a hand's breadth between them, and cross at a right angle where they must meet."),
    ),
    "line-along-power": (
        _("Line run {where} goes the same way as power runs, panel after panel: {value}."),
        _("Lay one of them along the other side of the car; cross at a right angle."),
    ),
    "turn-on-limit-unknown": (
        _("Control run {where}: how much its source may give is not entered."),
        _("Enter it from the part maker's sheet."),
    ),
    "turn-on-current-unknown": (
        _("Control run {where}: what the parts on it draw is not entered."),
        _("Enter it from the part makers' sheets, or measure it."),
    ),
    "turn-on-needs-relay": (
        _("Control run {where}: the parts on it draw {value}; its source may give {limit}."),
        _("Fit a relay with its own fused feed."),
    ),
    "turn-on-may-need-relay": (
        _("Control run {where}: the parts on it draw {value}; not every source gives {limit}."),
        _("Enter what the source may give, or fit a relay."),
    ),
    "relay-coil-over-limit": (
        _("Control run {where}: the relay coil draws {value}; its source may give {limit}."),
        _("Take a relay with a weaker coil."),
    ),
    "signal-on-supply": (
        _("Run {where} begins at the supply of the car: it is no signal, and a short burns it."),
        _("Enter it as a control or power run, with a fuse at its start, or another start."),
    ),
    "control-unprotected": (
        _("Control run {where} is fed by the car's supply and has no fuse. A short burns it."),
        _("Fit a fuse at its start, no larger than the cable may carry."),
    ),
    "control-fuse-above-cable": (
        _("Control run {where}: up to {value} of fuse ahead of a cable that carries {limit}."),
        _("Fit a smaller fuse at its start, or a larger cable."),
    ),
    "control-over-ampacity": (
        _("Control run {where} carries {value}; its cable may carry {limit}."),
        _("Take larger cable, or a relay with its own fused feed."),
    ),
    "control-output-above-cable": (
        _("Control run {where}: its source may give {value}; its cable may carry {limit}."),
        _("Fit a fuse at its start, or take larger cable."),
    ),
    "control-cable-unrated": (
        _("Control run {where}: nobody publishes what a cable this thin may carry."),
        _("Take 0.5 mm² or more, or enter the cable maker's figure."),
    ),
    "control-feed-unknown": (
        _("Control run {where}: nobody noted what feeds it, so whether it can burn is open."),
        _("Enter whether a device's output or the car's supply feeds it."),
    ),
    "relay-without-coil": (
        _("{where}: the current of the relay's coil is not entered."),
        _("Enter it from the relay's sheet."),
    ),
    "coil-diode-unknown": (
        _("{where}: nobody noted whether its coil has a diode or a resistor."),
        _("Look, or ask its maker; a bare coil can destroy what switches it."),
    ),
    "coil-without-diode": (
        _("{where}: its coil has neither diode nor resistor."),
        _("Fit a diode across the coil, its stripe to the plus; reversed it is a short."),
    ),
    # -- returns and ground points
    "return-end-unknown": (
        _("{where}: where the minus ends is not entered."),
        _("Enter the post, sensor side, stud or block it goes to."),
    ),
    "ground-not-bare": (
        _("{where}: returns end on paint."),
        _("Clean to bare metal under the lug, tighten, then seal against rust."),
    ),
    "ground-surface-unknown": (
        _("{where}: nobody noted whether the metal under the lug is bare."),
        _("Look under the lug and enter it."),
    ),
    "ground-resistance-unknown": (
        _("{where}: its resistance to the battery's minus is not measured."),
        _("Send a known current through it, read the millivolts, and enter the quotient."),
    ),
    "ground-resistance-high": (
        _("{where}: {value} to the battery's minus; {limit} is the aim at its current."),
        _("Clean the metal, take a larger lug or a plate, or run a cable."),
    ),
    "ground-on-sensed-post": (
        _("{where} ends at the battery's post, but the car commands its charging by a sensor."),
        _("Move it to the body side of the sensor, as the vehicle maker says."),
    ),
    "ground-lugs-many": (
        _("{where}: {value} lugs on one stud; {limit} at most."),
        _("Set a second stud, or a ground block."),
    ),
    "shared-return-over-ampacity": (
        _("{where}: {value} flow back together; its cable may carry {limit}."),
        _("Take larger cable, or a return of its own for each part."),
    ),
    "shared-return-drop": (
        _("{where}: what flows back together loses {value}; {limit} is the aim."),
        _("Take larger or shorter cable, or a return of its own for each part."),
    ),
    "hum-grounds-apart": (
        _("{where} hand a signal on, grounded apart: {value} against 2 V line level when loud."),
        _(
            "One ground point for source and amplifiers. If it hums all the same: note whether it "
            "follows volume, engine or lights; short the amplifier's inputs; unplug the source but "
            "leave it powered; measure the millivolts between the cases; look at the routes; an "
            "isolating transformer last. Never lift a ground."
        ),
    ),
    "hum-shared-drop": (
        _("{where}: a shared way back shifts the grounds by {value} against 2 V of line level."),
        _("Amplifiers and source at one point keep it out of the signal."),
    ),
    # -- terminals and routes
    "fuse-holder-not-chosen": (
        _("{where}: no holder is chosen for a fuse, so that none is ordered."),
        _("Choose one for its kind and current. A fuse in the block itself is at 0."),
    ),
    "fuse-terminal-not-chosen": (
        _("{where}: the cable is cut for a fuse, and no terminal is chosen for its ends there."),
        _("Choose what the holder takes. A fuse on the post or in the block is at 0."),
    ),
    "terminal-not-chosen": (
        _("{where}: no terminal is chosen for one end or more."),
        _("Choose one that fits the cable, the metal and the stud."),
    ),
    "stud-torque-unknown": (
        _("{where}: the torque of a stud is not entered."),
        _("Enter it from the part maker's sheet and tighten with a torque wrench."),
    ),
    "terminal-wrong-size": (
        _("{where}: the terminal is not made for this cable ({value}); it takes {limit}."),
        _("Take a terminal whose range covers the cable. Otherwise the crimp does not hold."),
    ),
    "terminal-size-unknown": (
        _("{where}: which cables its terminal is made for is not entered."),
        _("Enter it from the terminal maker's sheet."),
    ),
    "terminal-wrong-stud": (
        _("{where}: the terminal is for {value}, the stud is {limit}."),
        _("Take a terminal with the right hole. No washer makes up for it."),
    ),
    "holder-ways": (
        _("{where} has {limit} ways and {value} branches."),
        _("Take a block with more ways, or a second one."),
    ),
    "holder-cable": (
        _("{where} takes cable up to {limit}; {value} ends there."),
        _("Take another block or holder, or smaller cable where the fuse allows it."),
    ),
    "holder-over-rating": (
        _("{where} carries {value}; its maker allows {limit}."),
        _("Take a block for more, or less load."),
    ),
    "holder-rating-unknown": (
        _("What {where} may carry is not entered."),
        _("Enter it from its maker's sheet."),
    ),
    "holder-for-other-fuse": (
        _("The holder of a fuse of {where} is made for another kind of fuse."),
        _("Take a holder for this fuse, or the fuse the holder is made for."),
    ),
    "holder-fuse-unknown": (
        _("{where}: which kind of fuse its holder takes is not entered."),
        _("Enter it in the catalogue from the part maker's sheet."),
    ),
    "choice-without-holder": (
        _("{where}: no holder of the catalogue is known to take its fuse, current and cable."),
        _("Enter in the catalogue what a holder takes, or choose one yourself."),
    ),
    "choice-without-terminal": (
        _("{where}: no terminal of the catalogue is known to fit its cable and the holder's stud."),
        _("Enter cable sizes and stud in the catalogue, or choose the terminal yourself."),
    ),
    "fuse-above-holder": (
        _("The fuse of {where} is {value}; its holder may carry {limit}."),
        _("Take a holder for more, or a smaller fuse where the load allows it."),
    ),
    "signal-above-input": (
        _("{where}: {value} found in the factory loom, its input takes {limit}."),
        _("Put a line converter between them, or use an input for high level."),
    ),
    "high-level-into-line": (
        _("{where}: a signal for a speaker is joined to an input nobody has read."),
        _("Put a line converter between them, or enter the highest signal its inputs take."),
    ),
    "data-without-interface": (
        _("{where}: bus or fibre leads to a part that reads neither."),
        _("Put an interface between them."),
    ),
    "join-kind-unknown": (
        _("{where}: nobody noted what this pin of the factory loom carries."),
        _("Find out on the pin itself and enter it."),
    ),
    "join-level-unknown": (
        _("{where}: nobody measured what comes out of this pin."),
        _("Measure it with the factory unit turned up, and enter it."),
    ),
    "device-without-supply": (
        _("No power run leads to {where}."),
        _("Enter the run that feeds it, or a supply current of zero if it takes none."),
    ),
    "interface-without-data": (
        _("No bus or fibre of the car leads to {where}."),
        _("Enter the join to the factory loom and the run that leads from it."),
    ),
    "calls-open": (
        _("{where}: nobody has asked whether a hands-free call must be heard over the music."),
        _("Ask, and answer it in the brief. Calls may come through the factory amplifier only."),
    ),
    "mute-run-missing": (
        _("{where}: a call must be heard over the music, and nothing mutes the music."),
        _("Enter the control run from the hands-free that mutes, and what it mutes."),
    ),
    "input-limit-unknown": (
        _("{where}: which signal its inputs take is not entered."),
        _("Enter it from the part maker's sheet before the loom is joined."),
    ),
    "signal-run-missing": (
        _("No signal run leads to {where}."),
        _("Enter the line or speaker run that ends at it."),
    ),
    "turn-on-run-missing": (
        _("Nothing turns {where} on."),
        _("Enter the control run that wakes it."),
    ),
    "route-missing": (
        _("{where}: no route is entered."),
        _("Enter the panels and places it passes, in order."),
    ),
    "run-wrong-side": (
        _("{where} is on the other side of the car than {value}, which the route passes there."),
        _("Read the label on the cable and look at its route; correct whichever is wrong."),
    ),
    "run-crosses-car": (
        _("{where}: both ends are on one side of the car, the route passes the other: {value}."),
        _("Lay it along its own side, or correct the route."),
    ),
    "side-unknown": (
        _("Which side of the car it is on is not entered: {where}."),
        _("Enter left, right or middle there: then a cable on the wrong side is noticed."),
    ),
    "pull-force-unpublished": (
        _("{where}: no pull test force is published for {value}."),
        _("Use the terminal maker's figure."),
    ),
    "grommet-missing": (
        _("Run {where} passes bare metal at {value}. It will chafe through."),
        _("Fit a grommet or an edge guard before the run goes in."),
    ),
    "passage-unknown": (
        _("Run {where}: nobody noted the edge or its grommet at {value}."),
        _("Look at the place and enter it."),
    ),
    "bend-too-tight": (
        _("Run {where} is bent to {value}; {limit} is the least inner radius."),
        _("Lay it in a wider bend, as the cable maker says."),
    ),
    "bend-radius-unknown": (
        _("Run {where}: its tightest bend is not measured; {limit} is the least."),
        _("Measure it and enter it."),
    ),
    "outer-diameter-unknown": (
        _("Run {where}: its diameter over the insulation is not entered."),
        _("Measure it and enter it in the catalogue."),
    ),
    # -- heat
    "amplifier-in-closed-space": (
        _("{where} gives off {value} on average, and no air can move there."),
        _("Open a way for air below and above it, or move it, as the part maker says."),
    ),
    "amplifier-air-unknown": (
        _("{where} gives off {value} on average; nobody noted whether air can move there."),
        _("Look at the place and enter it."),
    ),
}
