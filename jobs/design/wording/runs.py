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
    # -- terminals and routes
    "terminal-not-chosen": (
        _("{where}: no terminal is chosen for one end or more."),
        _("Choose one that fits the cable, the metal and the stud."),
    ),
    "stud-torque-unknown": (
        _("{where}: the torque of a stud is not entered."),
        _("Enter it from the part maker's sheet and tighten with a torque wrench."),
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
