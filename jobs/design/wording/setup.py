"""What findings about the plan of channels and their set-up say, and what cures them."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

SETUP: dict[str, tuple[Promise, Promise]] = {
    # -- the plan against its parts
    "speakers-fed-twice": (
        _("{where}: channels feed {value} of them; {limit} are on the equipment list."),
        _("Correct how many are on each channel, or the quantity on the list."),
    ),
    "speakers-not-fed": (
        _("{where}: channels feed {value} of them; {limit} are on the equipment list."),
        _("Give each its channel, or correct the quantity on the list."),
    ),
    "processor-output-shared": (
        _("{where}: processor output {value} also feeds another channel, with other settings."),
        _("Give each channel its own output, or set both alike."),
    ),
    "high-pass-above-low-pass": (
        _("{where}: the high-pass at {value} lies above the low-pass at {limit}: nothing is left."),
        _("Correct one of the two corners."),
    ),
    "filter-beyond-processor": (
        _("{where}: a filter at {value} cannot be dialled in; the processor ends at {limit}."),
        _("Leave the filter away, or correct its corner or the processor's sample rate."),
    ),
    "no-high-pass": (
        _(
            "{where} has no high-pass, and its driver resonates at {value}: bass destroys it. "
            "Usual is {limit} or above."
        ),
        _("Enter a high-pass. The part maker's figure comes first."),
    ),
    "high-pass-near-resonance": (
        _(
            "{where}: the high-pass at {value} is near the driver's resonance; usual is {limit} or "
            "above."
        ),
        _("Raise it, take a steeper one, or follow the part maker's figure."),
    ),
    "lowest-it-bears-unknown": (
        _("{where} has no high-pass, and nobody entered where its driver resonates."),
        _("Enter fs from the part maker's sheet. A tweeter without a high-pass is destroyed."),
    ),
    "low-pass-where-cone-beams": (
        _("{where}: up to {value} the cone plays; from {limit} it is heard less from the side."),
        _("Lower the low-pass, or aim the driver at the listener."),
    ),
    "moves-beyond-xmax": (
        _(
            "{where}: without a box the cone would move {value} at the amplifier's full voltage, "
            "filters as set; its maker allows {limit}."
        ),
        _("Raise the high-pass or make it steeper, or set less gain."),
    ),
    "factory-speaker-is-out": (
        _("{where} leads to a factory speaker of which was decided: {value}."),
        _("Choose another speaker for the channel, or correct its fate on the car page."),
    ),
    # -- what a set-up starts from
    "distances-unknown": (
        _("{where}: no distance to the listener, and so no delay to start from: {value}."),
        _("Measure with a tape from each cone to the listener's head."),
    ),
    "sensitivities-unknown": (
        _("{where}: no level to start from, since nobody knows how loud these play: {value}."),
        _("Enter the level at 2.83 V from the part maker's sheet, and the amplifier's power."),
    ),
    "sample-rates-unknown": (
        _("{where}: no samples and no coefficients, the processor's rate is not entered: {value}."),
        _("Read the sample rate off the processor's sheet and enter it in the catalogue."),
    ),
    "gain-above-start": (
        _("{where}: the gain tone was measured as {value}; amplifier and coil ask for {limit}."),
        _("Turn the gain down, or accept it with the reason: the coil may be overheated."),
    ),
    "gain-below-start": (
        _("{where}: the gain tone was measured as {value}; {limit} uses the whole amplifier."),
        _("Turn the gain up, or leave it: less is on the safe side."),
    ),
    # -- what was measured in the seat
    "quieter-than-before": (
        _(
            "{where}: over an octave or more it is {value} quieter than on the visit before; a "
            "seat or a window changes less than {limit}."
        ),
        _("Listen to it alone: a driver may have died, or a connection come off. Measure again."),
    ),
    "polarity-turned-since": (
        _("{where}: its polarity against the mark is the other one than on {value}."),
        _("Somebody turned it, or the speaker with the mark: look, then set it as it should be."),
    ),
    "heard-outside-its-band": (
        _("{where}: it is loudest at {value}, an octave or more beyond its filter at {limit}."),
        _(
            "Look which speaker played: another channel may be connected, or left and right of the "
            "sweep exchanged, so that the speaker with the mark was measured. Then measure again."
        ),
    ),
    "polarity-makes-hole": (
        _("{where}: connected as planned, their sum falls to {value} where they meet."),
        _("Turn the polarity of one of the two, and listen to both before the car goes."),
    ),
}
