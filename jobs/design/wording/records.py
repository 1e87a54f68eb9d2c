"""What the findings about the job's own records say: car, panels, channel plan, runs."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

RECORDS: dict[str, tuple[Promise, Promise]] = {
    # -- the car
    "high-voltage-car": (
        _("{where} has a high-voltage system. Its cables are orange."),
        _(
            "Keep away from every orange cable. Isolation is for people qualified for it, after "
            "the vehicle maker's procedure."
        ),
    ),
    "car-taken-over": (
        _("Figures of {where} come from another car of the model, on {value}."),
        _(
            "Hold its battery, charging and cabin, and above all the text on airbags, against "
            "this car and its maker's manual; then tick it."
        ),
    ),
    "battery-place-unknown": (
        _("Nobody noted where the 12 V battery of {where} sits."),
        _("Look it up in the vehicle maker's manual and enter it on the car page."),
    ),
    "battery-chemistry-unknown": (
        _("The kind of 12 V battery in {where} is not entered."),
        _("Read it off the battery and enter it. Its maker says how it may be charged."),
    ),
    "charging-source-unknown": (
        _("It is not entered what charges the 12 V battery of {where}."),
        _("Find out whether it is an alternator or a DC-DC converter, and enter it."),
    ),
    "charging-current-unknown": (
        _("It is not entered how much current charges the 12 V battery of {where}."),
        _("Read the rating plate or ask the vehicle maker, and enter it."),
    ),
    "factory-fate-open": (
        _("Nobody decided what becomes of the factory part {where}."),
        _("Choose on the car page: stays in use, stays unplugged, removed and kept, or replaced."),
    ),
    # -- panels
    "airbag-unknown": (
        _("Nobody noted whether an airbag or its cable is near {where}."),
        _("Look it up in the vehicle maker's manual before the panel is opened, and enter it."),
    ),
    "airbag-procedure-missing": (
        _("An airbag is near {where}, and the vehicle maker's procedure is not entered."),
        _(
            "Do not open the panel. Enter the vehicle maker's procedure and waiting time on the "
            "car page first."
        ),
    ),
    "glass-unknown": (
        _("Nobody noted whether glass is behind {where} or beside it."),
        _("Look, in the vehicle maker's manual or behind the panel, and say so."),
    ),
    "drilling-unknown": (
        _("Nobody said whether something is drilled behind {where}."),
        _("Decide it before the panel is opened; where it is drilled, look at both sides first."),
    ),
    "drilled-panel": (
        _("{where} has holes that the workshop drilled."),
        _("Check that the edges are sealed against rust and the cables have grommets."),
    ),
    "not-placed": (
        _("Nobody has said where in {where} these are: {value}."),
        _("Say on the panels page behind which panel each piece is, or where else."),
    ),
    "placed-too-often": (
        _("{value} pieces of {where} are written down; {limit} are on the list."),
        _("Correct the list, or take out the row that says it twice."),
    ),
    "damping-unknown": (
        _("How much of {where} is needed cannot be worked out."),
        _(
            "Measure the metal and enter its area on the panels page; enter the area of one sheet "
            "in the catalogue."
        ),
    ),
    "damping-not-listed": (
        _("{where} is planned behind the panels and is not on the equipment list: {value} sheets."),
        _("Put it on the equipment list, so that it is ordered."),
    ),
    "damping-short": (
        _("{value} sheets of {where} are on the list; the panels take {limit}."),
        _("Order more, or cover less. What is cut away is not counted."),
    ),
    "ground-place-unknown": (
        _("Nobody has said where the ground point {where} is."),
        _("Enter the panel it is behind, or its place in words."),
    ),
    "panels-not-recorded": (
        _("Nothing is recorded behind these panels of {where}: {value}."),
        _("List what is behind each, or look and confirm by name that nothing is."),
    ),
    "panel-not-empty": (
        _("{where} was found empty by somebody, and something is listed behind it since."),
        _("Look again. Take back the word that it is empty, or correct the list."),
    ),
    # -- measured in the bay
    "measured-outside": (
        _("{where}: {value} was measured; {limit} was expected at the limit."),
        _("Measure again, look for the cause, or accept it with the reason."),
    ),
    "measured-far-outside": (
        _("{where}: {value} was measured; beyond {limit} it must not stay so."),
        _("Find the cause before the car is driven. Correct it and measure again."),
    ),
    # -- channel plan
    "channel-without-speaker": (
        _("Channel {where} leads to no speaker."),
        _("Choose a speaker on the channels page, or remove the channel."),
    ),
    "channel-without-amplifier": (
        _("Channel {where} has a speaker but no amplifier."),
        _("Choose an amplifier on the channels page."),
    ),
    "channel-without-output": (
        _("Channel {where} has an amplifier, but none of its channels is chosen."),
        _("Choose the amplifier channel on the channels page."),
    ),
    "amplifier-channel-beyond-last": (
        _("Channel {where} asks for amplifier channel {value}; the amplifier has {limit}."),
        _("Choose a channel the amplifier has, or another amplifier."),
    ),
    "amplifier-channel-claimed-twice": (
        _("Amplifier channel {value} of {where} is also used by another channel of the plan."),
        _("Give each channel its own. A bridged pair takes the next channel too."),
    ),
    "processor-output-beyond-last": (
        _("Channel {where} asks for processor output {value}; the processor has {limit}."),
        _("Choose an output the processor has, or another processor."),
    ),
    # -- runs
    "run-goes-nowhere": (
        _("Run {where} lacks its start or its end."),
        _("Enter both ends on the wiring page, or remove the run."),
    ),
    "run-cannot-be": (
        _("Run {where} cannot be worked out: {value}."),
        _("Correct the figure it names. Until then the run stands on no list with a length."),
    ),
    "zone-unknown": (
        _("It is not entered where run {where} lies; the heat of the engine bay is assumed."),
        _("Enter the hottest zone it passes."),
    ),
    "source-without-voltage": (
        _("The open-circuit voltage of {where} is not entered; the tree is not worked out."),
        _("Measure it at rest with everything switched off, and enter it at the source."),
    ),
    "programme-unknown": (
        _("Nobody noted what is usually played; loud and dense music is assumed."),
        _("Choose it in the brief."),
    ),
    "capacitance-unknown": (
        _("The capacitance of {where} is not entered; it is not counted."),
        _("Measure it, or read it off the part maker's sheet, and enter it."),
    ),
    "supply-cannot-be": (
        _("A part of the supply at {where} cannot be worked out: {value}."),
        _("Correct or add the figure it names."),
    ),
    "choice-cannot-be": (
        _("Nothing can be chosen for {where}: {value}."),
        _("Enter copper cable with its temperature class, and fuses, in the catalogue."),
    ),
    "tree-cannot-be": (
        _("The power tree of {where} cannot be worked out: {value}."),
        _("Correct or add the figure it names. Until then nothing in the tree is checked."),
    ),
    # -- what was asked for
    "room-above-wish": (
        _("The boxes take {value} of room; {limit} at most was asked for."),
        _("Build smaller, or ask whether that much may be given up."),
    ),
    "room-unknown": (
        _("How much room these take is not known, and a limit was asked for: {value}."),
        _("Enter the dimensions and the sheet material."),
    ),
    "height-above-wish": (
        _("{where} is {value} high; {limit} at most was asked for."),
        _("Build it lower, or ask whether it may be that high."),
    ),
    "mass-above-wish": (
        _("The car gets heavier by {value}; {limit} at most was asked for."),
        _("Take something out or choose something lighter, or ask whether it may be so heavy."),
    ),
    "mass-against-wish-unknown": (
        _("Nobody knows how heavy these are, and a limit was asked for: {value}."),
        _("Weigh them, or read them off their sheets, and enter it."),
    ),
    "current-above-wish": (
        _("While it plays it draws {value} on average; {limit} at most was asked for."),
        _("Choose less power or more efficient parts, or ask whether it may draw that much."),
    ),
    "current-against-wish-unknown": (
        _("What it draws is not known, and a limit was asked for."),
        _("Complete the power tree and the charging of the car."),
    ),
    "drilled-against-wish": (
        _("{where} is to be drilled; nothing drilled was asked for."),
        _("Find another way to fix or pass it, or ask whether this may be drilled."),
    ),
    "touched-against-wish": (
        _("{where}: {value}; the customer wants it left alone."),
        _("Plan without it, or ask whether it may be touched."),
    ),
    # -- the price
    "price-unknown": (
        _("Without a price, so not in the total: {value}."),
        _(
            "Enter the price in the catalogue, of an hour with the rates of the workshop; 0 where "
            "it is free."
        ),
    ),
    "work-without-minutes": (
        _("Nobody said how long these take, so they are not in the total: {value}."),
        _("Enter the minutes of the step, or the usual minutes with the rates of the workshop."),
    ),
    "tax-rate-unknown": (
        _("No tax rate holds on {limit} for: {value}. The total is without that tax."),
        _("Enter the rate and the day it begins with the rates of the workshop."),
    ),
    "cable-not-priced": (
        _("Without a cable or a length, so not in the total: {value}."),
        _("Choose the cable and enter the length on the wiring page."),
    ),
    "wood-not-priced": (
        _("Not laid out on a sheet, so not in the total: {value}."),
        _("Enter the dimensions and the sheet material, and the size of its sheet."),
    ),
    "above-budget": (
        _("The total of {value} is more than the budget of {limit}."),
        _("Take something out, or talk about it before the work begins."),
    ),
}
